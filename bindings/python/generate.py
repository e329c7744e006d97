#!/usr/bin/env python3
"""Makes the Python functions and their type stubs from the contracts.

    generate.py contracts.json FOLDER      writes FOLDER/_calculations.py and FOLDER/_calculations.pyi

The same contracts give the same bytes.  Nothing about a calculation is written here.
"""

import json
import pathlib
import sys
import textwrap

HEAD = '"""Generated from the contracts by generate.py; do not edit."""\n'
WIDTH = 112


def number(value):
    return f"{value:.12g}"


def class_name(name):
    return "".join(part.capitalize() for part in name.split("_"))


def rows_name(rows):
    """ung_wall_station -> WallStations, ung_patch -> Patches, the class of a list's rows."""
    name = class_name(rows["row"].removeprefix("ung_"))
    return name + ("es" if name.endswith(("s", "x", "z", "ch", "sh")) else "s")


def literal(text):
    return text.replace("\\", "\\\\").replace('"""', '\\"\\"\\"')


def wrapped(text, indent="", first=None):
    """Paragraphs wrapped, lines that begin with a space (formulas) left as they are."""
    lines = []
    for line in text.split("\n"):
        if line.startswith(" ") or not line:
            lines.append((indent + line).rstrip())
        else:
            begin = indent if first is None or lines else first
            lines += textwrap.wrap(line, WIDTH, initial_indent=begin, subsequent_indent=indent, break_long_words=False)
    return lines


def bullets(items):
    lines = []
    for item in items:
        lines += wrapped(item, "  ", "- ")
    return lines


def section(title, lines):
    return ["", title, "-" * len(title), *lines] if lines else []


def range_text(field):
    unit = f" {field['unit']}" if field["unit"] else ""
    text = f"accepted {number(field['lower'])} to {number(field['upper'])}{unit}"
    text += f", usual {number(field['usual_lower'])} to {number(field['usual_upper'])}"
    return text + (", whole numbers" if field["whole"] else "")


def kind_text(field):
    if field["standard"] is None:
        return "required"
    return f"standard {number(field['standard'])} ({field['standard_kind']})"


def condition(rule):
    def term(factor, name):
        return name if factor == 1 else f"{number(factor)} {name}"

    if rule["comparison"] == "always" or not rule["field"]:
        return "always"
    text = term(rule["factor"], rule["field"])
    if rule["other"]:
        text += (" - " if rule["other_factor"] < 0 else " + ") + term(abs(rule["other_factor"]), rule["other"])
    text += f" {rule['comparison']} {number(rule['limit'])}"
    if rule["guard"]:
        text += f", where {rule['guard']} {rule['guard_comparison']} {number(rule['guard_limit'])}"
    return text


def name_tuple(name, items):
    yield f"{name} = ("
    yield from (f'    "{item}",' for item in items)
    yield ")\n\n" if name.endswith("results") else ")"


class Calculation:
    """One calculation, and the names that its Python code uses."""

    def __init__(self, contract):
        self.contract = contract
        self.name = contract["name"]
        self.result = class_name(self.name)
        self.inputs = contract["inputs"]
        self.outputs = [f["name"] for f in contract["outputs"]]
        self.lists = contract["lists"]
        self.filled = [r for r in self.lists if r["is_result"]]

    def list_argument(self, rows):
        """Name of the argument that stands for a list: its rows, or how many are wanted; None if that follows."""
        if not rows["is_result"]:
            return rows["name"]
        return rows["name"] + "_count" if rows["same_count_as"] < 0 else None

    def list_arguments(self):
        return [name for name in map(self.list_argument, self.lists) if name]

    def list_parameter(self, rows):
        """What the docstring says about a list's argument."""
        fields = rows["fields"]
        names = ", ".join(f["name"] for f in fields)
        if rows["is_result"]:
            lines = [f"{self.list_argument(rows)} : int", f"    how many rows of {rows['name']} are wanted"]
            return [*lines, f"    required; {rows['least']} to {rows['most']}"]
        kinds = f"array of shape (n, {len(fields)}), sequence of rows, or columns by name"
        if len(fields) == 1:
            kinds = "array of shape (n,) or (n, 1), sequence of numbers, or a column by name"
        count = f"{rows['least']} to {rows['most']} rows"
        if rows["same_count_as"] >= 0:
            count = f"as many rows as {self.lists[rows['same_count_as']]['name']}"
        lines = [f"{rows['name']} : rows of {names}", *wrapped(rows["meaning"], "    ")]
        lines += wrapped(f"required; {count}; {kinds}", "    ")
        for f in fields:
            unit = f" {f['unit']}" if f["unit"] else ""
            accepted = f"accepted {number(f['lower'])} to {number(f['upper'])}{unit}"
            lines += wrapped(f"{f['name']}: {f['meaning']}; {accepted}", "        ", "      ")
        return lines

    def docstring(self):
        c = self.contract
        lines = [f"{c['title'][0].upper()}{c['title'][1:]}.", "", *wrapped(c["about"])]
        parameters = []
        for rows in self.lists:
            if self.list_argument(rows):
                parameters += self.list_parameter(rows)
        kind = "float" if self.lists else "float or array"
        for f in self.inputs:
            parameters.append(f"{f['name']} : {kind}" + (f", {f['unit']}" if f["unit"] else ""))
            parameters += wrapped(f["meaning"], "    ") + [f"    {kind_text(f)}; {range_text(f)}"]
        if not self.lists:
            parameters += [
                'invalid : "raise" or "nan"',
                "    whether the first refused element raises, or refused ones become NaN and are counted in `refused`",
                "out : sequence of arrays",
                "    where array results are written: writable arrays of doubles, one a result, in their order",
            ]
        lines += section("Parameters", parameters)
        results = [self.result + ("" if self.lists else f", or {self.result}Arrays if any input is an array")]
        for f in c["outputs"]:
            unit = f" [{f['unit']}]" if f["unit"] else ""
            infinite = " (may be infinite)" if f["may_be_infinite"] else ""
            results += wrapped(f"{f['name']}{unit}: {f['meaning']}{infinite}", "        ", "    ")
        for rows in self.filled:
            results += wrapped(f"{rows['name']} ({rows_name(rows)}): {rows['meaning']}", "        ", "    ")
            for f in rows["fields"]:
                unit = f" [{f['unit']}]" if f["unit"] else ""
                results += wrapped(f"{f['name']}{unit}: {f['meaning']}", "          ", "      ")
        lines += section("Returns", results)
        refused = ["values outside the accepted ranges, and missing ones", *c["refusals"]]
        lines += section("Raises", ["InvalidInput", *["    " + line for line in bullets(refused)]])
        cautions = [f"{r['severity']} {r['code']} ({condition(r)}): {r['text']}" for r in c["cautions"]]
        lines += section("Cautions", bullets(cautions))
        lines += section("Standing cautions", bullets(c["standing"]))
        lines += section("Accuracy", wrapped(c["accuracy"]))
        lines += section("Sources", bullets(f"{s['citation']} ({s['kind']}): {s['gives']}" for s in c["sources"]))
        return '"""' + literal("\n".join("    " + line if line else "" for line in lines).lstrip()) + '\n    """'

    def defaults(self):
        """(name, standard value or None) for each keyword, those without a standard value first in field order."""
        keywords = [(name, None) for name in self.list_arguments()]
        return keywords + [(f["name"], f["standard"]) for f in self.inputs]

    def python(self):
        out = self.outputs + [r["name"] for r in self.filled]
        names = self.list_arguments()
        fields = [f["name"] for f in self.inputs]
        yield from name_tuple(f"_{self.name}_inputs", fields + names)
        yield from name_tuple(f"_{self.name}_results", out)
        yield f'class {self.result}Inputs(Inputs, namedtuple("{self.result}Inputs", _{self.name}_inputs)):'
        yield f'    """Inputs of {self.name}."""\n'
        yield "    __slots__ = ()\n\n"
        bases = [(self.result, "Result")] + ([] if self.lists else [(self.result + "Arrays", "ArrayResult")])
        for kind, base in bases:
            meaning = self.contract["title"] + (", for arrays" if base == "ArrayResult" else "")
            yield f'class {kind}({base}, namedtuple("{kind}", _{self.name}_results)):'
            yield f'    """Result of {self.name}: {literal(meaning)}."""\n\n'
        yield f"def {self.name}("
        yield "    *,"
        for name, standard in self.defaults():
            yield f"    {name}," if standard is None else f"    {name}={float(standard)!r},"
        if not self.lists:
            yield '    invalid="raise",'
            yield "    out=None,"
        yield "):"
        yield f"    {self.docstring()}"
        yield "    inputs = (" + "".join(f"\n        {name}," for name in fields) + "\n    )"
        if self.lists:
            given = "".join(f"{self.list_argument(r)}, " for r in self.lists)
            yield f"    return _with_lists({self.result}, inputs, ({given.strip()}))\n\n"
        else:
            yield '    if out is None and invalid == "raise":'
            yield "        try:"
            yield f"            return _call(_{self.name}, inputs, {self.result})"
            yield "        except TypeError:  # not every input is a plain number"
            yield "            pass"
            yield f"    return _calculate({self.result}, inputs, invalid, out)\n\n"
        arrays = "None" if self.lists else f"{self.result}Arrays"
        yield f"bind("
        yield f"    {self.name}, {self.result}, {self.result}Inputs, {arrays}, {len(self.outputs)},"
        yield from (f'    ("{r["name"]}", {rows_name(r)}, {r["is_result"]}),' for r in self.lists)
        yield ")"
        if not self.lists:
            yield f"_{self.name} = {self.result}._index"
        yield "\n"

    def list_annotation(self, argument):
        for rows in self.lists:
            if rows["name"] == argument and not rows["is_result"]:
                return "_Rows" if len(rows["fields"]) > 1 else "_Rows | _Numbers"
        return "int"

    def signature(self, kind, extra, result):
        lines = [f"def {self.name}(", "    *,"]
        for name, standard in self.defaults():
            of_list = name in self.list_arguments()
            annotation = self.list_annotation(name) if of_list else kind
            default = f" = {float(standard)!r}" if standard is not None else ""
            lines.append(f"    {name}: {annotation}{default},")
        return lines + [f"    {line}," for line in extra] + [f") -> {result}: ..."]

    def stub(self):
        raising = 'invalid: Literal["raise", "nan"] = '
        out = "out: Sequence[Any] | None = None"
        value = "float" if self.lists else "Any"
        names = self.list_arguments()
        yield "@type_check_only"
        yield f"class _{self.result}Inputs(NamedTuple):"
        yield from (f"    {f['name']}: {value}" for f in self.inputs)
        kinds = {r["name"]: rows_name(r) for r in self.lists if not r["is_result"]}
        yield from (f"    {name}: {kinds.get(name, 'int')}" for name in names)
        yield f"\nclass {self.result}Inputs(Inputs, _{self.result}Inputs): ...\n"
        kinds = [(self.result, "Result", "float")]
        if not self.lists:
            kinds.append((self.result + "Arrays", "ArrayResult", "Any"))
        for kind, base, field in kinds:
            yield "@type_check_only"
            yield f"class _{kind}(NamedTuple):"
            yield from (f"    {name}: {field}" for name in self.outputs)
            yield from (f"    {r['name']}: {rows_name(r)}" for r in self.filled)
            yield f"\nclass {kind}({base}, _{kind}):"
            yield "    @property"
            yield f"    def inputs(self) -> {self.result}Inputs: ..."
            if base == "Result":
                yield "    @property"
                yield "    def cautions(self) -> list[Caution]: ..."
            yield ""
        if self.lists:
            yield from self.signature("float", [], self.result)
        else:
            yield "@overload"
            first = self.signature("float", [raising + '"raise"', "out: None = None"], self.result)
            first[0] += "  # type: ignore[misc]"
            yield from first
            yield "@overload"
            yield from self.signature("_Numbers", [raising + '"raise"', out], self.result + "Arrays")
        yield ""

    def public(self):
        names = [self.name, self.result, self.result + "Inputs"]
        return names + ([] if self.lists else [self.result + "Arrays"])


def rows_python(lists):
    """The class of the rows of some lists, which calculations share; meanings only where all lists agree."""
    fields, name = lists[0]["fields"], rows_name(lists[0])
    yield f"_{name}_columns = ("
    yield from (f'    "{f["name"]}",' for f in fields)
    yield ")\n\n"
    yield f'class {name}(Columns, namedtuple("{name}", _{name}_columns)):'
    shape = f"(n, {len(fields)})"
    yield f'    """Rows as columns; `rows`, or np.asarray of it, is all of them as an array of shape {shape}.\n'
    for i, f in enumerate(fields):
        unit = f" [{f['unit']}]" if f["unit"] else ""
        meaning = f": {f['meaning']}" if len({rows["fields"][i]["meaning"] for rows in lists}) == 1 else ""
        yield from wrapped(literal(f"{f['name']}{unit}{meaning}"), "        ", "    ")
    yield '    """\n\n'


def rows_stub(rows):
    name = rows_name(rows)
    yield "@type_check_only"
    yield f"class _{name}(NamedTuple):"
    yield from (f"    {f['name']}: Any" for f in rows["fields"])
    yield f"\nclass {name}(Columns, _{name}): ...\n"


ABOUT_PLAN = """\
Each step is one calculation, called with what is given here and with what earlier steps found. A step that lacks a \
value, is refused, or needs a step that did not run has no result; the others go on."""


class Plan:
    """The plan that joins the calculations: job_plan, its inputs, and a property for the result of each step."""

    def __init__(self, contract, calculations):
        self.inputs = [{**asked["field"], **asked} for asked in contract["inputs"]]
        titles = {c.name: c.contract["title"] for c in calculations}
        self.steps = [(s["name"], s["calculation"], titles[s["calculation"]]) for s in contract["steps"]]

    def docstring(self):
        lines = ["The whole job from one set of measurements.", "", *wrapped(ABOUT_PLAN)]
        parameters = []
        for f in self.inputs:
            parameters.append(f"{f['name']} : float" + (f", {f['unit']}" if f["unit"] else ""))
            original = "" if f["original"] == f["name"] else f"{f['original']} of "
            parameters += wrapped(f["meaning"] + (f" ({original}{f['of']})" if f["of"] else ""), "    ")
            missing = "none: found by another step" if f["found"] else "none: a measurement"
            known = kind_text(f) if f["standard"] is not None else missing
            parameters.append(f"    {known}; {range_text(f)}")
        lines += section("Parameters", parameters)
        lines += section("Returns", ["JobPlan", *(f"    {n}: {c}, {title}" for n, c, title in self.steps)])
        lines += section("Raises", ["InvalidInput", "    - values outside the accepted ranges"])
        return '"""' + literal("\n".join("    " + line if line else "" for line in lines).lstrip()) + '\n    """'

    def python(self):
        yield from name_tuple("_job_plan_inputs", [f["name"] for f in self.inputs])
        yield '\n\nclass JobPlanInputs(Inputs, namedtuple("JobPlanInputs", _job_plan_inputs)):'
        yield '    """Inputs of job_plan; None where nothing was given."""\n'
        yield "    __slots__ = ()\n\n"
        yield "class JobPlan(Plan):"
        yield '    """Result of job_plan: the whole job."""\n'
        yield "    __slots__ = ()\n"
        for i, (name, calculation, title) in enumerate(self.steps):
            yield f'    {name} = step({i}, "{calculation}: {title}")'
        yield "\n\ndef job_plan("
        yield "    *,"
        for f in self.inputs:
            yield f"    {f['name']}={None if f['standard'] is None else float(f['standard'])!r},"
        yield "):"
        yield f"    {self.docstring()}"
        yield "    return JobPlan._of((" + "".join(f"\n        {f['name']}," for f in self.inputs) + "\n    ))\n\n"
        yield "bind_plan("
        yield "    job_plan, JobPlan, JobPlanInputs,"
        yield from (f'    ("{name}", {class_name(calculation)}),' for name, calculation, _ in self.steps)
        yield ")"

    def stub(self):
        yield "@type_check_only"
        yield "class _JobPlanInputs(NamedTuple):"
        yield from (f"    {f['name']}: float{' | None' if f['standard'] is None else ''}" for f in self.inputs)
        yield "\nclass JobPlanInputs(Inputs, _JobPlanInputs): ...\n"
        yield "class JobPlan(Plan):"
        yield "    @property"
        yield "    def inputs(self) -> JobPlanInputs: ..."
        for name, calculation, _ in self.steps:
            yield "    @property"
            yield f"    def {name}(self) -> {class_name(calculation)} | None: ..."
        yield "\ndef job_plan(\n    *,"
        for f in self.inputs:
            yield f"    {f['name']}: float | None = {None if f['standard'] is None else float(f['standard'])!r},"
        yield ") -> JobPlan: ..."

    def public(self):
        return ["job_plan", "JobPlan", "JobPlanInputs"]


PYTHON_IMPORTS = """
from collections import namedtuple

from ._arrays import calculate as _calculate
from ._core import call as _call
from ._lists import Columns
from ._lists import calculate as _with_lists
from ._plan import Plan, step
from ._plan import bind as bind_plan
from ._results import ArrayResult, Inputs, Result, bind
"""

STUB_IMPORTS = """
from array import array
from collections.abc import Mapping, Sequence
from typing import Any, Literal, NamedTuple, Protocol, Union, overload, type_check_only

from ._lists import Columns
from ._plan import Plan
from ._results import ArrayResult, Caution, Inputs, Result

@type_check_only
class _HasArray(Protocol):  # NumPy, pandas and others
    def __array__(self, *args: Any, **kwargs: Any) -> Any: ...

_Numbers = Union[float, Sequence[float], array[float], memoryview, _HasArray]
_Row = Union[Sequence[float], array[float], _HasArray]
_Rows = Union[Columns, _HasArray, memoryview, Sequence[_Row], Mapping[str, Any]]
"""


def main(contracts, folder):
    with open(contracts, encoding="utf-8") as file:
        contents = json.load(file)
    calculations = [Calculation(contract) for contract in contents["calculations"]]
    plan = Plan(contents["plan"], calculations)
    rows = {}
    for each in (each for c in calculations for each in c.lists):
        rows.setdefault(rows_name(each), []).append(each)
    names = sorted([name for c in [*calculations, plan] for name in c.public()] + list(rows))
    public = "__all__ = [\n" + "".join(f'    "{name}",\n' for name in names) + "]\n"
    code = [HEAD, PYTHON_IMPORTS, "\n", public, "\n\n"]
    stub = [HEAD, STUB_IMPORTS, "\n", public, "\n"]
    for name in sorted(rows):
        code += [line + "\n" for line in rows_python(rows[name])]
        stub += [line + "\n" for line in rows_stub(rows[name][0])]
    for calculation in [*calculations, plan]:
        code += [line + "\n" for line in calculation.python()]
        stub += [line + "\n" for line in calculation.stub()]
    for name, parts in (("_calculations.py", code), ("_calculations.pyi", stub)):
        path = pathlib.Path(folder, name)
        temporary = path.with_suffix(path.suffix + ".new")
        temporary.write_text("".join(parts).rstrip() + "\n", encoding="utf-8")
        temporary.replace(path)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
