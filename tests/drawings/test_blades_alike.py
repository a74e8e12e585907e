from math import atan2, degrees, hypot, radians

import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.blades_alike import MIDDLE_X, MIDDLE_Y, BladeTip, blades_alike


def tips(count=3, **odd):
    return [
        BladeTip(number=number, radius_ratio=1.0, place_rad=0.0, track_m=0.0, **(odd if number == 2 else {}))
        if number != 2 or not odd
        else BladeTip(number=2, **odd)
        for number in range(1, count + 1)
    ]


def turn_of(corners):
    x, y = corners[2]
    return degrees(atan2(x - MIDDLE_X, MIDDLE_Y - y)) % 360, hypot(x - MIDDLE_X, y - MIDDLE_Y)


def test_even_blades_stand_evenly_round():
    drawn = Drawn(blades_alike(tips(4)))

    assert [turn_of(drawn.corners("blade", which))[0] for which in range(4)] == pytest.approx(
        [0, 90, 180, 270], abs=0.1
    )


def test_a_blade_off_its_place_is_drawn_ten_times_as_far_off_and_said():
    drawn = Drawn(blades_alike(tips(4, is_odd=True, place_rad=radians(2), place_label="+2°")))

    assert turn_of(drawn.corners("blade", 1))[0] == pytest.approx(110, abs=0.1)
    assert "ten times" in drawn.text
    assert "+2°" in drawn.text
    assert "off: blade 2" in drawn.title


def test_a_short_blade_is_drawn_short():
    drawn = Drawn(blades_alike(tips(3, radius_ratio=0.9)))

    whole, short = (turn_of(drawn.corners("blade", which))[1] for which in (0, 1))
    assert short / whole == pytest.approx(0.9, abs=0.002)


def test_a_high_tip_stands_above_the_line_of_the_others():
    drawn = Drawn(blades_alike(tips(3, is_odd=True, track_m=0.006, track_label="+6 mm")))

    (_, floor), _ = drawn.corners("others")
    assert drawn.corners("tip", 1)[0][1] < floor
    assert drawn.corners("tip", 0)[0][1] == pytest.approx(floor)
    assert "+6 mm" in drawn.text


def test_nothing_read_is_said():
    assert "Nothing read" in Drawn(blades_alike([])).text
