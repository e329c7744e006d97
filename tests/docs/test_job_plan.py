#!/usr/bin/env python3
"""What examples/job_plan --json prints: JSON that names every input, step and field of the contracts, with the numbers
that the text tells, and that fits the schema of a plan where that and a validator are there."""

import json
import math
import os
import pathlib
import subprocess
import sys

TOP = pathlib.Path(os.environ.get("abs_top_srcdir") or pathlib.Path(__file__).resolve().parents[2])
BUILD = pathlib.Path(os.environ.get("abs_top_builddir") or pathlib.Path.cwd())


def printed(*arguments):
    return subprocess.run([str(BUILD / "examples" / "job_plan"), *arguments], check=True,
                          stdout=subprocess.PIPE).stdout.decode("utf-8")


def no_constant(name):
    raise AssertionError("%s is no JSON" % name)


def expect(fine, what):
    if not fine:
        sys.exit("FAILED: " + what)


def main():
    described = json.loads((TOP / "bindings" / "contracts.json").read_text(encoding="utf-8"))
    plan, calculations = described["plan"], {c["name"]: c for c in described["calculations"]}
    out = json.loads(printed("--json"), parse_constant=no_constant)
    text = printed()

    expect(out["version"] == described["version"], "version")
    expect(list(out["inputs"]) == [asked["field"]["name"] for asked in plan["inputs"]], "inputs")
    expect(out["inputs"]["hoof_length_mm"] == 105 and out["inputs"]["wall_thickness_mm"] is None, "values of inputs")
    expect(list(out["steps"]) == [step["name"] for step in plan["steps"]], "steps")
    for step in plan["steps"]:
        told, c = out["steps"][step["name"]], calculations[step["calculation"]]
        expect(told["calculation"] == c["name"], step["name"])
        lists = [[each["name"] for each in c["lists"] if bool(each["is_result"]) == result] for result in (False, True)]
        expect(list(told["inputs"]) == [f["name"] for f in c["inputs"]] + lists[0], "inputs of " + step["name"])
        if told["state"] == "done":
            expect(list(told["results"]) == [f["name"] for f in c["outputs"]] + lists[1], "results of " + step["name"])
            for f in c["outputs"]:
                value = told["results"][f["name"]]
                expect(isinstance(value, (int, float)) and math.isfinite(value) or
                       (f["may_be_infinite"] and value == "infinite"), "%s is %r" % (f["name"], value))
        else:
            expect(told["results"] is None, "results of %s, which did not run" % step["name"])
            expect((told["why"] != "") == (told["state"] != "left out"), "why of " + step["name"])
    states = {name: step["state"] for name, step in out["steps"].items()}
    expect([states[name] for name in ("hold", "through", "lever")] == ["done", "left out", "lacks a value"], "states")
    expect(out["steps"]["lever"]["lacks"] == "vertical_force_n", "what the lever lacks")

    # Lines of the text are the items, then the cautions, then what did not run.
    lines = text.splitlines()
    for item, line in zip(out["items"], lines):
        expect(line.startswith("%-6s %s" % (item["kind"], item["text"])), line)
        expect("{" not in item["text"], item["text"])
        if item["field"]:
            step = out["steps"][item["step"]]
            values = [step["inputs"].get(item["field"]), step["results"].get(item["field"])]
            expect(item["quantity"] in values, item["code"])
    told = lines[len(out["items"]):]
    for caution, line in zip(out["cautions"], told):
        expect(line == "%-6s %s, %s: %s" % tuple(caution[k] for k in ("severity", "step", "code", "text")), line)
    left = sum(state in ("lacks a value", "refused") for state in states.values())
    expect(len(told) == len(out["cautions"]) + left, "number of lines")
    severities = [("stop", "warn", "note").index(caution["severity"]) for caution in out["cautions"]]
    expect(severities == sorted(severities), "the most severe caution first")
    expect(out["severity"] == out["cautions"][0]["severity"], "severity of the plan")

    schema = TOP / "bindings" / "plan.schema.json"
    try:
        import jsonschema
    except ImportError:
        jsonschema = None
    if jsonschema and schema.exists():
        jsonschema.validate(out, json.loads(schema.read_text(encoding="utf-8")))
        print("it fits the schema")
    print("%d items, %d cautions and %d steps in JSON" % (len(out["items"]), len(out["cautions"]), len(out["steps"])))


if __name__ == "__main__":
    main()
