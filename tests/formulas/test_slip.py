import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.slip import apparent_slip, real_slip

SPEEDS = st.floats(0, 25)
PITCHES = st.floats(0.2, 2.0)
TURNS = st.floats(3, 60)


def test_at_the_mooring_all_is_slip():
    assert apparent_slip(0.0, 0.4, 12.0) == real_slip(0.0, 0.4, 12.0, 0.2) == 1


def test_a_screw_in_a_solid_does_not_slip():
    assert apparent_slip(0.4 * 12.0, 0.4, 12.0) == pytest.approx(0)


@settings(max_examples=40, deadline=None)
@given(SPEEDS, PITCHES, TURNS, st.floats(0.01, 0.4))
def test_a_wake_makes_the_real_slip_the_larger(speed_mps, pitch_m, shaft_speed_rps, wake_ratio):
    real = real_slip(speed_mps, pitch_m, shaft_speed_rps, wake_ratio)

    assert real >= apparent_slip(speed_mps, pitch_m, shaft_speed_rps) - 1e-12
    # Definition: 1 - V (1 - w) / (n P).
    assert real == pytest.approx(1 - speed_mps * (1 - wake_ratio) / (shaft_speed_rps * pitch_m), abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(SPEEDS, PITCHES, TURNS)
def test_with_no_wake_both_slips_are_one(speed_mps, pitch_m, shaft_speed_rps):
    both = real_slip(speed_mps, pitch_m, shaft_speed_rps, 0.0), apparent_slip(speed_mps, pitch_m, shaft_speed_rps)

    assert both[0] == both[1]


def test_a_trial_in_one_array_gives_what_its_runs_give():
    together = apparent_slip([2.0, 3.0], 0.4, [8.0, 11.0])

    assert together.tolist() == [float(apparent_slip(2.0, 0.4, 8.0)), float(apparent_slip(3.0, 0.4, 11.0))]


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (apparent_slip, (-0.1, 0.4, 12.0), "speed_mps"),
        (apparent_slip, (3.0, 0.0, 12.0), "pitch_m"),
        (apparent_slip, (3.0, 0.4, np.inf), "shaft_speed_rps"),
        (apparent_slip, ([1.0, 2.0], [0.4, 0.4, 0.4], 12.0), "pitch_m"),
        (real_slip, (3.0, 0.4, 12.0, 1.0), "wake_ratio"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(real_slip(3.0, 0.4, 12.0, np.nan))
