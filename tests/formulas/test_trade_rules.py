"""Rules of thumb of the trade against the B-series: where it falls within their range, where it does not, and why."""

import numpy as np
import pytest

from yardapp.formulas.engine import power_curve
from yardapp.formulas.imperial import INCH_M, KNOT_MPS
from yardapp.formulas.sizing import (
    Drive,
    HullCurve,
    Propellers,
    equal_load_pitch,
    meeting_point,
    shaft_speed_at_torque,
    working_point,
)

# Repair-trade guidance: an inch of pitch is 150 to 200 engine rpm on outboard-size propellers at 4500 to 5500 rpm.
TRADE_RPM = (150, 200)
# Diameter and pitch in inches, blades, area ratio, knots at the propeller, engine rpm, gear.
OUTBOARD = (14, 17, 3, 0.60, 22, 4500, 2.0)
INBOARDS = [(20, 16, 3, 0.50, 7, 2400, 2.0), (20, 20, 3, 0.60, 14, 3150, 1.75), (18, 22, 4, 0.70, 26, 3600, 1.5)]


def at_the_top_of_its_power(diameter_in, pitch_in, blades, area, knots, rpm, gear):
    """Engine rpm at an inch less, as it is, and an inch more, with an engine whose power no longer rises with speed."""
    speed = knots * KNOT_MPS
    point = working_point(rpm / gear / 60, speed, diameter_in * INCH_M, pitch_in / diameter_in, area, blades)
    speeds, turns = np.linspace(0.5, 1.6, 60) * speed, np.linspace(0.6, 1.4, 41) * rpm / 60
    # A planing hull's resistance rises about with its speed.
    hull = HullCurve(speed_mps=speeds, resistance_n=float(point.thrust_n) * speeds / speed)
    engine = Drive(curve=power_curve(turns, np.full(turns.shape, float(point.power_w))), gear_ratio=gear)
    pitches = np.array([pitch_in - 1, pitch_in, pitch_in + 1]) / diameter_in
    propellers = Propellers(diameter_m=diameter_in * INCH_M, pitch_ratio=pitches, area_ratio=area, blades=blades)
    return 60 * meeting_point(engine, hull, propellers).engine_speed_rps


def at_one_torque_and_speed(diameter_in, pitch_in, blades, area, knots, rpm, gear):
    """Engine rpm that an inch more of pitch costs, while torque and speed stay as they are."""
    speed, diameter_m = knots * KNOT_MPS, diameter_in * INCH_M
    torque = working_point(rpm / gear / 60, speed, diameter_m, pitch_in / diameter_in, area, blades).torque_nm
    coarser = shaft_speed_at_torque(torque, speed, diameter_m, (pitch_in + 1) / diameter_in, area, blades)
    return rpm - 60 * gear * float(coarser)


def test_an_inch_of_pitch_costs_an_outboard_what_the_trade_says():
    finer, as_is, coarser = at_the_top_of_its_power(*OUTBOARD)

    assert as_is == pytest.approx(4500, abs=1)
    assert TRADE_RPM[0] <= (finer - coarser) / 2 <= TRADE_RPM[1]


def test_where_torque_and_speed_could_stay_an_outboard_would_lose_more_than_the_trade_says():
    # The rule speaks of rated speed, where an engine's torque falls off as it turns faster and so holds it nearer.
    assert at_one_torque_and_speed(*OUTBOARD) > TRADE_RPM[1]


@pytest.mark.parametrize(
    ("propeller", "published"),
    # As computed by others from the same coefficients, at one torque and speed: engine rpm for an inch more of pitch.
    list(zip(INBOARDS, (134, 145, 147), strict=True)),
)
def test_slower_engines_lose_less_than_an_outboard(propeller, published):
    lost = at_one_torque_and_speed(*propeller)

    assert lost == pytest.approx(published, abs=1)
    assert lost < TRADE_RPM[0]


@pytest.mark.parametrize("propeller", INBOARDS)
def test_an_inch_of_diameter_is_worth_less_pitch_than_the_handbook_says(propeller):
    # Gerr (from memory, medium): an inch of diameter absorbs as much as 2 to 3 inches of pitch. At one torque and speed
    # the B-series gives 1.1 to 1.5: the two disagree, and a cut-down propeller is to be chosen anew.
    diameter_in, pitch_in, blades, area, knots, rpm, gear = propeller

    other_m = equal_load_pitch(
        diameter_in * INCH_M,
        pitch_in * INCH_M,
        (diameter_in - 1) * INCH_M,
        rpm / gear / 60,
        knots * KNOT_MPS,
        area,
        blades,
    )

    assert 1.1 < float(other_m) / INCH_M - pitch_in < 1.5
