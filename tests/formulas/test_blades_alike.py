import numpy as np
import pytest

from yardapp.formulas.blades_alike import (
    odd_one_out,
    off_the_others,
    place_off,
    rake,
    rake_angle,
    spacing_closing,
    spacing_off,
    spread,
)
from yardapp.formulas.ranges import OutsideRange


@pytest.mark.parametrize("blades", [2, 3, 4, 5, 7])
def test_a_blade_bent_by_so_much_stands_off_by_just_that(blades):
    heights = np.full(blades, 0.100)
    heights[1] += 0.006

    off = off_the_others(heights)

    # By hand: the mean of the others is 0.100 for the bent one; for each other it is 0.100 + 0.006 / (blades - 1).
    assert off[1] == pytest.approx(0.006)
    assert np.delete(off, 1) == pytest.approx([-0.006 / (blades - 1)] * (blades - 1))


@pytest.mark.parametrize("bent", [0, 1, 2, 3])
def test_a_blade_bent_round_is_found_by_its_place_whichever_it_is(bent):
    # Four blades drawn at 0, 90, 180, 270 degrees, one moved on by 2: angles between neighbours by subtraction.
    places = np.array([0.0, 90.0, 180.0, 270.0])
    places[bent] += 2.0
    spacings = np.radians(np.diff([*places, places[0] + 360.0]))

    off = np.degrees(place_off(spacings))

    assert off[bent] == pytest.approx(2.0)
    assert odd_one_out(place_off(spacings), np.radians(0.1)).place == bent
    assert float(spacing_closing(spacings)) == pytest.approx(0, abs=1e-12)


def test_what_the_angles_miss_a_full_turn_by_is_told_and_spread_out():
    spacings = np.radians([120.5, 120.5, 120.5])

    assert float(np.degrees(spacing_closing(spacings))) == pytest.approx(1.5)
    assert spacing_off(spacings) == pytest.approx([0, 0, 0], abs=1e-12)


def test_track_is_the_span_of_the_tips():
    assert float(spread([0.101, 0.097, 0.1005])) == pytest.approx(0.004)


def test_a_tip_lower_than_its_root_is_raked_aft_when_it_lies_face_down():
    # 25 mm over 200 mm of blade: atan(0.125) is 7.125 degrees.
    assert float(rake(0.120, 0.095)) == pytest.approx(0.025)
    assert float(np.degrees(rake_angle(0.025, 0.06, 0.26))) == pytest.approx(7.125, abs=1e-3)
    assert float(rake_angle(-0.025, 0.06, 0.26)) < 0


def test_blades_that_differ_by_no_more_than_the_readings_allow_are_alike():
    found = odd_one_out([0.1000, 0.1004, 0.1001], 0.00025)

    # 0.35 mm off the others; 2 x 0.25 x sqrt(1.5) = 0.61 mm is allowed.
    assert not found.is_odd
    assert found.u == pytest.approx(0.00025 * 1.5**0.5)


def test_of_two_blades_nobody_can_say_which_is_bent():
    found = odd_one_out([0.100, 0.106], 0.0002)

    assert found.is_odd
    assert found.place is None
    assert abs(found.off) == pytest.approx(0.006)


def test_of_three_blades_in_a_row_nobody_can_say_whether_the_high_or_the_low_one_is_bent():
    found = odd_one_out([0.100, 0.106, 0.112], 0.0002)

    assert found.is_odd
    assert found.place is None


def test_two_bent_blades_are_told_by_the_others_that_do_not_agree():
    found = odd_one_out([0.100, 0.112, 0.1035, 0.100], 0.0002)

    assert found.place == 1
    assert not found.others_agree


def test_alike_blades_are_called_bent_no_more_often_than_the_plus_minus_says():
    draw = np.random.default_rng(3)
    called = sum(odd_one_out(0.1 + draw.normal(0, 0.0005, 3), 0.0005).is_odd for _ in range(1000))

    # Each of three stands off by more than 2 u about 4.6 times in 100; at least one, between 4.6 and 13.7.
    assert 46 <= called <= 137


@pytest.mark.parametrize(
    ("formula", "given", "box"),
    [
        (off_the_others, {"readings": [0.1]}, "readings"),
        (spread, {"readings": [0.1, np.inf]}, "readings"),
        (spacing_closing, {"spacings_rad": [2.1, -2.0, 2.1]}, "spacings_rad"),
        (place_off, {"spacings_rad": [7.0, 1.0]}, "spacings_rad"),
        (rake_angle, {"rake_m": 0.01, "root_radius_m": 0.3, "tip_radius_m": 0.26}, "root_radius_m"),
        (odd_one_out, {"readings": [0.1, 0.1], "u_reading": -1.0}, "u_reading"),
    ],
)
def test_what_can_not_be_is_refused_by_name(formula, given, box):
    with pytest.raises(OutsideRange) as refused:
        formula(**given)

    assert refused.value.argument == box
