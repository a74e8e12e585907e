import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.hull import (
    HullFigures,
    crouch_power,
    crouch_speed,
    delft_resistance,
    displacement_limit,
    displacement_power,
    displacement_speed,
    holtrop_resistance,
    keel_wetted_length,
    resistance,
    savitsky,
    savitsky_at_trim,
)
from yardapp.formulas.imperial import FOOT_M
from yardapp.formulas.ranges import OutsideRange

YACHT = {
    "waterline_m": 10.0,
    "beam_m": 2.5,
    "draught_m": 0.464,
    "volume_m3": 4.6225,
    "wetted_m2": 16.775,
    "waterplane_m2": 16.818,
    "prismatic_ratio": 0.548,
    "midship_ratio": 0.727,
    "lcb_m": 5.20,
    "lcf_m": 5.556,
}
SHIP = {
    "length_m": 30.0,
    "beam_m": 6.5,
    "draught_fore_m": 2.2,
    "draught_aft_m": 2.2,
    "volume_m3": 250.0,
    "lcb_ratio": -0.01,
    "midship_ratio": 0.9,
    "waterplane_ratio": 0.8,
}
PLANING = {"mass_kg": 27_215.0, "lcg_m": 8.84, "vcg_m": 0.61, "beam_m": 4.27, "deadrise_rad": 0.1745}


@settings(max_examples=30, deadline=None)
@given(st.floats(5e3, 3e5), st.floats(1e3, 5e4), st.floats(6, 20))
def test_power_for_the_speed_that_a_power_gives_is_that_power(power, mass, waterline):
    found = displacement_speed(power, mass, waterline)

    back = float(displacement_power(found.speed_mps, mass, waterline))
    assert np.isnan(back) if found.is_beyond else back == pytest.approx(power)
    assert float(crouch_power(crouch_speed(power, mass, "fast"), mass, "fast")) == pytest.approx(power)


def test_a_heavy_boat_gets_the_floor_of_the_limit():
    # Gerr: not below 1.34 knots per root foot; DL is 560 here.
    assert float(displacement_limit(20_000.0, 10.0)) == pytest.approx(1.34 * np.sqrt(10 / FOOT_M) * 1852 / 3600)


def test_eight_times_the_power_doubles_a_displacement_speed_and_four_times_a_planing_one():
    slow, fast = displacement_speed([10e3, 80e3], 1e4, 10.0).speed_mps
    gentle, hard = crouch_speed([100e3, 400e3], 3e3, "average")

    assert fast == pytest.approx(2 * slow)
    assert hard == pytest.approx(2 * gentle)


def test_a_kind_of_boat_that_crouch_did_not_know_is_refused():
    with pytest.raises(OutsideRange, match="average, fast, race") as refusal:
        crouch_speed(1e5, 3e3, "trawler")

    assert refusal.value.argument == "kind"


def test_a_yacht_resists_more_the_faster_it_goes():
    found = delft_resistance(np.linspace(2.0, 5.0, 31), **YACHT)

    assert np.all(np.diff(found.total_n) > 0)
    np.testing.assert_allclose(found.total_n, found.residuary_n + found.friction_n)


@pytest.mark.parametrize("speed", [1.4, 7.5])
def test_a_yacht_outside_the_series_speeds_is_refused(speed):
    with pytest.raises(OutsideRange, match="Froude") as refusal:
        delft_resistance(speed, **YACHT)

    assert refusal.value.argument == "speed_mps"


@pytest.mark.parametrize(
    ("argument", "figure"),
    [("beam_m", 4.0), ("draught_m", 1.2), ("prismatic_ratio", 0.65), ("lcb_m", 4.5), ("midship_ratio", 0.9)],
)
def test_a_form_outside_the_series_is_refused_by_the_figure_that_would_mend_it(argument, figure):
    with pytest.raises(OutsideRange, match="Delft") as refusal:
        delft_resistance(3.0, **YACHT | {argument: figure})

    assert refusal.value.argument == argument


@pytest.mark.parametrize("argument", YACHT)
def test_a_yacht_that_is_not_fully_known_has_no_known_resistance(argument):
    assert np.isnan(delft_resistance(3.0, **YACHT | {argument: np.nan}).total_n)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.16, 0.74))
def test_a_yacht_twice_as_large_has_the_same_residuary_part_of_its_weight(froude):
    lengths = {name: figure * 2 for name, figure in YACHT.items() if name.endswith("_m")}
    twice = YACHT | lengths | {"volume_m3": 8 * YACHT["volume_m3"]}
    twice |= {"wetted_m2": 4 * YACHT["wetted_m2"], "waterplane_m2": 4 * YACHT["waterplane_m2"]}

    small = delft_resistance(froude * np.sqrt(9.81 * 10), **YACHT)
    large = delft_resistance(froude * np.sqrt(9.81 * 20), **twice)

    assert float(large.residuary_n) == pytest.approx(8 * float(small.residuary_n), rel=1e-9)


def test_a_ships_parts_add_up_and_none_is_negative():
    found = holtrop_resistance(np.linspace(2.0, 6.5, 10), **SHIP, transom_m2=0.5, appendage_m2=5.0)

    parts = (found.appendage_n, found.wave_n, found.bulb_n, found.transom_n, found.correlation_n)
    np.testing.assert_allclose(found.total_n, found.friction_n * found.form_factor + sum(parts))
    assert all(np.all(part >= 0) for part in parts)
    assert np.all(found.bulb_n == 0)


@settings(max_examples=150, deadline=None)
@given(
    st.floats(0.02, 0.45),
    st.floats(15, 300),
    st.floats(3.9, 9.5),
    st.floats(2.1, 4.0),
    st.floats(0.55, 0.85),
    st.tuples(st.floats(0.5, 1.0), st.floats(0.5, 0.95), st.floats(-0.05, 0.05), st.floats(-25, 10)),
    st.tuples(st.floats(0, 1), st.floats(0, 1), st.floats(0, 1)),
)
def test_any_ship_of_the_regression_has_a_known_resistance(froude, length, slender, flat, prismatic, form, parts):
    midship, waterplane, lcb, stern = form
    beam = length / slender
    draught = beam / flat
    bulb_height = 0.6 * draught * parts[0]
    found = holtrop_resistance(
        froude * np.sqrt(9.81 * length),
        length,
        beam,
        draught,
        draught,
        prismatic * midship * length * beam * draught,
        lcb,
        midship,
        waterplane,
        bulb_m2=parts[1] * 15 * (draught - bulb_height) ** 2,
        bulb_height_m=bulb_height,
        transom_m2=parts[2] * 0.9 * beam * draught * midship,
        stern_number=stern,
    )

    assert np.isfinite(found.total_n)
    assert np.isfinite(found.viscous_factor)


@pytest.mark.parametrize(
    ("argument", "figure", "said"), [("bulb_m2", 80.0, "under water"), ("transom_m2", 20.0, "midship section")]
)
def test_a_bulb_in_the_air_and_a_transom_larger_than_the_ship_are_refused(argument, figure, said):
    with pytest.raises(OutsideRange, match=said) as refusal:
        holtrop_resistance(5.0, **SHIP | {argument: figure})

    assert refusal.value.argument == argument


def test_a_refusal_of_a_proportion_gives_the_figure_and_the_proportion():
    with pytest.raises(OutsideRange) as refusal:
        delft_resistance(3.0, **YACHT | {"beam_m": 4.0})

    said = "it does not suit: length over beam, for the Delft series, must lie from 2.73 to 5 and is 2.5."
    assert str(refusal.value) == f"beam_m is 4: {said}"


@pytest.mark.parametrize(("argument", "figure"), [("mass_kg", -1.0), ("beam_m", 0.0), ("deadrise_rad", -0.1)])
def test_a_boat_that_can_not_be_is_refused_whatever_the_method(argument, figure):
    with pytest.raises(OutsideRange) as refusal:
        resistance([3.0], HullFigures(**{"mass_kg": 9_752.0, "waterline_m": 10.36} | {argument: figure}))

    assert refusal.value.argument == argument


def test_a_speed_that_is_not_known_has_no_known_resistance():
    assert np.isnan(resistance(np.nan, HullFigures(mass_kg=9_752, waterline_m=10.36)).resistance_n)


def test_a_ship_without_bulb_or_transom_has_neither_cost_nor_gain_from_them():
    found = holtrop_resistance(5.0, **SHIP)

    assert (float(found.bulb_n), float(found.transom_n), float(found.c2), float(found.c5)) == (0.0, 0.0, 1.0, 1.0)


@pytest.mark.parametrize(
    ("argument", "figure"),
    [("speed_mps", 8.0), ("volume_m3", 160.0), ("lcb_ratio", 0.06), ("midship_ratio", 1.1), ("bulb_m2", -1.0)],
)
def test_a_ship_outside_the_regression_is_refused(argument, figure):
    with pytest.raises(OutsideRange) as refusal:
        holtrop_resistance(**{"speed_mps": 5.0} | SHIP | {argument: figure})

    assert refusal.value.argument == argument


@pytest.mark.parametrize("argument", SHIP)
def test_a_ship_that_is_not_fully_known_has_no_known_resistance(argument):
    assert np.isnan(holtrop_resistance(5.0, **SHIP | {argument: np.nan}).total_n)


def test_the_balanced_trim_leaves_no_moment():
    speeds = np.linspace(17.5, 21.0, 5)

    found = savitsky(speeds, **PLANING)

    np.testing.assert_allclose(found.moment_nm, 0, atol=1e-3)
    held = savitsky_at_trim(found.trim_rad, speeds, **PLANING)
    np.testing.assert_allclose(held.resistance_n, found.resistance_n)


def test_friction_goes_with_the_density_of_the_drag_and_lift_with_its_own():
    heavy = savitsky_at_trim(0.05, 18.0, **PLANING)
    light = savitsky_at_trim(0.05, 18.0, **PLANING, drag_density_kgpm3=512.5)

    assert float(light.friction_n) == pytest.approx(float(heavy.friction_n) / 2)
    assert (float(light.lift_factor), float(light.wetted_ratio)) == (
        float(heavy.lift_factor),
        float(heavy.wetted_ratio),
    )


def test_a_flat_hull_wets_its_keel_as_far_as_its_chines():
    assert float(keel_wetted_length(2.0, 0.05, 3.0, 0.0)) == 6.0


def test_a_boat_flattens_out_as_it_goes_faster():
    assert np.all(np.diff(savitsky(np.linspace(17.5, 21.0, 8), **PLANING).trim_rad) < 0)


def test_more_deadrise_drags_more():
    deadrise = np.radians([5.0, 10.0, 15.0, 20.0])

    assert np.all(np.diff(savitsky(18.0, **PLANING | {"deadrise_rad": deadrise}).resistance_n) > 0)


def test_a_boat_that_wets_more_than_four_beams_is_outside_the_paper():
    assert np.isnan(savitsky(14.0, **PLANING).trim_rad)


def test_a_boat_that_nothing_balances_has_no_known_trim():
    assert np.isnan(savitsky(18.0, **PLANING | {"lcg_m": 0.5}).trim_rad)


@pytest.mark.parametrize("argument", PLANING)
def test_a_planing_boat_that_is_not_fully_known_has_no_known_resistance(argument):
    assert np.isnan(savitsky(18.0, **PLANING | {"thrust_arm_m": 0.15} | {argument: np.nan}).resistance_n)


@settings(max_examples=40, deadline=None)
@given(st.floats(1.01, 8), st.floats(0.3, 2), st.floats(0.5, 2.5), st.floats(0, 0.6), st.sampled_from([np.nan, 0.1]))
def test_any_planing_boat_is_balanced_or_not_known(coefficient, loading, lcg, deadrise, arm):
    # A boat of 2 m beam; a speed coefficient, a loading and a centre of gravity of all sizes.
    found = savitsky(coefficient * np.sqrt(9.80665 * 2), 2_400 * loading, 2 * lcg, 0.4, 2.0, deadrise, arm, 0.1)

    assert np.isnan(found.trim_rad) or abs(float(found.moment_nm)) < 1e-6 * 2_400 * 9.81 * loading
    assert np.isnan(found.trim_rad) == np.isnan(found.resistance_n)


@pytest.mark.parametrize(("speed", "trim"), [(5.0, 0.05), (18.0, 0.01), (18.0, 0.3)])
def test_a_boat_that_does_not_plane_is_refused(speed, trim):
    with pytest.raises(OutsideRange):
        savitsky_at_trim(trim, speed, **PLANING)


def test_weight_and_length_alone_give_the_handbook_line_and_say_what_is_missing():
    found = resistance(np.linspace(1.0, 8.0, 8), HullFigures(mass_kg=9_752, waterline_m=10.36))

    assert found.method == "displacement handbook line"
    assert "deadrise_rad" in found.passed_over["Savitsky 1964"]
    assert np.isnan(found.resistance_n[-1])
    assert np.all(np.diff(found.resistance_n[:3]) > 0)


def test_a_yachts_lines_are_preferred_to_its_weight():
    found = resistance([2.0, 3.0], HullFigures(mass_kg=4_738, **YACHT))

    assert found.method == "Delft 2008"
    np.testing.assert_allclose(found.resistance_n, delft_resistance([2.0, 3.0], **YACHT).total_n)


def test_speeds_at_the_very_edge_of_the_series_are_still_its_own():
    root = np.sqrt(9.81 * 10)

    found = resistance([0.15 * root, 0.75 * root, 0.80 * root], HullFigures(**YACHT))

    assert found.method == "Delft 2008"
    assert list(np.isnan(found.resistance_n)) == [False, False, True]


def test_a_yacht_outside_the_series_falls_back_and_says_why():
    found = resistance([2.0], HullFigures(mass_kg=4_738, **YACHT | {"beam_m": 4.5}))

    assert found.method == "displacement handbook line"
    assert "length over beam" in found.passed_over["Delft 2008"]


def test_a_runabout_is_by_crouch_above_the_speed_at_which_it_planes():
    found = resistance([3.0, 15.0], HullFigures(mass_kg=1_500, waterline_m=6.0, kind="average"))

    assert found.method == "Crouch"
    assert list(np.isnan(found.resistance_n)) == [True, False]


def test_a_measured_planing_hull_is_by_savitsky():
    boat = {"chine_beam_m" if name == "beam_m" else name: figure for name, figure in PLANING.items()}

    found = resistance([18.0], HullFigures(**boat))

    assert found.method == "Savitsky 1964"
    np.testing.assert_allclose(found.resistance_n, savitsky([18.0], **PLANING).resistance_n)


def test_a_ships_form_is_by_holtrop_and_mennen():
    boat = HullFigures(
        waterline_m=30,
        beam_m=6.5,
        draught_m=2.2,
        volume_m3=250,
        midship_ratio=0.9,
        waterplane_ratio=0.8,
        lcb_m=15.3,
    )

    found = resistance([5.0], boat)

    assert found.method == "Holtrop & Mennen 1982"
    np.testing.assert_allclose(found.resistance_n, holtrop_resistance([5.0], **SHIP).total_n)


def test_a_boat_of_which_nothing_is_known_is_refused_with_what_each_method_lacks():
    with pytest.raises(OutsideRange, match="Crouch: not known: mass_kg, waterline_m, kind"):
        resistance([3.0], HullFigures())
