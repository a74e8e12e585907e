import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Event, Evidence, Item
from yardapp.vessels import services as vessels

Said = gear.Said


def found(line, who=None):
    with snapshot() as session:
        return [row.tag for row in gear.search(session, who or make_who(session), line)]


def test_tags_count_up_and_are_never_given_twice(register):
    with transaction() as session:
        tags = [make_propeller(session).tag for _ in range(3)]

    assert tags == ["P-0001", "P-0002", "P-0003"]


def test_a_stamp_becomes_evidence_of_size_and_hand(register):
    with transaction() as session:
        item = gear.log_propeller(session, make_who(session), place="Rack A", stamp="22 x 18 RH")

        assert (item.diameter_m, item.pitch_m, item.hand) == (pytest.approx(0.5588), pytest.approx(0.4572), "right")
        assert item.known["pitch_m"] == "stamped"


def test_hand_seen_and_hand_stamped_are_two_facts_and_their_quarrel_is_told(register):
    with transaction() as session:
        item = gear.log_propeller(session, make_who(session), place="Rack A", stamp="22 x 18 RH", hand="left")

        assert item.hand == "left"
        assert [one["what"] for one in item.odds] == ["hand"]


def test_a_stamp_that_the_tape_contradicts_is_told(register):
    with transaction() as session:
        item = gear.log_propeller(session, make_who(session), place="Rack A", stamp="22 x 18 RH", diameter_m=0.52)

        assert item.diameter_m == 0.52
        assert [one["what"] for one in item.odds] == ["diameter_m"]


def test_re_pitching_silences_the_stamp_until_somebody_measures(register):
    with transaction() as session:
        who = make_who(session)
        item = gear.log_propeller(session, who, place="Rack A", stamp="22 x 18 RH")
        gear.record_work(session, who, item.tag, "re-pitched")
        silent = item.pitch_m
        gear.add_evidence(session, who, item, Said(what="pitch_m", basis="measured", value=0.432, u_value=0.009))

        assert silent is None
        assert item.pitch_m == 0.432
        assert item.odds == []


def test_a_correction_needs_a_reason_and_is_made_once(register):
    with transaction() as session:
        who = make_who(session)
        item = make_propeller(session)
        wrong = session.scalars(select(Evidence).where(Evidence.what == "pitch_m")).one()
        with pytest.raises(Refused, match="Say why"):
            gear.correct_evidence(session, who, wrong.id, None, why=" ")
        gear.correct_evidence(session, who, wrong.id, None, why="read off the wrong blade")

        assert item.pitch_m is None
    with transaction() as session, pytest.raises(Refused, match="replaced before"):
        gear.correct_evidence(session, make_who(session), wrong.id, None, why="again")


def test_the_working_figures_never_drift_from_the_evidence(register):
    with transaction() as session:
        who = make_who(session)
        drive = make_drive(session)
        for number in range(4):
            item = gear.log_propeller(session, who, place="Rack A", stamp="22 x 18 RH", diameter_m=0.55 + number / 100)
            gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
            gear.move_item(session, who, item.tag, "came off", place="Rack B")
            gear.record_work(session, who, item.tag, "cut down", Said(what="diameter_m", basis="paper", value=0.5))
    with transaction() as session:
        for item in session.scalars(select(Item)):
            before = {column.key: getattr(item, column.key) for column in Item.__table__.columns}
            gear.refresh(session, item)
            assert {column.key: getattr(item, column.key) for column in Item.__table__.columns} == before


@pytest.mark.parametrize("table", ["gear_evidence", "gear_event", "people_audit", "vessels_happening"])
@pytest.mark.parametrize("act", ["DELETE FROM {}", "UPDATE {} SET said_by = 'nobody'"])
def test_history_can_not_be_altered_even_by_sql(register, table, act):
    column = "name" if table == "people_audit" else "said_by"
    with transaction() as session:
        make_propeller(session)
        make_drive(session)
        gear.note_evidence(session, make_who(session), "P-0001", Said(what="blades", basis="measured", value=3.0))

    with pytest.raises(DatabaseError, match="history stays"), transaction() as session:
        session.execute(text(act.format(table).replace("said_by", column)))


def test_a_drive_carries_one_propeller_at_a_time(register):
    with transaction() as session:
        who, drive = make_who(session), make_drive(session)
        first, second = make_propeller(session), make_propeller(session)
        gear.move_item(session, who, first.tag, "went on", drive_id=drive.id)

        with pytest.raises(Refused, match=f"{first.tag} is on Kittiwake, centre"):
            gear.move_item(session, who, second.tag, "went on", drive_id=drive.id)


def test_what_comes_off_remembers_the_drive_it_came_off(register):
    with transaction() as session:
        who, drive = make_who(session), make_drive(session)
        item = make_propeller(session)
        gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
        gear.move_item(session, who, item.tag, "came off", place="Rack C")

        assert (item.aboard_id, item.came_off_id, item.place) == (None, drive.id, "Rack C")
        assert [event.kind for event in session.scalars(select(Event).order_by(Event.id))] == [
            "logged",
            "went on",
            "came off",
        ]


@pytest.mark.parametrize(
    "line",
    ["P-0001", "p-0001", "1", "22 x 18", "22x18", "560x460", "rh", "right hand", "bore 1-1/2", "kittiwake", "Thorne",
     "kitti rh", "rack c", "22X18R", "2? x 18", "22 x 1?", "?2x18"],
)  # fmt: skip
def test_it_is_found_again_by(register, line):
    with transaction() as session:
        who, drive = make_who(session), make_drive(session)
        item = make_propeller(session, diameter_m=None, pitch_m=None)
        gear.note_evidence(session, who, item.tag, Said(what="stamp", basis="stamped", word="22 x 18 RH"))
        gear.note_evidence(
            session,
            who,
            item.tag,
            Said(what="diameter_m", basis="stamped", value=0.5588),
            Said(what="pitch_m", basis="stamped", value=0.4572),
        )
        gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
        gear.move_item(session, who, item.tag, "came off", place="Rack C, bin 7")
        make_propeller(session, place="Shed", hand="left", diameter_m=(0.4, 0.001), bore_large_m=(0.03, 0.001))

    assert found(line) == ["P-0001"]


@pytest.mark.parametrize(
    "line", ["P-9999", "24 x 18", "bore 2", "no such boat", "?9x18", "%", "_", "' OR 1=1", "x" * 300]
)
def test_it_is_not_found_by(register, line):
    with transaction() as session:
        make_propeller(session)

    assert found(line) == []


def test_a_renamed_boat_finds_her_propeller_by_the_old_name(register):
    with transaction() as session:
        who, vessel = make_who(session), make_vessel(session, name="Kittiwake")
        drive = make_drive(session, vessel)
        gear.move_item(session, who, make_propeller(session).tag, "went on", drive_id=drive.id)
        vessels.change_vessel(session, who, vessel.id, vessel.version, name="Sea Otter")

    assert found("kittiwake") == found("sea otter") == ["P-0001"]


def test_an_owner_sees_what_is_on_their_own_boat_and_nothing_else(register):
    with transaction() as session:
        office, owner = make_who(session), make_who(session, name="R. Thorne", role="owner")
        vessel = vessels.log_vessel(session, office, name="Kittiwake", owner="R. Thorne", owner_id=owner.person_id)
        drive = make_drive(session, vessel)
        own, other = make_propeller(session), make_propeller(session)
        gear.move_item(session, office, own.tag, "went on", drive_id=drive.id)

    with snapshot() as session:
        assert gear.item_page(session, owner, own.tag, "propeller").item.tag == own.tag
        assert [row.tag for row in gear.rack(session, owner)[0]] == [own.tag]
        with pytest.raises(NotFound):
            gear.item_page(session, owner, other.tag, "propeller")
    with transaction() as session, pytest.raises(NotAllowed):
        gear.move_item(session, owner, own.tag, "scrapped")


def test_an_owner_may_propose_a_propeller_and_the_office_takes_it_in(register):
    with transaction() as session:
        owner = make_who(session, name="R. Thorne", role="owner")
        item = gear.log_propeller(session, owner, place="My shed", stamp="16 x 12 LH", hand="left")
        assert item.is_proposed
        gear.accept_proposal(session, make_who(session), item.tag)

        assert not item.is_proposed
        assert item.diameter_m == pytest.approx(0.4064)


def test_a_proposal_already_taken_in_is_out_of_the_owners_hands(register):
    with transaction() as session:
        owner = make_who(session, name="R. Thorne", role="owner")
        item = gear.log_propeller(session, owner, place="My shed")
        gear.accept_proposal(session, make_who(session), item.tag)

        with pytest.raises(NotAllowed):
            gear.add_evidence(session, owner, item, Said(what="blades", basis="measured", value=3.0))
