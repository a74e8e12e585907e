import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.engine import (
    demand_power,
    engine_power,
    engine_torque,
    kept_ratio,
    power_curve,
    power_curve_from_rating,
    rated_shortfall,
)
from yardapp.formulas.ranges import OutsideRange

TABLE = power_curve([20.0, 30.0, 40.0], [20e3, 32e3, 38e3])


def test_the_curve_goes_through_its_points():
    np.testing.assert_allclose(engine_power(TABLE, [20.0, 30.0, 40.0]), [20e3, 32e3, 38e3], rtol=1e-12)


def test_a_rating_gives_its_power_at_its_speed_and_one_torque_below():
    curve = power_curve_from_rating(28e3, 50.0)

    assert float(engine_power(curve, 50.0)) == pytest.approx(28e3)
    assert float(engine_torque(curve, 20.0)) == pytest.approx(28e3 / (2 * np.pi * 50.0))


@pytest.mark.parametrize("speed", [19.9, 40.1, 0.0, np.inf])
def test_nothing_is_said_off_the_curve(speed):
    with pytest.raises(OutsideRange, match="from 20 to 40") as refusal:
        engine_power(TABLE, speed)

    assert refusal.value.argument == "engine_speed_rps"


def test_a_speed_that_is_not_known_gives_a_power_that_is_not_known():
    found = engine_power(TABLE, [np.nan, 30.0])

    assert np.isnan(found[0])
    assert found[1] == pytest.approx(32e3)


@pytest.mark.parametrize(
    ("speeds", "powers", "argument"),
    [
        ([20.0, 20.0], [1.0, 2.0], "engine_speed_rps"),
        ([30.0, 20.0], [1.0, 2.0], "engine_speed_rps"),
        ([20.0, 30.0], [1.0, np.nan], "power_w"),
        ([20.0, 30.0], [1.0, 0.0], "power_w"),
        ([20.0], [1.0], "power_w"),
        ([20.0, 30.0], [1.0, 2.0, 3.0], "power_w"),
    ],
)
def test_a_table_that_is_no_curve_is_refused(speeds, powers, argument):
    with pytest.raises(OutsideRange) as refusal:
        power_curve(speeds, powers)

    assert refusal.value.argument == argument


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 3), st.integers(0, 6))
def test_every_part_of_the_line_takes_something(boxes, bearings):
    kept = float(kept_ratio(boxes, bearings))

    assert float(kept_ratio(boxes + 1, bearings)) < kept
    assert float(kept_ratio(boxes, bearings + 1)) < kept
    assert 0 < kept <= 1


@settings(max_examples=30, deadline=None)
@given(st.floats(5, 60), st.floats(1.01, 3), st.floats(1, 3.5))
def test_demand_rises_with_speed_and_meets_the_known_point(speed, factor, exponent):
    assert float(demand_power(speed, 1000.0, speed, exponent)) == pytest.approx(1000.0)
    assert float(demand_power(speed * factor, 1000.0, speed, exponent)) > 1000.0


def test_unknown_figures_stay_unknown():
    assert np.isnan(demand_power(np.nan, 1.0, 1.0))
    assert np.isnan(kept_ratio(np.nan, 1))
    assert not rated_shortfall(np.nan, 50.0).is_tolerated


def test_half_a_gearbox_is_refused():
    with pytest.raises(OutsideRange, match="whole number"):
        kept_ratio(0.5)
