"""What the tests of the package share: contracts as describe prints them, and random inputs within them."""

import json
import os
import pathlib

import numpy as np
import pytest

import ungula

TOP = pathlib.Path(__file__).resolve().parents[3]
TAPE = {"circumference_low_mm": 405, "circumference_high_mm": 345, "band_height_mm": 100, "tape_width_mm": 50.8}
SHORT = os.environ.get("UNG_TESTS") == "short"
COLUMNAR = [name for name in ungula.describe() if not ungula.describe(name).lists]
LISTED = [name for name in ungula.describe() if ungula.describe(name).lists]

# Invented rows that every calculation with such lists accepts, by the C type of a row.
_AROUND = np.linspace(0, 2 * np.pi, 40, endpoint=False)
LISTS = {
    "ung_point": np.column_stack([66 * np.cos(_AROUND), 61 * np.sin(_AROUND)]),
    "ung_depth": np.full(40, 4.0),
    "ung_wall_station": np.array([[0.0, 12, 50], [0.25, 9, 75], [0.5, 8, 110], [0.75, 9.5, 72]]),
    "ung_screw_station": np.array([[0.2, 40.0, 10, 60, 5], [0.35, 65, 9, 70, 5], [0.5, 90, 8, 80, 5]]),
    "ung_screw_spot": np.array([[55.0, 40, 1], [20, 58, 1], [20, -58, 1], [55, -40, 1]]),
    "ung_job_step": np.array([[30.0, 45, 75, 1], [40, 60, 100, 1], [60, 90, 150, 1], [90, 120, 200, 1]]),
    "ung_cure_time": np.array([[0.0], [60], [200], [215], [400], [4000]]),
    "ung_patch": np.array([[60.0, 0, 3000, 0], [-10, 62, 4000, 0], [-10, -62, 4000, 0]]),
}


def given_lists(name):
    """Rows, or how many are wanted, for each list of a calculation that needs it."""
    given = {}
    for rows in ungula.describe(name).lists:
        if not rows.is_result:
            given[rows.name] = LISTS[rows.row].copy()
        elif rows.same_count_as is None:
            given[rows.name + "_count"] = min(rows.most, max(rows.least, 6))
    return given


def contracts_path():
    path = pathlib.Path(os.environ.get("UNG_CONTRACTS", TOP / "bindings" / "contracts.json"))
    assert path.exists(), f"{path} is missing: make bindings/contracts.json, or set UNG_CONTRACTS"
    return path


@pytest.fixture(scope="session")
def contracts():
    return json.loads(contracts_path().read_text(encoding="utf-8"))["calculations"]


@pytest.fixture
def tape():
    return ungula.cast_length(**TAPE)


def affordable(name, count):
    """count, or a tenth of it for what takes up to a millisecond a call."""
    return count // 10 if name in ("wall_heat", "cup_cure") else count


def random_inputs(name, count, seed=1):
    """Columns within the usual ranges, every fourth element within the accepted ones (so that some are refused by a
    relation between fields)."""
    rng = np.random.default_rng(seed)
    columns = {}
    wide = np.arange(count) % 4 == 3
    for field in ungula.describe(name).inputs:
        usual = rng.uniform(field.usual_lower, field.usual_upper, count)
        accepted = rng.uniform(field.lower, field.upper, count)
        column = np.where(wide, accepted, usual)
        columns[field.name] = np.clip(np.round(column), field.lower, field.upper) if field.whole else column
    return columns


def call(name, **columns):
    return getattr(ungula, name)(**columns)


def bits(values):
    """What a double holds, with every NaN alike."""
    values = np.array(values, dtype=np.float64)
    values[np.isnan(values)] = np.nan
    return np.ascontiguousarray(values).view(np.uint64)
