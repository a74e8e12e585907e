import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.cavitation import (
    blade_load,
    blade_pressure,
    blade_pressure_limit,
    burrill_limit,
    keller_area_ratio,
    tip_speed,
    tip_speed_band,
)
from yardapp.formulas.ranges import OutsideRange

KELLER = {"thrust_n": 12_384.0, "diameter_m": 0.664, "blades": 4, "shaft_depth_m": 0.8}
LOAD = {
    "thrust_n": 12_384.0,
    "shaft_speed_rps": 20.0,
    "advance_speed_mps": 7.2,
    "diameter_m": 0.664,
    "pitch_ratio": 0.81,
    "area_ratio": 0.7,
    "shaft_depth_m": 0.8,
}


@settings(max_examples=30, deadline=None)
@given(st.floats(500, 50_000), st.floats(1.1, 3))
def test_more_thrust_needs_more_blade(thrust, factor):
    base = float(keller_area_ratio(thrust, 0.664, 4, 0.8, 0.0))

    assert float(keller_area_ratio(thrust * factor, 0.664, 4, 0.8, 0.0)) == pytest.approx(base * factor)


def test_a_deeper_shaft_and_fewer_blades_need_less_area():
    assert np.all(np.diff(keller_area_ratio(**KELLER | {"shaft_depth_m": [0.3, 0.8, 2.0]})) < 0)
    assert np.all(np.diff(keller_area_ratio(**KELLER | {"blades": [3, 4, 5]})) > 0)


@pytest.mark.parametrize("line", ["heavily_loaded", "merchant", "fast", "merchant_quartic", "flat_faced"])
def test_a_higher_cavitation_number_allows_more_load(line):
    assert np.all(np.diff(burrill_limit(np.linspace(0.13, 0.6, 20), line)) > 0)


def test_two_fits_of_the_same_line_agree_to_three_per_cent():
    sigma = np.array([0.3, 0.5, 1.0])

    # The reference's own comparison: 0.133 and 0.134, 0.182 and 0.182, 0.275 and 0.269.
    np.testing.assert_allclose(burrill_limit(sigma, "merchant"), burrill_limit(sigma, "merchant_quartic"), rtol=0.03)


@pytest.mark.parametrize(("sigma", "tau"), [(0.05, 0.075), (1.6, 0.338)])
def test_the_quartic_is_flat_beyond_its_ends(sigma, tau):
    # Both printed beside the fit.
    assert float(burrill_limit(sigma, "merchant_quartic")) == tau


@pytest.mark.parametrize(("line", "sigma"), [("merchant", 0.05), ("fast", 1.6), ("flat_faced", 0.7)])
def test_a_line_is_never_drawn_on(line, sigma):
    with pytest.raises(OutsideRange, match="cavitation_number"):
        burrill_limit(sigma, line)


def test_a_line_that_nobody_drew_is_refused():
    with pytest.raises(OutsideRange, match="heavily_loaded") as refusal:
        burrill_limit(0.3, "yachts")

    assert refusal.value.argument == "line"


def test_load_per_area_halves_when_the_area_doubles():
    once, twice = (blade_load(**LOAD | {"area_ratio": area}) for area in (0.4, 0.8))

    assert float(once.thrust_loading_ratio) == pytest.approx(2 * float(twice.thrust_loading_ratio))
    assert float(once.cavitation_number) == float(twice.cavitation_number)


def test_the_handbook_allows_more_at_speed_and_depth():
    assert np.all(np.diff(blade_pressure_limit([3.0, 6.0, 9.0], 0.8)) > 0)
    assert float(blade_pressure_limit(6.0, 1.0)) > float(blade_pressure_limit(6.0, 0.5))


@pytest.mark.parametrize("argument", LOAD)
def test_what_is_not_known_stays_not_known(argument):
    load = blade_load(**LOAD | {argument: np.nan})

    assert np.isnan(load.cavitation_number + load.thrust_loading_ratio)


@pytest.mark.parametrize("argument", KELLER)
def test_the_least_area_of_what_is_not_known_is_not_known(argument):
    assert np.isnan(keller_area_ratio(**KELLER | {argument: np.nan}))


@pytest.mark.parametrize(("argument", "figure"), [("thrust_n", 0.0), ("diameter_m", -1.0), ("shaft_depth_m", -0.1)])
def test_an_impossible_figure_is_named(argument, figure):
    with pytest.raises(OutsideRange) as refusal:
        keller_area_ratio(**KELLER | {argument: figure})

    assert refusal.value.argument == argument


@pytest.mark.parametrize(
    ("speed", "band"),
    [(20.0, "little trouble"), (40.0, "enough area needed"), (50.0, "expect cavitation"), (np.nan, "not known")],
)
def test_a_tip_speed_is_told_in_words(speed, band):
    assert tip_speed_band(speed) == band


def test_tips_go_round_once_a_turn():
    assert float(tip_speed(1.0, 1.0)) == pytest.approx(np.pi)


def test_an_efficiency_above_one_is_refused():
    with pytest.raises(OutsideRange, match="at most 1"):
        blade_pressure(1e4, 1.1, 5.0, 0.2)
