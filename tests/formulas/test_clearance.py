import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.clearance import class_factor, class_rule, handbook_rule, hub_gap_limit, tip_clearance
from yardapp.formulas.ranges import OutsideRange

DIAMETERS = st.floats(0.2, 6.0)


@settings(max_examples=40, deadline=None)
@given(DIAMETERS, st.floats(0.01, 2.0))
def test_room_is_what_lies_beyond_the_tips(diameter_m, gap_m):
    assert tip_clearance(diameter_m / 2 + gap_m, diameter_m) == pytest.approx(gap_m)


def test_a_propeller_too_large_for_its_aperture_has_less_than_no_room():
    assert tip_clearance(0.30, 0.64) == pytest.approx(-0.02)


@settings(max_examples=40, deadline=None)
@given(DIAMETERS, st.integers(3, 6), st.floats(0.05, 1.0))
def test_a_propeller_twice_as_large_asks_for_twice_the_room(diameter_m, blades, k_factor):
    once, twice = class_rule(diameter_m, blades, k_factor), class_rule(2 * diameter_m, blades, k_factor)

    for letter in "abcdef":
        assert getattr(twice, f"{letter}_m") == pytest.approx(2 * getattr(once, f"{letter}_m"))


def test_small_craft_are_governed_by_the_fixed_minima():
    # Lloyd's table: with K small, 0.10, 0.15, 0.12, 0.03, 0.20 and 0.15 D for four blades.
    least = class_rule(1.0, 4, 0.05)

    assert [float(getattr(least, f"{letter}_m")) for letter in "abcdef"] == [0.10, 0.15, 0.12, 0.03, 0.20, 0.15]


def test_more_power_asks_for_more_room_and_more_length_for_less():
    assert np.all(np.diff(class_factor(20.0, 0.4, [1e5, 2e5, 4e5])) > 0)
    assert class_factor(15.0, 0.4, 3e5) > class_factor(20.0, 0.4, 3e5)


def test_a_table_of_propellers_gives_what_each_gives():
    together = class_rule([0.5, 0.6], [3, 5], [0.2, 0.3])

    assert together.a_m.tolist() == [float(class_rule(0.5, 3, 0.2).a_m), float(class_rule(0.6, 5, 0.3).a_m)]


def test_the_handbooks_bands_rise_from_slow_craft_to_fast():
    bands = handbook_rule([0.5, 1.0])

    np.testing.assert_allclose([band.gap_m for band in bands], np.outer([0.08, 0.10, 0.15, 0.20], [0.5, 1.0]))
    assert all("from memory" in band.status for band in bands)


def test_the_hub_overhangs_by_one_shaft_diameter_at_most():
    # SAE J756 and ABYC P-6 as practitioners cite them (secondary).
    assert hub_gap_limit(0.035) == pytest.approx(0.035)


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (tip_clearance, (0.0, 0.5), "hull_clearance_m"),
        (class_factor, (20.0, 1.1, 3e5), "block_ratio"),
        (class_factor, (20.0, 0.4, -1.0), "power_w"),
        (class_rule, (0.6, 2, 0.2), "blades"),
        (class_rule, (0.6, 4, 0.0), "k_factor"),
        (class_rule, (0.6, 4, 0.2, 0.0), "rudder_thickness_m"),
        (handbook_rule, (np.inf,), "diameter_m"),
        (hub_gap_limit, (0.0,), "shaft_diameter_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(tip_clearance(np.nan, 0.5))
    assert np.isnan(class_rule(0.6, np.nan, 0.2).a_m)
    assert np.isnan(class_rule(0.6, 4, np.nan).a_m)
    assert class_rule(1.0, 4, np.nan).d_m == pytest.approx(0.03)
    assert np.isnan(handbook_rule(np.nan)[0].gap_m)
