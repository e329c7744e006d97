#!/usr/bin/env python3
"""Makes the JSON schema (draft 2020-12) of a plan from the contracts.

    schema.py contracts.json plan.schema.json

Units stand in "unit", usual ranges in "usual"; validators that do not know these annotations pass over them.
"""

import json
import pathlib
import sys

TEXT = {"type": "string"}
TEXT_OR_NONE = {"type": ["string", "null"]}
INFINITE = {"const": "infinite"}
ANY_NUMBER = {"anyOf": [{"type": ["number", "null"]}, INFINITE]}


def closed(properties, optional=(), **more):
    """An object with these members and no others."""
    required = [name for name in properties if name not in optional]
    return {"type": "object", "properties": properties, "required": required, "additionalProperties": False, **more}


def described(field):
    return {"description": field["meaning"]} | ({"unit": field["unit"]} if field["unit"] else {})


def given(field, missing=False):
    """An input, or a field of a given list, within its range."""
    kind = "integer" if field["whole"] else "number"
    schema = described(field) | {"type": [kind, "null"] if missing else kind}
    schema |= {"minimum": field["lower"], "maximum": field["upper"]}
    schema["usual"] = [field["usual_lower"], field["usual_upper"]]
    return schema if field["standard"] is None else schema | {"default": field["standard"]}


def found(field):
    """A result."""
    if field["may_be_infinite"]:
        return described(field) | {"anyOf": [{"type": "number"}, INFINITE]}
    return described(field) | {"type": "number"}


def rows(each, number):
    fields = closed({f["name"]: number(f) for f in each["fields"]})
    return {"description": each["meaning"], "type": "array", "items": fields}


def row_result(field):
    """Of a list that is a result nothing but numbers is known: its ranges are those of plain numbers."""
    return described(field) | ANY_NUMBER


def definitions(calculation):
    """Of one calculation: its inputs, its inputs where it did not run, and its results."""
    name, lists = calculation["name"], calculation["lists"]
    asked = [r for r in lists if not r["is_result"]]
    unchecked = {f["name"]: described(f) | ANY_NUMBER for f in calculation["inputs"]}
    return {
        f"{name}_inputs": closed(
            {f["name"]: given(f) for f in calculation["inputs"]} | {r["name"]: rows(r, given) for r in asked}
        ),
        f"{name}_unchecked": closed(unchecked | {r["name"]: rows(r, row_result) for r in asked}),
        f"{name}_results": closed(
            {f["name"]: found(f) for f in calculation["outputs"]}
            | {r["name"]: rows(r, row_result) for r in lists if r["is_result"]}
        ),
    }


def step(each, states):
    name = each["calculation"]
    ran = {"inputs": {"$ref": f"#/$defs/{name}_inputs"}, "results": {"$ref": f"#/$defs/{name}_results"}}
    not_run = {"inputs": {"$ref": f"#/$defs/{name}_unchecked"}, "results": {"type": "null"}}
    members = {"calculation": {"const": name}, "state": {"enum": states}, "why": TEXT, "lacks": TEXT_OR_NONE}
    return closed(
        members | {"inputs": {"type": "object"}, "results": {"type": ["object", "null"]}},
        **{
            "if": {"properties": {"state": {"const": states[0]}}},
            "then": {"properties": ran},
            "else": {"properties": not_run},
        },
    )


def units(plan, joined, calculations):
    """Of every field of the document, in its order."""
    fields = [entry["field"] for entry in plan["inputs"]]
    for name in joined:
        each = calculations[name]
        fields += each["inputs"] + each["outputs"] + [f for r in each["lists"] for f in r["fields"]]
    return {f["name"]: f["unit"] for f in fields}


def schema(contracts):
    plan = contracts["plan"]
    names = [each["name"] for each in plan["steps"]]
    joined = list(dict.fromkeys(each["calculation"] for each in plan["steps"]))
    calculations = {c["name"]: c for c in contracts["calculations"]}
    severities = ["stop", "warn", "note"]
    asked = [entry["field"] for entry in plan["inputs"]]
    item = {
        "kind": {"enum": ["bring", "do", "later"]},
        "code": {"enum": [code["code"] for code in plan["codes"]]},
        "quantity": ANY_NUMBER | {"description": "what `field` of `step` is, in `unit`; null: there is none"},
        "unit": TEXT,
        "step": {"enum": names},
        "field": TEXT_OR_NONE,
        "caution": TEXT_OR_NONE | {"description": "code of the step's most severe caution above a note"},
        "text": TEXT | {"description": "the item in words, if a language was asked for"},
    }
    caution = {
        "step": {"enum": names},
        "severity": {"enum": severities},
        **{name: TEXT for name in ("code", "text", "field")},
        **{name: ANY_NUMBER for name in ("value", "limit")},
        "unit": TEXT,
        "comparison": {"enum": ["below", "above", "equal", "always"]},
        "calculation": {"enum": joined},
    }
    numbers = {"type": "object", "additionalProperties": ANY_NUMBER}
    screws = {"screws": {"type": "array", "items": numbers}}
    measured = closed({"calculation": TEXT, "inputs": numbers, "results": numbers | {"properties": screws}})
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A plan of libungula",
        "description": "Names of fields end in their units. What is not known is null, what is infinite \"infinite\".",
        **closed(
            {
                "version": {"const": contracts["version"]},
                "severity": {"enum": [*severities, ""], "description": "of the most severe caution; empty: none"},
                "units": closed({name: {"const": unit} for name, unit in units(plan, joined, calculations).items()})
                | {"description": "of each field, by its name; empty: a count, a ratio or a share"},
                "inputs": closed({f["name"]: given(f, missing=f["standard"] is None) for f in asked}),
                "steps": closed({each["name"]: step(each, plan["states"]) for each in plan["steps"]}),
                "items": {"type": "array", "items": closed(item, optional=["text"])},
                "cautions": {"type": "array", "items": closed(caution)},
                "outline": closed(
                    {
                        "units": {"type": "object", "additionalProperties": TEXT},
                        "steps": {"type": "object", "additionalProperties": measured},
                        "cautions": {"type": "array", "items": closed(caution | {"step": TEXT, "calculation": TEXT})},
                    }
                )
                | {"description": "from the main job alone: the steps that measured a traced outline"},
            },
            optional=["outline"],
        ),
        "$defs": {name: part for each in joined for name, part in definitions(calculations[each]).items()},
    }


def main(contracts, target):
    made = schema(json.loads(pathlib.Path(contracts).read_text(encoding="utf-8")))
    temporary = pathlib.Path(target + ".new")
    temporary.write_text(json.dumps(made, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    temporary.replace(target)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
