import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.b_series import kq, kt, open_water_cubic
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.sizing import (
    best_diameter,
    best_pitch,
    equal_load_pitch,
    handbook_diameter,
    handbook_pitch_ratio,
    handbook_slip,
    pitch_for_power,
    pitch_for_thrust,
    repitch_limit,
    shaft_speed_at_torque,
    usual_slip,
    working_point,
)
from yardapp.formulas.sizing_load import advance_at_load

KNOT = 1852 / 3600
INCH = 0.0254
CRUISER = {
    "power_w": 50e3,
    "shaft_speed_rps": 1000 / 60,
    "advance_speed_mps": 7 * KNOT,
    "area_ratio": 0.55,
    "blades": 3,
}
PUSHED = {"thrust_n": 6_600.0, "diameter_m": 0.64, "advance_speed_mps": 3.6, "area_ratio": 0.55, "blades": 3}
DESIGNS = st.tuples(st.floats(0.6, 1.3), st.floats(0.4, 0.9), st.integers(3, 5))
# diameter and pitch in inches, blades, AE/A0, knots, shaft rpm, gear: the cases of the engine-match reference.
CASES = [
    (20, 16, 3, 0.50, 7, 1200, 2.0, -134, 150, 161),
    (20, 20, 3, 0.60, 14, 1800, 1.75, -145, 161, 196),
    (18, 22, 4, 0.70, 26, 2400, 1.5, -147, 162, 225),
]


@settings(max_examples=50, deadline=None)
@given(DESIGNS, st.floats(0, 20))
def test_the_advance_ratio_at_a_load_carries_it(design, load):
    cubic = open_water_cubic(*design)

    j = float(advance_at_load(cubic.kt, np.asarray(load)))

    assert float(kt(j, *design)) == pytest.approx(load * j**2, rel=1e-9, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(DESIGNS, st.floats(0.1, 0.5), st.floats(1, 10))
def test_the_shaft_speed_at_a_torque_takes_that_torque(design, share, speed):
    turns = speed / (share * design[0] * 0.5)
    point = working_point(turns, speed, 0.5, *design)

    assert float(shaft_speed_at_torque(point.torque_nm, speed, 0.5, *design)) == pytest.approx(turns, rel=1e-9)


@settings(max_examples=30, deadline=None)
@given(DESIGNS, st.floats(0.1, 0.7), st.floats(1, 10))
def test_the_pitch_for_a_power_or_a_thrust_gives_it(design, share, speed):
    pitch, area, blades = design
    turns = speed / (share * pitch * 0.5)
    point = working_point(turns, speed, 0.5, *design)

    by_power = float(pitch_for_power(point.power_w, turns, speed, 0.5, area, blades))
    by_thrust = float(pitch_for_thrust(point.thrust_n, turns, speed, 0.5, area, blades))

    assert float(kq(point.advance_ratio, by_power, area, blades)) == pytest.approx(float(point.kq), rel=1e-9)
    assert float(kt(point.advance_ratio, by_thrust, area, blades)) == pytest.approx(float(point.kt), rel=1e-9)


@pytest.mark.parametrize("case", CASES)
def test_an_inch_of_pitch_or_diameter_moves_the_engine_as_the_reference_has_it(case):
    diameter, pitch, blades, area, knots, rpm, gear, *expected = case
    speed = knots * KNOT
    torque = working_point(rpm / 60, speed, diameter * INCH, pitch / diameter, area, blades).torque_nm
    changed = [(diameter, pitch + 1), (diameter, pitch - 1), (diameter - 1, pitch)]

    found = [shaft_speed_at_torque(torque, speed, d * INCH, p / d, area, blades) for d, p in changed]

    # Printed to 1 rpm of the engine, at constant torque and speed of the boat.
    assert [(float(each) * 60 - rpm) * gear for each in found] == pytest.approx(expected, abs=1.0)


@pytest.mark.parametrize("case", CASES)
def test_an_inch_off_the_diameter_asks_for_more_than_an_inch_of_pitch(case):
    diameter, pitch, blades, area, knots, rpm, *_ = case

    new = equal_load_pitch(diameter * INCH, pitch * INCH, (diameter - 1) * INCH, rpm / 60, knots * KNOT, area, blades)

    # The reference: 1.2 to 1.5 inches of pitch for an inch of diameter, at constant torque and speed.
    assert 1.0 < float(new) / INCH - pitch < 1.6


def test_the_same_diameter_needs_the_same_pitch():
    assert float(equal_load_pitch(0.5, 0.4, 0.5, 20.0, 3.6, 0.5, 3)) == pytest.approx(0.4)


def test_a_diameter_that_no_pitch_of_the_series_suits_has_no_known_pitch():
    assert np.isnan(equal_load_pitch(0.5, 0.4, 0.25, 20.0, 3.6, 0.5, 3))


@settings(max_examples=15, deadline=None)
@given(st.floats(10e3, 200e3), st.floats(10, 30), st.floats(2, 8), st.floats(0.45, 0.8), st.sampled_from([3, 4]))
def test_no_other_diameter_with_the_pitch_that_takes_the_power_is_better(power, turns, speed, area, blades):
    found = best_diameter(power, turns, speed, area, blades)
    others = float(found.diameter_m) * np.array([0.95, 0.99, 1.01, 1.05])

    pitch = pitch_for_power(power, turns, speed, others, area, blades)
    known = ~np.isnan(pitch)
    point = working_point(turns, speed, others[known], pitch[known], area, blades)

    assert np.all(point.efficiency <= float(found.efficiency) + 1e-9)
    assert float(found.power_w) == pytest.approx(power, rel=1e-9)


def test_arrays_of_boats_give_what_each_gives_alone():
    powers, blades = [20e3, 50e3, 90e3], [3, 4, 3]

    together = best_diameter(**CRUISER | {"power_w": powers, "blades": blades})

    alone = [best_diameter(**CRUISER | {"power_w": p, "blades": z}) for p, z in zip(powers, blades, strict=True)]
    np.testing.assert_allclose(together.diameter_m, [float(each.diameter_m) for each in alone], rtol=1e-9)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.5, 2.0))
def test_a_boat_of_another_scale_has_the_same_propeller_enlarged(scale):
    # Froude's law: speeds with the root of length, turns against it, power with 3.5 powers of it.
    base = best_diameter(**CRUISER)
    scaled = best_diameter(
        **CRUISER
        | {
            "power_w": CRUISER["power_w"] * scale**3.5,
            "shaft_speed_rps": CRUISER["shaft_speed_rps"] / scale**0.5,
            "advance_speed_mps": CRUISER["advance_speed_mps"] * scale**0.5,
        }
    )

    assert float(scaled.diameter_m) == pytest.approx(scale * float(base.diameter_m), rel=1e-4)
    assert float(scaled.efficiency) == pytest.approx(float(base.efficiency), rel=1e-9)


def test_a_fast_boat_with_a_slow_shaft_stops_at_the_greatest_pitch_and_says_so():
    found = best_diameter(**CRUISER | {"advance_speed_mps": 12.0})

    assert found.is_at_bound
    assert float(found.pitch_ratio) == pytest.approx(1.4, abs=1e-3)
    assert not best_diameter(**CRUISER).is_at_bound


def test_the_best_pitch_gives_the_thrust():
    found = best_pitch(**PUSHED)
    point = working_point(found.shaft_speed_rps, 3.6, 0.64, found.pitch_ratio, 0.55, 3)

    assert float(point.thrust_n) == pytest.approx(6_600.0)
    assert float(point.efficiency) == pytest.approx(float(found.efficiency))


def test_scale_in_both_coefficients_takes_less_power_than_in_the_thrust_alone():
    # Holtrop & Mennen's ship: with the correction on KQ as well, efficiency 0.6524 for 0.6452.
    ship = {"thrust_n": 2_172_750.0, "diameter_m": 8.0, "advance_speed_mps": 9.5377, "area_ratio": 0.7393, "blades": 4}

    assert float(best_pitch(**ship, scale="thrust").efficiency) == pytest.approx(0.6452, abs=2e-4)
    assert float(best_pitch(**ship, scale="both").efficiency) == pytest.approx(0.6524, abs=2e-4)


def test_an_unknown_way_of_scaling_is_refused():
    with pytest.raises(OutsideRange, match="none, thrust or both"):
        best_pitch(**PUSHED, scale="torque")


@pytest.mark.parametrize("argument", CRUISER)
def test_a_boat_that_is_not_fully_known_has_no_known_best_diameter(argument):
    found = best_diameter(**CRUISER | {argument: np.nan})

    assert np.isnan(found.diameter_m)
    assert not found.is_at_bound


@pytest.mark.parametrize("argument", PUSHED)
def test_a_boat_that_is_not_fully_known_has_no_known_best_pitch(argument):
    assert np.isnan(best_pitch(**PUSHED | {argument: np.nan}).pitch_ratio)


@pytest.mark.parametrize("argument", CRUISER)
def test_a_figure_of_zero_is_refused_by_its_name(argument):
    with pytest.raises(OutsideRange) as refusal:
        best_diameter(**CRUISER | {argument: 0})

    assert refusal.value.argument == argument


def test_a_shaft_too_slow_for_the_series_is_refused():
    with pytest.raises(OutsideRange, match="shaft_speed_rps"):
        pitch_for_power(50e3, 5.0, 10.0, 0.5, 0.5, 3)


def test_a_bollard_pull_has_all_thrust_and_no_efficiency():
    point = working_point(20.0, 0.0, 0.5, 0.8, 0.5, 3)

    assert float(point.thrust_n) > 0
    assert float(point.efficiency) == 0


def test_handbook_lines_go_the_right_way():
    speeds = np.array([7.0, 15.0, 30.0]) * KNOT
    ratios = handbook_pitch_ratio(speeds)

    assert np.all(np.diff(handbook_slip(speeds)) < 0)
    assert np.all(np.diff(handbook_diameter(50e3, [10.0, 20.0, 30.0])) < 0)
    assert np.all((ratios.least < ratios.average) & (ratios.average < ratios.greatest))


def test_what_the_handbooks_do_not_list_is_refused():
    with pytest.raises(OutsideRange, match="bronze, aluminium, stainless"):
        repitch_limit("nylon")
    with pytest.raises(OutsideRange, match="sail, heavy"):
        usual_slip("ferry")
