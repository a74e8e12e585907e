import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from yardapp.formulas.area import projected_area_ratio
from yardapp.formulas.b_series import efficiency, kq, kt
from yardapp.formulas.pitch import pitch_from_angle, pitch_from_rise, pitch_ratio
from yardapp.formulas.ranges import OutsideRange, hold
from yardapp.formulas.slip import apparent_slip
from yardapp.formulas.uncertainty import propagate, propagate_arrays, u_of_product

DEG = np.pi / 180


@pytest.mark.parametrize(
    ("formula", "readings", "value", "u"),
    [
        # Worked by hand from JCGM 100:2008, 5.1.6, eq. 12: 299.70 mm with u 1.95, 3.89 and 0.0044.
        (pitch_from_rise, {"rise_m": (0.0333, 0.0002), "swing_rad": (40 * DEG, 0.1 * DEG)}, 0.29970, 0.00195),
        (pitch_from_angle, {"radius_m": (0.1575, 0.0005), "angle_rad": (16.849 * DEG, 0.2 * DEG)}, 0.29970, 0.00389),
        (pitch_ratio, {"pitch_m": (0.29970, 0.00195), "diameter_m": (0.450, 0.0005)}, 0.6660, 0.0044),
    ],
    ids=["M1", "M2", "M4"],
)
def test_both_ways_give_the_doubt_worked_by_hand(formula, readings, value, u):
    alone = propagate(formula, **{name: ufloat(*reading) for name, reading in readings.items()})
    together, u_together = propagate_arrays(formula, **readings)

    digit = 5e-5 if formula is pitch_ratio else 6e-6
    assert (alone.n, alone.s) == (pytest.approx(value, abs=digit), pytest.approx(u, abs=digit))
    assert (float(together), float(u_together)) == (pytest.approx(alone.n), pytest.approx(alone.s, rel=1e-6))


@settings(max_examples=40, deadline=None)
@given(st.floats(0.005, 0.5), st.floats(0.1, 6.0), st.floats(1e-6, 0.01), st.floats(1e-6, 0.05))
def test_the_closed_form_agrees_with_both(rise_m, swing_rad, u_rise_m, u_swing_rad):
    alone = propagate(pitch_from_rise, rise_m=ufloat(rise_m, u_rise_m), swing_rad=ufloat(swing_rad, u_swing_rad))
    _, together = propagate_arrays(pitch_from_rise, rise_m=(rise_m, u_rise_m), swing_rad=(swing_rad, u_swing_rad))

    closed = float(u_of_product(alone.n, (rise_m, u_rise_m, 1), (swing_rad, u_swing_rad, -1)))

    assert alone.s == pytest.approx(closed, rel=1e-5, abs=1e-12)
    assert float(together) == pytest.approx(closed, rel=1e-5, abs=1e-12)


def test_a_reading_used_twice_stays_one_reading():
    reading = ufloat(0.300, 0.002)

    assert propagate(pitch_ratio, pitch_m=reading, diameter_m=reading).s == pytest.approx(0, abs=1e-9)


def test_a_plain_number_is_exact():
    assert propagate(pitch_ratio, pitch_m=ufloat(0.3, 0.003), diameter_m=0.5).s == pytest.approx(0.006)


def test_the_edge_of_the_range_still_has_an_uncertainty():
    assert propagate(projected_area_ratio, pitch_ratio=ufloat(1.4, 0.02)).s == pytest.approx(0.229 * 0.02)


def test_a_pull_at_the_bollard_has_an_uncertainty():
    # At J = 0 the slope of the efficiency J KT / (2 pi KQ) is KT / (2 pi KQ), by hand.
    slope = float(kt(0.0, 1.0, 0.718, 3) / (2 * np.pi * kq(0.0, 1.0, 0.718, 3)))

    def of_advance(advance_ratio):
        return efficiency(advance_ratio, 1.0, 0.718, 3)

    alone = propagate(of_advance, advance_ratio=ufloat(0.0, 0.01))
    _, together = propagate_arrays(of_advance, advance_ratio=([0.0, 0.0], 0.01))

    assert alone.s == pytest.approx(0.01 * slope, rel=1e-5)
    assert list(together) == pytest.approx([0.01 * slope] * 2, rel=1e-5)


def test_a_step_to_one_side_loosens_no_check():
    with pytest.raises(OutsideRange, match="speed_mps is -1e-09"):
        propagate(apparent_slip, speed_mps=ufloat(-1e-9, 0.1), pitch_m=0.4, shaft_speed_rps=12.0)


def test_zero_that_may_only_be_left_downwards_has_an_uncertainty_too():
    # No formula of the package has zero for its upper end: this one is the test's own.
    def decline(fall_ratio):
        return 2 * hold("fall_ratio", fall_ratio, "must be zero or less.", at_most=0)

    assert propagate(decline, fall_ratio=ufloat(0.0, 0.1)).s == pytest.approx(0.2, rel=1e-6)


def test_the_edge_of_a_range_has_an_uncertainty_in_arrays_too():
    _, u = propagate_arrays(projected_area_ratio, pitch_ratio=([0.6, 1.0, 1.4], 0.02))

    assert list(u) == pytest.approx([0.229 * 0.02] * 3, rel=1e-6)


def test_a_formula_refuses_through_the_uncertainty():
    with pytest.raises(OutsideRange, match="swing_rad"):
        propagate(pitch_from_rise, rise_m=ufloat(0.03, 0.001), swing_rad=ufloat(7.0, 0.1))


def test_a_doubt_below_zero_is_refused():
    with pytest.raises(OutsideRange, match="u_rise_m is -"):
        propagate_arrays(pitch_from_rise, rise_m=(0.03, -0.001), swing_rad=(0.7, 0.01))
    with pytest.raises(OutsideRange, match="u_factor"):
        u_of_product(1.0, (1.0, -0.1, 1))


def test_a_factor_of_zero_has_no_share():
    with pytest.raises(OutsideRange, match="factor is 0"):
        u_of_product(1.0, (0.0, 0.1, 1))


def test_what_is_not_known_has_no_known_doubt():
    value, u = propagate_arrays(pitch_from_rise, rise_m=([0.03, np.nan], 0.001), swing_rad=(0.7, 0.01))

    assert np.isnan(value).tolist() == np.isnan(u).tolist() == [False, True]
