import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.shafting import (
    bearing_span,
    bearing_wear_limit,
    first_critical_speed,
    key_stress,
    shaft_diameter_class,
    shaft_diameter_required,
    shaft_materials,
    torque,
)

POWERS = st.floats(1e3, 1e6)
SPEEDS = st.floats(3.0, 60.0)
DIAMETERS = st.floats(0.015, 0.2)
STEEL = {"modulus_pa": 193e9, "density_kgpm3": 7900.0}


@settings(max_examples=40, deadline=None)
@given(POWERS, SPEEDS)
def test_torque_times_the_angle_turned_in_a_second_is_the_power(power_w, shaft_speed_rps):
    assert torque(power_w, shaft_speed_rps) * 2 * np.pi * shaft_speed_rps == pytest.approx(power_w)


@settings(max_examples=40, deadline=None)
@given(POWERS, SPEEDS, st.floats(1.5, 8.0))
def test_the_shaft_required_is_stressed_to_yield_over_its_safety_factor(power_w, shaft_speed_rps, safety_factor):
    diameter_m = shaft_diameter_required(power_w, shaft_speed_rps, 300e6, safety_factor)

    stress_pa = 16 * torque(power_w, shaft_speed_rps) / (np.pi * diameter_m**3)

    assert stress_pa == pytest.approx(300e6 / safety_factor)


@settings(max_examples=40, deadline=None)
@given(POWERS, SPEEDS)
def test_eight_times_the_power_takes_twice_the_shaft(power_w, shaft_speed_rps):
    once, eightfold = (shaft_diameter_class(power * power_w, shaft_speed_rps, 500e6) for power in (1, 8))

    assert eightfold == pytest.approx(2 * once)


def test_strength_above_the_cap_buys_no_thinner_shaft():
    # GL/BKI main shafting rules: 600 N/mm2 at most goes into the formula.
    assert shaft_diameter_class(1e5, 10.0, 900e6) == shaft_diameter_class(1e5, 10.0, 600e6)
    assert shaft_diameter_class(1e5, 10.0, 500e6) > shaft_diameter_class(1e5, 10.0, 600e6)


@settings(max_examples=40, deadline=None)
@given(DIAMETERS, SPEEDS)
def test_the_span_is_the_one_that_whirls_at_the_shafts_own_speed(diameter_m, shaft_speed_rps):
    span_m = bearing_span(diameter_m, shaft_speed_rps, **STEEL)

    assert first_critical_speed(diameter_m, span_m, **STEEL) == pytest.approx(shaft_speed_rps)


@settings(max_examples=40, deadline=None)
@given(DIAMETERS, st.floats(0.3, 3.0))
def test_twice_the_span_whirls_at_a_quarter_of_the_speed(diameter_m, span_m):
    once, twice = (first_critical_speed(diameter_m, spans * span_m, **STEEL) for spans in (1, 2))

    assert twice == pytest.approx(once / 4)


def test_the_spacing_formula_can_pass_forty_diameters():
    # Worked check of the published spacing formula: 1 in, 2000 rpm, 16e6 psi, 0.304 lb/in3 is 40.9 diameters.
    span_m = bearing_span(0.0254, 2000 / 60, 16e6 * 6894.757, 0.304 * 27679.905)

    assert span_m / 0.0254 == pytest.approx(40.9, abs=0.1)


def test_policies_on_wear_disagree_and_each_is_kept():
    limits_m = [float(bearing_wear_limit(0.0508, policy)) for policy in ("3 % due", "6 % limit", "1/32 in", "1/16 in")]

    # Secondary: 0.060, 0.120, 0.031 and 0.063 in on a 2 in shaft.
    np.testing.assert_allclose(np.array(limits_m) / 0.0254, [0.060, 0.120, 0.031, 0.063], atol=6e-4)


def test_a_flat_limit_comes_back_in_the_shape_of_the_shafts():
    assert bearing_wear_limit([0.025, 0.030], "1/32 in").tolist() == [0.00079375, 0.00079375]


def test_the_key_carries_the_torque_at_the_shafts_surface():
    stress = key_stress(240.0, 0.030, 0.008, 0.008, 0.060)

    # By hand: F = 2 x 240 / 0.030 = 16 kN; on 8 x 60 mm 33.3 MPa, on 4 x 60 mm 66.7 MPa.
    assert stress.shear_pa == pytest.approx(33.33e6, rel=1e-3)
    assert stress.bearing_pa == pytest.approx(66.67e6, rel=1e-3)


def test_nickel_and_steel_yield_in_torsion_at_two_thirds_of_their_tensile_yield():
    # ABYC P-6 (7/02): UNS N04400 cold-worked 60 000 psi, N05500 100 000 psi (ASTM B164, B865).
    found = {(alloy.uns, alloy.condition[:4]): alloy.torsional_yield_pa / 6894.757 for alloy in shaft_materials()}

    assert found["N04400", "cold"] == pytest.approx(60_000 * 2 / 3, rel=0.01)
    assert found["N05500", "hot-"] == pytest.approx(100_000 * 2 / 3, rel=0.01)


def test_every_alloy_says_where_it_comes_from():
    assert [alloy.alloy for alloy in shaft_materials() if not (alloy.source and alloy.status)] == []


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (torque, (1e4, 0.0), "shaft_speed_rps"),
        (shaft_diameter_required, (1e4, 20.0, 3e8, 0.9), "safety_factor"),
        (shaft_diameter_required, (1e4, 20.0, -3e8, 3), "torsional_yield_pa"),
        (shaft_diameter_class, (np.inf, 20.0, 6e8), "power_w"),
        (first_critical_speed, (0.03, 0.0, 2e11, 7900), "span_m"),
        (bearing_span, (0.03, 20.0, 2e11, [1.0, 0.0]), "density_kgpm3"),
        (bearing_wear_limit, (0.0, "1/32 in"), "shaft_diameter_m"),
        (bearing_wear_limit, (0.03, "by eye"), "policy"),
        (key_stress, (240.0, 0.03, 0.008, 0.008, 0.0), "length_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(shaft_diameter_required(1e4, 20.0, np.nan, 3))
    assert np.isnan(first_critical_speed([np.nan], 1.0, **STEEL)).all()
    assert np.isnan(bearing_wear_limit(np.nan, "1/32 in"))
