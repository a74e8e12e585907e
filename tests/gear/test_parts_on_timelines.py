"""Faults and coatings of a boat's parts stand on her timeline for the times when those parts were on her."""

import random
from datetime import timedelta

import pytest
from sqlalchemy import select

from tests.factories.coating import coat_whole, make_job, stopped_clock
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.bench import services as bench
from yardapp.coating import services as coating
from yardapp.coating.models import Piece
from yardapp.db import now, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Event
from yardapp.gear.whereabouts import around, standing_after
from yardapp.relaunch import services as relaunch
from yardapp.relaunch.models import YardFault
from yardapp.timelines import Asked
from yardapp.vessels import services as vessels

CRACK = {"kind": "crack", "severity": "stop", "side": "face", "blade": 2, "radius_ratio": 0.7}


@pytest.fixture
def session(register):
    with transaction() as session:
        yield session


def ago(days):
    return now() - timedelta(days=days)


def move(session, tag, kind, **said):
    return gear.move_item(session, make_who(session), tag, kind, **said)


def told(session, vessel, group="faults"):
    found = gear.boat_timeline(session, make_who(session), vessel.id, Asked(group=group)).moments
    return [(one.tag, one.kind) for one in found]


def crack_on(session, tag):
    return bench.raise_fault(session, make_who(session), tag, bench.FaultSaid(**CRACK))


def test_a_fault_stands_on_the_timeline_of_the_boat_that_carried_the_part_when_it_was_found(session):
    who = make_who(session)
    old, new, item = make_vessel(session), make_vessel(session, name="Sea Otter"), make_propeller(session).tag
    crack_on(session, item)
    move(session, item, "went on", drive_id=make_drive(session, old).id)
    crack = crack_on(session, item)
    relaunch.raise_fault(session, who, relaunch.FaultSaid(severity="watch", what="Nut loose", tag=item))
    move(session, item, "came off", place="Rack A")
    crack_on(session, item)
    move(session, item, "went on", drive_id=make_drive(session, new).id)
    bench.close_fault(session, who, crack.id, "welded")

    assert told(session, old) == [(item, "fault found: Nut loose"), (item, "fault found: crack")]
    assert told(session, new) == [(item, "fault closed: crack")]


def test_a_move_that_was_undone_brought_no_fault_aboard(session):
    boat, item = make_vessel(session), make_propeller(session).tag
    move(session, item, "went on", drive_id=make_drive(session, boat).id)
    crack_on(session, item)
    wrong = session.scalars(select(Event).where(Event.kind == "went on")).one()
    assert told(session, boat) == [(item, "fault found: crack")]

    gear.undo_move(session, make_who(session), wrong.id, why="wrong boat")

    assert told(session, boat) == []


def test_a_coating_stands_on_her_timeline_if_it_was_finished_on_her(register):
    with stopped_clock() as clock, transaction() as session:
        boat, on, off = make_vessel(session), make_propeller(session).tag, make_propeller(session).tag
        drive = make_drive(session, boat).id
        clock.later(hours=1)
        move(session, on, "went on", drive_id=drive)
        for tag, system in ((on, "First"), (off, "Second")):
            job = make_job(session, tag=tag, system=system, title=f"Job of {tag}")
            units = [unit.key for unit in coating.story_of(session, make_who(session), job.id).units]
            coat_whole(session, job, clock, tuple(units))
        brackets = make_job(session, drive_id=drive, system="Third", title="Brackets")
        coat_whole(session, brackets, clock)
        assert len(session.scalars(select(Piece).where(Piece.finished.is_not(None))).all()) == 3

        expected = [("", "coated: Brackets, Bracket 1"), (on, f"coated: Job of {on}")]
        assert told(session, boat, "coating") == expected
        on_drive = gear.drive_timeline(session, make_who(session), drive, Asked(group="coating")).moments
        assert [(one.tag, one.kind) for one in on_drive] == expected


def test_a_fault_of_a_drive_stays_with_the_boat_in_which_the_drive_stood(session):
    who = make_who(session)
    old, new = make_vessel(session), make_vessel(session, name="Sea Otter")
    drive = make_drive(session, old)
    relaunch.raise_fault(session, who, relaunch.FaultSaid(severity="watch", what="Gland warm", drive_id=drive.id))
    vessels.move_drive(session, who, drive.id, drive.version, new.id)

    assert told(session, old) == [("", "fault found: Gland warm")]
    assert told(session, new) == []


def test_any_fault_is_told_of_the_drive_on_which_the_rule_of_whereabouts_has_the_part(session):
    dice, boat = random.Random(7), make_vessel(session)
    drive, other = make_drive(session, boat).id, make_drive(session, make_vessel(session, name="Sea Otter")).id
    items = [make_propeller(session) for _ in range(3)]
    for days in range(200, 0, -3):
        item, kind = dice.choice(items), dice.choice(["went on", "came off", "to shop", "back from shop", "lost"])
        said = {"drive_id": dice.choice([drive, other])} if kind == "went on" else {"place": "Rack A"}
        try:
            with session.begin_nested():
                move(session, item.tag, kind, at=ago(days), **said)
        except Refused:
            continue
        if dice.random() < 0.2:
            last = session.scalars(select(Event).where(Event.item_id == item.id).order_by(Event.id.desc())).first()
            gear.undo_move(session, make_who(session), last.id, why="wrong")
    expected = set()
    for item in items:
        lines = session.scalars(select(Event).where(Event.item_id == item.id)).all()
        for days in range(201, 0, -7):
            what = f"{item.tag} {days}"
            fault = YardFault(item_id=item.id, severity="note", what=what, at=ago(days), said_by="Ada Brook")
            session.add(fault)
            session.flush()
            last, _next = around(lines, fault.at)
            if last is not None and standing_after(last) == "aboard" and last.drive_id == drive:
                expected.add((item.tag, f"fault found: {what}"))

    found = gear.boat_timeline(session, make_who(session), boat.id, Asked(group="faults", limit=200)).moments
    assert expected
    assert {(one.tag, one.kind) for one in found} == expected


def test_her_page_of_all_that_happened_names_the_part_and_leads_to_it(client, fetch):
    with transaction() as session:
        boat, item = make_vessel(session), make_propeller(session).tag
        move(session, item, "went on", drive_id=make_drive(session, boat).id)
        crack_on(session, item)

    html = fetch(f"/boats/{boat.id}/timeline?group=faults")

    assert f"{item}: Fault found: crack" in html
    assert "newest first" not in html
