"""Results: named tuples that know their units, their inputs and their cautions."""

from __future__ import annotations

import typing
from collections.abc import Iterable
from typing import Any, ClassVar, Dict, List, Optional, Tuple, Type, TypeVar

from . import _contracts, _core, _text

R = TypeVar("R", bound="Result")


class Caution(typing.NamedTuple):
    """What is doubtful about a valid result.

    ``severity`` is "stop" (do not do it), "warn" (somebody has to look) or "note" (good to know); ``value`` is that of
    ``field``, and ``limit`` what it passed: it is ``comparison`` ("below", "above", "equal", "always") the limit.
    """

    severity: str
    code: str
    text: str
    field: str
    value: float
    limit: float
    unit: str
    comparison: str
    calculation: str


class ArrayCaution(typing.NamedTuple):
    """A caution that holds for some elements of an array result: how many (``count``), and which (``mask``)."""

    severity: str
    code: str
    text: str
    field: str
    unit: str
    count: int  # type: ignore[assignment]
    mask: Any
    calculation: str


def same(a: Any, b: Any) -> bool:
    """Equal numbers, or arrays of the same shape and content (where NaN equals NaN)."""
    if a is None or b is None:
        return a is b
    numbers = isinstance(a, (int, float)), isinstance(b, (int, float))
    if any(numbers):
        return all(numbers) and bool(a == b)
    if isinstance(a, Record):
        return bool(a == b)
    if hasattr(a, "__array__") and hasattr(b, "__array__"):
        import numpy

        return bool(numpy.array_equal(a, b, equal_nan=True))
    return len(a) == len(b) and all(x == y or (x != x and y != y) for x, y in zip(a, b))


class Record(Tuple[Any, ...]):
    """A named tuple whose fields end in their units; immutable, and equal only to one of its own kind."""

    __slots__ = ()
    _fields: ClassVar[Any]  # of str; from namedtuple

    def asdict(self) -> Dict[str, Any]:
        """Field names and values, as for ``**``."""
        return dict(zip(self._fields, self))

    def _html_rows(self) -> List[List[str]]:
        return [[name, _text.value(item, _core.field_unit(name))] for name, item in zip(self._fields, self)]

    def __repr__(self) -> str:
        return _text.aligned(type(self).__name__, [f"{name}={text}" for name, text in Record._html_rows(self)])

    def _repr_html_(self) -> str:
        return _text.html_table(["field", "value"], self._html_rows(), type(self).__name__)

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and all(map(same, self, other))  # type: ignore[call-overload]

    def __ne__(self, other: object) -> bool:
        return not self == other

    def __hash__(self) -> int:
        return hash((type(self).__name__, *self))

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__} cannot be changed; _replace() or again() makes another")


class Inputs(Record):
    """The inputs of a calculation, also those that were not given."""

    __slots__ = ()


class Result(Record):
    """What a calculation gives.  The generated classes say which one, and name its fields."""

    _calculation: ClassVar[str]
    _index: ClassVar[int]
    _inputs_kind: ClassVar[Any]
    _arrays_kind: ClassVar[Any]
    _function: ClassVar[Any]
    _lists: ClassVar[Tuple[Tuple[str, Any, bool], ...]]  # name, class of its rows, whether it is a result
    _filled: ClassVar[Tuple[Any, ...]]  # classes of those that are
    _given: ClassVar[Tuple[Tuple[int, Any], ...]]  # place among the inputs, and class, of the others

    @classmethod
    def _remembering(cls: Type[R], values: Iterable[Any], inputs: Tuple[Any, ...], **more: Any) -> R:
        result = tuple.__new__(cls, values)
        result.__dict__.update(_inputs=inputs, **more)
        return result

    def _remembered(self) -> Tuple[Any, ...]:
        try:
            inputs: Tuple[Any, ...] = self.__dict__["_inputs"]
        except KeyError:
            raise AttributeError(f"this {type(self).__name__} was made by hand: its inputs are not known") from None
        return inputs

    @property
    def inputs(self) -> Any:
        """All inputs, also those that were not given, as a named tuple.

        Arrays and lists are remembered, not copied: change one in place, and it changes here.
        """
        items = list(self._remembered())
        for place, rows in self._given:
            items[place] = rows._of(items[place])
        return self._inputs_kind._make(items)

    def again(self, **changes: Any) -> Any:
        """The same calculation with some inputs changed."""
        return type(self)._function(**{**self.inputs.asdict(), **changes})

    @property
    def cautions(self) -> List[Any]:
        """What is doubtful about this result, the most severe first; empty when nothing is."""
        count = _core.input_count(_core.calculation_at(self._index))
        outputs = tuple(item for item in self if isinstance(item, float))
        found = _core.cautions(self._index, self._remembered()[:count], outputs)
        return [Caution(*each, self._calculation) for each in found]

    @property
    def standing(self) -> Tuple[str, ...]:
        """Cautions that hold whatever the numbers are."""
        return _contracts.contract(self._calculation).standing

    @property
    def refused(self) -> int:
        """How many elements were refused, which is not 0 only after ``invalid="nan"``."""
        return int(any(item != item for item in self if isinstance(item, float)))

    def _html_rows(self) -> List[List[str]]:
        contract = _contracts.contract(self._calculation)
        meanings = {f.name: f.meaning for f in contract.outputs}
        meanings.update((rows.name, rows.meaning) for rows in contract.lists)
        return [[*row, meanings.get(row[0], "")] for row in super()._html_rows()]

    def _repr_html_(self) -> str:
        table = _text.html_table(["result", "value", "meaning"], self._html_rows(), type(self).__name__)
        if "_inputs" not in self.__dict__:
            return table
        many = isinstance(self, ArrayResult)
        rows = [[c.severity, c.text, f"{c.count} of them" if many else ""] for c in self.cautions]
        return table + (_text.html_table(["caution", "", ""], rows) if rows else "")


class ArrayResult(Result):
    """The same with an array in each field."""

    __hash__ = None  # type: ignore[assignment]

    def again(self, **changes: Any) -> Any:
        """The same calculation with some inputs changed, and refusals treated as before unless ``invalid`` is given."""
        return super().again(**{"invalid": self.__dict__.get("_invalid", "raise"), **changes})

    @property
    def refused(self) -> int:
        """How many elements were refused, which is not 0 only after ``invalid="nan"``."""
        return int(self.__dict__.get("_refused", 0))

    @property
    def cautions(self) -> List[ArrayCaution]:
        """Each caution that holds anywhere, with its count and a mask, the most severe first.

        Inputs are remembered, not copied: change an array in place, and this no longer belongs to the result.
        """
        from ._arrays import caution_masks

        order = {"stop": 0, "warn": 1, "note": 2}
        rules = _contracts.contract(self._calculation).cautions
        found = []
        for rule, (count, mask) in zip(rules, caution_masks(self._index, self.inputs, self)):
            field = rule.field or ""
            if count:
                unit = _core.field_unit(field)
                found.append(ArrayCaution(*rule[:2], rule.text, field, unit, count, mask, self._calculation))
        return sorted(found, key=lambda caution: order[caution.severity])


def bind(function: Any, kind: Any, inputs_kind: Any, arrays_kind: Any, outputs: int, *lists: Any) -> None:
    """Ties a result's classes to their calculation in the library, which has to have the same fields.

    lists: for each its name, the class of its rows, and whether it is a result.
    """
    name = function.__name__
    names = inputs_kind._fields[: _core.input_count(_core.calculation_find(name))]
    index = _core.lookup(name, names, kind._fields[:outputs], tuple((each, rows._fields) for each, rows, _ in lists))
    for each in (kind, arrays_kind):
        if each is not None:
            each._calculation, each._index, each._function = name, index, staticmethod(function)
            each._inputs_kind, each._arrays_kind = inputs_kind, arrays_kind
            each._lists, each._filled = lists, tuple(rows for _, rows, is_result in lists if is_result)
            each._given = tuple((inputs_kind._fields.index(n), rows) for n, rows, is_result in lists if not is_result)


def lift(result: Result, code: str, field: str) -> Optional[float]:
    """The nearest value of one input at which a caution of a result no longer holds.

    At that value the call is accepted and no "stop" stands that does not stand now; the other inputs stay as they are.
    None where no accepted value of this input does it.

    >>> ungula.lift(tape, "thin", "passes_count")  # doctest: +SKIP
    """
    if isinstance(result, ArrayResult):
        raise TypeError("lift takes a result of numbers, not of arrays")
    count = _core.input_count(_core.calculation_at(result._index))  # without lists, which the library does not search
    names = result._inputs_kind._fields[:count]
    if field not in names:
        raise ValueError(f"{result._calculation} has no input {field!r}; it has {', '.join(names)}")
    return _core.caution_lift(result._index, result._remembered()[:count], code, names.index(field))
