import dataclasses
import re

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError

from tests.factories.coating import make_sheet, make_system
from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.coating.models import CoatingSystem, SystemVersion
from yardapp.coating.shipped import shipped
from yardapp.coating.showing.sheet import differences
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, Refused, Superseded


def boxes_of(html):
    """Every box of the sheet with what stands in it, as a browser would send it."""
    found = {}
    for tag in re.findall(r"<input[^>]*>", html):
        name, value = re.search(r'name="([^"]*)"', tag), re.search(r'value="([^"]*)"', tag)
        if name and not ("checkbox" in tag and "checked" not in tag):
            found[name[1]] = plain(value[1]) if value else ""
    for name, inside in re.findall(r'<textarea[^>]*name="([^"]*)"[^>]*>\s?(.*?)</textarea>', html, re.DOTALL):
        found[name] = plain(inside)
    for name, inside in re.findall(r'<select[^>]*name="([^"]*)"[^>]*>(.*?)</select>', html, re.DOTALL):
        chosen = re.search(r'<option selected value="([^"]*)"', inside)
        found[name] = plain(chosen[1]) if chosen else ""
    return {name: value for name, value in found.items() if name not in ("csrf_token", "once", "q")}


def plain(text):
    for escaped, letter in (("&#34;", '"'), ("&#39;", "'"), ("&lt;", "<"), ("&gt;", ">"), ("&amp;", "&")):
        text = text.replace(escaped, letter)
    return text


def newest(system_id=1):
    with snapshot() as session:
        return coating.system_page(session, make_who(session), system_id).newest.system


def test_the_list_teaches_and_offers_the_systems_that_come_along(client, fetch):
    html = fetch("/coating/systems")
    assert shipped()[0].name in html

    answer = client.send("/coating/systems/take", name=shipped()[0].name)

    assert answer.status_code == 303
    assert newest() == dataclasses.replace(shipped()[0], version=1)
    assert "Invented" in fetch("/coating/systems/1")


@pytest.mark.parametrize("number", range(len(shipped())))
def test_a_sheet_that_is_saved_as_it_stands_says_that_nothing_changed(client, number):
    client.send("/coating/systems/take", name=shipped()[number].name)
    boxes = boxes_of(client.get("/coating/systems/1/sheet").text)

    answer = client.send("/coating/systems/1/sheet", **boxes)

    assert answer.status_code == 422
    assert "Nothing was changed" in answer.text


def test_a_changed_window_makes_the_next_version_and_the_old_one_stays(client, fetch):
    with transaction() as session:
        make_system(session)
    boxes = boxes_of(fetch("/coating/systems/1/sheet"))
    assert boxes["steps-1-window-1-latest_s"] == "60 min"

    answer = client.send("/coating/systems/1/sheet", **boxes | {"steps-1-window-1-latest_s": "50", "why": "new sheet"})

    assert answer.status_code == 303
    assert newest().steps[1].window.rows[1].latest_s == 3000
    assert newest().version == 2
    assert "60 min" in fetch("/coating/systems/1?version=1") or "1 h" in fetch("/coating/systems/1?version=1")
    compared = fetch("/coating/systems/1/compare")
    assert "Primer, coat 1: window" in compared
    assert "50 min" in compared


def test_an_earlier_version_is_brought_back_as_a_new_one(client, fetch):
    with transaction() as session:
        make_system(session)
        coating.change_system(session, make_who(session), 1, 1, make_sheet(notes="thinner"))

    answer = client.send("/coating/systems/1/bring-back", version="2", number="1")

    assert answer.status_code == 303
    assert (newest().version, newest().notes) == (3, "")
    assert "version 1 brought back" in fetch("/coating/systems/1")


def test_steps_stand_in_the_order_of_their_places_and_one_without_a_kind_is_gone(client):
    with transaction() as session:
        make_system(session)
    boxes = boxes_of(client.get("/coating/systems/1/sheet").text)

    changed = {"steps-0-kind": "", "steps-7-kind": "strip", "steps-7-place": "1"}
    answer = client.send("/coating/systems/1/sheet", **boxes | changed)

    assert answer.status_code == 303, re.findall(r'field-said"[^>]*>([^<]*)', answer.text)
    kinds = [step.kind for step in newest().steps]
    assert kinds[:2] == ["strip", "coat"]
    assert "mix" not in kinds


@pytest.mark.parametrize(
    ("box", "typed", "said"),
    [
        ("steps-1-window-1-latest_s", "5 min", "steps-1-window-1-latest_s"),
        ("products-0-parts-0-share", "0", "products-0-parts-0-share"),
        ("steps-1-window-1-earliest_s", "soon", "steps-1-window-1-earliest_s"),
        ("steps-1-window-1-temperature_c", "", "steps-1-window-1-temperature_c"),
        ("name", "", "name"),
    ],
)
def test_a_sheet_that_can_t_be_right_is_told_beside_its_box_and_saves_nothing(client, box, typed, said):
    with transaction() as session:
        make_system(session)
    boxes = boxes_of(client.get("/coating/systems/1/sheet").text)

    answer = client.send("/coating/systems/1/sheet", **boxes | {box: typed})

    assert answer.status_code == 422
    assert f'id="{said}-said"' in answer.text
    assert newest().version == 1


def test_one_more_row_keeps_all_that_was_typed(client):
    with transaction() as session:
        make_system(session)
    boxes = boxes_of(client.get("/coating/systems/1/sheet").text)

    more = client.send("/coating/systems/1/sheet", **boxes | {"name": "Other", "more": "steps-1-window"}).text

    after = boxes_of(more)
    assert after["name"] == "Other"
    assert "steps-1-window-4-temperature_c" in after


def test_two_who_change_one_sheet_are_told_and_nothing_is_lost(client):
    with transaction() as session:
        make_system(session)
    boxes = boxes_of(client.get("/coating/systems/1/sheet").text)
    with transaction() as session:
        who = make_who(session, name="Finn Marsh", role="hand")
        coating.change_system(session, who, 1, 1, make_sheet(notes="his"))

    answer = client.send("/coating/systems/1/sheet", **boxes | {"notes": "mine"})

    assert answer.status_code in (409, 422)
    assert "Finn Marsh saved version 2 while you were writing" in answer.text
    assert "mine" in answer.text
    again = boxes_of(answer.text)
    assert client.send("/coating/systems/1/sheet", **again).status_code == 303
    assert newest().notes == "mine"


def test_a_new_system_is_written_from_nothing(client, fetch):
    fetch("/coating/systems/new")
    boxes = {
        "name": "One coat",
        "products-0-name": "Grey",
        "products-0-ratio_by": "volume",
        "products-0-parts-0-name": "Grey",
        "steps-0-kind": "coat",
        "steps-0-place": "1",
        "steps-0-product": "Grey",
    }

    answer = client.send("/coating/systems/new", **boxes)

    assert answer.status_code == 303, answer.text
    assert newest().steps[0].kind == "coat"


def test_a_name_is_given_once(client):
    with transaction() as session:
        make_system(session)
        with pytest.raises(Refused, match="already"):
            make_system(session, name="clear  OVER primer")


def test_owners_change_no_sheet(register):
    with transaction() as session:
        make_system(session)
        owner = make_who(session, name="R. Thorne", role="owner")
        with pytest.raises(NotAllowed):
            coating.change_system(session, owner, 1, 1, make_sheet(notes="x"))


def test_a_version_that_was_overtaken_is_not_saved_over(register):
    with transaction() as session:
        make_system(session)
        coating.change_system(session, make_who(session), 1, 1, make_sheet(notes="a"))
        with pytest.raises(Superseded):
            coating.change_system(session, make_who(session), 1, 1, make_sheet(notes="b"))


def test_no_door_alters_a_version(register):
    with transaction() as session:
        make_system(session)

    with pytest.raises(DatabaseError, match="history stays"), transaction() as session:
        session.execute(text("UPDATE coating_system_version SET said_by = 'x'"))
    with snapshot() as session:
        assert session.scalars(select(SystemVersion.said_by)).one() == "Ada Brook"


def test_a_system_is_no_longer_offered_and_offered_again(client):
    with transaction() as session:
        make_system(session)
    client.send("/coating/systems/1/offer", is_used="no")
    with snapshot() as session:
        assert not session.scalars(select(CoatingSystem.is_used)).one()

    client.send("/coating/systems/1/offer", is_used="yes")

    with snapshot() as session:
        assert session.scalars(select(CoatingSystem.is_used)).one()


def test_what_differs_is_told_where_it_stands():
    before = make_sheet()
    steps = list(before.steps)
    steps[1] = dataclasses.replace(steps[1], work_ratio=2.0)
    after = dataclasses.replace(before, steps=tuple(steps[:-1]), foul_release=False)

    rows = differences(before, after)

    assert ("foul release", "yes", "no") in rows
    assert ("Step 2, Primer, coat 1: work ratio", "1", "2") in rows
    assert any(after == "gone" for _where, _before, after in rows)
