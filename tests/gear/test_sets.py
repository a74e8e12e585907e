"""Parts that come off and go on together."""

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Event, Item


@pytest.fixture
def session(register):
    with transaction() as session:
        yield session


def make_set(session, place="Rack C, bin 7"):
    """A propeller with its nut, lock and key."""
    who, propeller = make_who(session), make_propeller(session, place=place)
    parts = [gear.log_part(session, who, kind=kind, place=place) for kind in ("nut", "lock", "key")]
    there = gear.keep_together(session, who, propeller.tag, [part.tag for part in parts])
    return there, propeller, parts


def test_moving_one_part_of_a_set_moves_all_in_one_act(session):
    _there, propeller, parts = make_set(session)
    drive = make_drive(session)

    gear.move_item(session, make_who(session), parts[0].tag, "went on", drive_id=drive.id)

    assert {item.aboard_id for item in (propeller, *parts)} == {drive.id}
    events = session.scalars(select(Event).where(Event.kind == "went on").order_by(Event.id)).all()
    assert len(events) == 4
    assert {event.with_id for event in events[1:]} == {events[0].id}


def test_undoing_the_move_of_one_undoes_it_for_all(session):
    _there, propeller, parts = make_set(session)
    gear.move_item(session, make_who(session), propeller.tag, "moved", place="Bench 1")
    wrong = session.scalars(select(Event).where(Event.kind == "moved", Event.item_id == parts[2].id)).one()

    gear.undo_move(session, make_who(session), wrong.id, why="wrong set")

    assert {item.place for item in (propeller, *parts)} == {"Rack C, bin 7"}


def test_a_part_that_goes_alone_leaves_its_set_and_that_is_an_event(session):
    there, propeller, parts = make_set(session)

    gear.move_item(session, make_who(session), parts[0].tag, "to shop", place="the shop", is_alone=True)

    assert (parts[0].set_id, parts[0].standing, propeller.standing) == (None, "shop", "here")
    left = session.scalars(select(Event).where(Event.kind == "left set")).one()
    assert (left.item_id, left.set_id) == (parts[0].id, there.id)


def test_the_last_one_left_is_a_set_no_more(session):
    who = make_who(session)
    propeller, nut = make_propeller(session), gear.log_part(session, who, kind="nut", place="Rack C, bin 7")
    gear.keep_together(session, who, propeller.tag, [nut.tag])

    gear.leave_set(session, who, nut.tag, why="thread gone")

    assert (propeller.set_id, nut.set_id) == (None, None)


def test_one_that_can_not_go_keeps_the_whole_set(session):
    _there, propeller, _parts = make_set(session)
    drive, who = make_drive(session), make_who(session)
    gear.move_item(session, who, make_propeller(session).tag, "went on", drive_id=drive.id)

    with pytest.raises(Refused, match="Take that off first"), session.begin_nested():
        gear.move_item(session, who, propeller.tag, "went on", drive_id=drive.id)

    assert session.scalars(select(Item.tag).where(Item.aboard_id == drive.id)).all() == ["P-0002"]


def test_things_that_lie_apart_are_no_set(session):
    who, propeller = make_who(session), make_propeller(session)
    nut = gear.log_part(session, who, kind="nut", place="Rack B")

    with pytest.raises(Refused, match="lie apart"):
        gear.keep_together(session, who, propeller.tag, [nut.tag])


def test_a_set_holds_one_propeller_and_a_part_belongs_to_one_set(session):
    _there, propeller, parts = make_set(session)
    who, other = make_who(session), make_propeller(session)

    with pytest.raises(Refused, match="holds one propeller"):
        gear.keep_together(session, who, propeller.tag, [other.tag])
    with pytest.raises(Refused, match="belongs to another set"):
        gear.keep_together(session, who, other.tag, [parts[0].tag])
    with pytest.raises(Refused, match="Which others"):
        gear.keep_together(session, who, other.tag, [other.tag])
    with pytest.raises(Refused, match="Nothing here carries"):
        gear.keep_together(session, who, other.tag, ["N-0999"])


def test_a_part_logged_with_a_propeller_aboard_goes_where_that_is(session):
    propeller, drive, who = make_propeller(session), make_drive(session), make_who(session)
    gear.move_item(session, who, propeller.tag, "went on", drive_id=drive.id)

    nut = gear.log_part(session, who, kind="nut", with_tag=propeller.tag)

    assert (nut.aboard_id, nut.set_id) == (drive.id, propeller.set_id)


def test_a_line_carries_two_nuts_and_three_anodes(session):
    who, drive = make_who(session), make_drive(session)

    for kind in ("nut", "nut", "anode", "anode", "anode"):
        gear.move_item(
            session, who, gear.log_part(session, who, kind=kind, place="Bench").tag, "went on", drive_id=drive.id
        )

    assert len(gear.aboard(session, who, [drive.id])[drive.id]) == 5


def test_a_set_has_a_page_of_its_own(client, fetch):
    with transaction() as session:
        there, propeller, parts = make_set(session)

    html = fetch(f"/sets/{there.id}")
    assert all(tag in html for tag in (propeller.tag, *(part.tag for part in parts)))
    assert "N-0001, L-0001, K-0001" in fetch(f"/items/{propeller.tag}/move")
    client.send(f"/sets/{there.id}/leave", tag=parts[2].tag, why="does not fit")
    assert "does not fit" in fetch(f"/sets/{there.id}")
    assert there.name in fetch(f"/propellers/{propeller.tag}")
    client.send(f"/items/{propeller.tag}/move", kind="moved", place="Bench 1", is_alone="y")
    with snapshot() as session:
        places = dict(session.execute(select(Item.tag, Item.place)).all())
    assert places == {
        "P-0001": "Bench 1",
        "N-0001": "Rack C, bin 7",
        "L-0001": "Rack C, bin 7",
        "K-0001": "Rack C, bin 7",
    }


def test_a_set_is_made_from_a_page(client, fetch):
    with transaction() as session:
        tag = make_propeller(session).tag
        gear.log_part(session, make_who(session), kind="nut", place="Rack C, bin 7")

    fetch(f"/items/{tag}/together")
    answer = client.send(f"/items/{tag}/together", tags="n-0001", name="Winter set")

    assert "Winter set" in fetch(answer.headers["Location"])
    assert client.send(f"/items/{tag}/together", tags="n-0099").status_code == 422
