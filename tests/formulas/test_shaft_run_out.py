import numpy as np
import pytest

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.shaft_run_out import (
    bearing_play,
    bend_offset,
    dial_swing,
    offset_from_quarters,
    out_of_round,
    ovality,
    wear,
)

QUARTERS = np.radians([0, 90, 180, 270])


@pytest.mark.parametrize("at_deg", [0, 20, 45, 133, 271])
def test_a_bent_shaft_turned_under_a_dial_gives_its_offset_back_whichever_way_it_is_bent(at_deg):
    # An independent route: a round of 19 mm radius whose middle turns at 0.25 mm about the line between the supports;
    # the dial reads where its top crosses the upright through that line, by the circle's own equation.
    offset, radius = 0.00025, 0.019
    turn = QUARTERS - np.radians(at_deg)
    x, y = offset * np.sin(turn), offset * np.cos(turn)
    dial = y + np.sqrt(radius**2 - x**2) - radius

    assert float(offset_from_quarters(dial)) == pytest.approx(offset, rel=1e-3)
    assert float(out_of_round(dial)) == pytest.approx(0, abs=4e-6)


def test_run_out_is_twice_the_offset():
    # trade.md: run-out is the full dial swing, twice the bend's offset.
    turn = np.radians(np.arange(0, 360, 5))
    swing = dial_swing(0.00025 * np.cos(turn))

    assert float(swing) == pytest.approx(0.0005)
    assert float(bend_offset(swing)) == pytest.approx(0.00025)


def test_an_oval_shaft_is_not_a_bent_one():
    # Two diameters of 38.0 and 37.8 mm turned under a dial: radii 19.0, 18.9, 19.0, 18.9.
    dial = np.array([0.0, -0.0001, 0.0, -0.0001])

    assert float(offset_from_quarters(dial)) == pytest.approx(0, abs=1e-12)
    assert float(out_of_round(dial)) == pytest.approx(0.0002)
    assert float(out_of_round(dial)) == pytest.approx(float(ovality(0.0380, 0.0378)))


def test_wear_is_told_from_the_thickest_place():
    assert wear([0.0380, 0.0377, 0.0379]) == pytest.approx([0, 0.0003, 0.0001])


def test_play_is_on_diameter():
    assert float(bearing_play(0.0390, 0.0381)) == pytest.approx(0.0009)
    assert float(bearing_play(0.0380, 0.0381)) < 0


@pytest.mark.parametrize(
    ("formula", "given", "box"),
    [
        (bend_offset, {"swing_m": -0.001}, "swing_m"),
        (dial_swing, {"dial_m": [0.0]}, "dial_m"),
        (offset_from_quarters, {"dial_m": [0.0, 0.1, 0.2]}, "dial_m"),
        (out_of_round, {"dial_m": [0.0, 0.1, 0.2, np.inf]}, "dial_m"),
        (wear, {"diameters_m": [0.038]}, "diameters_m"),
        (wear, {"diameters_m": [0.038, -0.01]}, "diameters_m"),
        (ovality, {"first_m": 0.0, "second_m": 0.1}, "first_m"),
        (bearing_play, {"bearing_bore_m": 0.04, "shaft_m": 0.0}, "shaft_m"),
    ],
)
def test_what_can_not_be_is_refused_by_name(formula, given, box):
    with pytest.raises(OutsideRange) as refused:
        formula(**given)

    assert refused.value.argument == box
