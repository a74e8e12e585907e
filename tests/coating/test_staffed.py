"""The live job knows the yard's hours; figures are reckoned by hand from the sheet of `two_primers_and_a_top`."""

from datetime import datetime, time

from tests.coating.clock import at_work
from tests.coating.systems import MINUTE, two_primers_and_a_top
from yardapp.coating.hours import Hours

LONG = (15, 2000)
DAY = Hours(begins=time(8), ends=time(17), breaks=((time(12), time(12, 30)),))


def at(hour, minute=0, *, day=4):
    """A moment of May 2026 on the yard's own clock; the 4th is a Monday."""
    return datetime(2026, 5, day, hour, minute).astimezone().timestamp()


def beside(hour, minute=0, *blades, hours=DAY, first=(15, 60), **said):
    """Weather and primer from that moment on; primer 1 on each blade from five minutes later, eight for each."""
    system = two_primers_and_a_top(first=first, second=first, by_touch=False)
    return at_work(*blades, system=system, hours=hours, from_s=at(hour, minute), **said)


def starts(boat, at_min, unit="p.1"):
    return [datetime.fromtimestamp(op.start_s) for op in boat.look(at_min).ops if op.unit == unit]


def test_a_coat_that_does_not_fit_before_the_evening_comes_in_the_morning():
    # Primer 1 done at 16:43; primer 2 could begin at 16:58 and would take until 17:06. In the morning a pot is mixed
    # for it from eight on: three minutes of stirring, two of standing.
    boat = beside(16, 30, 1, blades=1, first=LONG)

    assert starts(boat, 14)[0] == datetime(2026, 5, 5, 8, 5)


def test_a_window_that_shuts_overnight_is_said_in_the_evening():
    # Its window shuts an hour after the coat was begun at 16:35; the next stretch of work begins at 8:00.
    boat = beside(16, 30, 1, blades=1)

    assert "With 1 coating, Primer 2 on Blade 1 would come 14 h too late." in boat.look(14).warnings


def test_nothing_is_put_off_where_no_hours_were_said():
    assert starts(beside(16, 30, 1, blades=1, hours=None), 14)[0] == datetime(2026, 5, 4, 16, 58)


def test_whoever_taps_after_hours_is_there_and_goes_on():
    # Somebody reads the weather at 17:05: the window that opened at 16:58 is met after all.
    boat = beside(16, 30, 1, blades=1)
    boat.read(35)

    assert starts(boat, 35)[0] == datetime(2026, 5, 4, 17, 5)
    assert not any("too late" in said for said in boat.look(35).warnings)


def test_an_hour_after_the_last_tap_nobody_is_taken_to_be_there():
    boat = beside(16, 30, 1, blades=1, first=LONG)
    boat.read(35)

    assert starts(boat, 94)[0] == datetime(2026, 5, 4, 18, 4)
    assert starts(boat, 96)[0] == datetime(2026, 5, 5, 8, 5)


def test_what_is_put_off_is_stirred_within_the_hours_too():
    # The clear coat is stirred for five minutes: not before eight.
    boat = beside(16, 0, 1, blades=1, first=LONG)
    boat.read(29)
    boat.coat(31, 1, 2)
    # Primer 2 done at 16:39, its window opens at 16:54: eight minutes of clear coat don't fit in.
    stir = next(turn for turn in boat.look(40).turns if turn.product == "Clear")

    assert starts(boat, 40) == [datetime(2026, 5, 5, 8, 5)]
    assert stir.from_s == at(8, day=5)


def test_work_longer_than_any_stretch_is_not_put_off_for_ever():
    boat = beside(9, 0, blades=1, blade_min=600)

    assert starts(boat, 6)[0] == datetime(2026, 5, 4, 9, 6)
    assert boat.look(6).finish_s is not None


def test_the_page_is_sent_again_when_the_day_ends():
    boat = beside(16, 30, 1, blades=1, first=LONG)

    assert boat.look(29).changes_at_s <= at(17) + MINUTE
