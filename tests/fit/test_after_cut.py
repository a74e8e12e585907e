"""A cut-down that the tips ask for is put to the engine before it is offered."""

from dataclasses import replace

import pytest

from tests.fit.pairings import mm
from tests.fit.power_pairings import BOAT, SUITED
from tests.fit.test_loading import _by_bisection
from yardapp.fit.figures import Figure
from yardapp.fit.verdict import GEOMETRY, judge


def tip_room(room_mm, pitch_mm=322, **options):
    """420 mm of propeller under a hull: 15 % of it at the tips asks for a shaft 273 mm under the hull."""
    pair = replace(SUITED, pitch_m=mm(pitch_mm, 1.5)), replace(BOAT, hull_clearance_m=mm(room_mm, 0.5))
    (check,) = [one for one in judge(*pair, **options).checks if one.name == "tip room"]
    return check


def test_what_the_engine_would_turn_after_the_cut_is_what_a_smaller_propeller_turns():
    check = tip_room(260)

    # 260 / 0.65 = 400 mm is left of the 420.
    smaller = replace(SUITED, pitch_m=mm(322, 1.5), diameter_m=Figure(value=0.260 / 0.65, u=0.001))
    assert (check.verdict, check.work) == ("goes on after work", "cut down")
    assert check.compared[-1].value == pytest.approx(_by_bisection(smaller)[0], rel=2e-3)
    assert "under its rating" in check.says


def test_a_cut_that_leaves_the_engine_without_its_load_is_not_offered():
    check = tip_room(250, pitch_mm=262)

    smaller = replace(SUITED, pitch_m=mm(262, 1.5), diameter_m=Figure(value=0.250 / 0.65, u=0.001))
    assert _by_bisection(smaller)[0] / 50.0 > 1.1  # a yard setting: further past its rating its power is not used
    assert (check.verdict, check.work) == ("goes on after work", "another propeller")
    assert "accepts the smaller gap" in check.remedy


def test_without_the_engine_the_cut_is_offered_by_the_room_alone():
    check = tip_room(260, ask=GEOMETRY)

    assert (check.work, "engine would" in check.says) == ("cut down", False)


def test_where_the_tips_have_room_nothing_is_said_of_a_cut():
    assert "Cut down" not in tip_room(300).says
