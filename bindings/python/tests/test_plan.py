"""The plan: each step is the calculation itself, and what is made of them fits the schema of a plan's document."""

import copy
import gc
import inspect
import json
import math
import pathlib
import pickle
import subprocess
import sys

import jsonschema
import numpy as np
import pytest
from conftest import TOP, bits, call, contracts_path

import ungula

# Invented horses.
BELT = {"hoof_length_mm": 135, "hoof_width_mm": 128, "high_toe_mm": 70, "high_heel_mm": 60, "toe_hairline_mm": 90,
        "heel_hairline_mm": 75, "shoe_thickness_mm": 30}  # fmt: skip
FULL = {
    **BELT, "border_width_mm": 10.2, "wall_angle_deg": 80, "gauge_count": 4, "inset_mm": 6,
    "screw_length_mm": 42, "screw_count": 6, "species_count": 1, "tape_width_mm": 50.8, "ground_length_mm": 135,
    "bevel_run_mm": 25, "bevel_angle_deg": 12, "width_start_mm": 110, "width_end_mm": 95, "sole_area_mm2": 9000,
    "dish_depth_mm": 10, "rope_length_mm": 200, "body_mass_kg": 500, "gait_count": 1, "horn_shear_mpa": 8,
    "horn_bearing_mpa": 12, "adhesive_shear_modulus_mpa": 100, "cover_modulus_mpa": 3000, "shear_strength_mpa": 3,
    "vertical_force_n": 5000, "breakover_mm": 35, "toe_rate_mm_per_day": 0.2, "heel_rate_mm_per_day": 0.3,
    "reference_time_s": 600, "reference_temperature_c": 23, "temperature_c": 20, "surface_cm2": 60,
    "horn_c": 25, "heat_count": 1, "dip_deg": 45,
}  # fmt: skip
OUTLINE = {"perimeter_mm": 430, "ground_area_mm2": 14000, "circumference_low_mm": 405, "circumference_high_mm": 345,
           "band_height_mm": 100, "bonded_area_mm2": 24000, "wood_area_mm2": 12000, "top_area_mm2": 36000}  # fmt: skip
PLANS = {
    "full": FULL,
    "through": {**FULL, "screw_way_count": 2, "entry_height_mm": 12},
    "bonded": {**FULL, "screw_way_count": 0, "cast_count": 0},
    "foam": {**FULL, "foam_count": 1, "cup_count": 0},
    "sampled": {**FULL, "samples_count": 500, "mix_low_s": 5.5},
    "thin": {**FULL, "wall_thickness_mm": 2, "screw_length_mm": 100},
    "both sides": {**FULL, "other_border_width_mm": 7.5, "other_wall_angle_deg": 85, "other_screw_count": 2},
    "searched": {name: value for name, value in FULL.items() if name != "screw_length_mm"},
    "outline": {**{name: value for name, value in FULL.items() if name not in BELT},
                "shoe_thickness_mm": 30, "high_toe_mm": 70, "high_heel_mm": 60, **OUTLINE},
    "belt": BELT,
    "nothing": {},
}


@pytest.fixture(scope="module", params=PLANS)
def plan(request):
    return ungula.job_plan(**PLANS[request.param])


@pytest.fixture(scope="module")
def full():
    return ungula.job_plan(**FULL)


@pytest.fixture(scope="module")
def described():
    return json.loads(contracts_path().read_text(encoding="utf-8"))["plan"]


def numbers(record):
    for item in record:
        if isinstance(item, float):
            yield item
        else:
            yield from np.asarray(item).reshape(-1).tolist()


def test_each_step_is_its_calculation(plan):
    assert [each.name for each in plan.steps] == [name for name, _ in type(plan)._kinds]
    for each in plan.steps:
        assert getattr(plan, each.name) is each.result and plan.state(each.name) == each.state
        if each.state != "done":
            assert each.result is None
            continue
        alone = call(each.calculation, **each.result.inputs.asdict())
        assert type(alone) is type(each.result) and alone._fields == each.result._fields
        assert np.array_equal(bits(list(numbers(alone))), bits(list(numbers(each.result))))
        assert each.result.cautions == alone.cautions and each.result.again() == alone
        assert (each.why, each.lacks) == ("", None) and each.inputs == each.result.inputs


def test_the_full_plan_runs_every_step_that_is_not_switched_off(full):
    assert {each.name: each.state for each in full.steps if each.state != "done"} == {
        "other_wall": "left out", "other_screw": "left out", "other_through": "left out"}  # fmt: skip
    assert full.screw.margin_mm > 0 and full.hold.inputs.screw_count == full.mass.inputs.screw_count == 6
    breached = full.again(inset_mm=3)
    assert breached.screw.margin_mm < 0 and breached.hold.inputs.screw_count == 0  # such screws carry nothing
    assert breached.severity == "stop" and breached.cautions[0].step == "screw"
    assert full.lead.inputs.wood_gravity_ratio == full.wood.wood_gravity_ratio
    assert full.tape.inputs.circumference_low_mm == full.belt.circumference_low_mm
    assert len(full.timeline.times.rows) == len(full.timeline.inputs.steps.rows) == 6
    assert full.timeline.inputs.steps.rows[0].tolist() == [20, 30, 60, 1]  # mixing, the standard values
    changed = full.again(mix_low_s=7, mix_high_s=99)
    assert changed.timeline.inputs.steps.rows[0].tolist() == [7, 30, 99, 1]


def test_what_is_missing_leaves_steps_out(full):
    nothing = ungula.job_plan()
    assert nothing.belt is None and nothing.severity == "" and nothing.cautions == ()
    without = full.again(tape_width_mm=None)
    tape = next(each for each in without.steps if each.name == "tape")
    assert tape.state == "lacks a value" and tape.lacks == "tape_width_mm" and "tape_width_mm is required" in tape.why
    assert math.isnan(tape.inputs.tape_width_mm) and without.tape is None and without.belt == full.belt
    assert without.again(tape_width_mm=50.8) == full
    border = full.again(border_width_mm=None)
    assert border.wall is None and border.screw is None and border.state("screw") == "lacks a value"
    given = border.again(wall_thickness_mm=9)
    assert given.state("wall") == "left out" and given.screw.inputs.wall_thickness_mm == 9


def test_the_belt_alone():
    belt = ungula.job_plan(**BELT)
    assert belt.belt.inputs.low_mm == -30 and belt.tape is None  # down to the shoe's ground face
    assert belt.again(low_mm=-25).belt == ungula.hoof_band(**{**belt.belt.inputs.asdict(), "low_mm": -25})


def test_a_refused_step_says_why():
    refused = ungula.job_plan(bevel_angle_deg=60, **{k: v for k, v in FULL.items() if k != "bevel_angle_deg"})
    bevel = next(each for each in refused.steps if each.name == "bevel")
    assert (bevel.state, bevel.result, bevel.lacks) == ("refused", None, None)
    with pytest.raises(ungula.InvalidInput) as caught:
        ungula.heel_bevel(**bevel.inputs.asdict())
    assert str(caught.value) == bevel.why


@pytest.mark.parametrize("field, value, status", [("hoof_length_mm", 13.5, "RANGE"), ("overlap_fraction", 9, "RANGE"),
                                                  ("screw_count", 2.5, "WHOLE"), ("hoof_width_mm", math.inf, "RANGE"),
                                                  ("overlap_fraction", math.nan, "RANGE")])  # fmt: skip
def test_refusals(full, described, field, value, status):
    asked = next(entry["field"] for entry in described["inputs"] if entry["field"]["name"] == field)
    with pytest.raises(ungula.InvalidInput) as caught:
        full.again(**{field: value})
    error = caught.value
    assert (error.calculation, error.field, error.status.name) == ("job_plan", field, status)
    assert error.unit == asked["unit"] and f"{field} " in str(error) and "of job_plan" in str(error)
    if status == "RANGE":
        assert (error.lower, error.upper) == (asked["lower"], asked["upper"])
    assert error.value == value or value != value  # NaN is refused where there is a standard value


@pytest.mark.parametrize("wrong", ["50", b"50", 50j, [50, 60], np.array([50.0]), object(), {50: 1}])
def test_what_is_no_number_is_a_type_error_that_names_the_field(wrong):
    with pytest.raises(TypeError, match="hoof_width_mm"):
        ungula.job_plan(hoof_width_mm=wrong)


def test_inputs(full, described):
    parameters = inspect.signature(ungula.job_plan).parameters
    assert list(parameters) == [entry["field"]["name"] for entry in described["inputs"]] == list(full.inputs._fields)
    text = " ".join(ungula.job_plan.__doc__.split())
    for entry in described["inputs"]:
        field = entry["field"]
        parameter = parameters[field["name"]]
        assert parameter.kind is parameter.KEYWORD_ONLY and parameter.default == field["standard"]
        assert getattr(ungula.job_plan().inputs, field["name"]) == field["standard"]
        assert field["meaning"] in text and (entry["of"] or "float") in text
        assert f"{field['name']} : float" in text
    assert "wanted_set_time_s : float, s after which the cast should be set (wanted_time_s of cast_set)" in text
    assert full.inputs.hoof_length_mm == 135.0 and full.inputs.low_mm is None
    assert full == ungula.job_plan(**full.inputs.asdict()) and hash(full) == hash(full.again())
    assert ungula.job_plan(hoof_length_mm=math.nan) == ungula.job_plan() != full
    assert ungula.job_plan(hoof_length_mm=np.float32(135)) == ungula.job_plan(hoof_length_mm=135)
    assert full.again(overlap_fraction=None).inputs.overlap_fraction == parameters["overlap_fraction"].default
    with pytest.raises(TypeError, match="hoof_lenght_mm"):
        full.again(hoof_lenght_mm=1)
    with pytest.raises(TypeError, match="hoof_lenght_mm"):
        ungula.job_plan(hoof_lenght_mm=1)
    with pytest.raises(TypeError):
        ungula.job_plan(135)


def test_plan_inputs(described):
    asked = ungula.plan_inputs()
    assert len(asked) == len(described["inputs"]) and sum(each.chosen for each in asked) < len(asked) / 2
    for each, entry in zip(asked, described["inputs"]):
        field = entry["field"]
        assert each.calculation == entry["of"]
        for name in ("original", "found", "chosen"):
            assert getattr(each, name) == entry[name]
        for name in ("name", "unit", "lower", "upper", "usual_lower", "usual_upper", "standard", "meaning"):
            assert getattr(each, name) == field[name]
        if each.calculation:  # ranges are those of the contract that it names
            theirs = {f.name: f for f in ungula.describe(each.calculation).inputs}[each.original]
            assert (each.lower, each.upper, each.unit) == (theirs.lower, theirs.upper, theirs.unit)
            assert each.standard == (None if each.found else theirs.standard)
    by_name = {each.name: each for each in asked}
    assert by_name["screw_length_mm"].chosen and by_name["screw_length_mm"].found
    assert not by_name["border_width_mm"].chosen and not by_name["inner_margin_mm"].chosen
    assert by_name["other_inset_mm"].original == "inset_mm" and by_name["cast_count"].calculation == ""


def test_both_sides():
    plan = ungula.job_plan(**PLANS["both sides"])
    assert plan.other_wall == ungula.wall_from_border(border_width_mm=7.5, wall_angle_deg=85)
    assert plan.other_screw.inputs.wall_thickness_mm == plan.other_wall.wall_thickness_mm
    assert plan.other_screw.inputs.inset_mm == plan.screw.inputs.inset_mm == 6  # not given: as on the first
    held = (4 if plan.screw.margin_mm >= 0 else 0) + (2 if plan.other_screw.margin_mm >= 0 else 0)
    assert plan.hold.inputs.screw_count == held


def test_what_is_searched_for():
    plan = ungula.job_plan(**PLANS["searched"])
    length = plan.screw.inputs.screw_length_mm
    assert plan.screw.margin_mm >= 0
    steps = length / plan.inputs.stock_step_mm
    assert abs(steps - round(steps)) < 1e-12  # a whole number of steps, but for the division's rounding
    longer = ungula.screw_depth(**{**plan.screw.inputs.asdict(), "screw_length_mm": length + plan.inputs.stock_step_mm})
    assert longer.margin_mm < 0
    assert plan.again(screw_length_mm=42).screw.inputs.screw_length_mm == 42


def test_an_outline_stands_for_the_belt():
    plan = ungula.job_plan(**PLANS["outline"])
    assert plan.state("belt") == "left out" and plan.tape.inputs.band_height_mm == 100
    assert (plan.mass.inputs.perimeter_mm, plan.mass.inputs.ground_area_mm2) == (430, 14000)
    assert plan.glue.inputs.bonded_area_mm2 == plan.bond.inputs.bonded_area_mm2 == 24000
    assert (plan.glue.inputs.wood_area_mm2, plan.glue.inputs.top_area_mm2) == (12000, 36000)


def has(plan, caution):
    return any((each.step, each.code) == caution for each in plan.cautions)


@pytest.mark.parametrize("changes, caution", [({"inset_mm": 3}, ("screw", "breach")), ({}, ("lever", "above_measured")),
                                              ({"inset_mm": 3}, ("hold", "screws_alone_fail"))])  # fmt: skip
def test_changes_lift_a_caution(full, changes, caution):
    plan = full.again(**changes)
    assert has(plan, caution)
    found = plan.changes(caution)
    names = [name for name, _ in found]
    assert found and names == [each.name for each in ungula.plan_inputs() if each.chosen and each.name in names]
    before = {(each.step, each.code) for each in plan.cautions if each.severity == "stop"}
    for name, value in found:
        assert plan.lift(caution, name) == value != getattr(plan.inputs, name)
        lifted = plan.again(**{name: value})
        assert not has(lifted, caution)
        assert {(each.step, each.code) for each in lifted.cautions if each.severity == "stop"} <= before
        # the nearest: a millionth of the way back it stands again
        back = value + (getattr(plan.inputs, name) - value) * 1e-6
        assert has(plan.again(**{name: back}), caution)
    whole = next(each for each in plan.cautions if (each.step, each.code) == caution)
    assert plan.lift(whole, names[0]) == found[0][1]


def test_lift_refuses_what_there_is_not(full):
    caution = next(each for each in full.cautions if each.step == "lever")
    assert full.lift(caution, "screw_g") is None and full.lift(caution, "low_mm") is None  # no help, not given
    assert full.changes(("screw", "breach")) == () and full.lift(("screw", "breach"), "inset_mm") == 6  # does not stand
    with pytest.raises(TypeError, match="inset_cm"):
        full.lift(caution, "inset_cm")
    with pytest.raises(KeyError, match="belt"):
        full.lift(("blet", "breach"), "inset_mm")
    with pytest.raises(ungula.InvalidInput) as caught:
        full.lift(("screw", "no_such_code"), "inset_mm")
    assert (caught.value.calculation, caught.value.field) == ("job_plan", "code")


def comparing(plan):
    """Steps that only compare, or repeat another: what they warn of is not about the plan."""
    apart = {"demand", "narrow_tape", "wide_tape", "bond_only", "grip_need", "bond_need", "recheck", "cooler"}
    return apart | ({"screw", "other_screw"} if plan.inputs.screw_way_count == 2 else {"through", "other_through"})


def test_cautions(plan):
    order = ["stop", "warn", "note"]
    places = [order.index(each.severity) for each in plan.cautions]
    assert places == sorted(places) and plan.severity == (plan.cautions[0].severity if plan.cautions else "")
    apart = comparing(plan)  # the others' own
    expected = {
        (each.name, *caution)
        for each in plan.steps
        if each.result is not None and each.name not in apart
        for caution in each.result.cautions
    }
    assert set(plan.cautions) == expected and len(plan.cautions) == len(expected)


def test_items(plan, described):
    words = {code["code"]: code for code in described["codes"]}
    items = plan.bring + plan.todo + plan.later
    assert {item.kind for item in plan.todo} <= {"do"} and {item.kind for item in plan.later} <= {"later"}
    for item in items:
        result, step = getattr(plan, item.step), plan.steps[[each.name for each in plan.steps].index(item.step)]
        # what was brought along on an outline stands for the belt's step
        assert result is not None or (item.step, step.state) == ("belt", "left out")
        assert (item.field is None) == (item.quantity is None)
        if item.field is not None:
            fields = {**step.inputs.asdict(), **(result.asdict() if result else {})}
            assert fields[item.field] == item.quantity
        above = [caution.code for caution in (result.cautions if result else []) if caution.severity != "note"]
        assert item.caution == (above[0] if above and item.step not in comparing(plan) else None)
        for language in ("en", "de"):
            text = item.text(language)
            assert text.startswith(words[item.code][language].split("{")[0]) and "{" not in text
        with pytest.raises(ValueError, match="en, de"):
            item.text("xx")


def test_words(full, described):
    words = {code["code"]: code for code in described["codes"]}
    texts = {item.code: item for item in full.bring + full.todo + full.later}
    template = words["mark_belt_toe"]["en"]
    assert texts["mark_belt_toe"].text() == template.replace("{quantity}", "70").replace("{unit}", "mm")
    template = words["dress_heel_angle"]["de"]
    assert texts["dress_heel_angle"].text("de") == template.replace("{quantity}", "12").replace("{unit}", "Grad")
    half = texts["groove_wall"]._replace(quantity=0.51239, unit="mm")
    assert "0,5124 mm" in half.text("de") and "0.5124 mm" in half.text()
    assert "unlimited" in half._replace(quantity=math.inf).text()


@pytest.fixture(scope="module")
def validator():
    schema = ungula.plan_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_documents_fit_the_schema(plan, validator):
    document = json.loads(plan.json())
    validator.validate(document)
    validator.validate(json.loads(plan.json(language="de", indent=1)))
    assert document == json.loads(json.dumps(plan.asdict()))
    assert document["inputs"] == plan.inputs.asdict()
    assert list(document) == ["version", "severity", "units", "inputs", "steps", "items", "cautions"]
    names = list(document["inputs"])
    for each in document["steps"].values():
        for part in (each["inputs"], each["results"] or {}):
            names += [name for name, item in part.items() if not isinstance(item, list)]
            names += [name for item in part.values() if isinstance(item, list) for name in item[0]]
    assert set(names) <= set(document["units"]) and document["units"]["hoof_length_mm"] == "mm"
    assert document["units"]["screw_count"] == "" and document["units"]["low_s"] == "s"
    assert list(document["units"])[: len(plan.inputs)] == list(document["inputs"])
    fields = json.loads(contracts_path().read_text(encoding="utf-8"))["calculations"]
    units = {f["name"]: f["unit"] for c in fields for f in [*c["inputs"], *c["outputs"]]}
    assert all(units.get(name, unit) == unit for name, unit in document["units"].items())
    for each in plan.steps:
        written = document["steps"][each.name]
        assert (written["calculation"], written["state"], written["why"]) == (each.calculation, each.state, each.why)
        if each.result is None:
            assert written["results"] is None
        else:
            for name, item in each.result.asdict().items():
                if isinstance(item, float):
                    assert written["results"][name] == ("infinite" if math.isinf(item) else item)
                else:
                    rows = [[row[field] for field in item._fields] for row in written["results"][name]]
                    assert np.array_equal(np.array([[math.inf if x == "infinite" else x for x in r] for r in rows],
                                                   dtype=float), item.rows)  # fmt: skip


@pytest.mark.parametrize("path, value", [
    (["inputs", "hoof_length_mm"], 13.5),
    (["inputs", "hoof_length_mm"], "135"),
    (["inputs", "overlap_fraction"], None),
    (["inputs", "screw_count"], 2.5),
    (["inputs", "hoof_length_cm"], 13.5),
    (["steps", "belt", "results", "perimeter_mm"], None),
    (["steps", "belt", "results"], None),
    (["steps", "belt", "state"], "left out"),
    (["steps", "belt", "state"], "finished"),
    (["steps", "belt", "calculation"], "hoof"),
    (["steps", "belt", "inputs", "hoof_width_mm"], 1.0),
    (["steps", "timeline", "inputs", "steps", 0, "low_s"], None),
    (["steps", "timeline", "results", "times", 0], []),
    (["items", 0, "code"], "no_such_code"),
    (["cautions"], [{"step": "belt"}]),
    (["severity"], "bad"),
    (["units", "hoof_length_mm"], "cm"),
    (["units", "hoof_length_cm"], "cm"),
    (["version"], "0.0.0"),
])  # fmt: skip
def test_wrong_documents_do_not(full, validator, path, value):
    document = json.loads(full.json())
    place = document
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    assert not validator.is_valid(document)
    whole = json.loads(full.json())
    del whole["steps"][path[1] if path[0] == "steps" else "belt"]
    assert not validator.is_valid(whole)


def test_the_schema_has_units_and_is_fresh(tmp_path, described):
    schema = ungula.plan_schema()
    assert schema["properties"]["inputs"]["properties"]["hoof_length_mm"]["unit"] == "mm"
    assert schema["$defs"]["hoof_band_results"]["properties"]["ground_area_mm2"]["unit"] == "mm2"
    for entry in described["inputs"]:
        asked = schema["properties"]["inputs"]["properties"][entry["field"]["name"]]
        assert asked.get("unit", "") == entry["field"]["unit"] and asked["minimum"] == entry["field"]["lower"]
    made = tmp_path / "plan.schema.json"
    subprocess.run([sys.executable, TOP / "bindings" / "schema.py", contracts_path(), made], check=True)
    assert made.read_bytes() == (pathlib.Path(ungula.__file__).parent / made.name).read_bytes()


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy] + [
    lambda p, n=n: pickle.loads(pickle.dumps(p, n)) for n in range(pickle.HIGHEST_PROTOCOL + 1)])  # fmt: skip
def test_plans_travel(full, again):
    other = again(full)
    assert other == full and repr(other) == repr(full) and other.json() == full.json()


def test_a_plan_shows_itself(plan, full):
    text, html = repr(plan), plan._repr_html_()
    assert all(len(line) == len(line.rstrip()) for line in text.splitlines())
    for each in plan.steps:
        assert each.why in text and f"<td style=\"text-align: left\">{each.name}</td>" in html
    assert html.count("<table>") == text.count("\n\n")
    assert repr(full).startswith("JobPlan: 33 of 36 steps done") and "&#x27;" not in repr(full)
    assert isinstance(full, ungula.Plan) and "tape_width_mm=50.8 mm" in repr(full.inputs)
    assert "low_mm=None" in repr(full.inputs)


def test_a_plan_cannot_be_changed(full):
    for name in ("belt", "inputs", "blet", "_steps"):
        with pytest.raises(AttributeError):
            setattr(full, name, None)
    with pytest.raises(AttributeError):
        _ = full.blet
    with pytest.raises(KeyError, match="belt"):
        full.state("blet")


def test_steps_do_not_hide_what_a_plan_has(described):
    own = {name for name in vars(ungula.Plan) if not name.startswith("_")}
    assert not own & {each["name"] for each in described["steps"]}


def test_another_library_is_noticed():
    core = sys.modules["ungula._core"]
    names, steps = ungula.JobPlanInputs._fields, tuple((n, k._calculation) for n, k in ungula.JobPlan._kinds)
    assert core.plan_lookup(names, steps) == ["en", "de"]
    other = ("belt", "hold"), *steps[1:]
    differing = [(names[::-1], steps), (names[1:], steps)]
    differing += [(names, steps[1:]), (names, other), (names, (0,) * len(steps))]
    for wrong in differing:
        with pytest.raises(ImportError, match="another version"):
            core.plan_lookup(*wrong)
    for tuple_ in ((), (1.0,) * (len(names) - 1), ("x",) * len(names)):
        with pytest.raises(TypeError):
            core.plan(tuple_)


def test_memory_does_not_grow(full):
    def everything():
        plan = ungula.job_plan(**FULL)
        _ = repr(plan), plan.json(language="de"), plan.timeline.inputs, plan == full, plan._repr_html_()
        for wrong in (1, "x", [1, 2]):
            with pytest.raises((ValueError, TypeError)):
                plan.again(hoof_width_mm=wrong)
        with pytest.raises(ValueError):
            plan.bring[0].text("xx")

    for _ in range(5):  # caches fill
        everything()
    gc.collect()
    before = sys.getallocatedblocks()
    for _ in range(60):
        everything()
    gc.collect()
    assert sys.getallocatedblocks() - before < 60  # a block a round would be a leak


def test_without_numpy(full):
    code = "import sys, json; sys.modules['numpy'] = None; import ungula\n"
    code += "plan = ungula.job_plan(**json.load(sys.stdin)); repr(plan); hash(plan); plan.again(); print(plan.json())"
    done = subprocess.run([sys.executable, "-c", code], input=json.dumps(FULL), capture_output=True, text=True, check=True)
    assert done.stdout.strip() == full.json()


def test_inputs_are_described(described):
    inputs = ungula.plan_inputs()
    assert [each.name for each in inputs] == list(ungula.job_plan().inputs._fields)
    for each, entry in zip(inputs, described["inputs"]):
        field = entry["field"]
        assert {**field, "calculation": entry["of"]}.items() >= {
            k: v for k, v in each._asdict().items() if k not in ("original", "found", "chosen")
        }.items()
        assert (each.original, each.found, each.chosen) == (entry["original"], entry["found"], entry["chosen"])
        assert each.found <= (each.standard is None)
        if each.calculation:
            contract = {f.name: f for f in ungula.describe(each.calculation).inputs}[each.original]
            assert (each.lower, each.upper, each.unit) == (contract.lower, contract.upper, contract.unit)
    chosen = {each.name for each in inputs if each.chosen}
    assert {"inset_mm", "screw_length_mm", "passes_count"} <= chosen
    assert not any("margin" in name or "mpa" in name for name in chosen)  # no margin and no strength is a choice


def test_units_of_every_field(plan):
    document = plan.asdict()
    names = set(document["inputs"])
    for step in document["steps"].values():
        for part in (step["inputs"], step["results"] or {}):
            names |= set(part) - {"steps", "times"}
            for rows in (part.get("steps"), part.get("times")):
                names |= {name for row in rows or [] for name in row}
    assert names <= set(document["units"])
    assert document["units"]["hoof_length_mm"] == "mm" and document["units"]["screw_count"] == ""
    assert list(document["units"])[: len(document["inputs"])] == list(document["inputs"])


def test_what_is_not_given_is_looked_for():
    plan = ungula.job_plan(**{**FULL, "screw_length_mm": None})
    length, limit = plan.screw.inputs.screw_length_mm, plan.screw.screw_length_limit_mm
    assert length <= limit < length + 6.35 and length / 6.35 == pytest.approx(round(length / 6.35), abs=1e-12)
    assert plan.tape.layers >= 3 and plan.tape.edge_plies_count >= 2
    assert plan.state("hold") == "done" and ungula.job_plan(**{**FULL, "horn_shear_mpa": None}).hold is None
    unknown = ungula.job_plan(**{**FULL, "horn_shear_mpa": None}).grip_need
    assert unknown.horn_shear_needed_mpa == plan.again(screw_length_mm=42).grip_need.horn_shear_needed_mpa
