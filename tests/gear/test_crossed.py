"""Tags that crossed: told, since when; both looked at; swapped in one act with two names; nothing rewritten."""

from datetime import timedelta

import pytest
from sqlalchemy import func, select

from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import now, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.crossed import Seen, differences
from yardapp.gear.models import Event, Evidence, Item
from yardapp.gear.services.crossed import swap_tags

LEFT, RIGHT = Seen(hand="left"), Seen(hand="right")


@pytest.fixture
def session(register):
    with transaction() as session:
        yield session


def ago(days):
    return now() - timedelta(days=days)


def make_pair(session):
    """A right-hand and a left-hand propeller that lay in one place."""
    return make_propeller(session), make_propeller(session, hand="left", place="Rack D")


def finn(session):
    return make_person(session, name="Finn Marsh", role="hand").id


def swap(session, first, second, **said):
    given = {"second_id": finn(session), "seen": LEFT, "seen_at_other": RIGHT, "why": "blasting shed"}
    return swap_tags(session, make_who(session), first.tag, second.tag, **{**given, **said})


@pytest.mark.parametrize(
    ("seen", "what"),
    [
        (Seen(hand="left"), ["hand"]),
        (Seen(diameter_m=0.559), []),
        (Seen(diameter_m=0.562), []),
        (Seen(diameter_m=0.570), ["diameter_m"]),
        (Seen(mass_kg=3.0), []),
        (Seen(stamp="22 X 18"), []),
        (Seen(), []),
    ],
)
def test_what_is_seen_is_held_against_what_is_known_within_what_a_look_is_good_for(session, seen, what):
    item = make_propeller(session)

    assert [one.what for one in differences(seen, item)] == what


def test_the_page_says_that_the_tags_may_have_crossed_and_since_when_and_names_the_other_one(session):
    who = make_who(session)
    first, second = make_pair(session)
    for item in (first, second):
        gear.move_item(session, who, item.tag, "to shop", place="the shop")
    make_propeller(session, hand="left", place="elsewhere")

    doubt = gear.look_at(session, who, first.tag, LEFT)

    read = session.scalars(select(Evidence.at).where(Evidence.item_id == first.id, Evidence.what == "hand")).one()
    assert [(one.what, one.seen, one.has) for one in doubt.apart] == [("hand", "left", "right")]
    assert doubt.since == read
    assert doubt.others[0].tag == second.tag


def test_swapping_exchanges_the_places_and_rewrites_nothing(session):
    vessel = make_vessel(session)
    port, starboard = (make_drive(session, vessel, position=side) for side in ("port", "starboard"))
    first, second = make_pair(session)
    who = make_who(session)
    for item, drive in ((first, port), (second, starboard)):
        gear.move_item(session, who, item.tag, "went on", drive_id=drive.id)
    events, evidence = (session.scalar(select(func.count(table.id))) for table in (Event, Evidence))

    swap(session, first, second)

    assert (first.aboard_id, second.aboard_id) == (starboard.id, port.id)
    # One event and one look at its hand for each.
    assert session.scalar(select(func.count(Event.id))) == events + 2
    assert session.scalar(select(func.count(Evidence.id))) == evidence + 2
    assert (first.hand, second.hand) == ("right", "left")
    assert first.odds == second.odds == []


def test_it_is_one_act_with_two_names(session):
    first, second = make_pair(session)

    swap(session, first, second)

    written = session.scalars(select(Event).where(Event.kind == "tags swapped").order_by(Event.id)).all()
    assert [(line.said_by, line.by_whom) for line in written] == [("Ada Brook", "Finn Marsh")] * 2
    assert written[1].with_id == written[0].id


def test_what_was_written_between_is_marked_as_possibly_the_other_s(client, fetch):
    with transaction() as session:
        who = make_who(session)
        first, second = make_pair(session)
        gear.note_evidence(session, who, first.tag, gear.Said(what="mass_kg", basis="measured", value=14.2))
        swap(session, first, second, since=ago(3))

    html = fetch(f"/propellers/{first.tag}")
    assert f"possibly {second.tag}" in html
    assert "perhaps the other’s" in html
    assert f"possibly {second.tag}" in fetch(f"/items/{first.tag}/figures/mass_kg")
    assert f"possibly {first.tag}" in fetch(f"/propellers/{second.tag}")


def test_what_was_written_before_is_not_marked(client, fetch):
    with transaction() as session:
        first, second = make_pair(session)
        swap(session, first, second)

    # Nothing was written after the last look that agreed.
    assert "possibly" not in fetch(f"/items/{first.tag}/figures/pitch_m")


def test_a_swap_needs_a_second_name_and_a_look_at_the_other_one_that_fits(session):
    first, second = make_pair(session)
    who = make_who(session)

    with pytest.raises(Refused, match="takes two names"):
        swap(session, first, second, second_id=None)
    with pytest.raises(Refused, match="That is you"):
        swap(session, first, second, second_id=who.person_id)
    with pytest.raises(Refused, match=f"Look at {second.tag} too"):
        swap(session, first, second, seen_at_other=Seen())
    with pytest.raises(Refused, match="hand differs"):
        swap(session, first, second, seen_at_other=LEFT)
    with pytest.raises(Refused, match="of one kind"):
        swap(session, first, gear.log_part(session, who, kind="nut", place="Rack C"))
    owner = make_person(session, name="R. Thorne", role="owner").id
    with pytest.raises(Refused, match="takes two names"):
        swap(session, first, second, second_id=owner)


def test_tags_that_are_right_are_not_swapped(session):
    first, second = make_propeller(session), make_propeller(session, place="Rack D")

    with pytest.raises(Refused, match="nothing that is seen speaks for a swap"):
        swap(session, first, second, seen=RIGHT, seen_at_other=RIGHT)
    with pytest.raises(Refused, match="not come yet"):
        swap(session, first, make_propeller(session, hand="left"), since=now() + timedelta(days=2))


def test_a_wrong_swap_is_undone_for_both(client, fetch, register):
    with transaction() as session:
        first, second = make_pair(session)
        swap(session, first, second, since=ago(3))
        there = (first.place, second.place)
        wrong = session.scalars(select(Event).where(Event.kind == "tags swapped").order_by(Event.id)).first()
        gear.undo_move(session, make_who(session), wrong.id, why="it was the sun")

        assert there == ("Rack D", "Rack C, bin 7")
        assert (first.place, second.place) == ("Rack C, bin 7", "Rack D")
    assert "possibly" not in fetch(f"/propellers/{first.tag}")


def test_a_set_does_not_follow_crossed_tags(session):
    first, second = make_pair(session)
    nut = gear.log_part(session, make_who(session), kind="nut", with_tag=first.tag)

    swap(session, first, second)

    assert (first.set_id, nut.set_id) == (None, None)


def test_two_looks_that_differ_are_told_on_the_page(client, fetch):
    with transaction() as session:
        item, _other = make_pair(session)
        said = gear.Said(what="hand", basis="measured", word="left")
        gear.note_evidence(session, make_who(session), item.tag, said)

    assert "The tags may have crossed since" in fetch(f"/propellers/{item.tag}")


def test_both_are_looked_at_and_swapped_from_the_pages(client, fetch):
    with transaction() as session:
        first, second = make_pair(session)
        second_id = finn(session)
    fetch(f"/items/{first.tag}/seen")

    html = fetch(f"/items/{first.tag}/seen?hand=left")
    assert "The tags may have crossed since" in html
    assert f"/items/{first.tag}/swap?other_tag={second.tag}&amp;hand=left" in html
    assert "Nothing speaks against the tag" in fetch(f"/items/{first.tag}/seen?hand=right")
    html = fetch(f"/items/{first.tag}/swap?other_tag={second.tag}&hand=left")
    assert "Finn Marsh" in html
    nobody = client.send(f"/items/{first.tag}/swap", other_tag=second.tag, hand="left", other_hand="right")
    answer = client.send(
        f"/items/{first.tag}/swap", other_tag=second.tag, hand="left", other_hand="right", second_id=str(second_id)
    )

    assert nobody.status_code == 422
    assert "takes two names" in nobody.text
    html = fetch(answer.headers["Location"])
    assert f"Tags swapped with {second.tag}" in html
    assert "also signed by Finn Marsh" in html
    with transaction() as session:
        assert dict(session.execute(select(Item.tag, Item.place)).all()) == {
            first.tag: "Rack D",
            second.tag: "Rack C, bin 7",
        }
