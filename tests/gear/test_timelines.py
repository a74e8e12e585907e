"""Timelines of a thing, a boat, a drive and a person; and what was on a boat on a day."""

import random
from datetime import timedelta

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.bench import services as bench
from yardapp.db import now, transaction
from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.filters import day
from yardapp.gear import services as gear
from yardapp.gear.models import Event
from yardapp.gear.whereabouts import around, standing_after
from yardapp.people import services as people
from yardapp.relaunch import services as relaunch
from yardapp.timelines import Asked
from yardapp.vessels import services as vessels

KINDS = ("went on", "came off", "to shop", "back from shop", "lost", "found")


@pytest.fixture
def session(register):
    with transaction() as session:
        yield session


def ago(days):
    return now() - timedelta(days=days)


def move(session, item, kind, **said):
    return gear.move_item(session, make_who(session), item.tag, kind, **said)


def all_pages(ask):
    """Every page of a timeline, one moment after the other."""
    found, after = [], ""
    while True:
        moments, after = ask(after)
        found += moments
        if not after:
            return found


def on_that_day(session, vessel, at):
    lines = gear.aboard_on(session, make_who(session), vessel.id, at)[1]
    return {stay.position: [one.row.tag for one in things] for stay, things in lines}


def test_a_timeline_paged_three_at_a_time_loses_and_repeats_nothing(session):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id)
    move(session, item, "came off", place="Rack A")
    gear.record_work(session, make_who(session), item.tag, "polished")

    def ask(limit):
        def page(after):
            found = gear.item_timeline(session, make_who(session), item.tag, Asked(after=after, limit=limit))
            return found.moments, found.further

        return [(one.strand, one.id) for one in all_pages(page)]

    # Logged, on, off, polished; and the statements that the factory makes: three sizes and the hand.
    assert len(ask(50)) == 8
    assert ask(3) == ask(50)
    assert ask(1) == ask(50)


@pytest.mark.parametrize("after", ["", "nonsense", "2026-01-01~moved~1", "2026-01-01T00:00:00+00:00~moved~x", "~~"])
def test_an_address_that_was_tampered_with_shows_the_first_page_or_what_is_older(session, after):
    item = make_propeller(session)

    found = gear.item_timeline(session, make_who(session), item.tag, Asked(after=after))

    assert len(found.moments) == 5


def test_a_timeline_shows_one_kind_and_some_days(session):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id, at=ago(400))
    move(session, item, "came off", place="Rack A", at=ago(100))
    gear.record_work(session, make_who(session), item.tag, "polished")

    def kinds(**asked):
        found = gear.item_timeline(session, make_who(session), item.tag, Asked(**asked))
        return [one.kind for one in found.moments]

    assert kinds(group="work") == ["polished"]
    assert kinds(since=ago(401), until=ago(99)) == ["came off", "went on"]
    assert kinds(group="moves", since=ago(101), until=ago(99)) == ["came off"]


def test_what_was_undone_is_shown_and_marked_so(session):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id)
    wrong = session.scalars(select(Event).where(Event.kind == "went on")).one()
    gear.undo_move(session, make_who(session), wrong.id, why="wrong boat")

    found = gear.item_timeline(session, make_who(session), item.tag, Asked(group="moves")).moments

    assert [(one.kind, one.is_replaced) for one in found] == [("undone", False), ("went on", True), ("logged", False)]


def test_a_boats_timeline_holds_what_went_on_and_off_while_the_drive_stood_in_her(session):
    who, item = make_who(session), make_propeller(session)
    old, new = make_vessel(session), make_vessel(session, name="Sea Otter")
    drive = make_drive(session, old)
    move(session, item, "went on", drive_id=drive.id)
    vessels.move_drive(session, who, drive.id, drive.version, new.id)
    move(session, item, "came off", place="Rack A")

    def moves(vessel):
        found = gear.boat_timeline(session, who, vessel.id, Asked(group="moves")).moments
        return [one.kind for one in found]

    assert moves(old) == ["went on"]
    assert moves(new) == ["came off"]
    assert [one.kind for one in gear.drive_timeline(session, who, drive.id, Asked(group="moves")).moments] == [
        "came off",
        "went on",
    ]


def test_what_was_on_her_three_years_ago_is_answered_for_the_drives_of_that_day(session):
    who = make_who(session)
    boat, other = make_vessel(session), make_vessel(session, name="Sea Otter")
    drive = make_drive(session, boat)
    first, second = make_propeller(session), make_propeller(session)
    move(session, first, "went on", drive_id=drive.id, at=ago(1500))
    move(session, first, "came off", place="Rack A", at=ago(700))
    move(session, second, "went on", drive_id=drive.id, at=ago(690))
    vessels.move_drive(session, who, drive.id, drive.version, other.id)

    ((_stay, things),) = gear.aboard_on(session, who, boat.id, ago(3 * 365))[1]
    assert [(one.row.tag, (now() - one.since).days, (now() - one.until).days) for one in things] == [
        (first.tag, 1500, 700)
    ]
    assert on_that_day(session, boat, ago(695)) == {"centre": []}
    assert on_that_day(session, boat, ago(1)) == {"centre": [second.tag]}
    assert on_that_day(session, boat, now() + timedelta(hours=1)) == {}
    assert on_that_day(session, other, now() + timedelta(hours=1)) == {"centre": [second.tag]}


def test_any_day_is_answered_as_the_rule_of_whereabouts_has_it(session):
    dice, boat = random.Random(4), make_vessel(session)
    drives = [make_drive(session, boat, position=position) for position in ("port", "starboard")]
    items = [make_propeller(session) for _ in range(3)]
    for days in range(200, 0, -3):
        item, kind = (
            dice.choice(items),
            dice.choice(["went on", "came off", "to shop", "back from shop", "lost", "found"]),
        )
        said = {"drive_id": dice.choice(drives).id} if kind == "went on" else {"place": "Rack A"}
        try:
            with session.begin_nested():
                move(session, item, kind, at=ago(days), **said)
        except Refused:
            continue
        if dice.random() < 0.2:
            last = session.scalars(select(Event).where(Event.item_id == item.id).order_by(Event.id.desc())).first()
            gear.undo_move(session, make_who(session), last.id, why="wrong")
    lines = {item.tag: session.scalars(select(Event).where(Event.item_id == item.id)).all() for item in items}

    for days in range(201, -1, -5):
        expected = {"port": [], "starboard": []}
        for tag, moves in sorted(lines.items()):
            last, _next = around(moves, ago(days))
            if last is not None and standing_after(last) == "aboard":
                expected["port" if last.drive_id == drives[0].id else "starboard"].append(tag)
        assert on_that_day(session, boat, ago(days)) == expected, days


def test_an_owner_sees_the_timeline_of_their_own_boat_alone(session):
    owner = make_who(session, name="R. Thorne", role="owner")
    hers, other = make_vessel(session, owner_id=owner.person_id), make_vessel(session, name="Sea Otter")
    drive = make_drive(session, other)

    assert gear.boat_timeline(session, owner, hers.id, Asked()).of.id == hers.id
    for ask, number in ((gear.boat_timeline, other.id), (gear.drive_timeline, drive.id)):
        with pytest.raises(NotFound):
            ask(session, owner, number, Asked())
    with pytest.raises(NotFound):
        gear.aboard_on(session, owner, other.id, now())


def test_an_owner_sees_of_a_drive_what_happened_in_their_own_boat(session):
    owner, office = make_who(session, name="R. Thorne", role="owner"), make_who(session)
    hers, other = make_vessel(session, owner_id=owner.person_id), make_vessel(session, name="Sea Otter")
    drive, item = make_drive(session, other), make_propeller(session)
    move(session, item, "went on", drive_id=drive.id)
    vessels.move_drive(session, office, drive.id, drive.version, hers.id)
    move(session, item, "came off", place="Rack A")

    found = gear.drive_timeline(session, owner, drive.id, Asked()).moments

    assert [one.kind for one in found] == ["came off"]


def test_what_a_person_did_is_named_and_told_to_the_office_and_to_themselves(session):
    office, hand = make_who(session), make_who(session, name="Finn Marsh", role="hand")
    item = gear.log_item(session, hand, place="Rack C")
    boat = vessels.log_vessel(session, hand, name="Kittiwake")

    name, moments, _further = people.person_timeline(session, office, hand.person_id, Asked())

    assert name == "Finn Marsh"
    assert [(one.kind, one.word, one.tag) for one in moments] == [
        ("logged", "vessel", boat.name),
        ("logged", "item", item.tag),
    ]
    assert people.person_timeline(session, hand, hand.person_id, Asked())[1] == moments
    with pytest.raises(NotAllowed):
        people.person_timeline(session, hand, office.person_id, Asked())


def test_the_pages_show_filter_and_go_on(client, fetch):
    with transaction() as session:
        boat = make_vessel(session)
        drive, item = make_drive(session, boat), make_propeller(session)
        move(session, item, "went on", drive_id=drive.id, at=ago(800))
        move(session, item, "came off", place="Rack A", at=ago(700))
        for _ in range(30):
            move(session, item, "went on", drive_id=drive.id)
            move(session, item, "came off", place="Rack A")
        person = make_who(session).person_id

    html = fetch("/items/P-0001/timeline")
    assert html.count('class="history-event"') == 50
    further = html.split('rel="next"')[0].rsplit('href="', 1)[1].split('"')[0].replace("&amp;", "&")
    assert "Logged; put in Rack C, bin 7" in fetch(further)
    assert "P-0001: Came off Kittiwake, centre" in fetch(f"/boats/{boat.id}/timeline?group=moves")
    assert "P-0001: Went on Kittiwake, centre" in fetch(f"/drives/{drive.id}/timeline?since=2020-01-01")
    assert "Came off: P-0001" in fetch(f"/people/yard/{person}/timeline")
    assert "On Kittiwake on" in fetch(f"/boats/{boat.id}/aboard")
    assert "On Kittiwake on 3 Aug 2023" in fetch(f"/boats/{boat.id}/aboard?day=2023-08-03")
    then = (ago(750)).date()
    on_her = fetch(f"/boats/{boat.id}/aboard?day={then}")
    assert f"from {day(ago(800))} to {day(ago(700))}" in on_her
    assert client.get(f"/boats/{boat.id}/timeline?since=soon").status_code == 422
    assert client.get("/boats/999/timeline").status_code == 404


def test_faults_stand_on_the_timelines_of_what_they_are_on(session):
    who, item, boat = make_who(session), make_propeller(session), make_vessel(session)
    drive = make_drive(session, boat)
    crack = bench.raise_fault(
        session, who, item.tag, bench.FaultSaid(kind="crack", severity="stop", side="face", blade=2, radius_ratio=0.7)
    )
    bench.close_fault(session, who, crack.id, "welded")
    relaunch.raise_fault(session, who, relaunch.FaultSaid(severity="watch", what="Gland warm", drive_id=drive.id))
    relaunch.raise_fault(session, who, relaunch.FaultSaid(severity="note", what="Paint gone", vessel_id=boat.id))

    faults = Asked(group="faults")

    assert [one.kind for one in gear.item_timeline(session, who, item.tag, faults).moments] == [
        "fault closed: crack",
        "fault found: crack",
    ]
    found = {one.kind for one in gear.boat_timeline(session, who, boat.id, faults).moments}
    assert found == {"fault found: Gland warm", "fault found: Paint gone"}
    assert [one.kind for one in gear.drive_timeline(session, who, drive.id, faults).moments] == [
        "fault found: Gland warm"
    ]


def test_a_things_own_page_shows_the_newest_hundred_lines_and_leads_to_the_rest(client, fetch):
    with transaction() as session:
        item = make_propeller(session)
        for number in range(120):
            move(session, item, "moved", place=f"Rack {number}")

    html = fetch("/propellers/P-0001")

    assert html.count('class="history-event"') == 100
    assert "/items/P-0001/timeline" in html
    assert "Rack 119" in html
    assert "put in Rack 3<" not in html


def test_a_stamp_stands_on_the_timeline_as_it_was_seen(client, fetch):
    client.send("/log", place="Rack C", stamp="22 x 18 RH")

    assert "Stamp 22 x 18 RH, stamped" in fetch("/items/P-0001/timeline?group=figures")


def test_a_query_is_built_once_for_each_shape_and_answers_each_thing_for_itself(session):
    one, other = make_propeller(session, place="Rack A"), make_propeller(session, place="Rack B")

    def places(item, **asked):
        found = gear.item_timeline(session, make_who(session), item.tag, Asked(group="moves", **asked))
        return [moment.place for moment in found.moments]

    assert (places(one), places(other)) == (["Rack A"], ["Rack B"])
    assert (places(one, since=ago(1)), places(one, since=now() + timedelta(days=1))) == (["Rack A"], [])
