"""Calculations with lists: rows that the caller gives, or whose number the caller asks for."""

from __future__ import annotations

from array import array
from typing import Any, Tuple

from . import _contracts, _core
from ._arrays import number, numpy
from ._results import Record


class Columns(Record):
    """The rows of a list, a column for each field."""

    __slots__ = ()
    __hash__ = None  # type: ignore[assignment]


def _given(rows: Any, contract: _contracts.Rows) -> Any:
    """Rows as doubles, row after row: from columns of another result, an array, or a sequence of rows."""
    width = len(contract.fields)
    if isinstance(rows, Columns):
        rows = zip(*rows)
    np = numpy() if hasattr(rows, "__array__") else None
    if np is not None:
        table = np.asarray(rows)
        if table.ndim != 2 or table.shape[1] != width or table.dtype.kind not in "fiub":
            what = f"{table.dtype} of shape {table.shape}"
            raise TypeError(f"{contract.name} must be rows of {width} numbers, not {what}")
        return np.ascontiguousarray(table, np.float64).reshape(-1)
    flat = array("d")
    for row in rows:
        if len(row) != width:
            raise TypeError(f"{contract.name} must be rows of {width} numbers, not of {len(row)}")
        flat.extend(row)
    return flat


def _columns(memory: bytearray, contract: _contracts.Rows, kind: Any) -> Any:
    width = len(contract.fields)
    np = numpy()
    if np is not None:
        return kind._make(np.frombuffer(memory).reshape(-1, width).T)
    view = memoryview(memory).cast("d")
    return kind._make(array("d", view[i::width]) for i in range(width))


def calculate(kind: Any, inputs: Tuple[Any, ...], given: Tuple[Any, ...], columns: Tuple[Any, ...]) -> Any:
    """One calculation with lists.  given: rows, a count, or None, one a list; columns: the classes of those filled."""
    contract = _contracts.contract(kind._calculation)
    numbers = []
    for item, field in zip(inputs, contract.inputs):
        value = number(item, field.name)
        if value is None:
            raise TypeError(f"{field.name} must be a number: {contract.name} does not take arrays")
        numbers.append(value)
    lists = tuple(g if r.is_result else _given(g, r) for g, r in zip(given, contract.lists))
    values, filled = _core.call_lists(kind._index, tuple(numbers), lists)
    results = [r for r in contract.lists if r.is_result]
    rows = [_columns(memory, r, k) for memory, r, k in zip(filled, results, columns)]
    asked = tuple(g for g in given if g is not None)
    return kind._remembering((*values, *rows), (*numbers, *asked))
