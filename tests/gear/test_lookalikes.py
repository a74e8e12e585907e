from dataclasses import dataclass

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.gear.test_views import picture
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.seen_before import likeness
from yardapp.marks import services as marks
from yardapp.marks.services.serials import serials_in


@dataclass
class Thing:
    hand: str | None = "right"
    blades: int | None = 3
    diameter_m: float | None = 0.559
    u_diameter_m: float | None = 0.0025
    pitch_m: float | None = None
    u_pitch_m: float | None = None
    bore_large_m: float | None = None
    u_bore_large_m: float | None = None
    stamp: str = ""


def gone(session, what="sold", **said):
    item = make_propeller(session, blades=(3.0, 0.0), **said)
    gear.move_item(session, make_who(session), item.tag, what)
    return item


def tags(session, tag):
    return [one.row.tag for one in gear.seen_before(session, make_who(session), tag).found]


def test_sizes_within_both_plus_minuses_agree_and_others_rule_it_out():
    # 2 × √(2.5² + 2.5²) mm = 7.07 mm.
    assert likeness(Thing(), Thing(diameter_m=0.566)).agreed == ["hand", "blades", "diameter_m"]
    assert likeness(Thing(), Thing(diameter_m=0.567)) is None


@pytest.mark.parametrize("other", [Thing(hand="left"), Thing(blades=4)])
def test_another_hand_or_number_of_blades_rules_it_out_unless_the_serial_is_the_same(other):
    assert likeness(Thing(), other) is None
    assert likeness(Thing(), other, is_serial=True).is_likely


def test_what_nobody_knows_speaks_neither_way():
    assert likeness(Thing(hand=None, blades=None, diameter_m=None), Thing()).agreed == []


def test_another_pitch_may_be_the_work_of_a_shop():
    like = likeness(Thing(pitch_m=0.457, u_pitch_m=0.004), Thing(pitch_m=0.508, u_pitch_m=0.004))

    assert like.changed == ["pitch_m"]


@pytest.mark.parametrize(
    ("mark", "serials"),
    [
        ("22 x 18 RH", []),
        ("560X460", []),
        ("D22P18", []),
        ("22 x 18 RH  K-7731", ["K-7731"]),
        ("84120077", ["84120077"]),
        ("M?731", []),
        ("1987", []),
    ],
)
def test_a_serial_number_is_told_from_sizes_years_and_worn_marks(mark, serials):
    assert serials_in(mark) == serials


def test_a_sold_propeller_that_comes_in_again_is_recognised(register):
    with transaction() as session:
        old = gone(session)
        gone(session, hand="left")
        gone(session, diameter_m=(0.61, 0.001))
        new = make_propeller(session, diameter_m=(0.561, 0.0025), blades=(3.0, 0.0))

    with snapshot() as session:
        assert tags(session, new.tag) == [old.tag]
        assert gear.item_page(session, make_who(session), new.tag).told["seen_before"] == old.tag


@pytest.mark.parametrize("what", ["sold", "lost", "stolen", "scrapped"])
def test_the_gone_ones_come_before_those_that_are_here(register, what):
    with transaction() as session:
        here = make_propeller(session, blades=(3.0, 0.0))
        old = gone(session, what)
        new = make_propeller(session, blades=(3.0, 0.0))

    with snapshot() as session:
        assert tags(session, new.tag) == [old.tag, here.tag]


def test_the_same_serial_number_is_found_whatever_the_sizes_say(register):
    with transaction() as session:
        who = make_who(session)
        old = gone(session, diameter_m=(0.61, 0.001), hand="left")
        marks.record_mark(session, who, old, "K-7731", spot="hub side")
        make_propeller(session, blades=(3.0, 0.0))
        new = make_propeller(session, blades=(3.0, 0.0))
        marks.record_mark(session, who, new, "22 x 18 RH K-7731")

    with snapshot() as session:
        found = gear.seen_before(session, make_who(session), new.tag)

    assert (found.serials, found.found[0].row.tag, found.found[0].like.is_serial) == (["K-7731"], old.tag, True)


def test_two_that_were_held_apart_are_not_asked_about_again(register):
    with transaction() as session:
        old = gone(session)
        new = make_propeller(session, blades=(3.0, 0.0))
        gear.tell_apart(session, make_who(session), new.tag, old.tag)

    with snapshot() as session:
        assert tags(session, new.tag) == []
        assert gear.item_page(session, make_who(session), new.tag).told["seen_before"] is None


def test_the_pages_show_photo_beside_photo_and_take_an_answer(client, fetch):
    with transaction() as session:
        old = gone(session)
    client.send(
        "/log", photo=picture(), hand="right", diameter_m="560 mm", blades="3", place="Rack C", stamp="22 x 18 RH"
    )

    assert "It looks like P-0001, which is gone." in fetch("/propellers/P-0002")
    html = fetch("/items/P-0002/seen-before")
    assert "photos-pair" in html
    assert "The same: hand, blades, diameter" in html
    answer = client.send(f"/items/P-0002/seen-before/{old.tag}/apart")
    assert answer.status_code == 303
    assert "Nothing that ever had a tag here" in fetch("/items/P-0002/seen-before")
    assert "Held beside P-0001: they are two" in fetch("/propellers/P-0002")


def test_a_lost_tag_is_found_by_what_can_be_seen_with_photos(client, fetch):
    client.send("/log", photo=picture(), hand="right", diameter_m="560 mm", blades="3", place="Rack C")
    client.send("/log", hand="left", diameter_m="560 mm", blades="3", place="Rack D")
    client.send("/log", place="Rack E")

    html = fetch("/rack/untagged?hand=right&diameter_m=22+in&blades=3")

    for tag, is_shown in (("P-0001", True), ("P-0002", False), ("P-0003", True)):
        assert (f"/propellers/{tag}" in html) == is_shown
    assert "/small" in html
    assert client.get("/rack/untagged?diameter_m=x").status_code == 422


def test_the_grid_goes_on_where_a_page_ended(register):
    with transaction() as session:
        made = [make_propeller(session).tag for _ in range(5)]

    with snapshot() as session:
        who = make_who(session)
        first, further = gear.photo_grid(session, who, limit=3)
        rest, end = gear.photo_grid(session, who, limit=3, before=further)

    assert [one.row.tag for one in (*first, *rest)] == made[::-1]
    assert end is None


def test_owners_look_through_nobodys_gear(client_as):
    owner = client_as("R. Thorne", "owner")

    assert owner.get("/rack/untagged").status_code == 403
    assert owner.get("/items/P-0001/seen-before").status_code == 403


def test_one_that_is_on_a_boat_is_shown_only_where_much_speaks_for_it(register):
    with transaction() as session:
        make_propeller(session, blades=(3.0, 0.0), pitch_m=(0.61, 0.004), bore_large_m=(0.05, 0.0001))
        new = make_propeller(session, blades=(3.0, 0.0))

    with snapshot() as session:
        assert tags(session, new.tag) == []
