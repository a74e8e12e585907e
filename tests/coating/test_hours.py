import math
from dataclasses import replace
from datetime import datetime, time
from itertools import product as every

import pytest

from tests.coating.brute_force import finish_by_brute_force
from tests.coating.systems import HOUR, MINUTE, two_primers_and_a_top
from tests.coating.test_planning import blades, finish_of, lines_of
from yardapp.coating.hours import Hours, from_json, hours_of, to_json
from yardapp.coating.planning import bars, latest_start_s, plan
from yardapp.coating.scheduling import schedule
from yardapp.coating.would import would_do
from yardapp.errors import Refused

DAY = Hours(begins=time(8), ends=time(17), breaks=((time(12), time(12, 30)),))


def at(day, hour, minute=0):
    """A moment of May 2026 on the yard's own clock; the 4th is a Monday."""
    return datetime(2026, 5, day, hour, minute).astimezone().timestamp()


def said(moment_s):
    return f"{datetime.fromtimestamp(moment_s).astimezone():%d %H:%M}"


@pytest.mark.parametrize(
    ("from_s", "work_min", "starts"),
    [
        (at(4, 9), 30, "04 09:00"),
        (at(4, 3), 30, "04 08:00"),  # nobody coats at three in the morning
        (at(4, 11, 45), 15, "04 11:45"),
        (at(4, 11, 46), 15, "04 12:30"),  # it would run into the break
        (at(4, 16, 50), 15, "05 08:00"),
        (at(8, 16, 50), 15, "11 08:00"),  # after Friday comes Monday
    ],
)
def test_a_coat_starts_where_it_fits_into_the_working_day(from_s, work_min, starts):
    assert said(DAY.first_fit_s(from_s, work_min * MINUTE)) == starts


def test_what_is_longer_than_any_stretch_fits_nowhere():
    assert DAY.first_fit_s(at(4, 9), 5 * HOUR) is None


def test_a_yard_that_works_on_weekends_goes_on_on_saturday():
    assert said(replace(DAY, weekends=True).first_fit_s(at(8, 18), HOUR)) == "09 08:00"


def test_stirring_lies_within_the_day_and_standing_may_go_over_the_break():
    # Three minutes of stirring and two of standing before the coat.
    assert said(DAY.first_fit_s(at(4, 7), HOUR, stirring_s=3 * MINUTE, lead_s=5 * MINUTE)) == "04 08:05"
    # Stirred from 11:55, it stands over the break: its coat is the first thing after it.
    assert said(DAY.first_fit_s(at(4, 12, 20), HOUR, stirring_s=5 * MINUTE, lead_s=35 * MINUTE)) == "04 12:30"


@pytest.mark.parametrize(
    ("begins", "ends", "breaks"),
    [
        (time(17), time(8), []),
        (time(8), None, []),
        (time(8), time(17), [(time(7), time(9))]),
        (time(8), time(17), [(time(12), time(11))]),
        (time(8), time(17), [(time(12), time(13)), (time(12, 30), time(14))]),
    ],
)
def test_a_day_that_can_t_be_is_refused(begins, ends, breaks):
    with pytest.raises(Refused):
        hours_of(begins, ends, breaks, weekends=False)


def test_hours_are_kept_as_they_were_said():
    assert from_json(to_json(DAY)) == DAY
    assert to_json(None) is None
    assert from_json(None) is None
    assert DAY.said == "08:00 to 17:00, break 12:00 to 12:30, no weekends"


SMALL = [
    (works, windows, people, closed)
    for works, windows, people, closed in every(
        [(2, 2), (1, 1, 1), (1, 2)],
        [((1, 4),), ((2, 6),), ((0, None),)],
        [1, 2],
        [((2, 4),), ((1, 3), (5, 6)), ((3, 7),)],
    )
]


def fits_around(closed, works):
    """Whole minutes in which nobody works, as the planner hears of them."""

    def fit(turn, at_min):
        work = works[turn[0]]
        for begins, ends in closed:
            if at_min < ends and at_min + work > begins:
                at_min = max(at_min, ends)
        return at_min

    return fit


@pytest.mark.parametrize(("works", "windows", "people", "closed"), SMALL)
def test_within_working_hours_it_finishes_as_soon_as_any_schedule_can(works, windows, people, closed):
    found = schedule(lines_of(works, windows), people, len(works), fits_around(closed, works))

    brute = finish_by_brute_force(works, windows, people, closed=closed)
    assert finish_of(found, works) == (None if brute is None else pytest.approx(brute))


def test_hours_that_let_nothing_in_are_no_schedule():
    found = schedule(lines_of((2, 2), ((1, 4),)), 1, 2, lambda turn, at_min: math.inf)

    assert not found.meets


def test_a_plan_from_the_evening_on_is_done_in_the_morning_and_stirred_then():
    planned = plan(two_primers_and_a_top(), blades(3), people=1, metal_c=20, start_s=at(4, 16, 50), hours=DAY)

    # Stirred from 08:00 for 3 minutes, it stands 2; on paper the last coat ends 76 minutes after the first begins.
    assert planned.feasible
    assert said(planned.begun_s) == "05 08:00"
    assert said(planned.finish_s) == "05 09:21"
    assert all(DAY.holds(op.start_s, op.end_s) for op in planned.ops)


def test_coats_go_around_the_break_where_the_windows_let_them():
    planned = plan(two_primers_and_a_top(), blades(3), people=1, metal_c=20, start_s=at(4, 11), hours=DAY)

    assert planned.feasible
    assert planned.missed == ()
    assert all(DAY.holds(op.start_s, op.end_s) for op in planned.ops)
    assert all(DAY.holds(pot.stir_s, pot.stir_s + pot.stirring_s) for pot in planned.pots)


def test_a_job_that_goes_over_a_night_shows_when_the_yard_works():
    # Four hours at least and ten days at most between the coats.
    system = two_primers_and_a_top(first=(240, 14400), second=(240, 14400), by_touch=False)

    planned = plan(system, blades(3), people=1, metal_c=20, start_s=at(4, 14), hours=DAY)

    assert planned.feasible
    assert {said(op.start_s)[:2] for op in planned.ops} == {"04", "05"}
    assert bars(planned)[-1].label == "At work"


def test_backwards_from_the_launch_nobody_is_asked_to_coat_at_night():
    planned = plan(two_primers_and_a_top(), blades(3), people=1, metal_c=20, start_s=at(4, 9), hours=DAY)

    # The cure takes 18 h at 20 degrees: for 06:00 on the 7th the last coat must be done by 12:00 on the 6th.
    begun_s = latest_start_s(planned, at(7, 6))

    # Five minutes of stirring and standing, 76 of coats.
    assert said(begun_s + 30) in ("06 10:39", "06 10:38")
    # For 03:00 it would have to be done by 09:00, 81 minutes after 07:39: so on the afternoon before, until 17:00.
    assert said(latest_start_s(planned, at(7, 3)) + 30) in ("05 15:39", "05 15:38")


def test_what_would_do_holds_the_hours_too():
    short = Hours(begins=time(8), ends=time(10))
    changes = would_do(two_primers_and_a_top(), blades(10), people=1, metal_c=20, start_s=at(4, 8), hours=short)

    assert changes
    for change in changes:
        assert all(short.holds(op.start_s, op.end_s) for op in change.plan.ops)


def test_a_coat_longer_than_the_day_says_so():
    short = Hours(begins=time(8), ends=time(9))

    planned = plan(
        two_primers_and_a_top(first=(20, 200)), blades(1, 70), people=1, metal_c=20, start_s=at(4, 8), hours=short
    )

    assert planned.feasible is False
    assert any("it fits into no stretch of the day" in why for why in planned.why)
