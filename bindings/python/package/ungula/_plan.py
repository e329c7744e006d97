"""The plan: the whole job from one set of measurements.  What is decided is decided by the library."""

from __future__ import annotations

import math
import typing
from array import array
from typing import Any, ClassVar, Dict, List, Optional, Tuple, Type, TypeVar, Union

from . import _arrays, _contracts, _core, _text
from ._results import Inputs, Result

P = TypeVar("P", bound="Plan")

_languages: List[str] = []


class Step(typing.NamedTuple):
    """A step of a plan.

    ``state`` is "done", "left out" (by a switch), "lacks a value" (``lacks``: a measurement that is missing, or what a
    step that did not run would have found) or "refused" by its calculation; ``why`` is the sentence about it.
    ``inputs`` is what its calculation was given, NaN where it is not known, and ``result`` None unless it is done.
    """

    name: str
    calculation: str
    state: str
    result: Optional[Result]
    why: str
    lacks: Optional[str]
    inputs: Inputs


class PlanCaution(typing.NamedTuple):
    """A caution about the result of a step; but for ``step`` the same as ``Caution``."""

    step: str
    severity: str
    code: str
    text: str
    field: str
    value: float
    limit: float
    unit: str
    comparison: str
    calculation: str


class PlanItem(typing.NamedTuple):
    """Something to bring ("bring"), to do ("do") or to do in the weeks after ("later").

    ``code`` is for programs, ``text()`` for people. ``quantity`` (None where there is none) is ``field`` of ``step``;
    ``caution`` is the code of that step's most severe caution above a note, or None.
    """

    kind: str
    code: str
    quantity: Optional[float]
    unit: str
    step: str
    field: Optional[str]
    caution: Optional[str]

    def text(self, language: str = "en") -> str:
        """The item in words, quantities to four digits and never to the wrong side of a limit."""
        quantity = math.nan if self.quantity is None else self.quantity
        words: Optional[str] = _core.plan_words(self.code, quantity, self.unit, language)
        if words is None:
            raise ValueError(f"no words for {self.code!r} in {language!r}; languages are {', '.join(_languages)}")
        return words


class PlanInput(typing.NamedTuple):
    """An input of ``job_plan``; see ``Input``.

    ``calculation`` is the one whose contract it is of, "" for the plan's own, and ``original`` its name there;
    ``found``: another step finds it unless it is given; ``chosen``: it can be chosen for the job, and is no measure of
    the horse, a product or the day.
    """

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
    calculation: str
    original: str
    found: bool
    chosen: bool


def plan_inputs() -> Tuple[PlanInput, ...]:
    """What ``job_plan`` asks for, in its order."""
    return tuple(PlanInput(*each) for each in _core.plan_inputs())


class Plan:
    """A plan: the result of each step under the step's name, and what follows from all of them together.

    The named tuple of a step's calculation is ``plan.belt`` and so on, None where the step did not run; ``steps`` tells
    why.  A plan cannot be changed; ``again`` makes another.
    """

    __slots__ = ("_inputs", "_steps", "_items", "_cautions")
    _inputs: Any
    _steps: Tuple[Step, ...]
    _items: Tuple[PlanItem, ...]
    _cautions: Tuple[PlanCaution, ...]
    _inputs_kind: ClassVar[Any]
    _kinds: ClassVar[Tuple[Tuple[str, Any], ...]]  # name of each step, and class of its result
    _standard: ClassVar[Dict[str, Optional[float]]]

    @classmethod
    def _of(cls: Type[P], values: Tuple[Any, ...]) -> P:
        given = cls._inputs_kind._make(map(_given, values, cls._standard.items()))
        answers, tasks, times, items, cautions = _core.plan(tuple([math.nan if v is None else v for v in given]))
        steps = tuple(
            _step(name, kind, answer, (tasks, times)) for (name, kind), answer in zip(cls._kinds, answers)
        )
        plan = object.__new__(cls)
        for slot, value in (
            ("_inputs", given),
            ("_steps", steps),
            ("_items", tuple(PlanItem(*each) for each in items)),
            ("_cautions", tuple(PlanCaution(name, *caution, of) for name, caution, of in cautions)),
        ):
            object.__setattr__(plan, slot, value)
        return plan

    @property
    def inputs(self) -> Any:
        """All inputs, also those that were not given (None where there is no standard value)."""
        return self._inputs

    @property
    def steps(self) -> Tuple[Step, ...]:
        """All steps in their order, those that did not run with the reason."""
        return self._steps

    @property
    def cautions(self) -> Tuple[PlanCaution, ...]:
        """What is doubtful about this plan, the most severe first."""
        return self._cautions

    @property
    def severity(self) -> str:
        """That of the most severe caution: "stop", "warn", "note", or "" where there is none."""
        return self._cautions[0].severity if self._cautions else ""

    @property
    def bring(self) -> Tuple[PlanItem, ...]:
        """What to bring."""
        return self._of_kind("bring")

    @property
    def todo(self) -> Tuple[PlanItem, ...]:
        """What to do, in the order of the work."""
        return self._of_kind("do")

    @property
    def later(self) -> Tuple[PlanItem, ...]:
        """What to do in the weeks after."""
        return self._of_kind("later")

    def _of_kind(self, kind: str) -> Tuple[PlanItem, ...]:
        return tuple(item for item in self._items if item.kind == kind)

    def state(self, name: str) -> str:
        """State of the step of this name."""
        self._named(name)
        return next(each.state for each in self._steps if each.name == name)

    def again(self: P, **changes: Any) -> P:
        """The same plan with some inputs changed; None takes back what was given."""
        unknown = [name for name in changes if name not in self._standard]
        if unknown:
            raise TypeError(f"job_plan has no input {', '.join(unknown)}")
        return self._of(tuple(self._inputs._replace(**changes)))

    def lift(self, caution: Union[PlanCaution, Tuple[str, str]], name: str) -> Optional[float]:
        """The nearest value of an input with which the whole plan is rid of a caution, without a stop that it did not
        have; None if no value of that input does it.

        ``caution`` is one of ``cautions``, or its step and code.
        """
        step, code = (caution.step, caution.code) if isinstance(caution, PlanCaution) else caution
        if name not in self._standard:
            raise TypeError(f"job_plan has no input {name}")
        number = [each for each, _ in self._kinds].index(self._named(step))
        values = tuple([math.nan if v is None else v for v in self._inputs])
        lifted: Optional[float] = _core.plan_lift(values, number, code, list(self._standard).index(name))
        return lifted

    def changes(self, caution: Union[PlanCaution, Tuple[str, str]]) -> Tuple[Tuple[str, float], ...]:
        """What can be chosen for the job, was given, and alone lifts a caution: each with its nearest value."""
        given = [(each.name, getattr(self._inputs, each.name)) for each in plan_inputs() if each.chosen]
        lifted = ((name, now, self.lift(caution, name)) for name, now in given if now is not None)
        return tuple((name, value) for name, now, value in lifted if value is not None and value != now)

    def _named(self, name: str) -> str:
        if not any(name == each for each, _ in self._kinds):
            raise KeyError(f"no step is called {name!r}; there are {', '.join(each for each, _ in self._kinds)}")
        return name

    def asdict(self) -> Dict[str, Any]:
        """The plan as dicts, lists, texts and numbers, of the same form as ``json()``."""
        return {
            "version": _core.version(),
            "severity": self.severity,
            "units": self._units(),
            "inputs": _plain(self._inputs),
            "steps": {
                each.name: {
                    "calculation": each.calculation,
                    "state": each.state,
                    "why": each.why,
                    "lacks": each.lacks,
                    "inputs": _plain(each.inputs),
                    "results": None if each.result is None else _plain(each.result),
                }
                for each in self._steps
            },
            "items": [_plain(item) for item in self._items],
            "cautions": [_plain(caution) for caution in self._cautions],
        }

    def _units(self) -> Dict[str, str]:
        """Unit of every name, in the order in which the document has them."""
        names = list(self._inputs._fields)
        for _, kind in self._kinds:
            contract = _contracts.contract(kind._calculation)
            names += [field.name for field in contract.inputs]
            names += [field.name for field in contract.outputs]
            names += [field.name for rows in contract.lists for field in rows.fields]
        return {name: _core.field_unit(name) for name in names}

    def json(self, *, language: Optional[str] = None, indent: Optional[int] = None) -> str:
        """The plan for other programs, as ``plan_schema()`` describes it; with items in words if a language is given.

        What is not known is null, and what is infinite the text "infinite".
        """
        import json

        document = self.asdict()
        if language is not None:
            for entry, item in zip(document["items"], self._items):
                entry["text"] = item.text(language)
        return json.dumps(document, ensure_ascii=False, allow_nan=False, indent=indent)

    def _tables(self) -> List[Tuple[str, List[str], List[List[str]]]]:
        """Caption, head and rows of each part that is not empty."""
        parts = [("Cautions", ["severity", "step", "text"], [[c.severity, c.step, c.text] for c in self._cautions])]
        for caption, items in (("Bring", self.bring), ("Do", self.todo), ("Later", self.later)):
            parts.append((caption, ["what", "see"], [[i.text(), f"{i.step} {i.caution or ''}".strip()] for i in items]))
        steps = [[s.name, s.calculation, s.state, s.why] for s in self._steps]
        return [part for part in [*parts, ("Steps", ["step", "calculation", "state", "why"], steps)] if part[2]]

    def _title(self) -> str:
        done = sum(each.state == "done" for each in self._steps)
        return f"{done} of {len(self._steps)} steps done" + (f", severity {self.severity}" if self.severity else "")

    def __repr__(self) -> str:
        lines = [f"{type(self).__name__}: {self._title()}"]
        for caption, head, rows in self._tables():
            widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
            lines += ["", caption]
            lines += ["  " + "  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip() for row in rows]
        return "\n".join(lines)

    def _repr_html_(self) -> str:
        from html import escape

        tables = "".join(_text.html_table(head, rows, caption) for caption, head, rows in self._tables())
        return f"<p><b>{escape(type(self).__name__)}</b>: {escape(self._title())}</p>{tables}"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Plan) and type(self) is type(other) and bool(self._inputs == other._inputs)

    def __hash__(self) -> int:
        return hash(self._inputs)

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError(f"{type(self).__name__} cannot be changed; again() makes another")

    def __reduce__(self) -> Tuple[Any, ...]:
        return type(self)._of, (tuple(self._inputs),)


def _given(value: Any, field: Tuple[str, Optional[float]]) -> Optional[float]:
    """A value as a float, or the standard one where none was given; None where there is none."""
    name, standard = field
    if value is None:
        return standard
    number = _arrays.number(value, name)
    if number is None:
        raise TypeError(f"{name} must be a number: job_plan does not take arrays")
    return None if number != number and standard is None else number


def _step(name: str, kind: Any, answer: Tuple[Any, ...], memory: Tuple[bytearray, bytearray]) -> Step:
    state, inputs, values, why, lacks = answer
    if kind._lists:  # one is given and one is a result
        tasks = array("d")
        tasks.frombytes(memory[0])
        inputs += (tasks,)
        values += tuple(rows._of(memory[1]) for rows in kind._filled)
    result = kind._remembering(values, inputs)
    return Step(name, kind._calculation, state, result if state == "done" else None, why, lacks, result.inputs)


def _plain(record: Any) -> Any:
    """A named tuple as a dict, rows of a list as a list of dicts, numbers as JSON has them."""
    if isinstance(record, float):
        return None if record != record else "infinite" if math.isinf(record) else record
    if not isinstance(record, tuple):
        return record
    fields: Tuple[str, ...] = record._fields  # type: ignore[attr-defined]
    if hasattr(record, "_table"):
        return [dict(zip(fields, map(_plain, map(float, row)))) for row in zip(*record)]
    return {name: _plain(item) for name, item in zip(fields, record)}


def step(index: int, meaning: str) -> Any:
    """The property of a plan that is the result of one of its steps."""
    return property(lambda plan: plan._steps[index].result, doc=f"{meaning}; None where it did not run.")


def bind(function: Any, plan: Any, inputs_kind: Any, *steps: Tuple[str, Any]) -> None:
    """Ties a plan's class to the library, which has to have the same inputs and steps."""
    pairs = tuple((name, kind._calculation) for name, kind in steps)
    _languages[:] = _core.plan_lookup(inputs_kind._fields, pairs)
    plan._inputs_kind, plan._kinds, plan._standard = inputs_kind, steps, dict(function.__kwdefaults__)


def plan_schema() -> Dict[str, Any]:
    """The JSON schema (draft 2020-12) of what a plan's ``json()`` gives, units in "unit" annotations."""
    import json
    import os

    with open(os.path.join(os.path.dirname(__file__), "plan.schema.json"), encoding="utf-8") as file:
        schema: Dict[str, Any] = json.load(file)
    return schema
