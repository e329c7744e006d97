"""Calculations with lists: what may be given, what comes back, refusals about rows, and chains.

Numbers are held against shoelace sums and interpolations by NumPy and SciPy, and against circles.
"""

import copy
import math
import pickle
import subprocess
import sys
from array import array
from collections import namedtuple
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from conftest import LISTED, LISTS, call, given_lists

import ungula

AROUND = np.linspace(0, 2 * np.pi, 40, endpoint=False)
OVAL = np.column_stack([66 * np.cos(AROUND), 61 * np.sin(AROUND)])
HOOF = {"hoof_length_mm": 135, "hoof_width_mm": 128}
SCREW = {"screw_diameter_mm": 4, "screw_length_mm": 35, "shoe_thickness_mm": 20, "rear_limit_fraction": 0.6}
STATIONS = {
    "side_fraction": np.linspace(0.1, 0.6, 9), "from_toe_mm": np.linspace(20, 120, 9),
    "wall_thickness_mm": np.linspace(11, 8, 9), "wall_angle_deg": np.linspace(55, 80, 9), "sole_horn_mm": 5,
}  # fmt: skip
Named = namedtuple("Named", "y_mm x_mm label")
Pair = namedtuple("Pair", "x y")
_LOAD = {"load_x_n": 200, "load_y_n": 300, "at_x_mm": -40, "at_y_mm": 0}
REST = {"screw_group": _LOAD, "bond_group": _LOAD, "outline_at": {"left_side_count": 1, "side_fraction": 0.3},
        "outline_band": {"low_mm": -20, "high_toe_mm": 40, "high_heel_mm": 30},
        "outline_standard": HOOF, "shoe_footprint": {"shoe_thickness_mm": 22}, "screw_layout": SCREW,
        "job_timeline": {"working_time_s": 360},
        "cup_curve": {"mass_g": 55, "surface_cm2": 95, "ambient_c": 25, "start_c": 25, "reference_time_s": 360,
                      "reference_temperature_c": 20}}  # fmt: skip


def circle(radius, count):
    t = 2 * np.pi / count * np.arange(count)
    return radius * np.column_stack([np.cos(t), np.sin(t)])


def shoelace(points):
    """Area, perimeter, centroid and moments of a polygon by Green's sums, in NumPy's extended precision."""
    x, y = (np.asarray(points, np.longdouble) - np.mean(points, axis=0, dtype=np.longdouble)).T
    u, v = np.roll(x, -1), np.roll(y, -1)
    cross = x * v - u * y
    area = cross.sum() / 2
    cx, cy = ((x + u) * cross).sum() / (6 * area), ((y + v) * cross).sum() / (6 * area)
    return {
        "area_mm2": area,
        "perimeter_mm": np.hypot(u - x, v - y).sum(),
        "second_x_mm4": ((y * y + y * v + v * v) * cross).sum() / 12 - area * cy**2,
        "second_y_mm4": ((x * x + x * u + u * u) * cross).sum() / 12 - area * cx**2,
        "second_xy_mm4": ((x * v + 2 * x * y + 2 * u * v + u * y) * cross).sum() / 24 - area * cx * cy,
    }


def every(name, **more):
    return call(name, **{**given_lists(name), **REST.get(name, {}), **more})


def measured(outline):
    return ungula.outline_measure(outline=outline)


# What may be given.


def frame(table):
    pandas = pytest.importorskip("pandas")
    return pandas.DataFrame(table[:, ::-1].copy(), columns=["y_mm", "x_mm"]).assign(label="a")


def records(table):
    return np.array([(y, x) for x, y in table], dtype=[("y_mm", "f8"), ("x_mm", "f8")])


OUTLINES = {
    "array": lambda t: t,
    "Fortran order": np.asfortranarray,
    "every second of a larger one": lambda t: np.repeat(np.repeat(t, 2, 0), 2, 1)[::2, ::2],
    "reversed twice": lambda t: t[::-1].copy()[::-1],
    "columns exchanged": lambda t: t[:, ::-1].copy()[:, ::-1],
    "read-only": lambda t: np.frombuffer(t.tobytes()).reshape(t.shape),
    "other byte order": lambda t: t.astype(t.dtype.newbyteorder()),
    "unaligned": lambda t: np.frombuffer(b"x" + t.tobytes(), "u1")[1:].view("f8").reshape(t.shape),
    "long doubles": lambda t: t.astype(np.longdouble),
    "objects": lambda t: t.astype(object),
    "masked": np.ma.masked_array,
    "records": records,
    "frame": frame,
    "frame without names": lambda t: pytest.importorskip("pandas").DataFrame(t),
    "list of pairs": lambda t: t.tolist(),
    "list of arrays": list,
    "list of array.array": lambda t: [array("d", row) for row in t],
    "tuples": lambda t: tuple(map(tuple, t)),
    "named tuples": lambda t: [Pair(*row) for row in t],
    "generator": lambda t: (row for row in t.tolist()),
    "Fractions": lambda t: [[Fraction(v) for v in row] for row in t],
    "Decimals": lambda t: [[Decimal(float(v)) for v in row] for row in t],
    "mapping": lambda t: {"y_mm": t[:, 1], "x_mm": t[:, 0].tolist(), "label": "ab"},
    "named tuple of columns": lambda t: Named(t[:, 1], array("d", t[:, 0]), "ab"),
    "points by hand": lambda t: ungula.Points(x_mm=t[:, 0], y_mm=t[:, 1].tolist()),
    "points": lambda t: ungula.outline_resample(outline=t, resampled_count=len(t)).inputs.outline,
    "memoryview": lambda t: memoryview(t),
    "memoryview with strides": lambda t: memoryview(np.repeat(t, 2, 0)[::2]),
}


@pytest.mark.parametrize("kind", OUTLINES)
def test_outlines_of_every_kind(kind):
    expected = measured(OVAL)
    result = measured(OUTLINES[kind](OVAL))
    assert result == expected
    kept = result.inputs.outline
    assert isinstance(kept, ungula.Points) and np.array_equal(kept, OVAL) and kept == expected.inputs.outline
    assert result.again() == expected and pickle.loads(pickle.dumps(result)).inputs == result.inputs


@pytest.mark.parametrize("kind", [np.float32, np.float16, np.int64, np.int16, np.int8])
def test_other_numbers(kind):
    given = (OVAL * [1, 1]).astype(kind)
    assert measured(given) == measured(given.astype(float))
    assert measured(memoryview(np.ascontiguousarray(given))) == measured(given)


@pytest.mark.parametrize(
    "depths",
    [np.full(40, 5.0), np.full((40, 1), 5.0), np.full(40, 5), np.full(80, 5, np.float32)[::-2], [5] * 40, (5.0,) * 40,
     [[5]] * 40, array("d", [5] * 40), array("i", [5] * 40), memoryview(array("d", [5] * 40)), {"depth_mm": [5] * 40},
     {"depth_mm": np.full(40, 5)}, ungula.Depths([5] * 40), (5 for _ in range(40)), range(5, 6), [np.float64(5)] * 40,
     np.ma.masked_array(np.full(40, 5.0))],
    ids=str,
)  # fmt: skip
def test_depths_of_every_kind(depths):
    depths = [5] * 40 if isinstance(depths, range) else depths
    result = ungula.outline_inset(outline=OVAL, depths=depths)
    assert result == ungula.outline_inset(outline=OVAL, depths=np.zeros(40), depth_mm=5)
    assert result.inputs.depths == ungula.Depths(np.full(40, 5.0)) == result.again().inputs.depths


def test_a_series():
    pandas = pytest.importorskip("pandas")
    depths = pandas.Series(np.full(40, 5.0), index=[f"p{i}" for i in range(40)])
    assert ungula.outline_inset(outline=OVAL, depths=depths) == ungula.outline_inset(outline=OVAL, depths=[5] * 40)


def test_a_number_stands_for_a_whole_column():
    whole = {**STATIONS, "sole_horn_mm": np.full(9, 5.0)}
    result = ungula.screw_layout(stations=STATIONS, screws_count=2, **SCREW)
    assert result == ungula.screw_layout(stations=whole, screws_count=2, **SCREW)
    assert result.inputs.stations == ungula.ScrewStations(**whole)
    one = {field: float(np.max(column)) for field, column in STATIONS.items()}
    assert ungula.screw_layout(stations=one, screws_count=1, **SCREW).placed_count == 1


WRONG = {
    "three columns": (np.zeros((5, 3)), ValueError),
    "one dimension": (np.zeros(10), ValueError),
    "three dimensions": (np.zeros((5, 2, 1)), ValueError),
    "no dimension": (np.array(3.0), ValueError),
    "a flat array.array": (array("d", range(10)), (TypeError, ValueError)),
    "a memoryview of one dimension": (memoryview(array("d", range(10))), ValueError),
    "bytes": (bytes(80), TypeError),
    "text": ("1 2 3 4", TypeError),
    "ragged": ([[0, 0], [1, 0], [1]], ValueError),
    "rows of three": ([[0, 0, 0]] * 4, ValueError),
    "numbers": ([1, 2, 3, 4], TypeError),
    "a number": (3.5, (TypeError, ValueError)),
    "None": (None, TypeError),
    "rows of texts": ([["0", "1"]] * 4, TypeError),
    "rows that are texts": (["01", "10", "11"], TypeError),
    "rows that are bytes": ([b"01", b"10", b"11"], TypeError),
    "rows that are mappings": ([{"x_mm": 1, "y_mm": 2}] * 3, TypeError),
    "rows that are sets": ([{1, 2}] * 3, TypeError),
    "missing in a row": ([[0, None]] * 3, TypeError),
    "array of texts": (np.full((5, 2), "1"), TypeError),
    "complex": (OVAL.astype(complex), TypeError),
    "rows of complex": ([[1j, 2]] * 3, TypeError),
    "objects": (np.full((5, 2), None), TypeError),
    "texts as objects": (np.full((5, 2), "1", dtype=object), TypeError),
    "dates": (np.zeros((5, 2), "M8[s]"), TypeError),
    "a column missing": ({"x_mm": [1, 2, 3]}, TypeError),
    "a frame without that column": (lambda: frame(OVAL).drop(columns="x_mm"), TypeError),
    "columns of unlike lengths": ({"x_mm": [1, 2, 3], "y_mm": [1, 2]}, ValueError),
    "columns of two dimensions": ({"x_mm": OVAL, "y_mm": OVAL}, ValueError),
    "columns of text": ({"x_mm": ["1", "2", "3"], "y_mm": [1, 2, 3]}, TypeError),
    "other columns": (ungula.Depths([1, 2, 3]), TypeError),
}


@pytest.mark.parametrize("kind", WRONG)
def test_what_is_no_outline_is_named(kind):
    given, error = WRONG[kind]
    with pytest.raises(error, match="outline") as caught:
        measured(given() if callable(given) else given)
    assert not isinstance(caught.value, ungula.InvalidInput)


def test_inputs_beside_lists_are_numbers():
    assert measured(OVAL) == ungula.outline_measure(outline=OVAL, toe_direction_deg=np.array(0))
    for wrong in ([0, 1], np.zeros(3), "0", None, 0j):
        with pytest.raises(TypeError, match="toe_direction_deg"):
            ungula.outline_measure(outline=OVAL, toe_direction_deg=wrong)
    for wrong in (2.5, "3", None, [3]):
        with pytest.raises(TypeError, match="resampled_count"):
            ungula.outline_resample(outline=OVAL, resampled_count=wrong)
    assert ungula.outline_resample(outline=OVAL, resampled_count=np.int64(5)).resampled.rows.shape == (5, 2)


# What comes back.


@pytest.mark.parametrize("name", LISTED)
def test_results_travel_and_repeat(name):
    result = every(name)
    kinds = [copy.copy, copy.deepcopy]
    kinds += [lambda r, p=p: pickle.loads(pickle.dumps(r, p)) for p in range(pickle.HIGHEST_PROTOCOL + 1)]
    for again in kinds:
        other = again(result)
        assert type(other) is type(result) and other == result and repr(other) == repr(result)
        assert other.inputs == result.inputs and other.cautions == result.cautions
    assert result.again() == result and not result != result.again()
    assert call(name, **result.inputs.asdict()) == result
    for rows in ungula.describe(name).lists:
        columns = getattr(result if rows.is_result else result.inputs, rows.name)
        assert columns._fields == tuple(f.name for f in rows.fields)
        assert all(type(c) is np.ndarray and c.ndim == 1 for c in columns)
        assert np.asarray(columns).shape == columns.rows.shape == (len(columns[0]), len(rows.fields))
        assert np.array_equal(np.column_stack(columns), columns) and f"{rows.name}={len(columns[0])} rows" in (
            repr(result) + repr(result.inputs)
        )
    assert "<table>" in result._repr_html_() and result.refused == 0
    assert {c.code for c in result.cautions} <= {r.code for r in ungula.describe(name).cautions}
    if any(rows.is_result for rows in ungula.describe(name).lists):
        with pytest.raises(TypeError):
            hash(result)


def test_points_as_columns_and_as_rows():
    points = ungula.outline_standard(**HOOF, outline_count=12).outline
    x, y = points
    assert x is points.x_mm and np.array_equal(points.rows, np.column_stack([x, y]))
    assert np.shares_memory(points.rows, x) and np.asarray(points) is points.rows
    assert np.asarray(points, np.float32).dtype == np.float32 and not np.shares_memory(np.array(points), x)
    assert np.array_equal(points.__array__(copy=True), points.rows) and points.__array__(copy=True) is not points.rows
    with pytest.raises(ValueError, match="copy"):
        points.__array__(np.float32, copy=False)
    by_hand = ungula.Points(x_mm=x, y_mm=y)
    assert by_hand == points and np.array_equal(by_hand.rows, points.rows)
    moved = points._replace(x_mm=x + 1)
    assert moved != points and np.array_equal(moved.rows, points.rows + [1, 0])
    assert np.array_equal(np.concatenate([points, points])[12:], points)
    for other in (points, by_hand, moved):
        assert pickle.loads(pickle.dumps(other)) == other == copy.deepcopy(other)
    with pytest.raises(AttributeError):
        points.x_mm = 3
    with pytest.raises(TypeError):
        hash(points)


def test_nothing_is_copied_that_need_not_be():
    result = measured(OVAL)
    assert np.shares_memory(result.inputs.outline.rows, OVAL)
    outline = ungula.outline_standard(**HOOF, outline_count=200).outline
    assert np.shares_memory(measured(outline).inputs.outline.rows, outline.x_mm)


def test_given_rows_are_not_changed():
    for name in LISTED:
        before = given_lists(name)
        kept = copy.deepcopy(before)
        call(name, **before, **REST.get(name, {}))
        assert all(np.array_equal(before[k], kept[k]) for k in before)


# Numbers.


@pytest.mark.parametrize("count", [3, 4, 40, 1000])
def test_measure_against_shoelace(count):
    rng = np.random.default_rng(count)
    t = np.sort(rng.uniform(0, 2 * np.pi, count)) if count > 4 else 2 * np.pi / count * np.arange(count)
    points = np.column_stack([66 * np.cos(t), 61 * np.sin(t)]) * rng.uniform(0.9, 1, count)[:, None] + [30, -80]
    result, expected = measured(points), shoelace(points)
    size = expected["second_x_mm4"] + expected["second_y_mm4"]
    for field, value in expected.items():  # the stated accuracy, and the sums' own 1e-19 a term
        scale = size * 1e-14 if field.startswith("second") else value * 2e-15
        assert abs(getattr(result, field) - value) <= scale, field
    assert (result.length_mm, result.width_mm) == pytest.approx(np.ptp(points, axis=0), rel=1e-15)
    turned = ungula.outline_measure(outline=points[::-1], toe_direction_deg=90)
    assert turned.turn_ratio == -1 and turned.length_mm == pytest.approx(result.width_mm, rel=1e-14)


def test_resample_against_interpolation():
    result = ungula.outline_resample(outline=OVAL, resampled_count=90)
    closed = np.vstack([OVAL, OVAL[:1]])
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    places = np.arange(90) * along[-1] / 90  # the first point is the toe
    expected = np.column_stack([np.interp(places, along, column) for column in closed.T])
    assert np.allclose(result.resampled, expected, rtol=0, atol=1e-12)  # sums of 40 lengths up to 400 mm
    assert result.perimeter_mm == pytest.approx(along[-1], rel=1e-14)


def test_inset_of_a_circle():
    """The points of a circle move to a circle; its polygon of n points encloses n/2 r^2 sin(2 pi/n)."""
    for depth in (-12.0, 0.0, 30.0):
        result = ungula.outline_inset(outline=circle(60, 100), depths=np.full(100, depth / 2), depth_mm=depth / 2)
        assert np.allclose(result.inset, circle(60 - depth, 100), rtol=0, atol=1e-11)  # 1e-13 of 60 mm, stated
        assert result.area_mm2 == pytest.approx(50 * (60 - depth) ** 2 * math.sin(2 * math.pi / 100), rel=1e-12)
        assert result.least_radius_mm == pytest.approx(60, rel=1e-12) and result.deepest_mm == depth


def test_at_a_place_of_a_circle():
    place = ungula.outline_at(outline=circle(60, 360), left_side_count=1, side_fraction=0.25)
    corner = 60 * math.cos(math.radians(45))  # 45 degrees from the toe is one of the points
    assert (place.x_mm, place.y_mm) == pytest.approx((corner, corner), rel=1e-12)
    assert (place.normal_x_ratio, place.normal_y_ratio) == pytest.approx((math.sqrt(0.5),) * 2, rel=1e-12)
    assert place.radius_mm == pytest.approx(60, rel=1e-12) and place.around_fraction == pytest.approx(0.125)


def test_footprint_of_a_circle():
    result = ungula.shoe_footprint(
        outline=circle(60, 100), shoe_thickness_mm=22, overhang_mm=3, upper_layer_mm=10, edge_bevel_deg=30, load_n=2500
    )
    share = 50 * math.sin(2 * math.pi / 100)
    ground = share * (63 - 12 * math.tan(math.radians(30))) ** 2
    assert result.shoe_area_mm2 == pytest.approx(share * 63**2, rel=1e-12)
    assert result.ground_face_mm2 == pytest.approx(ground, rel=1e-12)
    assert result.pressure_mpa == pytest.approx(2500 / ground, rel=1e-12)


def test_fit_of_an_ellipse():
    rng = np.random.default_rng(3)
    t = np.sort(rng.uniform(0, 2 * np.pi, 300))
    trace = np.column_stack([66 * np.cos(t), 61 * np.sin(t)])
    result = ungula.outline_fit(trace=trace, outline_count=500)
    # 0.01 mm is what it states for a smooth outline; round 400 mm of it that is 4 mm2
    assert np.max(np.abs(np.hypot(*(result.outline.rows / [66, 61]).T) - 1)) < 0.01 / 61
    assert abs(result.area_mm2 - math.pi * 66 * 61) < 4
    assert abs(result.length_mm - 132) < 0.02 and abs(result.width_mm - 122) < 0.02
    pixels = ungula.outline_fit(trace=trace * 4, outline_count=500, reference_x2_mm=400, reference_length_mm=100)
    assert pixels.scale_ratio == 0.25 and np.allclose(pixels.outline, result.outline, rtol=0, atol=1e-9)


def test_profile_against_scipy():
    interpolate = pytest.importorskip("scipy.interpolate")
    around, thickness = np.array([0.02, 0.2, 0.31, 0.6, 0.83]), np.array([12.0, 9.5, 8.0, 7.5, 10.0])
    angle = np.array([50.0, 62, 80, 118, 75])
    result = ungula.wall_profile(
        stations={"around_fraction": around, "wall_thickness_mm": thickness, "wall_angle_deg": angle}, profile_count=97
    )
    turns = np.concatenate([around + k for k in range(-2, 3)])  # so that the ends play no part
    places = np.arange(97) / 97
    for field, values in (("wall_thickness_mm", thickness), ("wall_angle_deg", angle)):
        expected = interpolate.PchipInterpolator(turns, np.tile(values, 5))(places)
        assert np.allclose(getattr(result.profile, field), expected, rtol=0, atol=1e-11)  # 1e-13 of it stated, of 100
    assert np.allclose(result.profile.around_fraction, places, rtol=0, atol=1e-15)
    assert result.least_thickness_mm == 7.5 and result.least_thickness_fraction == 0.6


def test_band_on_a_traced_outline_is_the_band():
    walls = {"toe_angle_deg": 50, "heel_angle_deg": 50, "low_mm": -25, "high_toe_mm": 40, "high_heel_mm": 40}
    band = ungula.hoof_band(**HOOF, quarter_angle_deg=75, **walls)
    outline = ungula.outline_standard(**HOOF, outline_count=4000).outline
    traced = ungula.outline_band(
        outline=outline, left_quarter_angle_deg=75, right_quarter_angle_deg=75, **walls
    )
    assert traced._fields == band._fields
    # A polygon of n points is smaller than its curve by about 6.6/n^2 of area (outline_measure's model); n = 4000: 4e-7
    assert all(a == pytest.approx(b, rel=2e-6) for a, b in zip(traced, band))


def test_layout_against_trying_every_axis():
    """Margins of the screws placed are the best that screw_depth gives on the same grid of tilts and insets."""
    result = ungula.screw_layout(stations=STATIONS, screws_count=3, spacing_mm=22, **SCREW)
    assert result.placed_count == 3 and result.screws.rows.shape == (3, 6)
    assert np.all(np.diff(result.screws.from_toe_mm) >= 22 - 1e-9)
    tilts, insets = np.arange(-5, 25.01, 0.5)[:, None], np.arange(1, 14.01, 0.1)[None, :]
    best = {}
    for row in zip(*(np.broadcast_to(STATIONS[f], 9) for f in ungula.ScrewStations._fields)):
        share, along, thickness, angle, sole = map(float, row)
        within = insets[insets <= thickness / math.sin(math.radians(angle))][None, :]
        tried = ungula.screw_depth(
            wall_thickness_mm=thickness, wall_angle_deg=angle, sole_horn_mm=sole, inset_mm=within, tilt_deg=tilts,
            screw_diameter_mm=4, screw_length_mm=35, shoe_thickness_mm=20, invalid="nan",
        )  # fmt: skip
        best[along] = np.nanmax(tried.margin_worst_mm)
    for along, margin in zip(result.screws.from_toe_mm, result.screws.margin_mm):
        assert margin == pytest.approx(best[along], abs=1e-9)  # the grid is the same up to rounding of its places
    assert result.least_margin_mm == result.screws.margin_mm.min()


# Refusals about rows.


def refusal(name, **given):
    with pytest.raises(ungula.InvalidInput) as caught:
        call(name, **given)
    error = caught.value
    again = pickle.loads(pickle.dumps(error))
    assert repr(again.__dict__) == repr(error.__dict__) and str(again) == str(error)  # repr: NaN is unlike itself
    return error


def test_a_bow_tie_names_both_edges():
    error = refusal("outline_measure", outline=[[0, 0], [50, 50], [50, 0], [0, 60]])
    assert error.status is ungula.Status.RELATION and error.rows == error.field == "outline"
    assert {error.index, error.other_index} == {0, 2}  # the edges that begin there cross
    assert "crosses" in str(error) and "row" in str(error) and "2" in str(error)
    assert error.limit is None


def test_an_inset_deeper_than_the_radius_names_the_row():
    error = refusal("outline_inset", outline=circle(60, 100), depths=np.where(np.arange(100) == 7, 61.0, 1.0))
    assert error.index == 7 and error.rows == "outline" and error.other_index is None
    assert error.value == 61 and error.limit == pytest.approx(60, rel=1e-12) and error.limit == error.upper
    assert "radius" in str(error) and "row 7 of outline" in str(error) and "61 mm" in str(error)


def test_values_of_rows_are_named():
    depths = np.zeros(40)
    depths[11] = 300
    error = refusal("outline_inset", outline=OVAL, depths=depths)
    assert (error.field, error.rows, error.index, error.value, error.limit) == ("depth_mm", "depths", 11, 300, 200)
    for bad, status in ((math.nan, "RANGE"), (math.inf, "RANGE"), (-math.inf, "RANGE"), (1e300, "RANGE")):
        outline = OVAL.copy()
        outline[5, 1] = bad
        error = refusal("outline_measure", outline=outline)
        assert (error.field, error.index, error.status) == ("y_mm", 5, ungula.Status[status])
        assert error.limit == {math.inf: 1e7, -math.inf: -1e7, 1e300: 1e7}.get(bad)
    error = refusal("outline_measure", outline=[[0, 0], [50, 10**400], [0, 50]])
    assert error.index == 1 and error.value == math.inf
    masked = np.ma.masked_array(OVAL, np.arange(80).reshape(40, 2) == 6)
    assert refusal("outline_measure", outline=masked).index == 3


def test_counts_of_rows():
    assert refusal("outline_measure", outline=OVAL[:2]).status is ungula.Status.COUNT
    for empty in ([], np.empty((0, 2)), {"x_mm": [], "y_mm": []}):
        assert refusal("outline_measure", outline=empty).value == 0
    error = refusal("outline_inset", outline=OVAL, depths=np.zeros(39))
    assert (error.rows, error.value, error.limit) == ("depths", 39, 40)
    for count in (0, -1, 9, 10**7):
        error = refusal("screw_layout", stations=STATIONS, screws_count=count, **SCREW)
        assert error.status is ungula.Status.COUNT and (error.rows, error.value) == ("screws", count)
        assert error.limit == (1 if count < 1 else 8)
    with pytest.raises((OverflowError, ungula.InvalidInput)):
        ungula.screw_layout(stations=STATIONS, screws_count=10**30, **SCREW)


def test_inputs_are_tested_too():
    error = refusal("outline_inset", outline=OVAL, depths=np.zeros(40), depth_mm=999)
    assert (error.field, error.rows, error.index, error.limit) == ("depth_mm", None, None, 200)


def test_lists_are_not_searched_for_what_lifts_a_caution():
    layout = ungula.screw_layout(stations=STATIONS, screws_count=2, **SCREW)
    with pytest.raises(ungula.InvalidInput, match="lists"):
        ungula.lift(layout, "breach", "spacing_mm")
    with pytest.raises(ValueError, match="has no input"):
        ungula.lift(layout, "breach", "stations")


# Chains.


def test_from_the_trace_to_the_white_line():
    rng = np.random.default_rng(8)
    t = np.linspace(0, 2 * np.pi, 240, endpoint=False)
    trace = np.column_stack([66 * np.cos(t), 61 * np.sin(t)]) + rng.normal(0, 0.3, (240, 2))
    fit = ungula.outline_fit(trace=trace, outline_count=400)
    assert ungula.outline_measure(outline=fit.outline).area_mm2 == pytest.approx(fit.area_mm2, rel=1e-3)
    even = ungula.outline_resample(outline=fit.outline, resampled_count=300)
    stations = [[0, 12, 50], [0.25, 9, 75], [0.5, 8, 110], [0.75, 9.5, 72]]
    walls = ungula.wall_profile(stations=stations, profile_count=300)
    depths = walls.profile.wall_thickness_mm / np.sin(np.radians(walls.profile.wall_angle_deg))
    line = ungula.outline_inset(outline=even.resampled, depths=depths)
    apart = np.hypot(*(np.asarray(line.inset) - even.resampled).T)
    assert np.allclose(apart, depths, rtol=0, atol=1e-11)  # each point moved by its own depth: a sum and a root
    assert shoelace(line.inset.rows)["area_mm2"] == pytest.approx(line.area_mm2, rel=1e-13)
    again = measured(line.inset)
    assert again.area_mm2 == pytest.approx(line.area_mm2, rel=1e-13)
    deeper = line.again(depth_mm=1)
    assert deeper.area_mm2 < line.area_mm2 and deeper.inputs.depths == line.inputs.depths


def test_cautions_of_results_with_lists():
    layout = ungula.screw_layout(stations=STATIONS, screws_count=8, spacing_mm=40, **SCREW)
    stop = next(c for c in layout.cautions if c.code == "no_room")
    assert (stop.severity, stop.calculation, stop.comparison, stop.limit) == ("stop", "screw_layout", "above", 0)
    assert stop.value == layout.missing_count > 0 and np.all(layout.screws.rows[int(layout.placed_count) :] == 0)
    small = measured(OVAL / 10)
    assert [c.code for c in small.cautions] == ["small"] and small.standing
    assert small.cautions[0].comparison == "below" and small.cautions[0].value == small.length_mm < 40


def test_lists_of_the_contract_are_those_of_the_rows():
    for name in LISTED:
        for rows in ungula.describe(name).lists:
            kind = "".join(part.capitalize() for part in rows.row.split("_")[1:])
            kind += "es" if kind in ("Patch", "PatchStress") else "s"
            assert getattr(ungula, kind)._fields == tuple(f.name for f in rows.fields)
            assert rows.is_result or rows.row in LISTS


WITHOUT_NUMPY = """
import sys
sys.modules["numpy"] = None
from array import array
import copy, math, pickle
from collections import namedtuple
import ungula

pairs = [(60 * math.cos(t), 60 * math.sin(t)) for t in (2 * math.pi / 100 * i for i in range(100))]
x, y = (array("d", c) for c in zip(*pairs))
flat = array("d", [v for pair in pairs for v in pair])
table = memoryview(flat).cast("B").cast("d", (100, 2))
Named = namedtuple("Named", "y_mm x_mm")
expected = ungula.outline_measure(outline=pairs)
assert abs(expected.area_mm2 - 50 * 3600 * math.sin(2 * math.pi / 100)) < 1e-9
for given in (table, tuple(pairs), map(list, pairs), {"x_mm": x, "y_mm": y}, Named(y, list(x)), ungula.Points(x, y),
              [array("d", pair) for pair in pairs], {"x_mm": memoryview(x), "y_mm": y.tolist()}):
    result = ungula.outline_measure(outline=given)
    assert result == expected and result.inputs.outline == ungula.Points(x, y) and result.again() == expected
    assert pickle.loads(pickle.dumps(result)).inputs == result.inputs == copy.deepcopy(result).inputs
for depths in ([5] * 100, array("d", [5] * 100), array("i", [5] * 100), memoryview(array("d", [5] * 100)), (5.0,) * 100,
               {"depth_mm": 100 * [5]}, [[5]] * 100, memoryview(array("d", [5] * 200))[::2],
               memoryview(array("f", [5] * 100))):
    inset = ungula.outline_inset(outline=table, depths=depths)
    assert type(inset.inset.x_mm) is array and all(math.isclose(math.hypot(*p), 55) for p in zip(*inset.inset))
    assert inset.inset.rows.shape == (100, 2) and inset.inset.rows[3, 0] == inset.inset.x_mm[3]
    assert inset == pickle.loads(pickle.dumps(inset)) == inset.again()
assert abs(ungula.outline_measure(outline=inset.inset).area_mm2 - inset.area_mm2) < 1e-9
assert ungula.outline_measure(outline=inset.inset.rows) == ungula.outline_measure(outline=inset.inset)
assert "100 rows of x_mm, y_mm" in repr(inset) and "x_mm=100 values" in repr(inset.inset)
layout = ungula.screw_layout(stations=[[0.2, 40, 10, 60, 5], [0.5, 90, 9, 75, 5]], screws_count=2,
                             screw_diameter_mm=4, screw_length_mm=35, shoe_thickness_mm=20)
assert layout.screws.rows.shape == (2, 6) and list(layout.screws.from_toe_mm) == [40, 90]
for wrong in (flat, memoryview(flat), "ab", None, 3, [[1, 2, 3]] * 3, [[1, "2"]] * 3, {"x_mm": x}, [["1", "2"]] * 3,
              {"x_mm": x, "y_mm": y[1:]}, memoryview(bytes(6)).cast("B", (3, 2)).cast("B").cast("c", (3, 2))):
    try:
        ungula.outline_measure(outline=wrong)
    except (TypeError, ValueError) as error:
        assert "outline" in str(error) and not isinstance(error, ungula.InvalidInput), error
    else:
        raise SystemExit(f"accepted {wrong!r}")
assert ungula.outline_measure(outline=[[0, 0], [2, 0], [0, 2]]).area_mm2 == 2
"""


def test_without_numpy():
    done = subprocess.run([sys.executable, "-c", WITHOUT_NUMPY], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_the_core_takes_tables_only():
    from ungula import _core

    index = ungula.OutlineMeasure._index
    assert _core.call_lists(index, (0.0,), (OVAL,)) == _core.call_lists(index, (0,), (OVAL.reshape(-1),))
    wrong = (OVAL.T, OVAL[::2], OVAL.astype(np.float32), np.zeros((5, 3)), np.zeros(9), np.zeros((4, 2, 1)), bytes(16))
    for given in (*wrong, OVAL.tolist(), None, 3, OUTLINES["unaligned"](OVAL)):
        with pytest.raises((TypeError, ValueError)):
            _core.call_lists(index, (0.0,), (given,))
    for lists in ((), (OVAL, OVAL), [OVAL], None):
        with pytest.raises(TypeError):
            _core.call_lists(index, (0.0,), lists)
    names = ("toe_direction_deg",), ungula.OutlineMeasure._fields
    assert _core.lookup("outline_measure", *names, (("outline", ("x_mm", "y_mm")),)) == index
    for lists in ((), (("outline", ("y_mm", "x_mm")),), (("trace", ("x_mm", "y_mm")),), (("outline", ("x_mm",)),), None,
                  (3,), (("outline",),), (("outline", None),)):  # fmt: skip
        with pytest.raises(ImportError, match="another version"):
            _core.lookup("outline_measure", *names, lists)
