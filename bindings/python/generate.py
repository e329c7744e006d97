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

    def columns(self, rows):
        return self.result + class_name(rows["name"])

    def docstring(self):
        c = self.contract
        lines = [f"{c['title'][0].upper()}{c['title'][1:]}.", "", *wrapped(c["about"])]
        parameters = []
        for rows in self.lists:
            if not self.list_argument(rows):
                continue
            names = ", ".join(f["name"] for f in rows["fields"])
            shape = f"rows of {names}" if not rows["is_result"] else "int"
            what = rows["meaning"] if not rows["is_result"] else f"how many rows of {rows['name']} are wanted"
            parameters += [f"{self.list_argument(rows)} : {shape}", *wrapped(what, "    ")]
            parameters += [f"    required; {rows['least']} to {rows['most']} rows"]
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
            names = ", ".join(f["name"] for f in rows["fields"])
            results += wrapped(f"{rows['name']} (columns {names}): {rows['meaning']}", "        ", "    ")
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
        for rows in self.filled:
            columns = tuple(f["name"] for f in rows["fields"])
            yield f'class {self.columns(rows)}(Columns, namedtuple("{self.columns(rows)}", {columns!r})):'
            yield f'    """{literal(rows["meaning"])}"""\n'
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
            columns = "".join(f"{self.columns(r)}, " for r in self.filled)
            yield f"    return _with_lists({self.result}, inputs, ({given.strip()}), ({columns.strip()}))\n\n"
        else:
            yield '    if out is None and invalid == "raise":'
            yield "        try:"
            yield f"            return _call(_{self.name}, inputs, {self.result})"
            yield "        except TypeError:  # not every input is a plain number"
            yield "            pass"
            yield f"    return _calculate({self.result}, inputs, invalid, out)\n\n"
        arrays = "None" if self.lists else f"{self.result}Arrays"
        yield f"bind({self.name}, {self.result}, {self.result}Inputs, {arrays}, {len(self.outputs)})"
        if not self.lists:
            yield f"_{self.name} = {self.result}._index"
        yield "\n"

    def signature(self, kind, extra, result):
        lines = [f"def {self.name}(", "    *,"]
        for name, standard in self.defaults():
            of_list = name in self.list_arguments()
            annotation = kind if not of_list else "int" if name not in [r["name"] for r in self.lists] else "_Rows"
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
        yield from (f"    {name}: Any" for name in names)
        yield f"\nclass {self.result}Inputs(Inputs, _{self.result}Inputs): ...\n"
        for rows in self.filled:
            yield "@type_check_only"
            yield f"class _{self.columns(rows)}(NamedTuple):"
            yield from (f"    {f['name']}: Any" for f in rows["fields"])
            yield f"\nclass {self.columns(rows)}(Columns, _{self.columns(rows)}): ...\n"
        kinds = [(self.result, "Result", "float")]
        if not self.lists:
            kinds.append((self.result + "Arrays", "ArrayResult", "Any"))
        for kind, base, field in kinds:
            yield "@type_check_only"
            yield f"class _{kind}(NamedTuple):"
            yield from (f"    {name}: {field}" for name in self.outputs)
            yield from (f"    {r['name']}: {self.columns(r)}" for r in self.filled)
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
        names = [self.name, self.result, self.result + "Inputs"] + [self.columns(r) for r in self.filled]
        return names + ([] if self.lists else [self.result + "Arrays"])


PYTHON_IMPORTS = """
from collections import namedtuple

from ._arrays import calculate as _calculate
from ._core import call as _call
from ._lists import Columns
from ._lists import calculate as _with_lists
from ._results import ArrayResult, Inputs, Result, bind
"""

STUB_IMPORTS = """
from array import array
from collections.abc import Sequence
from typing import Any, Literal, NamedTuple, Protocol, Union, overload, type_check_only

from ._lists import Columns
from ._results import ArrayResult, Caution, Inputs, Result

@type_check_only
class _HasArray(Protocol):  # NumPy, pandas and others
    def __array__(self, *args: Any, **kwargs: Any) -> Any: ...

_Numbers = Union[float, Sequence[float], array[float], memoryview, _HasArray]
_Rows = Union[Columns, Sequence[Sequence[float]], _HasArray]
"""


def main(contracts, folder):
    with open(contracts, encoding="utf-8") as file:
        calculations = [Calculation(contract) for contract in json.load(file)["calculations"]]
    names = sorted(name for c in calculations for name in c.public())
    public = "__all__ = [\n" + "".join(f'    "{name}",\n' for name in names) + "]\n"
    code = [HEAD, PYTHON_IMPORTS, "\n", public, "\n\n"]
    stub = [HEAD, STUB_IMPORTS, "\n", public, "\n"]
    for calculation in calculations:
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
