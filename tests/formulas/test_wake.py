import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.tables import figure, table
from yardapp.formulas.wake import (
    holtrop_open_stern_wake,
    holtrop_relative_rotative,
    holtrop_twin_screw_wake,
    holtrop_wake,
    hull_efficiency,
    planing_wake,
    taylor_single_wake,
    thrust_deduction,
    twin_hard_chine_wake,
    wake_fraction,
)

HULLS = [row["hull"] for row in table("wake_thrust")]
SHIP = {
    "viscous_factor": 0.001963,
    "length_m": 205.0,
    "beam_m": 32.0,
    "draught_m": 10.0,
    "draught_aft_m": 10.0,
    "volume_m3": 37_500.0,
    "wetted_m2": 7431.45,
    "diameter_m": 8.0,
    "midship_ratio": 0.98,
    "lcb_ratio": -0.0075,
}


@pytest.mark.parametrize("hull", HULLS)
def test_a_hull_of_which_nothing_is_known_gets_its_usual_range(hull):
    row = next(row for row in table("wake_thrust") if row["hull"] == hull)

    wake = wake_fraction(hull)

    assert (float(wake.low), float(wake.high)) == (figure(row, "w_low"), figure(row, "w_high"))
    assert float(wake.low) <= float(wake.value) <= float(wake.high)


def test_two_handbooks_are_both_told_and_their_difference_is_the_spread():
    wake = wake_fraction("displacement_twin", block_ratio=0.45)

    # Taylor 0.048 and the handbook 0.120 at CB 0.45, as the reference works them: 0.07 apart.
    assert [float(each) for each in wake.by_method.values()] == pytest.approx([0.048, 0.120], abs=6e-4)
    assert float(wake.spread) == pytest.approx(0.0725, abs=5e-4)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(HULLS), st.floats(0.3, 0.7), st.floats(3, 20), st.floats(0.5, 4))
def test_the_value_lies_between_the_least_and_the_greatest(hull, block, speed, froude):
    wake = wake_fraction(hull, block, speed, froude)

    assert float(wake.low) <= float(wake.value) + 1e-12
    assert float(wake.value) <= float(wake.high) + 1e-12
    assert float(wake.spread) == pytest.approx(float(wake.high) - float(wake.low))


def test_an_array_of_hulls_mixes_known_and_unknown():
    wake = wake_fraction("displacement_single", [0.45, np.nan])

    assert wake.value[0] == pytest.approx(0.1675)
    assert wake.value[1] == pytest.approx(0.225)


def test_a_single_plate_rudder_deducts_more_than_a_streamlined_one():
    streamlined, plate = (
        thrust_deduction("displacement_single", 0.2, rudder) for rudder in ("streamlined", "single_plate")
    )

    assert float(streamlined.high) < float(plate.low)


def test_a_twin_screw_has_bossings_or_struts_and_no_rudder():
    with pytest.raises(OutsideRange, match="bossings, struts") as refusal:
        thrust_deduction("displacement_twin", 0.1, "streamlined")

    assert refusal.value.argument == "behind"


def test_struts_follow_their_line():
    # Schoenherr: t = 0.70 w + 0.06.
    assert float(thrust_deduction("displacement_twin", 0.1, "struts").value) == pytest.approx(0.13)


def test_a_hull_that_nobody_listed_is_refused():
    with pytest.raises(OutsideRange, match="sailing_fin_keel"):
        wake_fraction("catamaran")


def test_no_wake_and_no_deduction_cost_and_gain_nothing():
    assert float(hull_efficiency(0.0, 0.0)) == 1.0


def test_the_planing_lines_say_nothing_outside_their_range():
    with pytest.raises(OutsideRange, match=r"0\.5 to 4"):
        twin_hard_chine_wake(4.5)
    with pytest.raises(OutsideRange, match="above zero"):
        planing_wake(0.0)
    with pytest.raises(OutsideRange, match=r"0\.2 to 0\.9"):
        taylor_single_wake(0.95)


@pytest.mark.parametrize("argument", SHIP)
def test_the_wake_of_a_ship_not_fully_known_is_not_known(argument):
    assert np.isnan(holtrop_wake(**SHIP | {argument: np.nan}).wake_ratio)


@pytest.mark.parametrize("argument", [name for name in SHIP if name != "lcb_ratio"])
def test_a_ship_with_a_figure_of_zero_is_refused(argument):
    with pytest.raises(OutsideRange) as refusal:
        holtrop_wake(**SHIP | {argument: 0.0})

    assert refusal.value.argument == argument


@settings(max_examples=150, deadline=None)
@given(st.floats(0.55, 0.75), st.floats(-0.03, 0.03), st.floats(0.3, 1.5), st.floats(2, 12), st.floats(-25, 10))
def test_any_ship_of_the_regression_has_a_known_wake(prismatic, lcb, screw, flat, stern):
    draught = SHIP["beam_m"] / flat
    volume = prismatic * SHIP["midship_ratio"] * SHIP["length_m"] * SHIP["beam_m"] * draught
    said = {"draught_m": draught, "draught_aft_m": draught, "volume_m3": volume, "lcb_ratio": lcb}

    found = holtrop_wake(**SHIP | said | {"diameter_m": screw * draught, "stern_number": stern})

    assert np.isfinite(found.wake_ratio)
    assert np.isfinite(found.deduction_ratio)


def test_a_ship_too_full_too_far_aft_is_refused_before_the_regression_breaks():
    # CP1 = 1.45 CP - 0.315 - 0.0225 lcb passes 1 there, and the paper's root has none.
    full = 0.84 * SHIP["midship_ratio"] * SHIP["length_m"] * SHIP["beam_m"] * SHIP["draught_m"]

    with pytest.raises(OutsideRange, match="CP1") as refusal:
        holtrop_wake(**SHIP | {"volume_m3": full, "lcb_ratio": -0.05})

    assert refusal.value.argument == "lcb_ratio"


@settings(max_examples=30, deadline=None)
@given(st.floats(0.5, 2.0))
def test_a_ship_of_another_scale_has_the_same_wake(scale):
    lengths = {name: SHIP[name] * scale for name in SHIP if name.endswith("_m")}
    scaled = SHIP | lengths | {"volume_m3": SHIP["volume_m3"] * scale**3, "wetted_m2": SHIP["wetted_m2"] * scale**2}

    assert float(holtrop_wake(**scaled).wake_ratio) == pytest.approx(float(holtrop_wake(**SHIP).wake_ratio))


def test_a_fuller_twin_screw_ship_has_more_wake_and_a_larger_propeller_less():
    by_block = holtrop_twin_screw_wake(0.003, [0.4, 0.5, 0.6], 4.0, 1.0, 0.5).wake_ratio
    by_diameter = holtrop_twin_screw_wake(0.003, 0.5, 4.0, 1.0, [0.4, 0.6]).wake_ratio

    assert np.all(np.diff(by_block) > 0)
    assert np.all(np.diff(by_diameter) < 0)


def test_an_open_stern_deducts_a_tenth_where_it_is_known():
    # Holtrop & Mennen 1982: t = 0.10.
    deduction = holtrop_open_stern_wake([0.003, np.nan], 0.45).deduction_ratio

    assert deduction[0] == 0.10
    assert np.isnan(deduction[1])


def test_more_blade_lowers_the_relative_rotative_efficiency():
    assert np.all(np.diff(holtrop_relative_rotative([0.4, 0.6, 0.8], 0.6, 0.0)) < 0)
