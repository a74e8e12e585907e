import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from yardapp.formulas.area import (
    blade_area_ratio,
    expanded_area,
    mean_width_ratio,
    projected_area_ratio,
    propeller_mass,
    propeller_materials,
)
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.uncertainty import propagate

STATIONS = np.arange(2, 11) / 10
# Outline of the B-series, c Z / (D AE/A0): Oosterveld & van Oossanen 1975, Table 2; hub radius over tip radius.
OUTLINES = {
    3: ([1.633, 1.832, 2.000, 2.120, 2.186, 2.168, 2.127, 1.657, 0], 0.180),
    4: ([1.662, 1.882, 2.050, 2.152, 2.187, 2.144, 1.970, 1.582, 0], 0.167),
}


def test_taylor_at_a_pitch_ratio_of_one():
    # Printed in US Department of Defense UFC 4-159-03, Moorings, beside eq. 22.
    assert projected_area_ratio(1.0) == pytest.approx(0.838, abs=5e-4)


def test_the_edge_of_the_range_still_has_an_uncertainty():
    assert propagate(projected_area_ratio, pitch_ratio=ufloat(1.4, 0.02)).s == pytest.approx(0.229 * 0.02)


@pytest.mark.parametrize("pitch_ratio", [0.59, 1.41])
def test_it_never_extrapolates(pitch_ratio):
    with pytest.raises(OutsideRange, match=r"0\.6 to 1\.4"):
        projected_area_ratio(pitch_ratio)


@pytest.mark.parametrize("blades", [3, 4])
def test_the_outline_of_the_b_series_closes_on_its_nominal_area(blades):
    outline, hub_ratio = OUTLINES[blades]
    diameter_m, area_ratio = 1.2, 0.55
    widths_m = np.array(outline) * diameter_m * area_ratio / blades

    area_m2 = expanded_area(STATIONS * diameter_m / 2, widths_m, hub_ratio * diameter_m / 2, blades)

    # The nominal area is the name the series gives the blade; plain Simpson falls 4 % short of it.
    assert blade_area_ratio(area_m2, diameter_m) == pytest.approx(area_ratio, rel=0.01)


def test_a_round_tip_is_measured_exactly():
    # Half an ellipse laid along the blade: width 2 b sqrt(1 - x^2), from the middle out; area pi a b / 2 each blade.
    radii_m = np.concatenate([np.linspace(1e-9, 0.9, 60), [1.0]])
    widths_m = 0.4 * np.sqrt(1 - radii_m**2)

    assert expanded_area(radii_m, widths_m, 1e-9, 2) == pytest.approx(2 * np.pi * 0.2 / 2, rel=0.001)


def test_a_tip_cut_square_counts_whole():
    assert expanded_area([0.1, 0.2, 0.3, 0.4], [0.2, 0.2, 0.2, 0.2], 0.05, 3) == pytest.approx(3 * 0.2 * 0.35)


def test_the_blade_between_the_hub_and_the_first_station_is_added():
    straight = {"radii_m": [0.1, 0.2, 0.3, 0.4], "widths_m": [0.2, 0.3, 0.4, 0.5], "blades": 3}

    # A trapezium by hand: width 0.1 + r, from 0.05 to 0.1 holds 0.05 x 0.175.
    added = expanded_area(hub_radius_m=0.05, **straight) - expanded_area(hub_radius_m=0.1, **straight)

    assert added == pytest.approx(3 * 0.05 * 0.175)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(0.01, 0.5), min_size=8, max_size=8), st.floats(0.2, 3.0))
def test_twice_the_size_is_four_times_the_area(widths, radius_m):
    widths_m = np.array([*widths, 0.0])
    once = expanded_area(STATIONS * radius_m, widths_m, 0.15 * radius_m, 4)

    assert expanded_area(2 * STATIONS * radius_m, 2 * widths_m, 0.3 * radius_m, 4) == pytest.approx(4 * once)


def test_many_outlines_at_once_give_what_each_gives():
    widths_m = np.array([OUTLINES[3][0], OUTLINES[4][0]]) * 0.1

    together = expanded_area(STATIONS, widths_m, [0.18, 0.16], [3, 4])

    alone = [float(expanded_area(STATIONS, widths_m[0], 0.18, 3)), float(expanded_area(STATIONS, widths_m[1], 0.16, 4))]
    np.testing.assert_allclose(together, alone)


def test_the_mean_width_times_the_blades_is_the_area():
    ratio = mean_width_ratio(0.12, 3, 0.5, 0.05)

    assert ratio * 0.5 * 3 * (0.25 - 0.05) == pytest.approx(0.12)


def test_a_rough_mass_is_the_handbooks():
    # D. Gerr, Propeller Handbook (from memory, medium): 24 in gives 39 lb with three blades and 52 lb with four.
    lb = propeller_mass(24 * 0.0254, [3, 4]) / 0.45359237

    np.testing.assert_allclose(lb, [39, 52], atol=0.5)


def test_another_alloy_weighs_by_its_density():
    assert propeller_mass(0.5, 3, 2680.0) / propeller_mass(0.5, 3) == pytest.approx(2680 / 8300)


def test_every_alloy_says_where_it_comes_from_and_what_is_not_known_is_nan():
    alloys = propeller_materials()

    assert [alloy.alloy for alloy in alloys if not (alloy.source and alloy.status)] == []
    assert np.isnan([alloy.proof_pa for alloy in alloys if alloy.designation == "ACI CB7Cu-1"]).all()


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (expanded_area, ([0.1, 0.2, 0.3], [0.1, 0.1, 0], 0.05, 3), "radii_m"),
        (expanded_area, ([0.1, 0.3, 0.2, 0.4], [0.1, 0.1, 0.1, 0], 0.05, 3), "radii_m"),
        (expanded_area, ([0.1, 0.2, 0.3, 0.4], [0.1, 0.1, 0], 0.05, 3), "widths_m"),
        (expanded_area, ([0.1, 0.2, 0.3, 0.4], [0.1, 0, 0.1, 0], 0.05, 3), "widths_m"),
        (expanded_area, ([0.1, 0.2, 0.3, 0.4], [0.1, 0.1, 0.1, 0], 0.15, 3), "hub_radius_m"),
        (expanded_area, ([0.1, 0.2, 0.3, 0.4], [0.1, 0.1, 0.1, 0], 0.05, 1), "blades"),
        (blade_area_ratio, (0.1, 0.0), "diameter_m"),
        (mean_width_ratio, (0.1, 3, 0.5, 0.25), "hub_radius_m"),
        (propeller_mass, (0.5, 5), "blades"),
        (propeller_mass, (np.inf, 3), "diameter_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(expanded_area([0.1, 0.2, 0.3, 0.4], [0.1, np.nan, 0.1, 0], 0.05, 3))
    assert np.isnan(projected_area_ratio(np.nan))
    assert np.isnan(propeller_mass(0.5, np.nan))
