"""No event can be altered or removed through any door: the pages, the API, a service, the database."""

import pytest
from sqlalchemy import select
from sqlalchemy.exc import DatabaseError

from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive
from yardapp.api.door import ROUTES
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.models import Event


def written():
    """Every line of history, column by column, by number."""
    with snapshot() as session:
        lines = session.scalars(select(Event)).all()
        return {
            line.id: {column.key: getattr(line, column.key) for column in Event.__table__.columns} for line in lines
        }


def test_no_address_takes_a_removal_and_no_change_reaches_an_event(app):
    methods = {(rule.rule, method) for rule in app.url_map.iter_rules() for method in rule.methods}

    assert [rule for rule, method in methods if method in ("DELETE", "PUT")] == []
    assert [rule for rule, method in methods if method == "PATCH" and not rule.startswith("/api/")] == []
    changed = {route.path for route in ROUTES if route.method == "PATCH"}
    assert [path for path in changed if "move" in path or "event" in path or "work" in path] == []


def test_every_act_of_the_pages_only_adds_lines(client):
    with transaction() as session:
        first, second = make_propeller(session).tag, make_propeller(session, hand="left", place="Rack D").tag
        third, drive = make_propeller(session).tag, make_drive(session).id
        finn = make_person(session, name="Finn Marsh", role="hand").id
    acts = [
        (f"/items/{first}/move", {"kind": "went on", "drive_id": str(drive)}),
        (f"/items/{first}/move", {"kind": "came off", "place": "Bench"}),
        (f"/items/{first}/moves/6/undo", {"why": "wrong one"}),
        (f"/items/{first}/move", {"kind": "lost"}),
        (f"/items/{second}/move", {"kind": "to shop", "place": "the shop", "due_on": "2099-01-01"}),
        (f"/items/{second}/chase", {"said": "soon", "due_on": "2099-02-01"}),
        (f"/items/{second}/work", {"kind": "re-pitched", "pitch_m": "17 in"}),
        (f"/items/{second}/declined", {"offered": "balance", "declined_by": "R. Thorne"}),
        (f"/items/{first}/swap", {"other_tag": second, "hand": "left", "other_hand": "right", "second_id": str(finn)}),
        (f"/items/{third}/together", {"tags": gear_part(third)}),
        (f"/items/{first}/twice", {"other_tag": third, "where": "kept", "why": "one serial"}),
        (f"/items/{third}/apart", {"why": "two"}),
    ]

    for address, boxes in acts:
        before = written()
        answer = client.send(address, **boxes)
        after = written()
        assert answer.status_code == 303, (address, answer.text.partition("said")[2][:600])
        assert len(after) > len(before), address
        assert {number: after[number] for number in before} == before, address


def gear_part(tag):
    with transaction() as session:
        place = gear.item_by_tag(session, make_who(session), tag).place
        return gear.log_part(session, make_who(session), kind="nut", place=place).tag


@pytest.mark.parametrize("act", ["alter", "remove"])
def test_a_service_that_tried_would_be_stopped_by_the_database(register, act):
    with transaction() as session:
        make_propeller(session)

    with pytest.raises(DatabaseError, match="history stays"):
        tried(act)


def tried(act):
    with transaction() as session:
        line = session.scalars(select(Event)).one()
        if act == "alter":
            line.place = "elsewhere"
        else:
            session.delete(line)


def test_a_correction_is_shown_as_such(client, fetch):
    with transaction() as session:
        item = make_propeller(session)
        gear.move_item(session, make_who(session), item.tag, "moved", place="Rack F")
        wrong = session.scalars(select(Event.id).where(Event.kind == "moved")).one()
    client.send(f"/items/{item.tag}/moves/{wrong}/undo", why="that was the next bin")

    html = fetch(f"/propellers/{item.tag}")

    assert '<s class="history-event-replaced">Moved; put in Rack F</s>' in html
    assert "that was the next bin" in html
