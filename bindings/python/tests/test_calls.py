"""Scalar calls: signatures, docstrings, refusals."""

import copy
import inspect
import math
import pickle
import re
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from conftest import TAPE, TOP, call, given_lists

import ungula


def test_the_example(tape):
    # cast_length 405 / 345 / 100, tape 50.8: computed independently with 30 digits (test_chain's oracle), and printed
    # here to the twelve digits that repr shows
    assert "path_length_mm=2595.84628277 mm" in repr(tape)
    assert "tape_length_mm=2725.6385969 mm" in repr(tape)


def test_the_example_refused():
    with pytest.raises(ungula.InvalidInput) as caught:
        ungula.cast_length(**{**TAPE, "circumference_low_mm": 16})
    error = caught.value
    assert str(error) == (
        "circumference_low_mm is 16 mm; accepted values are 100 to 900 mm (input 1 of cast_length)"
    )
    assert error.status is ungula.Status.RANGE
    assert (error.calculation, error.field) == ("cast_length", "circumference_low_mm")
    assert (error.value, error.lower, error.upper, error.unit) == (16, 100, 900, "mm")
    assert (error.other, error.index, error.rows, error.other_index) == (None, None, None, None)
    assert error.limit == 100
    assert isinstance(error, ValueError)


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda e: pickle.loads(pickle.dumps(e))])
def test_refusals_travel(again):
    with pytest.raises(ungula.InvalidInput) as caught:
        ungula.heel_bevel(
            ground_length_mm=130, shoe_thickness_mm=20, bevel_run_mm=35, bevel_angle_deg=60, width_start_mm=110,
            width_end_mm=80,
        )  # fmt: skip
    error = caught.value
    assert error.status is ungula.Status.RELATION and error.lower is None and error.upper is None
    assert error.other is not None and error.other_value is not None
    assert again(error).__dict__ == error.__dict__ and str(again(error)) == str(error)


def test_every_status_has_the_number_of_the_header():
    header = (TOP / "include" / "ungula" / "core.h").read_text(encoding="utf-8")
    numbers = re.search(r"typedef enum ung_status \{(.*?)\}", header, re.S).group(1)
    assert dict(re.findall(r"UNG_(\w+) = (-?\d+)", numbers)) == {s.name: str(int(s)) for s in ungula.Status}
    assert all(status.text and "unknown" not in status.text for status in ungula.Status)


@pytest.mark.parametrize("name", ungula.describe())
def test_signature_and_docstring_come_from_the_contract(name, contracts):
    contract = next(c for c in contracts if c["name"] == name)
    function = getattr(ungula, name)
    parameters = inspect.signature(function).parameters
    for field in contract["inputs"]:
        parameter = parameters[field["name"]]
        assert parameter.kind is parameter.KEYWORD_ONLY
        standard = parameter.empty if field["standard"] is None else field["standard"]
        assert parameter.default == standard
        assert field["name"] in function.__doc__
    text = " ".join(function.__doc__.split())
    for rule in contract["cautions"]:
        assert " ".join(rule["text"].split()) in text
    for rows in contract["lists"]:
        assert " ".join(rows["meaning"].split()) in text
        argument = rows["name"] + "_count" if rows["is_result"] else rows["name"]
        if not rows["is_result"] or rows["same_count_as"] < 0:
            assert parameters[argument].kind is parameters[argument].KEYWORD_ONLY
            assert parameters[argument].default is parameters[argument].empty
        else:
            assert argument not in parameters
    for sentence in contract["standing"] + contract["refusals"] + [s["citation"] for s in contract["sources"]]:
        assert " ".join(sentence.split()) in text
    assert [f["name"] for f in contract["outputs"]] == list(
        getattr(ungula, "".join(part.capitalize() for part in name.split("_")))._fields[: len(contract["outputs"])]
    )


@pytest.mark.parametrize("name", ungula.describe())
def test_a_required_value_left_out_is_named(name):
    contract = ungula.describe(name)
    required = [f for f in contract.inputs if f.standard is None]
    lists = given_lists(name)
    given = {f.name: round((f.usual_lower + f.usual_upper) / 2) for f in required}
    for field in required:
        others = {k: v for k, v in given.items() if k != field.name}
        with pytest.raises(TypeError, match=field.name):  # as with any Python function
            call(name, **others, **lists)
        with pytest.raises(ungula.InvalidInput, match=f"{field.name} is required") as caught:
            call(name, **{**given, field.name: math.nan}, **lists)
        assert caught.value.status is ungula.Status.MISSING and caught.value.field == field.name


@pytest.mark.parametrize("number", [50, 50.0, True + 49, np.float64(50), np.float32(50), np.int16(50), np.array(50.0),
                                    np.array(50, dtype=object), Fraction(50), Decimal(50)])  # fmt: skip
def test_numbers_of_every_kind(number):
    result = ungula.wall_from_border(border_width_mm=12, wall_angle_deg=number)
    assert result == ungula.wall_from_border(border_width_mm=12, wall_angle_deg=50)
    assert isinstance(result, ungula.WallFromBorder)
    assert all(type(item) in (int, float, np.float64) for item in result.inputs)


@pytest.mark.parametrize("wrong", ["50", b"50", None, 50j, np.complex128(50), np.array("50"), object(), {50: 1},
                                   [[50, "x"]], ["50"], np.array(["50"]), np.array([50j]),
                                   np.array(["50"], dtype=object)])  # fmt: skip
def test_what_is_no_number_is_a_type_error_that_names_the_field(wrong):
    with pytest.raises(TypeError, match="wall_angle_deg"):
        ungula.wall_from_border(border_width_mm=12, wall_angle_deg=wrong)


@pytest.mark.parametrize("value", [math.inf, -math.inf, 10**400, -(10**400)])
def test_infinities_are_refused_as_values(value):
    with pytest.raises(ungula.InvalidInput) as caught:
        ungula.wall_from_border(border_width_mm=value, wall_angle_deg=50)
    assert caught.value.value == (math.inf if value > 0 else -math.inf)
    with pytest.raises(ungula.InvalidInput) as caught:  # beside an array
        ungula.wall_from_border(border_width_mm=value, wall_angle_deg=[50, 60])
    assert caught.value.value == (math.inf if value > 0 else -math.inf)


def test_counts_are_whole():
    with pytest.raises(ungula.InvalidInput, match="whole") as caught:
        ungula.cast_length(**TAPE, passes_count=1.5)
    assert caught.value.status is ungula.Status.WHOLE


def test_refused_scalars_as_nan():
    result = ungula.cast_length(**{**TAPE, "circumference_low_mm": 16}, invalid="nan")
    assert isinstance(result, ungula.CastLength) and all(map(math.isnan, result))
    assert result.refused == 1 and result.cautions == [] and result.inputs.circumference_low_mm == 16
    assert ungula.cast_length(**TAPE, invalid="nan") == ungula.cast_length(**TAPE)


def test_options_are_checked():
    with pytest.raises(ValueError, match="invalid"):
        ungula.cast_length(**TAPE, invalid="ignore")
    with pytest.raises(TypeError, match="out"):
        ungula.cast_length(**TAPE, out=[])


def test_lists():
    hoof = {"hoof_length_mm": 135, "hoof_width_mm": 128}
    result = ungula.outline_standard(**hoof, outline_count=400)
    x, y = result.outline
    # the polygon of 400 points inscribed in a smooth curve: shorter by (pi/400)^2 times a number near 1
    around = math.fsum(map(math.dist, zip(x, y), zip(np.roll(x, -1), np.roll(y, -1))))
    assert 0 < 1 - around / result.perimeter_mm < 2 * (math.pi / 400) ** 2
    assert (x[0], y[0]) == (67.5, 0)  # at the toe
    assert result == result.again() and result != result.again(outline_count=399)
    assert pickle.loads(pickle.dumps(result)) == result
    assert "outline=400 rows of x_mm, y_mm" in repr(result)
    assert result.inputs.outline_count == 400 and result.cautions == []
    for count in (2, -1, 10**7):
        with pytest.raises(ungula.InvalidInput) as caught:
            ungula.outline_standard(**hoof, outline_count=count)
        assert caught.value.status is ungula.Status.COUNT and caught.value.value == count
    with pytest.raises(TypeError):
        ungula.outline_standard(**hoof, outline_count=2.5)
    with pytest.raises(TypeError, match="hoof_length_mm"):
        ungula.outline_standard(hoof_length_mm=[135, 140], hoof_width_mm=128, outline_count=9)
