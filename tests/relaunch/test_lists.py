"""The yard's lists of lines and what it goes by."""

from dataclasses import replace

import pytest

from tests.factories import relaunch as launches
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.bench import services as bench
from yardapp.db import transaction
from yardapp.errors import NotAllowed, NotFound, Refused, Superseded
from yardapp.gear import services as gear
from yardapp.relaunch import services as relaunch
from yardapp.relaunch.lines import PARTS, as_plain, from_plain, is_within, moved, put, what_is_wrong, without
from yardapp.relaunch.shipped import LISTS


@pytest.fixture
def session(register):
    with transaction() as opened:
        yield opened


@pytest.fixture
def ada(session):
    return make_who(session)


@pytest.mark.parametrize("name", LISTS)
def test_every_shipped_list_can_stand_and_asks_for_the_nuts_lock(name):
    assert what_is_wrong(LISTS[name]) is None
    assert [line.key for line in LISTS[name] if line.is_lock] == ["lock"]
    assert from_plain(as_plain(LISTS[name])) == LISTS[name]
    assert {line.part for line in LISTS[name]} == set(PARTS)


def test_a_change_is_a_new_version_and_a_planned_launch_keeps_the_lines_it_was_planned_on(session, ada):
    drive, _tag = launches.make_boat(session)
    before = launches.make_launch(session, drive.vessel_id)
    shipped = relaunch.list_by_name(session, ada, "shaft line")

    lines = without(shipped.lines, "cutter")
    relaunch.change_list(session, ada, "shaft line", shipped.number, lines, why="nobody here has one")
    other, _ = launches.make_boat(session, name="Sea Otter")
    after = launches.make_launch(session, other.vessel_id)

    assert (before.list_number, after.list_number) == (0, 1)
    keys = [{now.line.key for now in relaunch.launch_sheet(session, ada, one.id).lines} for one in (before, after)]
    assert keys[0] - keys[1] == {"cutter"}
    assert [one.number for one in relaunch.list_versions(session, ada, "shaft line")] == [1, 0]


def test_the_nuts_lock_can_neither_be_dropped_nor_made_less_than_a_stop(session, ada):
    shipped = relaunch.list_by_name(session, ada, "shaft line")
    lock = shipped.line("lock")

    for lines in (
        without(shipped.lines, "lock"),
        put(shipped.lines, replace(lock, is_stop=False)),
        put(shipped.lines, replace(lock, signs=1)),
        put(shipped.lines, replace(lock, part="to owner")),
    ):
        with pytest.raises(Refused, match="lock"):
            relaunch.change_list(session, ada, "shaft line", 0, lines)


def test_two_who_change_a_list_at_once_are_told_of_each_other(session, ada):
    shipped = relaunch.list_by_name(session, ada, "shaft line")
    relaunch.change_list(session, ada, "shaft line", 0, without(shipped.lines, "cutter"))

    with pytest.raises(Superseded) as superseded:
        relaunch.change_list(session, ada, "shaft line", 0, without(shipped.lines, "gap"))

    assert superseded.value.version == 1


def test_a_list_of_the_yards_own_begins_on_another(session, ada):
    made = relaunch.add_list(session, ada, "canal boats", like="shaft line")

    assert made.lines == LISTS["shaft line"]
    assert "canal boats" in [one.name for one in relaunch.lists(session, ada)]
    with pytest.raises(Refused, match="There is a list"):
        relaunch.add_list(session, ada, "Canal Boats", like="shaft line")
    with pytest.raises(NotFound):
        relaunch.add_list(session, ada, "barges", like="no such list")


def test_a_boat_with_two_drives_gets_the_list_for_a_pair(session):
    boat = make_vessel(session)
    make_drive(session, boat, position="port", hand="left")
    make_drive(session, boat, position="starboard")

    assert launches.make_launch(session, boat.id).list_name == "pair of shaft lines"


def test_a_line_moves_within_its_part_alone():
    lines = LISTS["shaft line"]
    first = next(line for line in lines if line.part == "afloat")

    assert moved(lines, first.key, -1) == lines
    assert [one.key for one in moved(lines, "verdict", -1)][:2] == ["verdict", "propeller"]


@pytest.mark.parametrize(
    ("change", "box"),
    [
        ({"words": " "}, "words"),
        ({"part": "never"}, "part"),
        ({"by": "hearsay"}, "by"),
        ({"by": "sheet", "sheet": ""}, "bench_sheet"),
        ({"by": "figure", "unit": "cubits"}, "unit"),
        ({"by": "figure", "unit": "mm", "at_least": 2, "at_most": 1}, "at_least"),
        ({"signs": 3}, "signs"),
        ({"part": "follow-up", "after": "", "by_h": 24}, "after"),
        ({"part": "follow-up", "after": "afloat", "after_h": 48, "by_h": 24}, "by_h"),
    ],
)
def test_a_line_that_makes_no_sense_names_its_box(change, box):
    lines = LISTS["shaft line"]
    wrong = what_is_wrong(put(lines, replace(next(line for line in lines if line.key == "gap"), **change)))

    assert wrong.box == box


def test_a_figure_keeps_its_limit_in_the_lines_own_unit():
    coupling = next(line for line in LISTS["shaft line"] if line.key == "coupling")

    # reference/clearances: faces within about 0.07 mm.
    assert (is_within(coupling, 0.00007), is_within(coupling, 0.000071)) == (True, False)


def test_the_order_of_nuts_stands_in_the_line_as_the_yard_settled_it(session, ada):
    drive, _tag = launches.make_boat(session)
    launch = launches.make_launch(session, drive.vessel_id)
    before = relaunch.launch_sheet(session, ada, launch.id).line("nuts", drive.id).line.words

    relaunch.set_policy(session, ada, "nut order", "thick nut first", "as the shop marks them")
    after = relaunch.launch_sheet(session, ada, launch.id).line("nuts", drive.id).line.words

    assert (before, after) == (
        "Nuts on, in the yard's order: not settled by this yard",
        "Nuts on, in the yard's order: thick nut first",
    )


def test_a_bearing_is_judged_by_the_limit_that_the_yard_settled_and_asks_while_none_is(session, ada):
    drive, _tag = launches.make_boat(session)
    shaft = gear.log_item(session, ada, kind="shaft", place="Bench 1")
    gear.move_item(session, ada, shaft.tag, "went on", drive_id=drive.id)
    launch = launches.make_launch(session, drive.vessel_id)
    # A 2 in shaft with 2.3 mm of play: within 6 % (3.048 mm), beyond 3 % (1.524 mm) and 1/32 in.
    reading = bench.BearingReading(bearing_bore_m=0.0531, u_bearing_bore_m=0.00002, shaft_m=0.0508, u_shaft_m=0.00001)
    bench.measure(session, ada, shaft.tag, bench.BEARING, reading)

    verdicts = []
    for choice in (None, "6 % limit", "3 % due"):
        if choice:
            relaunch.set_policy(session, ada, "bearing wear", choice)
        verdicts.append(relaunch.launch_sheet(session, ada, launch.id).line("bearing", drive.id).verdict)

    assert verdicts == ["ask", "yes", "no"]


def test_hands_change_lists_and_only_the_office_settles_policies(session):
    finn = make_who(session, name="Finn Marsh", role="hand")
    owner = make_who(session, name="R. Thorne", role="owner")

    relaunch.add_list(session, finn, "canal boats", like="other")
    with pytest.raises(NotAllowed):
        relaunch.set_policy(session, finn, "nut order", "one nut")
    with pytest.raises(NotAllowed):
        relaunch.lists(session, owner)
