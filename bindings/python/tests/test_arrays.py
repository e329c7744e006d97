"""What may be given as an array, what comes back, and how it is refused."""

import math
import pickle
import subprocess
import sys
from array import array

import numpy as np
import pytest
from conftest import TAPE, bits, random_inputs

import ungula

WIDTHS = np.linspace(40, 110, 101)


def walls(width, **more):
    return ungula.wall_from_border(border_width_mm=width, wall_angle_deg=50, **more)


def test_a_million(tape):
    many = tape.again(tape_width_mm=np.linspace(40, 110, 1_000_000))
    assert isinstance(many, ungula.CastLengthArrays)
    assert all(isinstance(column, np.ndarray) and column.shape == (1_000_000,) for column in many)
    assert many.inputs.circumference_low_mm == 405 and many.refused == 0


@pytest.mark.parametrize("kind", [np.float32, np.float16, np.int64, np.uint8, np.longdouble])
def test_other_numbers(kind):
    given = np.arange(5, 25).astype(kind)
    assert np.array_equal(walls(given).wall_thickness_mm, walls(given.astype(float)).wall_thickness_mm)


@pytest.mark.parametrize("given", [[12, 13], (12, 13), array("d", [12, 13]), array("i", [12, 13]), range(12, 14),
                                   memoryview(array("d", [12, 13]))])  # fmt: skip
def test_sequences(given):
    assert walls(given) == walls(np.array([12.0, 13.0]))


@pytest.mark.parametrize("shape", [(0,), (0, 3), (1,), (1, 1), (2, 3, 4)])
def test_shapes(shape):
    result = walls(np.full(shape, 12.0))
    assert result.wall_thickness_mm.shape == shape
    assert np.all(result.wall_thickness_mm == walls(12).wall_thickness_mm)


def test_shapes_that_do_not_fit():
    with pytest.raises(ValueError, match="wall_angle_deg"):
        ungula.wall_from_border(border_width_mm=[10, 12, 14], wall_angle_deg=[50, 60])


def test_every_input_an_array_of_two_dimensions():
    columns = random_inputs("screw_depth", 60)  # 20 inputs: with the results more than NumPy iterates over at once
    flat = ungula.screw_depth(**columns, invalid="nan")
    square = ungula.screw_depth(**{f: c.reshape(6, 10).T for f, c in columns.items()}, invalid="nan")
    for a, b in zip(flat, square):
        assert np.array_equal(bits(a.reshape(6, 10).T), bits(b))


def test_index_of_a_refusal():
    widths = np.full(20, 12.0)
    widths[7] = 99
    with pytest.raises(ungula.InvalidInput, match=r"element 7\)") as caught:
        walls(widths)
    assert caught.value.index == 7 and caught.value.value == 99
    with pytest.raises(ungula.InvalidInput) as caught:
        walls(widths.reshape(4, 5))
    assert caught.value.index == (1, 2)
    with pytest.raises(ungula.InvalidInput) as caught:  # converted in blocks of 8192
        walls(np.concatenate([np.full(20_000, 12), widths]).astype(np.float32))
    assert caught.value.index == 20_007 and pickle.loads(pickle.dumps(caught.value)).index == 20_007


def test_nan_mode_changes_nothing_else():
    widths = WIDTHS / 5
    bad = widths.copy()
    bad[[3, 50, 99]] = [99, math.nan, -1]
    result, expected = walls(bad, invalid="nan"), walls(widths)
    assert result.refused == 3
    assert np.flatnonzero(np.isnan(result.wall_thickness_mm)).tolist() == [3, 50, 99]
    good = ~np.isnan(result.wall_thickness_mm)
    assert np.array_equal(result.wall_thickness_mm[good], expected.wall_thickness_mm[good])
    assert result.again().refused == 3  # as before
    assert ungula.wall_from_border(border_width_mm=widths, wall_angle_deg=1, invalid="nan").refused == 101


def test_masked_values_are_missing():
    masked = np.ma.masked_array([12.0, 13.0, 14.0], [False, True, False])
    with pytest.raises(ungula.InvalidInput, match="required") as caught:
        walls(masked)
    assert caught.value.index == 1
    assert walls(masked, invalid="nan").refused == 1


def test_out():
    columns = {**TAPE, "tape_width_mm": WIDTHS}
    expected = ungula.cast_length(**columns)
    matrix = np.zeros((101, 9))
    for out in ([np.zeros(101) for _ in range(9)], list(matrix.T), list(matrix[::-1].T)):
        result = ungula.cast_length(**columns, out=out)
        assert result == expected and all(a is b for a, b in zip(result, out))
    square = [np.zeros((101, 2))[:, ::2] for _ in range(9)]
    result = ungula.cast_length(**{**columns, "tape_width_mm": WIDTHS[:, None]}, out=square)
    assert all(np.array_equal(a[:, 0], b) for a, b in zip(result, expected))


def test_out_may_be_the_input():
    widths = np.linspace(5, 25, 101)
    expected = walls(widths)
    for place in (slice(None), slice(None, None, -1)):  # written in order, and from the other end
        memory = widths.copy()
        result = walls(memory, out=[memory[place]])
        assert np.array_equal(memory[place], expected.wall_thickness_mm)
        assert np.array_equal(result.inputs.border_width_mm, widths)


def test_spans_that_meet():
    from ungula import _core

    memory, apart = np.zeros(100), np.zeros(3)
    single = memory.view(np.float32)
    pairs = [
        (memory[:50], memory[50:], False), (memory[:51], memory[50:], True), (memory[::-1], memory[99:], True),
        (memory[50::-1], memory[51:], False), (memory[::2], memory[1::2], True), (memory, apart, False),
        (memory[:0], memory, False), (memory.reshape(10, 10)[::-1, ::-1], memory[:1], True),
        (np.broadcast_to(memory[3:4], (5,)), memory[3:4], True),
        (np.broadcast_to(memory[3:4], (5,)), memory[4:], False),
        (memory[:50], single[99:], True), (memory[:50], single[100:], False),
        (memory[5:5], memory[5:], False),
    ]  # fmt: skip
    for one, other, meet in pairs:
        assert _core.share_memory((one,), (other,)) is _core.share_memory((other,), (one,)) is meet
        assert bool(np.may_share_memory(one, other)) is meet
        assert _core.share_memory((np.zeros(2), one), (np.zeros(2), other)) is meet
    assert not _core.share_memory((), (memory,))
    for wrong in ((memory, (memory,)), ((memory,), (3.5,)), ((memory,) * 99, (memory,)), ((memory,),)):
        with pytest.raises((TypeError, ValueError)):
            _core.share_memory(*wrong)


def test_out_is_checked():
    for wrong in (np.zeros(101, np.float32), [0.0] * 101, np.zeros(101)[:5]):
        with pytest.raises((TypeError, ValueError)):
            walls(WIDTHS / 5, out=[wrong])
    with pytest.raises(ValueError, match="one a result"):
        walls(WIDTHS / 5, out=[])
    memory = np.zeros(101)
    with pytest.raises(ValueError, match="share"):
        ungula.cast_length(**{**TAPE, "tape_width_mm": WIDTHS}, out=[memory] * 9)


def test_out_of_a_stopped_call_is_nan_from_there_on():
    widths = np.full(20_000, 12, np.float32)
    widths[9_000] = 99
    memory = np.zeros(20_000)
    with pytest.raises(ungula.InvalidInput):
        walls(widths, out=[memory])
    assert not np.isnan(memory[:9_000]).any() and np.isnan(memory[9_000:]).all()


def test_cautions_of_arrays_are_those_of_single_calls(tape):
    for widths in (WIDTHS, WIDTHS.astype(np.float32), np.stack([WIDTHS, WIDTHS[::-1]])):
        many = tape.again(tape_width_mm=widths)
        found = {c.code: c for c in many.cautions}
        assert found and all(c.count == c.mask.sum() > 0 and c.mask.shape == widths.shape for c in found.values())
        for i in range(0, widths.size, 7):
            place = np.unravel_index(i, widths.shape)
            alone = tape.again(tape_width_mm=float(widths[place])).cautions
            assert {c.code for c in alone} == {code for code, c in found.items() if c.mask[place]}
        assert all(c.calculation == "cast_length" for c in many.cautions)
        order = [("stop", "warn", "note").index(c.severity) for c in many.cautions]
        assert order == sorted(order)


def test_pandas():
    pandas = pytest.importorskip("pandas")
    columns = {"border_width_mm": [12.0, 13.0, 14.0], "wall_angle_deg": [50, 60, 70]}
    frame = pandas.DataFrame(columns, index=list("abc"))
    result = ungula.wall_from_border(**frame)
    joined = frame.assign(**result.asdict())
    assert joined.wall_thickness_mm.tolist() == result.wall_thickness_mm.tolist()
    assert result == result.again()


WITHOUT_NUMPY = """
import sys
sys.modules["numpy"] = None
from array import array
import math, pickle, copy
import ungula

def walls(width, **more):
    return ungula.wall_from_border(border_width_mm=width, wall_angle_deg=50, **more)

doubles = array("d", [5, 6, 7, 8])
expected = [walls(w).wall_thickness_mm for w in doubles]
for given in (doubles, [5, 6, 7, 8], (5.0, 6, 7, 8), array("i", [5, 6, 7, 8]), memoryview(doubles), range(5, 9)):
    result = walls(given)
    assert type(result.wall_thickness_mm) is array and list(result.wall_thickness_mm) == expected, given
assert list(walls(memoryview(doubles)[::-1]).wall_thickness_mm) == expected[::-1]
assert list(walls(memoryview(doubles)[::2]).wall_thickness_mm) == expected[::2]
result = walls(doubles)
assert result == pickle.loads(pickle.dumps(result)) == copy.copy(result) == result.again() == walls(doubles)
assert walls(doubles) != walls(doubles[::-1])
assert "[3.8" in repr(walls(doubles)) and "<table>" in walls(doubles)._repr_html_()
assert list(walls(array("d")).wall_thickness_mm) == []
try:
    walls([5, 99])
    raise SystemExit("not refused")
except ungula.InvalidInput as error:
    assert error.index == 1 and error.value == 99
assert walls([5, 99, 7], invalid="nan").refused == 1
target = array("d", bytes(32))
assert walls(doubles, out=[target]).wall_thickness_mm is target and list(target) == expected
before = list(doubles)
assert list(walls(doubles, out=[doubles]).inputs.border_width_mm) == before and list(doubles) == expected
thick = walls([10, 25, 28]).cautions
assert [(c.code, c.count, c.mask.tolist()) for c in thick] == [("thick_wall", 2, [False, True, True])]
for wrong, kind in (([5, "6"], TypeError), ("5", TypeError), ({5: 6}, TypeError),
                    (memoryview(b"ab"), ungula.InvalidInput), (memoryview(bytes(64)).cast("d", (2, 4)), TypeError)):
    try:
        walls(wrong)
        raise SystemExit(f"accepted {wrong}")
    except kind:
        pass
try:
    ungula.wall_from_border(border_width_mm=[5, 6], wall_angle_deg=[50, 60, 70])
    raise SystemExit("accepted different lengths")
except ValueError as error:
    assert "2" in str(error) and "3" in str(error)
shape = ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128, outline_count=4)
assert type(shape.outline.x_mm) is array and shape.outline.x_mm[0] == 67.5
assert shape == pickle.loads(pickle.dumps(shape))
"""


def test_without_numpy():
    done = subprocess.run([sys.executable, "-c", WITHOUT_NUMPY], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_numpy_is_loaded_by_the_first_array_call_only():
    code = """
import sys, ungula
def loaded(): return "numpy" in sys.modules
tape = ungula.wall_from_border(border_width_mm=12, wall_angle_deg=50)
repr(tape), tape.cautions, tape.inputs, tape._repr_html_(), ungula.describe("cast_length")
assert not loaded()
ungula.wall_from_border(border_width_mm=[12], wall_angle_deg=50)
assert loaded()
"""
    subprocess.run([sys.executable, "-c", code], check=True)


def test_the_core_takes_doubles_only():
    from ungula import _core

    index, target = ungula.WallFromBorder._index, (np.empty(2),)
    for wrong in (np.array([12, 13], np.float32), np.array([12, 13]), np.zeros((2, 1)), b"1234567812345678", object()):
        with pytest.raises(TypeError):
            _core.batch(index, (wrong, 50.0), target, False, 0)
    with pytest.raises(ValueError):
        _core.batch(index, (np.ones(3), 50.0), target, False, 0)
    with pytest.raises((TypeError, ValueError, BufferError)):
        _core.batch(index, (np.full(2, 12.0), 50.0), (np.frombuffer(bytes(16)),), False, 0)
    calls = _core.call, _core.batch, _core.cautions, _core.caution_masks, _core.caution_lift, _core.call_lists
    for function in calls:
        for args in ((), (None,), (0, (), ()), (99, (), object), (-1, (), (), ()), (1, (), (), (), ())):
            with pytest.raises((TypeError, ValueError, IndexError, OverflowError)):
                function(*args)
    with pytest.raises(ImportError, match="another version"):
        _core.lookup("wall_from_border", ("width_mm", "angle_deg"), ("wall_thickness_mm",), ())
    for handle in (None, 3):
        with pytest.raises((TypeError, ValueError)):
            _core.field_name_get(handle)
