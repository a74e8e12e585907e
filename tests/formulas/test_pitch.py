import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.pitch import (
    mark_radius,
    pitch_angle,
    pitch_from_angle,
    pitch_from_chord,
    pitch_from_rise,
    pitch_ratio,
    rise_from_edges,
)
from yardapp.formulas.ranges import OutsideRange

RISES = st.floats(0.001, 1.0)
SWINGS = st.floats(0.01, 2 * np.pi)
RADII = st.floats(0.05, 3.0)
ANGLES = st.floats(0.01, 1.5)


@settings(max_examples=50, deadline=None)
@given(RISES, SWINGS)
def test_twice_the_rise_is_twice_the_pitch(rise_m, swing_rad):
    assert pitch_from_rise(2 * rise_m, swing_rad) == pytest.approx(2 * pitch_from_rise(rise_m, swing_rad))


@settings(max_examples=50, deadline=None)
@given(RISES, RADII, st.floats(0.01, 1.99))
def test_a_blade_twice_as_large_has_twice_the_pitch(rise_m, radius_m, chord_over_radius):
    chord_m = chord_over_radius * radius_m
    double = pitch_from_chord(2 * rise_m, 2 * radius_m, 2 * chord_m)

    assert double == pytest.approx(2 * pitch_from_chord(rise_m, radius_m, chord_m))


@settings(max_examples=50, deadline=None)
@given(RADII, ANGLES)
def test_the_angle_of_a_pitch_gives_that_pitch_back(radius_m, angle_rad):
    assert pitch_angle(pitch_from_angle(radius_m, angle_rad), radius_m) == pytest.approx(angle_rad)


@settings(max_examples=50, deadline=None)
@given(RISES, RADII, st.floats(0.01, np.pi))
def test_rise_over_a_chord_is_rise_over_the_swing_it_spans(rise_m, radius_m, swing_rad):
    chord_m = 2 * radius_m * np.sin(swing_rad / 2)

    assert pitch_from_chord(rise_m, radius_m, chord_m) == pytest.approx(pitch_from_rise(rise_m, swing_rad), rel=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(RISES, SWINGS), min_size=1, max_size=20))
def test_an_array_gives_what_its_members_give(readings):
    rise_m, swing_rad = np.transpose(readings)

    alone = [float(pitch_from_rise(*reading)) for reading in readings]

    np.testing.assert_allclose(pitch_from_rise(rise_m, swing_rad), alone, rtol=1e-14)


@settings(max_examples=50, deadline=None)
@given(RISES, st.floats(0.01, 3.0), st.floats(1.01, 2.0))
def test_the_same_rise_over_a_longer_swing_is_less_pitch(rise_m, swing_rad, stretch):
    assert pitch_from_rise(rise_m, stretch * swing_rad) < pitch_from_rise(rise_m, swing_rad)


@pytest.mark.parametrize(("chord_m", "more"), [(0.060, 0.006), (0.100, 0.018)])
def test_taking_the_chord_for_the_arc_overstates_pitch(chord_m, more):
    # asin(x)/x - 1 at r = 157.5 mm: 0.6 % for 60 mm and 1.8 % for 100 mm; geometry, worked by hand.
    taken_wrongly = 2 * np.pi * 0.1575 * 0.02 / chord_m

    assert taken_wrongly / pitch_from_chord(0.02, 0.1575, chord_m) - 1 == pytest.approx(more, abs=0.0008)


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (pitch_from_rise, (0.0, 0.7), "rise_m"),
        (pitch_from_rise, (0.03, 6.30), "swing_rad"),
        (pitch_from_rise, (0.03, -0.1), "swing_rad"),
        (pitch_from_rise, ([0.03, 0.04], [0.1, 0.2, 0.3]), "swing_rad"),
        (pitch_from_angle, (0.1, np.pi / 2), "angle_rad"),
        (pitch_from_angle, (np.inf, 0.3), "radius_m"),
        (pitch_from_chord, (0.03, 0.1, 0.201), "chord_m"),
        (pitch_angle, (0.3, 0.0), "radius_m"),
        (pitch_ratio, (0.3, -0.4), "diameter_m"),
        (rise_from_edges, (np.inf, 0.1), "leading_m"),
        (mark_radius, (0.0,), "diameter_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_a_full_turn_and_a_full_diameter_are_still_measured():
    assert pitch_from_rise(0.3, 2 * np.pi) == pytest.approx(0.3)
    assert pitch_from_chord(0.3, 0.1, 0.2) == pytest.approx(0.6)


def test_what_is_not_known_stays_not_known():
    assert np.isnan(pitch_from_rise([0.03, np.nan], [np.nan, 0.5])).all()
    assert np.isnan(pitch_from_chord(0.03, np.nan, 0.1))
    assert np.isnan(rise_from_edges(0.1, np.nan))


def test_swapped_edges_are_a_rise_below_zero():
    assert rise_from_edges(0.1100, 0.1433) == pytest.approx(-0.0333)
    assert rise_from_edges(0.1433, 0.1100) == pytest.approx(0.0333)


def test_the_mark_stands_at_seven_tenths_of_the_radius():
    # reference/pitch_examples.csv: 157.5 mm on a diameter of 450 mm.
    assert mark_radius(0.450) == pytest.approx(0.1575)
