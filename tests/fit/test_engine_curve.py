"""The engine's own curve: put to the sums where somebody typed it in, asked for where it is misread."""

from dataclasses import replace
from itertools import pairwise
from math import pi

import pytest

from tests.factories import vessels as boats
from tests.fit.pairings import mm
from tests.fit.power_pairings import BOAT, SUITED
from tests.fit.test_loading import _cubic
from yardapp.db import transaction
from yardapp.fit.loading import Lacking, loading
from yardapp.fit.services import drive_figures
from yardapp.fit.verdict import judge
from yardapp.vessels.models import Drive, Happening

# Torque 95.5, 100.0 and 89.1 N m: fuller in the middle than its rating of 28 kW at 3000 rpm.
CURVE = ((20.0, 12e3), (35.0, 22e3), (50.0, 28e3))
TYPED = "1200 rpm, 12 kW\n2100 rpm 22 kW\n3000 rpm; 28 kW"


def _turns(propeller, curve):
    """Engine speed by bisection: torque linear between the points, the towed hull R = 130 V^2 as in test_loading."""
    diameter, area = propeller.diameter_m.value, propeller.area_ratio.value
    kt, kq = (_cubic(name, propeller.pitch_m.value / diameter, area, 3) for name in ("b_series_kt", "b_series_kq"))
    load = 130.0 / ((1 - 0.6 * 0.14) * (1 - 0.14) ** 2 * 1025 * diameter**2)
    low, high = 0.01, 1.4
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if kt(middle) > load * middle**2 else (low, middle)
    asked = kq(low) * 1025 * diameter**5
    slow, fast = curve[0][0], curve[-1][0]
    for _ in range(100):
        middle = (slow + fast) / 2
        given = _torque(curve, middle) * 2.0 * 0.97 * 0.985**2
        slow, fast = (middle, fast) if given > asked * (middle / 2.0) ** 2 else (slow, middle)
    return slow


def _torque(curve, speed):
    for (low, less), (high, more) in pairwise(curve):
        if low <= speed <= high:
            ends = less / (2 * pi * low), more / (2 * pi * high)
            return ends[0] + (ends[1] - ends[0]) * (speed - low) / (high - low)
    raise AssertionError(speed)


@pytest.mark.parametrize("pitch", [370, 430])
def test_a_typed_curve_is_met_where_a_bisection_written_here_meets_it(pitch):
    propeller = replace(SUITED, pitch_m=mm(pitch, 1.5))

    found = loading(propeller, replace(BOAT, engine_curve=CURVE))
    by_rating = loading(propeller, BOAT)

    assert found.engine_speed_rps.value == pytest.approx(_turns(propeller, CURVE), rel=1e-3)
    assert found.engine_speed_rps.value > by_rating.engine_speed_rps.value


def test_which_curve_was_taken_is_said():
    typed, rated = (loading(SUITED, boat) for boat in (replace(BOAT, engine_curve=CURVE), BOAT))

    assert "the curve that was typed in, 3 points" in str(typed.premises.assumed[0].value)
    assert "the torque of its rating" in str(rated.premises.assumed[0].value)
    assert "drive.engine_curve" in typed.premises.rests_on


@pytest.mark.parametrize(
    ("curve", "says"),
    [
        (((35.0, 22e3),), "two pairs"),
        (((35.0, 22e3), (20.0, 12e3)), "speeds rising"),
        (((20.0, 12e3), (35.0, 22e3)), "ends below its rated speed"),
        (((20.0, 12e3), (50.0, 20e3)), "one is misread"),
    ],
)
def test_a_curve_that_can_not_be_right_is_asked_for_again_and_no_figure_is_made_of_it(curve, says):
    boat = replace(BOAT, engine_curve=curve)

    found = loading(SUITED, boat)

    assert isinstance(found, Lacking)
    assert says in found.says
    assert "drive.engine_curve" in {need.figure for need in found.needs}
    (check,) = [one for one in judge(SUITED, boat).checks if one.name == "engine load"]
    assert check.verdict == "cannot tell"


def test_the_shaft_is_held_to_the_hardest_torque_of_the_curve():
    shaft = {"shaft_alloy": "Austenitic stainless 316, annealed"}
    by_rating, by_curve = (
        next(one for one in judge(SUITED, replace(BOAT, **shaft, engine_curve=each)).checks if one.name == "torsion")
        for each in ((), CURVE)
    )

    # Diameter goes by the cube root of the torque: 100.0 N m in the middle against 89.1 at the rating.
    share = (22e3 / 35.0) / (28e3 / 50.0)
    least = [check.compared[-1].value for check in (by_rating, by_curve)]
    assert least[1] / least[0] == pytest.approx(share ** (1 / 3), rel=1e-6)


def test_it_is_typed_with_the_engine_kept_shown_and_put_before_the_judge(client, fetch, register):
    with transaction() as session:
        drive_id = boats.make_drive(session).id
    page = fetch(f"/drives/{drive_id}/change")
    assert "Power at full throttle" in page

    answer = client.send(f"/drives/{drive_id}/re-engine", version="1", hand="right", engine_curve=TYPED)

    assert answer.status_code == 303, answer.text
    with transaction() as session:
        drive = session.get_one(Drive, drive_id)
        assert [tuple(pair) for pair in drive.engine_curve] == [pytest.approx(pair) for pair in CURVE]
        boat = session.get_one(type(boats.make_vessel(session)), drive.vessel_id)
        assert drive_figures(drive, boat).engine_curve == tuple(pytest.approx(pair) for pair in CURVE)
    assert "2100 rpm 22 kW" in fetch(f"/drives/{drive_id}")
    assert "2100 rpm, 22 kW" in fetch(f"/drives/{drive_id}/change")


def test_another_engine_takes_its_curve_along_and_the_history_keeps_it(client, fetch, register):
    with transaction() as session:
        drive_id = boats.make_drive(session).id
    client.send(f"/drives/{drive_id}/re-engine", version="1", hand="right", engine_curve=TYPED)

    client.send(f"/drives/{drive_id}/re-engine", version="2", hand="right", engine="Fulmar 40")

    with transaction() as session:
        assert session.get_one(Drive, drive_id).engine_curve is None
        assert session.query(Happening).order_by(Happening.id.desc()).first().before["engine_curve"]
    assert "power at full throttle 1200 rpm" in fetch(f"/drives/{drive_id}")


def test_a_line_that_is_no_pair_is_named_beside_its_box(client, register):
    with transaction() as session:
        drive_id = boats.make_drive(session).id

    answer = client.send(f"/drives/{drive_id}/re-engine", version="1", hand="right", engine_curve="2000 rpm")

    assert answer.status_code == 422
    assert "`2000 rpm` is not an engine speed and a power." in answer.text
