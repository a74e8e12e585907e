"""Makers' tables: written, changed, compared, brought back, swapped between yards."""

import json
import re
from html import unescape
from io import BytesIO

import pytest
from sqlalchemy import select, update
from sqlalchemy.exc import DBAPIError

from tests.conftest import check_page
from tests.factories.marks import make_shelf
from yardapp.db import snapshot, transaction
from yardapp.marks.models import MakerTable, TableVersion

STAMP = "OT22LR3-41877"
MOVES = ("down-2", "remove-5")


@pytest.fixture
def shelf(register):
    with transaction() as session:
        return make_shelf(session)


@pytest.fixture
def table_id(shelf):
    return shelf["Ombry & Thessel"]


def boxes_of(html):
    """What a browser would send of the page's form: every box as it stands, without the buttons."""
    form = html[html.index('<form method="post"') :]
    boxes = {}
    for name, value in re.findall(r'<input[^>]*?name="([^"]+)"[^>]*?value="([^"]*)"', form):
        boxes[name] = unescape(value)
    for name, value in re.findall(r'<textarea[^>]*name="([^"]+)"[^>]*>\r?\n?(.*?)</textarea>', form, re.DOTALL):
        boxes[name] = unescape(value)
    for name, options in re.findall(r'<select[^>]*name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        boxes[name] = re.search(r'<option selected value="([^"]*)"', options)[1]
    for tick in re.findall(r'<input[^>]*type="checkbox"[^>]*>', form):
        name = re.search(r'name="([^"]+)"', tick)[1]
        boxes.pop(name, None)
        if "checked" in tick:
            boxes[name] = "y"
    boxes.pop("csrf_token")
    boxes.pop("once")
    return boxes


def body(table_id):
    with snapshot() as session:
        row = session.get_one(MakerTable, table_id)
        chosen = select(TableVersion.body).where(TableVersion.table_id == table_id, TableVersion.version == row.version)
        return session.scalars(chosen).one()


def test_the_list_names_every_table_and_its_places(shelf, fetch):
    html = fetch("/marks/tables")

    assert "Ombry &amp; Thessel, hub code" in html
    assert "the diameter · the pitch · the hand" in html
    assert "Shop re-stamps, inches" in html


def test_a_table_is_said_in_words(table_id, fetch):
    html = fetch(f"/marks/tables/{table_id}")

    assert "A is 8 in, 1 more a letter, to Z, without I and O." in html
    assert "not standard, ask" in html
    assert "foreman of the works, by telephone; 1968-11-20; note in the yard&#39;s book; 90% sure" in html


def test_saving_an_unchanged_table_makes_no_version(shelf, client, fetch):
    for table_id in shelf.values():
        before = body(table_id)

        answer = client.send(f"/marks/tables/{table_id}/change", **boxes_of(fetch(f"/marks/tables/{table_id}/change")))

        assert answer.status_code == 303, answer.text
        assert body(table_id) == before


def test_a_change_makes_a_version_with_the_reason_and_marks_read_by_it(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-value": "9", "why": "a letter from the works"})

    html = fetch(f"/marks/tables/{table_id}/versions/2")
    assert "value was 8, is 9" in html
    assert "a letter from the works" in html
    # A is 9 in now, so L, the eleventh letter without I and O, is 19 in.
    assert "pitch 482.6 mm (19 in)" in fetch(f"/marks?stamp={STAMP}", queries=4)
    assert "version 2" in fetch(f"/marks?stamp={STAMP}")


def test_an_old_version_is_brought_back_as_a_new_one(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))
    client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-value": "9"})

    client.send(f"/marks/tables/{table_id}/bring-back", version=2, number=1)

    assert body(table_id).get("version", 1) == 3
    assert body(table_id)["places"][2]["meaning"]["value"] == 8


@pytest.mark.parametrize("act", ["", "look"])
def test_a_place_of_which_nobody_said_how_it_is_written_is_asked_for_it(client, fetch, table_id, act):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))
    del boxes["places-0-written"]

    answer = client.send(f"/marks/tables/{table_id}/change", **boxes | {"why": "a letter", "act": act})

    assert "`written` is missing" in unescape(answer.text)


def test_versions_stay(table_id):
    with pytest.raises(DBAPIError, match="history stays"), transaction() as session:
        session.execute(update(TableVersion).values(why="another"))


def test_two_people_at_one_table_keep_what_each_changed(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))
    client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-value": "9"})

    late = client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-step": "2", "why": "a letter"})

    assert late.status_code == 409
    assert "step was 1, is 2" in late.text
    assert "value was" not in late.text
    again = client.send(f"/marks/tables/{table_id}/change", **boxes_of(late.text))
    assert again.status_code == 303, again.text
    assert (body(table_id)["places"][2]["meaning"]["value"], body(table_id)["places"][2]["meaning"]["step"]) == (9, 2)
    assert "a letter" in fetch(f"/marks/tables/{table_id}")


@pytest.mark.parametrize(("chosen", "kept"), [("value_theirs", 9), ("value_mine", 10)])
def test_a_box_that_two_people_changed_is_chosen_by_the_later_one(table_id, client, fetch, chosen, kept):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))
    client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-value": "9"})

    late = client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-value": "10", "places-2-step": "2"})

    check_page(late.text)
    assert "Place 3: Its value" in late.text
    values = {"value_theirs": "9", "value_mine": "10"}
    assert f'type="radio" name="places-2-value" value="{values["value_theirs"]}" checked' in late.text
    client.send(f"/marks/tables/{table_id}/change", **boxes_of(late.text) | {"places-2-value": values[chosen]})
    assert (body(table_id)["places"][2]["meaning"]["value"], body(table_id)["places"][2]["meaning"]["step"]) == (
        kept,
        2,
    )


def test_where_two_people_moved_places_the_order_is_chosen_first(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))
    moved = {act: boxes_of(client.send(f"/marks/tables/{table_id}/change", **boxes, act=act).text) for act in MOVES}
    client.send(f"/marks/tables/{table_id}/change", **moved["down-2"])

    late = client.send(f"/marks/tables/{table_id}/change", **moved["remove-5"])

    assert late.status_code == 409
    assert 'name="order" value="mine"' in late.text
    then = client.send(f"/marks/tables/{table_id}/change", **boxes_of(late.text) | {"order": "mine"})
    client.send(f"/marks/tables/{table_id}/change", **boxes_of(then.text))
    assert [one["tells"] for one in body(table_id)["places"]] == ["nothing", "diameter", "pitch", "hand", "blades"]


@pytest.mark.parametrize(
    ("act", "order"),
    [
        ("down-1", ["nothing", "pitch", "diameter", "hand", "blades", "serial"]),
        ("up-1", ["diameter", "nothing", "pitch", "hand", "blades", "serial"]),
        ("remove-2", ["nothing", "diameter", "hand", "blades", "serial"]),
        ("add", ["nothing", "diameter", "pitch", "hand", "blades", "serial", "nothing"]),
    ],
)
def test_places_are_moved_added_and_taken_out_without_saving(table_id, client, fetch, act, order):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    answer = client.send(f"/marks/tables/{table_id}/change", **boxes, act=act)

    after = boxes_of(answer.text)
    assert answer.status_code == 200
    assert [after[f"places-{at}-tells"] for at in range(len(order))] == order
    assert f"places-{len(order)}-tells" not in after
    assert body(table_id).get("version", 1) == 1


def test_the_bench_shows_samples_before_and_after_the_edit(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    changed = boxes | {"places-2-value": "9", "samples": STAMP}
    answer = client.send(f"/marks/tables/bench?table={table_id}", **changed)

    assert "pitch 457.2 mm (18 in)" in answer.text
    assert "pitch 482.6 mm (19 in)" in answer.text
    assert body(table_id).get("version", 1) == 1


def test_a_contradiction_is_told_beside_its_place(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    # Z comes after A: a run from Z to A reaches no end.
    answer = client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-2-first": "Z", "places-2-last": "A"})

    assert answer.status_code == 422
    assert 'id="place-2-said"' in answer.text
    assert body(table_id).get("version", 1) == 1


def test_a_list_is_pasted_from_a_spreadsheet(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    client.send(
        f"/marks/tables/{table_id}/change",
        **boxes | {"places-3-entries": "R\tright\tstarboard\nL\tleft\nP\tleft\tport"},
    )

    assert body(table_id)["places"][3]["meaning"]["entries"] == [
        {"code": "R", "value": "right", "words": "starboard"},
        {"code": "L", "value": "left"},
        {"code": "P", "value": "left", "words": "port"},
    ]


def test_a_line_of_a_list_that_can_not_be_read_is_named(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    answer = client.send(f"/marks/tables/{table_id}/change", **boxes | {"places-3-entries": "R,right\n,left"})

    assert "line 2: there is no code" in answer.text


def test_a_new_table_is_started_from_an_invented_maker(client, fetch):
    boxes = boxes_of(fetch("/marks/tables/new?from=Kravelund+Skruer"))

    answer = client.send("/marks/tables/new", **boxes | {"maker": "Quillon Foundry"})

    assert answer.status_code == 303, answer.text
    assert "Quillon Foundry" in fetch("/marks/tables")


def test_two_tables_of_one_name_are_refused(table_id, client, fetch):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change"))

    answer = client.send("/marks/tables/new", **boxes)

    assert answer.status_code == 422
    assert "Give this one another title" in answer.text


def test_a_table_goes_to_another_yard_as_one_file_and_comes_back(table_id, client):
    file = client.get(f"/marks/tables/{table_id}.json")
    sent = json.loads(file.text) | {"title": "as Quillon yard has it"}

    answer = client.send("/marks/tables/import", text="", file=(BytesIO(json.dumps(sent).encode()), "table.json"))

    assert "attachment" in file.headers["Content-Disposition"]
    assert answer.status_code == 303, answer.text
    number = int(answer.headers["Location"].rsplit("/", 1)[1])
    assert body(number)["places"] == body(table_id)["places"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('{"schema": 1,\n "maker": }', "line 2: it is no JSON"),
        ('{"schema": 99, "maker": "Q", "places": []}', "newer than the 1 that this yardapp knows"),
        ('{"schema": 1,\n "maker": "Q",\n "places": 4}', "line 3, places: must be a list"),
    ],
)
def test_a_file_that_can_not_be_taken_is_refused_by_line_and_nothing_changes(shelf, client, text, said):
    answer = client.send("/marks/tables/import", text=text)

    assert answer.status_code == 422
    assert said in answer.text
    with snapshot() as session:
        assert len(session.scalars(select(MakerTable)).all()) == 8


def test_a_namesake_becomes_the_next_version_only_when_asked(table_id, client):
    sent = json.loads(client.get(f"/marks/tables/{table_id}.json").text) | {"notes": "from the other yard"}

    refused = client.send("/marks/tables/import", text=json.dumps(sent))
    client.send("/marks/tables/import", text=json.dumps(sent), is_next="y")

    assert refused.status_code == 422
    assert body(table_id).get("version", 1) == 2


def test_a_list_comes_out_as_csv(table_id, client):
    assert client.get(f"/marks/tables/{table_id}/places/4.csv").text.splitlines()[1].startswith("R,right")


def test_the_schema_is_published(client):
    assert client.get("/marks/tables/schema.json").json["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_a_table_is_put_out_of_use_and_back(table_id, client, fetch):
    client.send(f"/marks/tables/{table_id}/use", version=1, number=0)
    assert "Not in use" in fetch(f"/marks/tables/{table_id}")

    client.send(f"/marks/tables/{table_id}/use", version=2, number=1)
    assert "Not in use" not in fetch(f"/marks/tables/{table_id}")


def test_hands_write_tables_and_owners_do_not_see_them(table_id, client_as):
    owner = client_as("R. Thorne", "owner")

    assert client_as("Finn Marsh", "hand").get(f"/marks/tables/{table_id}/change").status_code == 200
    assert owner.get("/marks/tables").status_code == 403
    assert owner.send(f"/marks/tables/{table_id}/use", version=1, number=0).status_code == 403
