"""What the library says about its calculations."""

from __future__ import annotations

import math
import typing
from collections.abc import Callable
from typing import Any, List, Optional, Tuple, TypeVar, Union, overload

from . import _core, _text

T = TypeVar("T")

_COMPARISONS = {_core.BELOW: "below", _core.ABOVE: "above", _core.EQUAL: "equal", _core.ALWAYS: "always"}


class Input(typing.NamedTuple):
    """An input, or a field of a list's rows.  ``standard`` is None where a value has to be given."""

    name: str
    unit: str
    lower: float
    upper: float
    usual_lower: float
    usual_upper: float
    standard: Optional[float]
    standard_kind: str
    whole: bool
    meaning: str


class Output(typing.NamedTuple):
    """A result."""

    name: str
    unit: str
    may_be_infinite: bool
    meaning: str


class Rows(typing.NamedTuple):
    """A list that travels with a calculation.  ``row`` is the C type of its rows; ``same_count_as`` names the list that
    it is as long as, if any."""

    name: str
    meaning: str
    row: str
    is_result: bool
    same_count_as: Optional[str]
    least: int
    most: int
    fields: Tuple[Input, ...]


class Rule(typing.NamedTuple):
    """A caution and when it holds: factor x field + other_factor x other, compared with a limit, where the guard
    (another field compared with another limit) holds too."""

    severity: str
    code: str
    field: Optional[str]
    factor: float
    other: Optional[str]
    other_factor: float
    comparison: str
    limit: float
    guard: Optional[str]
    guard_comparison: str
    guard_limit: float
    text: str

    @property
    def condition(self) -> str:
        """The condition in words."""

        def term(factor: float, field: str) -> str:
            return field if factor == 1 else f"{_text.number(factor)} {field}"

        if self.comparison == "always" or self.field is None:
            return "always"
        left = term(self.factor, self.field)
        if self.other is not None:
            sign = " - " if self.other_factor < 0 else " + "
            left += sign + term(abs(self.other_factor), self.other)
        text = f"{left} {self.comparison} {_text.number(self.limit)}"
        if self.guard is not None:
            text += f", where {self.guard} {self.guard_comparison} {_text.number(self.guard_limit)}"
        return text


class Source(typing.NamedTuple):
    """Where something comes from.  ``kind``: published, practice, choice or memory."""

    kind: str
    citation: str
    gives: str


class Contract(typing.NamedTuple):
    """Everything the library knows about one calculation."""

    name: str
    room: str
    title: str
    about: str
    accuracy: str
    inputs: Tuple[Input, ...]
    outputs: Tuple[Output, ...]
    lists: Tuple[Rows, ...]
    refusals: Tuple[str, ...]
    cautions: Tuple[Rule, ...]
    standing: Tuple[str, ...]
    sources: Tuple[Source, ...]

    def _tables(self) -> List[Tuple[str, List[str], List[List[str]]]]:
        """Caption, head and rows of each part that is not empty."""

        def accepted(f: Input) -> str:
            return f"{_text.number(f.lower)} to {_text.measure(f.upper, f.unit)}" + (", whole" if f.whole else "")

        inputs = [
            [
                f.name,
                accepted(f),
                f"{_text.number(f.usual_lower)} to {_text.number(f.usual_upper)}",
                "required" if f.standard is None else f"{_text.number(f.standard)} ({f.standard_kind})",
                f.meaning,
            ]
            for f in self.inputs
        ]
        parts = [
            ("Inputs", ["name", "accepted", "usual", "standard", "meaning"], inputs),
            ("Results", ["name", "unit", "meaning"], [[f.name, f.unit, f.meaning] for f in self.outputs]),
            (
                "Lists",
                ["name", "direction", "rows", "fields", "meaning"],
                [
                    [
                        r.name,
                        "result" if r.is_result else "given",
                        f"as many as {r.same_count_as}" if r.same_count_as else f"{r.least} to {r.most}",
                        ", ".join(f.name for f in r.fields),
                        r.meaning,
                    ]
                    for r in self.lists
                ],
            ),
            ("Refused", ["why"], [[text] for text in self.refusals]),
            (
                "Cautions",
                ["severity", "code", "when", "text"],
                [[r.severity, r.code, r.condition, r.text] for r in self.cautions],
            ),
            ("Standing cautions", ["text"], [[text] for text in self.standing]),
            ("Sources", ["kind", "citation", "gives"], [list(source) for source in self.sources]),
        ]
        return [part for part in parts if part[2]]

    def __repr__(self) -> str:
        lines = [f"{self.name}: {self.title}"]
        for caption, head, rows in self._tables():
            widths = [max(len(row[i]) for row in [head, *rows]) for i in range(len(head))]
            lines += ["", caption]
            lines += ["  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip() for row in rows]
        return "\n".join(lines)

    def _repr_html_(self) -> str:
        from html import escape

        tables = "".join(_text.html_table(head, rows, caption) for caption, head, rows in self._tables())
        return f"<p><b>{escape(self.name)}</b>: {escape(self.title)}</p><pre>{escape(self.about)}</pre>{tables}"


def _all(count: int, item: Callable[[int], T]) -> Tuple[T, ...]:
    return tuple(item(index) for index in range(count))


def _input(handle: Any) -> Input:
    name = _core.field_name_get(handle)
    standard = _core.field_standard_get(handle)
    return Input(
        name,
        _core.field_unit(name),
        _core.field_lower_get(handle),
        _core.field_upper_get(handle),
        _core.field_usual_lower_get(handle),
        _core.field_usual_upper_get(handle),
        None if math.isnan(standard) else standard,
        _core.kind_text(_core.field_standard_kind_get(handle)),
        bool(_core.field_whole_get(handle)),
        _core.field_meaning_get(handle),
    )


def _output(handle: Any) -> Output:
    name = _core.field_name_get(handle)
    infinite = bool(_core.field_may_be_infinite_get(handle))
    return Output(name, _core.field_unit(name), infinite, _core.field_meaning_get(handle))


def _rows(calculation: Any, handle: Any) -> Rows:
    other = _core.list_same_count_as_get(handle)
    return Rows(
        _core.list_name_get(handle),
        _core.list_meaning_get(handle),
        _core.list_row_get(handle),
        bool(_core.list_is_result_get(handle)),
        _core.list_name_get(_core.list_at(calculation, other)) if other >= 0 else None,
        _core.list_least_get(handle),
        _core.list_most_get(handle),
        _all(_core.list_field_count_get(handle), lambda i: _input(_core.list_field(handle, i))),
    )


def _rule(names: Tuple[str, ...], handle: Any) -> Rule:
    def name(index: int) -> Optional[str]:
        return names[index] if index >= 0 else None

    return Rule(
        _core.severity_text(_core.rule_severity_get(handle)),
        _core.rule_code_get(handle),
        name(_core.rule_field_get(handle)),
        _core.rule_factor_get(handle),
        name(_core.rule_other_get(handle)),
        _core.rule_other_factor_get(handle),
        _COMPARISONS[_core.rule_comparison_get(handle)],
        _core.rule_limit_get(handle),
        name(_core.rule_guard_get(handle)),
        _COMPARISONS[_core.rule_guard_comparison_get(handle)],
        _core.rule_guard_limit_get(handle),
        _core.rule_text_get(handle),
    )


def _source(handle: Any) -> Source:
    kind = _core.kind_text(_core.source_kind_get(handle))
    return Source(kind, _core.source_citation_get(handle), _core.source_gives_get(handle))


_known: dict[str, Contract] = {}


def contract(name: str) -> Contract:
    """The contract of one calculation, read from the library once."""
    if name in _known:
        return _known[name]
    c = _core.calculation_find(name)
    if c is None:
        raise KeyError(f"no calculation is called {name!r}; there are {', '.join(names())}")
    inputs = _all(_core.input_count(c), lambda i: _input(_core.input_at(c, i)))
    outputs = _all(_core.output_count(c), lambda i: _output(_core.output_at(c, i)))
    fields = tuple(f.name for f in inputs) + tuple(f.name for f in outputs)
    _known[name] = Contract(
        name,
        _core.calculation_room(c),
        _core.calculation_title(c),
        _core.calculation_about(c),
        _core.calculation_accuracy(c),
        inputs,
        outputs,
        _all(_core.list_count(c), lambda i: _rows(c, _core.list_at(c, i))),
        _all(_core.refusal_count(c), lambda i: _core.refusal(c, i)),
        _all(_core.rule_count(c), lambda i: _rule(fields, _core.rule_at(c, i))),
        _all(_core.standing_count(c), lambda i: _core.standing(c, i)),
        _all(_core.source_count(c), lambda i: _source(_core.source_at(c, i))),
    )
    return _known[name]


def names() -> List[str]:
    """Names of all calculations, in the order of the work."""
    return [_core.calculation_name(_core.calculation_at(i)) for i in range(_core.calculation_count())]


@overload
def describe(calculation: None = None) -> List[str]: ...
@overload
def describe(calculation: Union[str, Callable[..., Any]]) -> Contract: ...
def describe(calculation: Union[str, Callable[..., Any], None] = None) -> Union[List[str], Contract]:
    """Names of all calculations; or, given one (its name or its function), its contract: inputs with units and ranges,
    results, refusals, cautions, sources."""
    if calculation is None:
        return names()
    return contract(calculation if isinstance(calculation, str) else calculation.__name__)


def version() -> str:
    """Version of the C library that computes."""
    return _core.version()
