from tests.coating.clock import PRIMER_1, PRIMER_2, at_work
from tests.coating.systems import MINUTE
from yardapp.coating.live_bars import live_bars
from yardapp.drawings.timeline import timeline


def bars(beside, at_min, blade):
    row = live_bars(beside.run(), at_min * MINUTE)[blade - 1]
    return [(bar.start_s / MINUTE, bar.end_s / MINUTE, bar.kind) for bar in row.bars]


def test_a_blade_shows_its_coat_and_the_window_that_is_open_to_it():
    # Begun at 5 and done at 13: opens 20 minutes after the end, shuts 60 after the start.
    assert bars(at_work(1), 20, 1) == [(5, 13, "coat"), (33, 65, "window")]


def test_a_window_that_shut_is_shown_as_past():
    assert bars(at_work(1), 66, 1)[-1] == (33, 65, "past")


def test_a_coat_that_is_going_on_ends_now():
    beside = at_work(1)
    beside.tap(40, "tacky", 1, PRIMER_1)
    beside.tap(41, "started", 1, PRIMER_2)

    assert bars(beside, 44, 1) == [(5, 13, "coat"), (41, 44, "coat")]


def test_a_coat_that_came_off_again_stays_on_the_drawing():
    beside = at_work(1)
    beside.tap(70, "remedied", 1, PRIMER_1)
    beside.coat(75, 1, PRIMER_1)

    assert [(start, end) for start, end, kind in bars(beside, 84, 1) if kind == "coat"] == [(5, 13), (75, 83)]


def test_all_blades_stand_on_one_drawing():
    beside = at_work(1, 2)

    drawn = timeline(live_bars(beside.run(), 30 * MINUTE), now_s=30 * MINUTE, now_label="now")
    assert all(f"Blade {number}" in drawn for number in (1, 2, 3))
