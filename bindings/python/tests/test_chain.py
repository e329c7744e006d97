"""One calculation's results given to the next by field, with no arithmetic between, against the composed formulas."""

import pytest
from mpmath import mpf
from oracle import cast_length, glue_volume, hoof_band

import ungula

# hoof_band states 1e-13 in its usual ranges; what follows adds a few roundings of 1.1e-16 and does not amplify.
TOLERANCE = 2e-13


@pytest.fixture(scope="module")
def band():
    return ungula.hoof_band(
        hoof_length_mm=135, hoof_width_mm=128, toe_angle_deg=50, quarter_angle_deg=75, heel_angle_deg=50,
        low_mm=-25, high_toe_mm=40, high_heel_mm=40,
    )  # fmt: skip


@pytest.fixture(scope="module")
def true_band():
    return hoof_band(135, 128, 50, 75, 50, -25, 40)


def compare(result, expected):
    for field, value in expected.items():
        assert abs(mpf(getattr(result, field)) - value) <= TOLERANCE * abs(value), field


def test_band(band, true_band):
    compare(band, true_band)


def test_band_feeds_glue_volume(band, true_band):
    glue = ungula.glue_volume(
        bonded_area_mm2=band.bonded_area_mm2, wood_area_mm2=band.shoe_area_mm2, top_area_mm2=band.covered_area_mm2
    )
    area = true_band
    compare(glue, glue_volume(area["bonded_area_mm2"], area["shoe_area_mm2"], area["covered_area_mm2"]))


@pytest.mark.parametrize("width", ["50.8", "76.2", "101.6"])  # 2, 3 and 4 inches; the widest covers the belt at once
def test_band_feeds_cast_length(band, true_band, width):
    tape = ungula.cast_length(
        circumference_low_mm=band.circumference_low_mm, circumference_high_mm=band.circumference_high_mm,
        band_height_mm=band.slant_height_mm, tape_width_mm=float(width),
    )  # fmt: skip
    expected = cast_length(
        true_band["circumference_low_mm"], true_band["circumference_high_mm"], true_band["slant_height_mm"], width
    )
    compare(tape, expected)


def test_chain_over_arrays(band):
    import numpy as np

    heights = np.linspace(35, 45, 11)
    bands = band.again(high_toe_mm=heights, high_heel_mm=heights)
    tapes = ungula.cast_length(
        circumference_low_mm=bands.circumference_low_mm, circumference_high_mm=bands.circumference_high_mm,
        band_height_mm=bands.slant_height_mm, tape_width_mm=101.6,
    )  # fmt: skip
    alone = band.again(high_toe_mm=heights[5], high_heel_mm=heights[5])
    assert bands.slant_height_mm[5] == alone.slant_height_mm
    assert tapes.tape_length_mm.shape == (11,)
