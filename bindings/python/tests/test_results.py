"""Results: repr, inputs, again, cautions, equality, pickling."""

import copy
import doctest
import pickle

import numpy as np
import pytest
from conftest import COLUMNAR, TAPE, affordable, call, random_inputs

import ungula

AGAIN = [copy.copy, copy.deepcopy] + [
    lambda r, p=p: pickle.loads(pickle.dumps(r, p)) for p in range(pickle.HIGHEST_PROTOCOL + 1)
]


@pytest.fixture
def many(tape):
    return tape.again(tape_width_mm=np.linspace(40, 110, 7))


def test_repr_has_units_one_field_a_line(tape):
    lines = repr(tape).splitlines()
    assert lines[0] == "CastLength(turns_per_pass=2.93700787402 turns,"
    assert lines[1] == "           path_length_mm=2595.84628277 mm,"
    assert lines[-1] == "           edge_strain_fraction=0.284797694068)"
    assert len(lines) == len(tape)
    assert "tape_width_mm=50.8 mm" in repr(tape.inputs)


def test_repr_of_arrays(many, tape):
    assert "rolls_count=7 values, 1 to 1" in repr(many)
    assert "tape_width_mm=7 values, 40 to 110 mm" in repr(many.inputs)
    assert "tape_width_mm=[50, 60] mm" in repr(tape.again(tape_width_mm=[50, 60]).inputs)
    some = tape.again(tape_width_mm=np.array([[50, np.nan, 60, 70]] * 2), invalid="nan")
    assert "2 x 4 values, " in repr(some) and "nan" not in repr(some)
    none = tape.again(tape_width_mm=np.full(9, np.nan), invalid="nan")
    assert "path_length_mm=9 values" in repr(none)
    assert "path_length_mm=0 values" in repr(tape.again(tape_width_mm=np.zeros((0, 2)))).replace("0 x 2", "0")
    assert "band_height_mm=[] mm" in repr(tape.again(band_height_mm=[]).inputs)


def test_tables_for_notebooks(tape, many):
    html = tape._repr_html_()
    assert html.count("<tr>") == 1 + 9 + 1 + len(tape.cautions)
    assert "2595.84628277 mm" in html and "fewer than two plies" in html and "length of tape as laid" in html
    assert "7 of them" in many._repr_html_()
    assert "50.8 mm" in tape.inputs._repr_html_()
    assert "&lt;" not in html and "<script" not in html
    band = ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128, outline_count=9)
    assert "9 rows of x_mm, y_mm" in band._repr_html_() and "<table>" in band.outline._repr_html_()
    assert "<table>" in ungula.CastLength._make(tape)._repr_html_()


def test_a_result_is_a_named_tuple(tape):
    turns, path, *_ = tape
    assert (turns, path) == (tape.turns_per_pass, tape.path_length_mm)
    assert tape.asdict() == dict(zip(tape._fields, tape)) and len(tape) == 9
    with pytest.raises(AttributeError):
        tape.path_length_mm = 1
    with pytest.raises(AttributeError):
        tape.path_lenght_mm = 1
    with pytest.raises(AttributeError, match="path_lenght_mm"):
        _ = tape.path_lenght_mm


def test_inputs_show_what_was_not_given(tape):
    assert tape.inputs.overlap_fraction == 0.5 and tape.inputs.tape_width_mm == 50.8
    assert tape.inputs == ungula.CastLengthInputs(**tape.inputs.asdict())
    wide = ungula.cast_length(**tape.inputs._replace(tape_width_mm=76.2).asdict())
    assert wide == tape.again(tape_width_mm=76.2) != tape
    assert wide.inputs.circumference_low_mm == 405
    with pytest.raises(TypeError):
        tape.again(tape_widht_mm=3)
    with pytest.raises(AttributeError, match="by hand"):
        _ = ungula.CastLength._make(tape).inputs


def test_equality(tape, many):
    assert tape == ungula.cast_length(**TAPE) and hash(tape) == hash(ungula.cast_length(**TAPE))
    assert tape != tuple(tape) and tuple(tape) != tape and tape != tape.inputs
    assert tape != tape._replace(rolls_count=2.0)
    assert not tape != copy.copy(tape)
    assert many == many.again() and not many != many.again()
    assert many != many.again(tape_width_mm=np.linspace(40, 111, 7))
    assert many != many.again(tape_width_mm=np.linspace(40, 110, 8))
    assert many != tape and tape != many
    assert many.again(tape_width_mm=[50, 999], invalid="nan") == many.again(tape_width_mm=[50, -9], invalid="nan")
    with pytest.raises(TypeError):
        hash(many)


@pytest.mark.parametrize("again", AGAIN)
def test_results_travel(tape, many, again):
    for result in (tape, many):
        other = again(result)
        assert type(other) is type(result) and other == result and repr(other) == repr(result)
        assert other.inputs == result.inputs and len(other.cautions) == len(result.cautions)
        assert other.inputs.asdict().keys() == result.inputs.asdict().keys()
    some = again(many.again(tape_width_mm=[50, 999], invalid="nan"))
    assert some.refused == 1 and some.again().refused == 1


def test_cautions(tape):
    severities = [c.severity for c in tape.cautions]
    assert [c.code for c in tape.cautions] == ["thin_edge", "pleats"] and severities == ["warn", "note"]
    edge = tape.cautions[0]
    assert (edge.field, edge.value, edge.limit, edge.unit) == ("edge_plies_count", 1, 2, "")
    assert (edge.comparison, edge.calculation) == ("below", "cast_length")
    assert edge.text == next(r.text for r in ungula.describe("cast_length").cautions if r.code == "thin_edge")
    assert tape.standing == ungula.describe("cast_length").standing
    assert ungula.wall_from_border(border_width_mm=12, wall_angle_deg=50).cautions == []


@pytest.mark.parametrize("name", COLUMNAR)
def test_cautions_hold_where_their_rules_say(name):
    """The rules as data, evaluated here a second time, at random inputs."""
    compare = {"below": np.less, "above": np.greater, "equal": np.equal, "always": lambda a, b: np.full(a.shape, True)}
    columns = random_inputs(name, affordable(name, 3_000), seed=5)
    result = call(name, **columns, invalid="nan")
    known = {**columns, **result.asdict()}
    valid = ~np.isnan(np.stack(result)).any(axis=0)
    found = {c.code: c for c in result.cautions}
    fired = 0
    for rule in ungula.describe(name).cautions:
        value = rule.factor * known[rule.field] + (rule.other_factor * known[rule.other] if rule.other else 0)
        holds = compare[rule.comparison](value, rule.limit) & valid
        if rule.guard:
            holds &= compare[rule.guard_comparison](known[rule.guard], rule.guard_limit)
        assert (found[rule.code].count if rule.code in found else 0) == holds.sum()
        assert rule.code not in found or np.array_equal(found[rule.code].mask, holds)
        fired += holds.any()
    assert fired or not ungula.describe(name).cautions


def test_lift():
    screw = ungula.screw_depth(
        wall_thickness_mm=10, wall_angle_deg=80, inset_mm=5.2, tilt_deg=8, screw_diameter_mm=3.5, screw_length_mm=34,
        shoe_thickness_mm=22, head_recess_mm=2, sole_horn_mm=5, overhang_mm=4,
    )  # fmt: skip
    assert "hand_error" in [c.code for c in screw.cautions]
    inset = ungula.lift(screw, "hand_error", "inset_mm")
    assert inset is not None
    lifted = screw.again(inset_mm=inset)
    assert "hand_error" not in [c.code for c in lifted.cautions]
    nearer = screw.again(inset_mm=5.2 + 0.999 * (inset - 5.2))
    assert "hand_error" in [c.code for c in nearer.cautions]
    assert ungula.lift(screw, "breach", "inset_mm") == 5.2  # does not hold: as it is
    assert ungula.lift(screw, "hand_error", "wall_thickness_mm") is None  # its outer side is what is thin
    wall = ungula.wall_from_border(border_width_mm=30, wall_angle_deg=90)
    assert ungula.lift(wall, "thick_wall", "border_width_mm") == pytest.approx(13, rel=1e-12)  # sin 90 = 1
    with pytest.raises(ValueError, match="has no input"):
        ungula.lift(screw, "breach", "margin_mm")
    with pytest.raises(ungula.InvalidInput):
        ungula.lift(screw, "no_such_code", "inset_mm")
    with pytest.raises(TypeError):
        ungula.lift(screw.again(inset_mm=[5, 6]), "breach", "inset_mm")


def test_example_of_the_package():
    assert doctest.testmod(ungula).failed == 0
    assert doctest.testmod(ungula).attempted > 0
