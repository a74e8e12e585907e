import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.taper import set_up, small_end, taper_angle, taper_from_ends, taper_half_angle

LARGES = st.floats(0.015, 0.2)
TAPERS = st.floats(0.03, 0.2)


@settings(max_examples=50, deadline=None)
@given(LARGES, TAPERS)
def test_two_ends_give_back_the_taper_that_made_them(large_m, taper):
    length_m = 2.5 * large_m

    assert taper_from_ends(large_m, small_end(large_m, length_m, taper), length_m) == pytest.approx(taper)


@settings(max_examples=50, deadline=None)
@given(LARGES, st.floats(-0.001, 0.001), TAPERS)
def test_a_hub_moved_up_by_the_set_up_has_the_shafts_diameter_at_its_large_end(shaft_m, more_m, taper):
    bore_m = shaft_m + more_m

    assert bore_m - taper * set_up(bore_m, shaft_m, taper) == pytest.approx(shaft_m)


def test_a_larger_bore_passes_beyond_and_a_smaller_one_stays_short():
    # Geometry: 0.1 mm of bore moves the hub 1.6 mm at 1:16, 1.2 at 1:12, 1.0 at 1:10.
    moved_m = set_up(0.0301, 0.0300, [1 / 16, 1 / 12, 1 / 10])

    np.testing.assert_allclose(moved_m, [0.0016, 0.0012, 0.0010], rtol=1e-9)
    assert set_up(0.0299, 0.0300, 1 / 16) == pytest.approx(-0.0016)


def test_the_angle_is_both_half_angles():
    # A slope quoted per side is half: 2.4 degrees is 1:12 as a half angle, about 1:24 as a full one.
    assert np.degrees(taper_half_angle(1 / 12)) == pytest.approx(2.4, abs=0.02)
    assert np.degrees(taper_angle(1 / 24)) == pytest.approx(2.4, abs=0.02)


def test_arrays_give_what_scalars_give():
    large_m, small_m = np.array([0.030, 0.040]), np.array([0.025, 0.033])

    together = taper_from_ends(large_m, small_m, 0.080)

    assert together.tolist() == [
        float(taper_from_ends(0.030, 0.025, 0.080)),
        float(taper_from_ends(0.040, 0.033, 0.080)),
    ]


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (taper_from_ends, (0.03, 0.03, 0.1), "small_m"),
        (taper_from_ends, (0.03, 0.02, 0.0), "length_m"),
        (taper_half_angle, (0.0,), "taper"),
        (taper_angle, (1.0,), "taper"),
        (set_up, (0.03, np.inf, 0.0625), "shaft_large_m"),
        (set_up, (0.03, 0.03, 16), "taper"),
        (small_end, (0.03, 0.5, 0.0625), "length_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(taper_from_ends(0.03, np.nan, 0.1))
    assert np.isnan(set_up(0.03, 0.03, np.nan))
