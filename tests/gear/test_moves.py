"""A thing is in exactly one place: what can follow what, what is refused, and how a wrong move is undone."""

from datetime import date, timedelta

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError, IntegrityError

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import now, snapshot, transaction
from yardapp.errors import NotAllowed, Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Event, Item


@pytest.fixture
def session(register):
    with transaction() as session:
        yield session


def ago(days):
    return now() - timedelta(days=days)


def move(session, item, kind, **said):
    return gear.move_item(session, make_who(session), item.tag, kind, **said)


def last_event(session):
    return session.scalars(select(Event).order_by(Event.id.desc())).first()


def undo(session, event, why="wrong boat"):
    return gear.undo_move(session, make_who(session), event.id, why=why)


def test_to_the_shop_and_back(session):
    item = make_propeller(session)

    move(session, item, "to shop", place="the shop at the bridge", due_on=date(2099, 5, 1))
    sent = (item.standing, item.place, item.due_on)
    move(session, item, "back from shop", place="Bench 2")

    assert sent == ("shop", "at the shop: the shop at the bridge", date(2099, 5, 1))
    assert (item.standing, item.place, item.due_on) == ("here", "Bench 2", None)


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        (("to shop", "the shop"), ("went on", ""), "at the shop: the shop since .*came back from the shop"),
        (("lent", "the ferry"), ("went on", ""), "lent to the ferry since .*came back from the loan"),
        (("sold", "a farmer"), ("moved", "Rack A"), "sold to a farmer since .*“Came back to the yard” first"),
        (("lost", ""), ("sold", ""), "lost since .*found"),
        (("stolen", ""), ("moved", "Rack A"), "stolen since .*found"),
        (("moved", "Rack B"), ("came off", "Rack A"), "here: Rack B since "),
        (("moved", "Rack B"), ("back from shop", "Rack A"), "here: Rack B since "),
        (("moved", "Rack B"), ("found", "Rack A"), "here: Rack B since "),
    ],
)
def test_a_move_that_contradicts_says_where_the_register_has_it_and_how_to_settle_it(session, first, second, said):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, first[0], place=first[1])

    with pytest.raises(Refused, match=said) as refusal:
        move(session, item, second[0], place=second[1], drive_id=drive.id if second[0] == "went on" else None)

    assert f"undo that move on the page of {item.tag}" in refusal.value.said


def test_what_is_on_one_boat_can_not_go_on_another(session):
    item, drive = make_propeller(session), make_drive(session)
    other = make_drive(session, make_vessel(session, name="Sea Otter"))
    move(session, item, "went on", drive_id=drive.id)

    with pytest.raises(Refused, match=r"on Kittiwake, centre since .*Take it off first"):
        move(session, item, "went on", drive_id=other.id)


@pytest.mark.parametrize("kind", ["sold", "scrapped", "to shop", "lent"])
def test_what_is_on_a_boat_comes_off_before_it_goes_elsewhere(session, kind):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id)

    with pytest.raises(Refused, match="Take it off first"):
        move(session, item, kind, place="somebody")


def test_a_propeller_lost_at_sea_is_on_its_boat_no_more_and_the_register_knows_where_it_was(session):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id)

    move(session, item, "lost")

    assert (item.standing, item.aboard_id, item.came_off_id) == ("lost", None, drive.id)
    assert last_event(session).drive == "Kittiwake, centre"


@pytest.mark.parametrize(
    ("kind", "said"), [("to shop", "Which shop"), ("lent", "Lent to whom"), ("moved", "Where was it put")]
)
def test_a_move_needs_to_say_where(session, kind, said):
    with pytest.raises(Refused, match=said):
        move(session, make_propeller(session), kind, place=" ")


@pytest.mark.parametrize("typed", ["the ferry shed", "to the ferry shed", "To  the ferry shed"])
@pytest.mark.parametrize(("kind", "said"), [("lent", "lent to the ferry shed"), ("sold", "sold to the ferry shed")])
def test_to_whom_is_said_once_however_it_was_typed(session, kind, said, typed):
    assert move(session, make_propeller(session), kind, place=typed).place == said


def test_a_name_that_begins_as_to_does_is_left_whole(session):
    assert move(session, make_propeller(session), "sold", place="Toby").place == "sold to Toby"


def test_it_is_not_expected_back_before_it_goes(session):
    with pytest.raises(Refused, match="before it goes"):
        move(session, make_propeller(session), "to shop", place="the shop", due_on=date(2001, 1, 1))


def test_the_database_itself_holds_one_place(session):
    item, drive = make_propeller(session), make_drive(session)

    with pytest.raises(IntegrityError), session.begin_nested():
        session.execute(text(f"UPDATE gear_item SET aboard_id = {drive.id} WHERE id = {item.id}"))


def test_a_forgotten_move_written_later_takes_its_place_in_time(session):
    item = make_propeller(session)
    move(session, item, "to shop", place="the shop", at=ago(20))
    move(session, item, "back from shop", place="Rack A", at=ago(5))

    with pytest.raises(Refused, match="the shop since"):
        move(session, item, "moved", place="Rack B", at=ago(10))
    move(session, item, "moved", place="Rack B", at=ago(30))

    assert (item.standing, item.place) == ("here", "Rack A")


def test_a_move_in_the_past_must_leave_room_for_what_came_after(session):
    item = make_propeller(session)
    move(session, item, "to shop", place="the shop", at=ago(5))

    with pytest.raises(Refused, match=r"to shop on .*can't both be"):
        move(session, item, "lent", place="the ferry", at=ago(10))


def test_two_propellers_were_never_on_one_shaft_line_either(session):
    drive, first, second = make_drive(session), make_propeller(session), make_propeller(session)
    move(session, first, "went on", drive_id=drive.id, at=ago(100))
    move(session, first, "came off", place="Rack A", at=ago(50))

    with pytest.raises(Refused, match=f"{first.tag} was on that shaft line from"), session.begin_nested():
        move(session, second, "went on", drive_id=drive.id, at=ago(70))
    move(session, second, "went on", drive_id=drive.id, at=ago(50))

    assert second.aboard_id == drive.id


def test_port_and_starboard_propellers_swapped(session):
    vessel = make_vessel(session)
    port, starboard = (make_drive(session, vessel, position=side) for side in ("port", "starboard"))
    left, right = make_propeller(session, hand="left"), make_propeller(session)
    move(session, left, "went on", drive_id=starboard.id)
    move(session, right, "went on", drive_id=port.id)
    with pytest.raises(Refused, match=f"{right.tag} is on Kittiwake, port. Take that off first"):
        move(session, move(session, left, "came off", place="Bench"), "went on", drive_id=port.id)

    move(session, right, "came off", place="Bench")
    move(session, left, "went on", drive_id=port.id)
    move(session, right, "went on", drive_id=starboard.id)

    assert (left.aboard_id, right.aboard_id) == (port.id, starboard.id)


def test_parts_of_two_boats_swapped(session):
    here = make_drive(session)
    there = make_drive(session, make_vessel(session, name="Sea Otter"))
    first, second = make_propeller(session), make_propeller(session)
    for item, drive in ((first, here), (second, there)):
        move(session, item, "went on", drive_id=drive.id, at=ago(300))
        move(session, item, "came off", place="Rack C", at=ago(100))

    move(session, first, "went on", drive_id=there.id, at=ago(90))
    move(session, second, "went on", drive_id=here.id, at=ago(90))

    assert (first.aboard_id, second.aboard_id) == (there.id, here.id)
    assert (first.came_off_id, second.came_off_id) == (here.id, there.id)


def test_a_wrong_move_is_undone_by_a_line_that_names_it_and_the_place_is_derived_again(session):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id)
    move(session, item, "came off", place="Rack D")
    wrong = last_event(session)

    undo(session, wrong, "that was the other propeller")

    assert (item.standing, item.aboard_id, item.place) == ("aboard", drive.id, "")
    written = last_event(session)
    assert (written.kind, written.undoes_id, written.why) == ("undone", wrong.id, "that was the other propeller")


def test_only_the_newest_can_be_undone_where_a_later_one_builds_on_it(session):
    item, drive = make_propeller(session), make_drive(session)
    move(session, item, "went on", drive_id=drive.id)
    went_on = last_event(session)
    move(session, item, "came off", place="Rack D")

    with pytest.raises(Refused, match=r"Undo the later move first. .* came off on"):
        undo(session, went_on)


def test_a_wrong_move_deep_in_the_past_is_undone_and_the_present_stays(session):
    item = make_propeller(session)
    move(session, item, "moved", place="Rack B", at=ago(9))
    wrong = last_event(session)
    move(session, item, "moved", place="Rack C", at=ago(5))

    undo(session, wrong)

    assert item.place == "Rack C"


def test_an_undoing_that_would_put_two_on_one_line_is_refused(session):
    drive, first, second = make_drive(session), make_propeller(session), make_propeller(session)
    move(session, first, "went on", drive_id=drive.id)
    move(session, first, "came off", place="Rack A")
    off = last_event(session)
    move(session, second, "went on", drive_id=drive.id)

    with pytest.raises(Refused), session.begin_nested():
        undo(session, off)

    session.refresh(first)
    assert first.standing == "here"


def test_a_move_is_undone_once_with_a_reason_and_never_the_beginning(session):
    item = make_propeller(session)
    begun = last_event(session)
    move(session, item, "moved", place="Rack B")
    wrong = last_event(session)

    with pytest.raises(Refused, match="Say why"):
        undo(session, wrong, " ")
    undo(session, wrong)
    with pytest.raises(Refused, match="undone before"):
        undo(session, wrong)
    with pytest.raises(Refused, match="not a move"):
        undo(session, begun)
    assert item.place == "Rack C, bin 7"


def test_owners_undo_nothing(session):
    owner = make_who(session, name="R. Thorne", role="owner")
    move(session, make_propeller(session), "moved", place="Rack B")

    with pytest.raises(NotAllowed):
        gear.undo_move(session, owner, last_event(session).id, why="mine")


@pytest.mark.parametrize("act", ["DELETE FROM gear_event", "UPDATE gear_event SET why = 'x'", "DELETE FROM gear_paper"])
def test_no_line_can_be_altered_or_removed(register, act):
    with transaction() as session:
        who = make_who(session)
        item = make_propeller(session)
        paper = gear.KeptPaper("0" * 64, "pdf", "bill.pdf")
        gear.work_done(session, who, item.tag, kind="inspected", papers=[paper])

    with pytest.raises(DatabaseError, match="history stays"), transaction() as session:
        session.execute(text(act))


def test_a_thing_goes_and_is_undone_on_its_page(client, fetch):
    with transaction() as session:
        tag, drive = make_propeller(session).tag, make_drive(session).id
    client.send(f"/items/{tag}/move", kind="to shop", place="the shop", due_on="2099-05-01", note="balancing")
    html = fetch(f"/propellers/{tag}")
    refused = client.send(f"/items/{tag}/move", kind="went on", drive_id=str(drive))
    with snapshot() as session:
        sent = last_event(session).id

    assert "1 May 2099" in html
    assert f"/items/{tag}/moves/{sent}/undo" in html
    assert refused.status_code == 422
    assert "came back from the shop" in refused.text
    assert "Went to the shop; at the shop: the shop" in fetch(f"/items/{tag}/moves/{sent}/undo")
    client.send(f"/items/{tag}/moves/{sent}/undo", why="it never left")
    html = fetch(f"/propellers/{tag}")
    assert "it never left" in html
    assert "Undone: Went to the shop" in html
    with snapshot() as session:
        assert session.scalars(select(Item.standing)).one() == "here"


def test_what_is_late_is_on_the_list_and_is_asked_after(client, fetch):
    with transaction() as session:
        item = make_propeller(session)
        move(session, item, "to shop", place="the shop", at=ago(30), due_on=ago(3).date())
        kept = move(session, make_propeller(session), "lent", place="the ferry").tag

    html = fetch("/rack/away")
    assert "3 days late" in html
    assert kept in html
    assert "Away, 1 late" in fetch("/rack")
    assert ", 3 days late" in fetch(f"/propellers/{item.tag}")
    client.send(
        f"/items/{item.tag}/chase", said="Rang: ready on Friday", due_on=f"{now() + timedelta(days=4):%Y-%m-%d}"
    )

    html = fetch("/rack/away")
    assert "late" not in html.split("<h1>")[1].split("</h1>")[1].replace("Nothing is late", "")
    assert "Rang: ready on Friday" in fetch(f"/propellers/{item.tag}")
    assert client.send(f"/items/{item.tag}/chase", said="").status_code == 422


def test_a_new_promise_stands_until_it_is_back_even_after_an_undoing(session):
    item = make_propeller(session)
    move(session, item, "to shop", place="the shop", at=ago(9), due_on=ago(3).date())
    gear.chase(session, make_who(session), item.tag, said="next week", due_on=date(2099, 1, 1))
    move(session, item, "back from shop", place="Rack A")

    undo(session, last_event(session))

    assert (item.standing, item.due_on) == ("shop", date(2099, 1, 1))


def test_a_place_that_somebody_wrote_past_the_app_is_found_by_the_check(session):
    items = [make_propeller(session) for _ in range(2)]
    move(session, items[0], "to shop", place="the shop")
    session.flush()
    sound = gear.astray(session, items)
    session.execute(text(f"UPDATE gear_item SET place = 'Rack X' WHERE id = {items[0].id}"))
    session.expire_all()

    assert sound == []
    assert gear.astray(session, items) == [items[0]]
