"""Timelines, what was on a boat on a day, and lookalikes, through the second door."""

from datetime import timedelta

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp import db
from yardapp.db import now
from yardapp.gear import services as gear


@pytest.fixture
def yard(ada):
    """A propeller that went on a boat 800 days ago and came off 700 days ago, and its sold lookalike."""
    with db.transaction() as session:
        who, boat = make_who(session), make_vessel(session)
        drive, item = make_drive(session, boat), make_propeller(session)
        gear.move_item(session, who, item.tag, "went on", drive_id=drive.id, at=now() - timedelta(days=800))
        gear.move_item(session, who, item.tag, "came off", place="Rack A", at=now() - timedelta(days=700))
        like = make_propeller(session)
        gear.move_item(session, who, like.tag, "sold")
        return {"boat": boat.id, "drive": drive.id, "tag": item.tag, "like": like.tag}


def moments_of(answer):
    assert answer.status_code == 200, answer.text
    return answer.get_json()["moments"]


def test_each_timeline_tells_what_went_on_and_off(ada, yard):
    for address in (f"/items/{yard['tag']}", f"/vessels/{yard['boat']}", f"/drives/{yard['drive']}"):
        kinds = [one["kind"] for one in moments_of(ada.get(f"{address}/timeline?group=moves"))]
        assert [kind for kind in kinds if kind in ("went on", "came off")] == ["came off", "went on"]


def test_a_timeline_shows_some_days_and_goes_on_page_by_page(ada, yard):
    day = (now() - timedelta(days=800)).date()
    address = f"/items/{yard['tag']}/timeline"
    first = ada.get(f"{address}?limit=1").get_json()
    onward = first["after"].replace("+", "%2B")

    assert [one["kind"] for one in moments_of(ada.get(f"{address}?group=moves&since={day}&until={day}"))] == ["went on"]
    assert moments_of(ada.get(f"{address}?limit=1&after={onward}")) != first["moments"]


def test_a_persons_timeline_is_told_to_the_office_and_to_themselves(ada, yard, caller_as, must_refuse):
    finn = caller_as("Finn Marsh", "hand")
    ada.post(f"/items/{yard['tag']}/moves", {"kind": "moved", "place": "Bench"})

    done = ada.get(f"/people/{ada.who.person_id}/timeline").get_json()
    assert (done["name"], done["acts"][0]["act"], done["acts"][0]["name"]) == ("Ada Brook", "moved", yard["tag"])
    assert finn.get(f"/people/{finn.who.person_id}/timeline").status_code == 200
    must_refuse(finn.get(f"/people/{ada.who.person_id}/timeline"), 403)


def test_what_was_on_a_boat_on_a_day_is_told_drive_by_drive(ada, yard):
    def aboard(days):
        day = (now() - timedelta(days=days)).date()
        (drive,) = ada.get(f"/vessels/{yard['boat']}/aboard?day={day}").get_json()["drives"]
        return [one["item"]["tag"] for one in drive["items"]]

    assert (aboard(900), aboard(750), aboard(1)) == ([], [yard["tag"]], [])


def test_a_sold_lookalike_is_told(ada, yard):
    found = ada.get(f"/items/{yard['tag']}/seen-before").get_json()["found"]

    assert [(one["item"]["tag"], one["is_gone"], one["is_serial"]) for one in found] == [(yard["like"], True, False)]
    assert "diameter_m" in found[0]["agreed"]


def test_an_owner_asks_of_their_own_boat_alone(yard, caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")

    for address in (f"/vessels/{yard['boat']}/timeline", f"/drives/{yard['drive']}/timeline"):
        must_refuse(owner.get(address), 404)
    must_refuse(owner.get(f"/vessels/{yard['boat']}/aboard?day=2024-01-01"), 404)
    must_refuse(owner.get(f"/items/{yard['tag']}/seen-before"), 403)


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ("since=0001-01-01", "since"),
        ("until=9999-12-31", "until"),
        ("since=soon", "since"),
        ("since=2026-02-30", "since"),
        ("since=2026-03-02&until=2026-03-01", "until"),
        ("group=100%25", "group"),
        ("group=a_b", "group"),
        ("limit=0", "limit"),
        ("after=%00", "after"),
    ],
)
def test_an_odd_filter_is_refused_by_name(ada, yard, must_refuse, asked, field):
    for address in (f"/items/{yard['tag']}", f"/vessels/{yard['boat']}", f"/drives/{yard['drive']}"):
        assert set(must_refuse(ada.get(f"{address}/timeline?{asked}"), 422)) == {field}


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31", "soon", "%25", ""])
def test_an_odd_day_is_refused_by_name(ada, yard, must_refuse, day):
    assert set(must_refuse(ada.get(f"/vessels/{yard['boat']}/aboard?day={day}"), 422)) == {"day"}
