"""One thing that was logged twice."""

import pytest
from sqlalchemy import func, select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Event, Evidence, Item
from yardapp.relaunch import services as relaunch

Said = gear.Said
FAULT = {"kind": "crack", "severity": "stop", "side": "face", "blade": "2", "radius_ratio": "0.7", "size_m": "12 mm"}


@pytest.fixture
def session(register):
    with transaction() as session:
        yield session


def merge(session, kept, other, **said):
    return gear.merge_items(session, make_who(session), kept.tag, other.tag, **{"why": "one serial number", **said})


def counts(session):
    return [session.scalar(select(func.count(table.id))) for table in (Evidence, Event)]


def test_not_a_line_of_either_is_lost_and_the_kept_tag_shows_both(session):
    who, kept, other = make_who(session), make_propeller(session), make_propeller(session, place="Rack D")
    gear.note_evidence(session, who, other.tag, Said(what="mass_kg", basis="measured", value=14.2, u_value=0.05))
    before = counts(session)

    merge(session, kept, other)

    page = gear.item_page(session, who, kept.tag)
    # Nothing went, and two lines were added: one on each.
    assert counts(session) == [before[0], before[1] + 2]
    assert len(page.evidence) == before[0]
    assert len(page.events) == before[1] + 2
    assert (kept.mass_kg, kept.place) == (14.2, "Rack C, bin 7")


def test_the_other_tag_leads_to_the_kept_one_and_takes_nothing_on_itself(session):
    who, kept, other = make_who(session), make_propeller(session), make_propeller(session)
    merge(session, kept, other)

    gear.note_evidence(session, who, other.tag, Said(what="mass_kg", basis="measured", value=15.0))
    gear.move_item(session, who, other.tag, "moved", place="Rack F")
    gear.record_work(session, who, other.tag, "polished")

    assert gear.item_by_tag(session, who, other.tag).tag == kept.tag
    assert (kept.mass_kg, kept.place, other.standing, other.mass_kg) == (15.0, "Rack F", "merged", None)
    assert {event.item_id for event in session.scalars(select(Event).where(Event.kind == "polished"))} == {kept.id}


def test_two_readings_of_one_thing_that_differ_are_told(session):
    kept, other = make_propeller(session), make_propeller(session, diameter_m=(0.6, 0.001))

    merge(session, kept, other)

    assert [odd["what"] for odd in kept.odds] == ["diameter_m"]


def test_it_may_be_where_the_other_tag_says(session):
    who, drive = make_who(session), make_drive(session)
    kept, other = make_propeller(session), make_propeller(session)
    gear.move_item(session, who, other.tag, "went on", drive_id=drive.id)

    merge(session, kept, other, is_where_the_other_is=True)

    assert (kept.aboard_id, other.aboard_id, other.standing) == (drive.id, None, "merged")


def test_a_place_that_can_not_be_taken_over_is_settled_first(session):
    kept, other = make_propeller(session), make_propeller(session)
    gear.move_item(session, make_who(session), other.tag, "to shop", place="the shop")

    with pytest.raises(Refused, match="Write down first where the thing really is"):
        merge(session, kept, other, is_where_the_other_is=True)


def test_what_makes_no_sense_is_refused(session):
    who, kept, other = make_who(session), make_propeller(session), make_propeller(session)
    nut = gear.log_part(session, who, kind="nut", place="Rack C")

    with pytest.raises(Refused, match="is one tag"):
        merge(session, kept, kept)
    with pytest.raises(Refused, match="another kind of thing"):
        merge(session, kept, nut)
    with pytest.raises(Refused, match="Say how you know"):
        merge(session, kept, other, why=" ")
    merge(session, kept, other)
    with pytest.raises(Refused, match="merged before"):
        merge(session, kept, other)


def test_tags_that_led_to_the_other_lead_to_the_kept_one(session):
    first, second, third = (make_propeller(session) for _ in range(3))
    merge(session, second, third)
    merge(session, first, second)

    assert gear.item_by_tag(session, make_who(session), third.tag).tag == first.tag
    assert len(gear.item_page(session, make_who(session), first.tag).evidence) == 12


def test_two_that_were_two_after_all_are_parted_again(session):
    who, kept, other = make_who(session), make_propeller(session), make_propeller(session, place="Rack D")
    gear.note_evidence(session, who, other.tag, Said(what="mass_kg", basis="measured", value=14.2, u_value=0.05))
    merge(session, kept, other)
    with pytest.raises(Refused, match="Say why"):
        gear.part_again(session, who, other.tag, why="")

    gear.part_again(session, who, other.tag, why="two serial numbers")

    assert (other.standing, other.place, other.mass_kg, kept.mass_kg) == ("here", "Rack D", 14.2, None)
    with pytest.raises(Refused, match="stands for itself"):
        gear.part_again(session, who, other.tag, why="again")


def test_working_figures_do_not_drift_after_a_merge(session):
    kept, other = make_propeller(session), make_propeller(session)
    merge(session, kept, other)
    session.flush()
    for item in (kept, other):
        before = {column.key: getattr(item, column.key) for column in Item.__table__.columns}
        gear.refresh(session, item)
        assert {column.key: getattr(item, column.key) for column in Item.__table__.columns} == before


def test_it_is_merged_and_parted_from_its_page(client, fetch):
    with transaction() as session:
        make_propeller(session)
        make_propeller(session, place="Rack D")
    fetch("/items/P-0001/twice")

    client.send("/items/P-0001/twice", other_tag="p-0002", where="other", why="one serial number")

    html = fetch("/propellers/P-0001")
    assert "written under P-0002" in html
    assert "Rack D" in html
    assert client.get("/propellers/P-0002").headers["Location"] == "/propellers/P-0001"
    assert client.get("/t/P-0002").headers["Location"] == "/propellers/P-0001"
    fetch("/bench/P-0002")
    fetch("/items/P-0002/apart")
    client.send("/items/P-0002/apart", why="no, two")
    assert "no, two" in fetch("/propellers/P-0002")


def test_a_tag_with_an_open_fault_does_not_go_under(client):
    with transaction() as session:
        make_propeller(session)
        make_propeller(session)
    client.send("/bench/P-0002/condition/new", **FAULT)

    answer = client.send("/items/P-0001/twice", other_tag="P-0002", where="kept", why="same")

    with snapshot() as session:
        assert session.scalars(select(Item.standing)).all() == ["here", "here"]
    assert "1 open fault" in answer.text


def test_no_door_lays_a_tag_down_that_has_an_open_fault(session):
    kept, other = make_propeller(session), make_propeller(session)
    said = relaunch.FaultSaid(severity="stop", what="pink at the keyway", tag=other.tag)
    relaunch.raise_fault(session, make_who(session), said)

    with pytest.raises(Refused, match="1 open fault"):
        merge(session, kept, other)


def test_a_tag_that_nothing_carries_is_told_beside_its_box(client):
    with transaction() as session:
        make_propeller(session)

    answer = client.send("/items/P-0001/twice", other_tag="P-9999", where="kept", why="one serial number")

    assert answer.status_code == 422
    assert "P-9999" in answer.text
    assert "one serial number" in answer.text
