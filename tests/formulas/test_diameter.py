import numpy as np
import pytest

from yardapp.formulas.diameter import (
    diameter_across,
    diameter_from_next_tip,
    diameter_from_string,
    diameter_from_tip_chord,
    diameter_from_tip_radius,
    tip_wear,
)
from yardapp.formulas.ranges import OutsideRange


def tips_on_a_circle(blades, diameter_m=1.0):
    return diameter_m / 2 * np.exp(2j * np.pi * np.arange(blades) / blades)


@pytest.mark.parametrize("blades", [3, 5, 7, 9])
def test_tips_on_a_circle_give_its_diameter(blades):
    tips = tips_on_a_circle(blades)
    apart = np.abs(tips - tips[0])

    assert diameter_from_tip_chord(apart.max(), blades) == pytest.approx(1.0)
    assert diameter_from_next_tip(apart[1], blades) == pytest.approx(1.0)


@pytest.mark.parametrize("blades", [3, 4, 5, 6, 7])
def test_a_string_round_every_tip_gives_the_diameter(blades):
    tips = tips_on_a_circle(blades, 0.6)
    string_m = np.abs(np.diff([*tips, tips[0]])).sum()

    assert diameter_from_string(string_m, blades) == pytest.approx(0.6)


def test_a_blade_that_stands_out_of_its_place_makes_the_string_shorter():
    turned = tips_on_a_circle(3) * np.exp(1j * np.radians([0, 5, 0]))
    string_m = np.abs(np.diff([*turned, turned[0]])).sum()

    assert diameter_from_string(string_m, 3) < 1.0


def test_straight_across_is_the_diameter_itself():
    tips = tips_on_a_circle(4, 0.61)

    assert diameter_across(np.abs(tips[2] - tips[0]), 4) == pytest.approx(0.61)


def test_twice_the_tip_radius_is_the_diameter():
    assert diameter_from_tip_radius(0.2795) == pytest.approx(0.559)


@pytest.mark.parametrize("blades", [2, 4, 6, 1, 3.5, 11])
def test_even_or_broken_counts_of_blades_are_refused(blades):
    with pytest.raises(OutsideRange, match="must be 3, 5, 7 or 9"):
        diameter_from_tip_chord(0.5, blades)


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (diameter_from_tip_radius, (0.0,), "tip_radius_m"),
        (diameter_across, (0.5, 3), "blades"),
        (diameter_across, (-0.5, 4), "across_m"),
        (diameter_from_next_tip, (0.0, 4), "chord_m"),
        (diameter_from_string, (0.0, 3), "string_m"),
        (diameter_from_string, (1.5, 2), "blades"),
        (diameter_from_string, ([1.0, 2.0], [3, 4, 5]), "blades"),
        (tip_wear, (0.276, 0.279), "shortest_m"),
        (tip_wear, (0.276, 0.0), "shortest_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(diameter_from_tip_chord(np.nan, 3))
    assert np.isnan(diameter_from_string(np.nan, 3))
    assert np.isnan(tip_wear(0.28, np.nan))
