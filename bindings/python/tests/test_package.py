"""The package as a whole: names, types, stubs, speed of the import, memory."""

import inspect
import os
import pathlib
import resource
import subprocess
import sys

import numpy as np
import pytest
from conftest import LISTS, SHORT, TAPE

import ungula

ROOT = pathlib.Path(ungula.__file__).parents[1]

USER = """
import ungula
tape = ungula.cast_length(circumference_low_mm=405, circumference_high_mm=345, band_height_mm=100, tape_width_mm=50.8)
reveal_type(tape.path_length_mm)
reveal_type(tape.inputs.tape_width_mm)
reveal_type(tape.cautions[0].code)
many = ungula.wall_from_border(border_width_mm=[12.0, 13.0], wall_angle_deg=50, invalid="nan")
reveal_type(many)
text: str = ungula.describe("cast_length").inputs[0].unit
names: list[str] = ungula.describe()
outline = ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128, outline_count=9).outline
reveal_type(outline)
inset = ungula.outline_inset(outline=outline, depths=[1.0] * 9)
reveal_type(inset.inset)
reveal_type(inset.inputs.depths)
area: float = ungula.outline_measure(outline=inset.inset.rows).area_mm2
ungula.outline_measure(outline=[(0, 0), (50, 0.5), (0, 50)])
ungula.outline_measure(outline=[[0.0, 0.0], [50.0, 0.0], [0.0, 50.0]])
ungula.outline_measure(outline={"x_mm": [0, 50, 0], "y_mm": [0, 0, 50]})
import numpy as np
ungula.outline_inset(outline=np.zeros((9, 2)), depths=np.zeros(9), depth_mm=2)
reveal_type(tape.cautions[0].comparison)
plan = ungula.job_plan(hoof_length_mm=135, hoof_width_mm=None)
reveal_type(plan.belt)
reveal_type(plan.again(hoof_width_mm=128).inputs.hoof_width_mm)
reveal_type(plan.steps[0].result)
reveal_type(plan.bring[0].quantity)
reveal_type(plan.cautions[0].step)
"""

MISTAKES = {
    "tape.path_lenght_mm": "has no attribute",
    "tape.inputs.tape_widht_mm": "has no attribute",
    "ungula.wall_from_border(border_widht_mm=12, wall_angle_deg=50)": "matches argument types",
    "ungula.wall_from_border(border_width_mm=12)": "matches argument type",
    'ungula.wall_from_border(border_width_mm="12", wall_angle_deg=50)': "incompatible type",
    'ungula.wall_from_border(border_width_mm=12, wall_angle_deg=50, invalid="skip")': "matches argument types",
    "ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128)": "Missing named argument",
    "ungula.outline_measure()": "Missing named argument",
    "ungula.outline_measure(outline=3.5)": "incompatible type",
    'ungula.outline_measure(outline=[("0", "1")])': "incompatible type",
    "inset.inset.z_mm": "has no attribute",
    "ungula.no_such_calculation": "has no attribute",
    "plan.blet": "has no attribute",
    "ungula.job_plan(hoof_lenght_mm=135)": "Unexpected keyword argument",
    "ungula.job_plan(hoof_length_mm=[135])": "incompatible type",
    "plan.belt.perimeter_mm": "has no attribute",
}

# Standard-library names whose own stubs do not match them, met because the package's modules import them; and __all__,
# of which mypy follows lists only, not the generated module's.
ALLOWED = r"""
ungula\.__all__
ungula\._\w+\.(Iterable|Iterator|Sequence|Callable)(\..*)?
"""


def environment():
    return {**os.environ, "PYTHONPATH": str(ROOT), "MYPYPATH": str(ROOT)}


def mypy(tmp_path, *arguments):
    command = [sys.executable, "-m", "mypy", "--cache-dir", str(tmp_path / "cache"), *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, env=environment(), cwd=tmp_path, check=False)


def test_the_package_is_typed(tmp_path):
    done = mypy(tmp_path, "--strict", "-p", "ungula")
    assert done.returncode == 0, done.stdout + done.stderr
    assert (ROOT / "ungula" / "py.typed").exists()


def test_types_that_a_user_sees(tmp_path):
    (tmp_path / "user.py").write_text(USER + "\n".join(MISTAKES) + "\n", encoding="utf-8")
    done = mypy(tmp_path, "--strict", "user.py")
    lines = [line for line in done.stdout.splitlines() if ": error:" in line or "Revealed" in line]
    kinds = ["builtins.float", "Any", "builtins.str", "WallFromBorderArrays", "Points", "Points", "Depths",
             "builtins.str", "HoofBand], None]", "builtins.float, None]", "Result, None]", "builtins.float, None]",
             "builtins.str"]  # fmt: skip
    assert len(lines) == len(kinds) + len(MISTAKES), done.stdout
    for line, expected in zip(lines, kinds + list(MISTAKES.values())):
        assert expected in line


def test_stubs_match(tmp_path):
    (tmp_path / "allowed").write_text(ALLOWED, encoding="utf-8")
    command = [sys.executable, "-m", "mypy.stubtest", "ungula", "--allowlist", "allowed", "--ignore-unused-allowlist"]
    done = subprocess.run(command, capture_output=True, text=True, env=environment(), cwd=tmp_path, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_public_name_exists_and_is_documented():
    assert len(set(ungula.__all__)) == len(ungula.__all__)
    for name in ungula.__all__:
        assert inspect.getdoc(getattr(ungula, name)), name
    assert all(name in ungula.__all__ for name in ungula.describe())
    help_text = subprocess.run(
        [sys.executable, "-c", "import ungula; help(ungula.cast_length)"], capture_output=True, text=True, check=True
    ).stdout
    assert "overlap_fraction=0.5" in help_text and "accepted 100 to 900 mm" in help_text


def test_import_is_light():
    code = "import sys; before = set(sys.modules); import ungula; print(*sorted(set(sys.modules) - before))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    heavy = {"numpy", "json", "html", "inspect", "dataclasses", "asyncio", "unittest", "importlib.resources"}
    assert not heavy & set(loaded)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="ru_maxrss is in kB on Linux only")
def test_memory_does_not_grow():
    widths, text = np.linspace(40, 110, 50), "50"
    oval, depths, bow_tie = LISTS["ung_point"], LISTS["ung_depth"], [[0, 0], [50, 50], [50, 0], [0, 60]]

    def everything():
        tape = ungula.cast_length(**TAPE)
        many = tape.again(tape_width_mm=widths, circumference_low_mm=np.float32([[400], [405]]))
        _ = repr(tape), tape.cautions, many.cautions, tape.inputs, hash(tape)
        ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128, outline_count=30)
        inset = ungula.outline_inset(outline=oval, depths={"depth_mm": depths})
        _ = inset.inset.rows, inset.inputs, inset.cautions, repr(inset), ungula.outline_measure(outline=inset.inset)
        ragged, imaginary = [[1, 2], [3]], [[1j, 2]]
        for wrong in (bow_tie, oval[:2], oval.T, oval.astype(complex), ragged, text, {"x_mm": depths}, imaginary):
            try:
                ungula.outline_measure(outline=wrong)
            except (TypeError, ValueError):
                continue
            raise AssertionError(wrong)
        ungula.lift(tape, "thin_edge", "passes_count")
        for wrong in (5, math_nan, [50, 5000], text, [text], 50j, [[50], [60, 70]]):
            try:
                tape.again(tape_width_mm=wrong)
            except (TypeError, ValueError):
                continue
            raise AssertionError(wrong)
        for count in (2, -1, 2.5):
            try:
                ungula.outline_standard(hoof_length_mm=135, hoof_width_mm=128, outline_count=count)
            except (TypeError, ValueError):
                pass
        try:
            ungula.lift(tape, "no_such_code", "passes_count")
        except ValueError:
            pass

    math_nan = float("nan")
    rounds = 300 if SHORT else 1_500
    for _ in range(2 * rounds):  # caches and pools fill
        everything()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for _ in range(rounds):
        everything()
    # one leaked object of 24 bytes a round is 36 kB; 512 kB is what the allocator's arenas come in
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before <= 512
