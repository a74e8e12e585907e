import numpy as np
import pytest

from yardapp.formulas.pitch import pitch_from_rise
from yardapp.formulas.ranges import OutsideRange, alike, hold, hold_whole


def test_a_refusal_names_the_argument_its_value_and_what_is_allowed():
    with pytest.raises(OutsideRange) as refusal:
        pitch_from_rise(0.0333, 7.5)

    assert str(refusal.value) == "swing_rad is 7.5: it must be above zero and at most one full turn."
    assert (refusal.value.argument, refusal.value.figure) == ("swing_rad", "7.5")
    assert refusal.value.said == "must be above zero and at most one full turn."


@pytest.mark.parametrize("figure", [0, -1.0, np.inf, -np.inf, [1.0, 0.0]])
def test_zero_below_zero_and_infinity_are_refused(figure):
    with pytest.raises(OutsideRange, match="rise_m is"):
        hold("rise_m", figure, "must be above zero.", above=0)


def test_what_is_not_known_passes():
    assert np.isnan(hold("rise_m", [np.nan, np.nan], "must be above zero.", above=0, at_most=1)).all()
    assert np.isnan(hold("rise_m", None, "must be above zero.", above=0))


def test_a_bound_that_is_not_known_holds_nothing():
    assert hold("chord_m", 5.0, "must be at most twice the radius.", at_most=np.nan) == 5.0


@pytest.mark.parametrize("bound", [np.inf, [np.inf, np.inf]])
def test_a_bound_that_nothing_reaches_refuses_all(bound):
    with pytest.raises(OutsideRange, match="rise_m is 5"):
        hold("rise_m", 5.0, "must be at least a bound.", at_least=bound)


@pytest.mark.parametrize("bound", [np.inf, [np.inf, np.inf]])
def test_a_bound_that_all_keep_refuses_nothing(bound):
    assert hold("rise_m", 5.0, "must be at most a bound.", at_most=bound) == 5.0


def test_zero_has_no_slack():
    with pytest.raises(OutsideRange, match="rise_m is -1e-12"):
        hold("rise_m", -1e-12, "must be zero or more.", at_least=0)


def test_the_first_figure_outside_is_the_one_that_is_named():
    with pytest.raises(OutsideRange, match=r"chord_m is 0\.9:"):
        hold("chord_m", [0.1, 0.9, 0.8], "must be at most half.", at_most=0.5)


def test_a_numerical_step_does_not_fall_off_an_edge():
    assert hold("pitch_ratio", 1.4 * (1 + 1.5e-8), "must lie from 0.6 to 1.4.", at_least=0.6, at_most=1.4) > 1.4


def test_shapes_that_do_not_go_together_are_refused_by_name():
    with pytest.raises(OutsideRange, match=r"swing_rad is of shape \(2,\)") as refusal:
        alike(rise_m=[1, 2, 3], swing_rad=[1, 2])

    assert refusal.value.argument == "swing_rad"


@pytest.mark.parametrize("blades", [2.5, 1, 10])
def test_a_count_is_whole_and_within_its_bounds(blades):
    with pytest.raises(OutsideRange, match="blades is"):
        hold_whole("blades", blades, "must be a whole number from 2 to 9.", at_least=2, at_most=9)
