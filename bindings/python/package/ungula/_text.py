"""How values look in ``repr`` and in notebooks: 12 significant digits, and units."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any, Tuple


def number(value: float) -> str:
    """Up to 12 significant digits."""
    return f"{value:.12g}"


def measure(value: float, unit: str) -> str:
    """A number with its unit, if it has one."""
    return f"{value:.12g} {unit}" if unit else f"{value:.12g}"


def _shape_and_values(value: Any) -> Tuple[Tuple[int, ...], Sequence[float]]:
    """Shape, and all values in one sequence, of anything that is accepted as an array."""
    if not hasattr(value, "__array__"):
        values = [float(item) for item in value]
        return (len(values),), values
    import numpy

    array = numpy.asarray(value)
    if array.size > 6 and array.dtype.kind == "f" and array.size:  # only the ends are shown
        return array.shape, (float(numpy.fmin.reduce(array, axis=None)), float(numpy.fmax.reduce(array, axis=None)))
    return array.shape, [float(item) for item in array.reshape(-1)]


def value(item: Any, unit: str) -> str:
    """One field of a result: a number, an array in short, or a list of rows."""
    if isinstance(item, (int, float)):
        return measure(item, unit)
    if isinstance(item, tuple) and hasattr(item, "_fields"):
        return f"{len(item[0])} rows of {', '.join(item._fields)}"
    try:
        shape, values = _shape_and_values(item)
    except (TypeError, ValueError):
        return repr(item)
    count = math.prod(shape)
    if len(shape) == 1 and count <= 6:
        text = "[" + ", ".join(number(v) for v in values) + "]"
        return f"{text} {unit}" if unit else text
    known = [v for v in values if v == v]
    ends = f", {number(min(known))} to {measure(max(known), unit)}" if known else ""
    return " x ".join(str(n) for n in shape) + " values" + ends


def aligned(name: str, lines: Iterable[str]) -> str:
    """``Name(first,`` and the others below it."""
    return f"{name}(" + (",\n" + " " * (len(name) + 1)).join(lines) + ")"


def html_table(head: Sequence[str], rows: Iterable[Sequence[str]], caption: str = "") -> str:
    """A table for notebooks."""
    from html import escape

    def line(cells: Iterable[str], tag: str) -> str:
        inner = "".join(f'<{tag} style="text-align: left">{escape(cell)}</{tag}>' for cell in cells)
        return f"<tr>{inner}</tr>"

    title = f'<caption style="text-align: left">{escape(caption)}</caption>' if caption else ""
    body = "".join(line(row, "td") for row in rows)
    return f"<table>{title}<thead>{line(head, 'th')}</thead><tbody>{body}</tbody></table>"
