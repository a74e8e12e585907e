import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.imperial import FOOT_M, HORSEPOWER_W
from yardapp.formulas.propulsion import advance_speed, effective_power, thrust_needed
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.sizing import working_point
from yardapp.formulas.wake import hull_efficiency


def test_the_power_that_moves_mits_survey_vessel():
    # MIT 2.611, Fall 2006, Problem Set 1, problem 1: PE 1433 hp from a chart that is read to 4 % in thrust.
    speed = 20 * 1.688 * FOOT_M
    point = working_point(200 / 60, advance_speed(speed, 0.18), 10 * FOOT_M, 1.0, 0.90, 5, 1025.86)

    assert float(effective_power(point.thrust_n, 0.12, speed)) / HORSEPOWER_W == pytest.approx(1433, rel=0.04)


@settings(max_examples=40, deadline=None)
@given(st.floats(10, 1e6), st.floats(-0.1, 0.5), st.floats(-0.1, 0.5), st.floats(0.5, 25))
def test_hull_efficiency_is_the_power_that_moves_over_the_power_of_the_thrust(resistance, deduction, wake, speed):
    thrust = thrust_needed(resistance, deduction)

    moving = effective_power(thrust, deduction, speed)

    assert float(moving) == pytest.approx(resistance * speed)
    by_power = moving / (thrust * advance_speed(speed, wake))
    assert float(by_power) == pytest.approx(float(hull_efficiency(wake, deduction)))


def test_two_screws_share_the_resistance():
    assert float(thrust_needed(9000.0, 0.1, 2)) == pytest.approx(5000.0)


def test_a_boat_at_the_mooring_is_moved_by_nothing():
    assert (float(effective_power(5000.0, 0.1, 0.0)), float(advance_speed(0.0, 0.2))) == (0.0, 0.0)


@pytest.mark.parametrize("screws", [0, 1.5, 5])
def test_screws_are_counted_in_whole_numbers(screws):
    with pytest.raises(OutsideRange, match="whole number from 1 to 4"):
        thrust_needed(9000.0, 0.1, screws)


def test_what_is_not_known_stays_unknown():
    assert np.isnan(thrust_needed([np.nan, 1.0], [0.1, np.nan])).all()
