"""Makers' tables through the API."""

import pytest

from tests.factories.gear import make_propeller
from tests.factories.marks import make_shelf
from tests.factories.people import make_who
from yardapp.db import transaction
from yardapp.marks import services
from yardapp.stamps.tables import as_plain, shipped


@pytest.fixture
def table_id(app):
    with transaction() as session:
        return make_shelf(session)["Ombry & Thessel"]


def test_tables_are_listed_and_one_is_given_whole(ada, table_id):
    listed = ada.get("/marks/tables").get_json()["tables"]
    one = ada.get(f"/marks/tables/{table_id}").get_json()

    assert len(listed) == 8
    assert one["maker"] == "Ombry & Thessel"
    assert one["table"]["places"][0]["literal"] == "OT"
    assert [version["version"] for version in one["versions"]] == [1]


def test_a_table_is_written_and_changed(ada, app):
    table = as_plain(shipped()[-1]) | {"maker": "Quillon Foundry"}

    written = ada.post("/marks/tables", {"table": table, "why": "a letter"})
    address = written.headers["Location"].removeprefix("/api/v1")
    changed = ada.patch(address, {"version": 1, "table": table | {"notes": "rang again"}, "why": "a call"})

    assert written.status_code == 201, written.text
    assert (changed.status_code, changed.get_json()["version"]) == (200, 2)


def test_a_version_that_was_overtaken_is_told(ada, table_id):
    table = ada.get(f"/marks/tables/{table_id}").get_json()["table"]
    ada.patch(f"/marks/tables/{table_id}", {"version": 1, "table": table | {"notes": "one"}})

    late = ada.patch(f"/marks/tables/{table_id}", {"version": 1, "table": table | {"notes": "two"}})

    assert late.status_code == 409
    assert late.get_json()["version"] == 2


def test_a_table_that_is_none_is_refused_with_where(ada, must_refuse):
    refused = ada.post("/marks/tables", {"table": {"schema": 1, "maker": "Q", "places": []}})

    assert "places" in must_refuse(refused, 422)["table"]


def test_a_character_that_no_register_keeps_is_refused(ada, must_refuse):
    table = as_plain(shipped()[-1]) | {"maker": "Quillon\0Foundry"}

    assert "printed" in must_refuse(ada.post("/marks/tables", {"table": table}), 422)["table"]


def test_what_a_propeller_would_be_stamped(ada, table_id):
    wanted = {"diameter_m": 0.56, "pitch_m": 0.46, "bore_m": 0.04, "hand": "right"}

    tables = ada.post("/marks/reverse", wanted).get_json()["tables"]

    marks = {one["maker"]: one["marks"][0]["mark"] for one in tables}
    # Kravelund: metal, diameter, pitch in mm, H for right, -B and the bore, the year.
    assert marks["Kravelund Skruer"] == "?560-460H-B40-??"


def test_owners_do_not_read_the_yards_tables(caller_as, table_id):
    owner = caller_as("R. Thorne", "owner")

    assert owner.get("/marks/tables").status_code == 403
    assert owner.post("/marks/reverse", {"diameter_m": 0.56}).status_code == 403


def test_the_schema_of_a_table_s_file_is_published(ada):
    schema = ada.get("/marks/tables/schema").get_json()

    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert "places" in schema["required"]


def changed(ada, table_id, version=1, **said):
    table = ada.get(f"/marks/tables/{table_id}").get_json()["table"]
    return ada.patch(f"/marks/tables/{table_id}", {"version": version, "table": table | said})


def test_versions_are_compared_and_brought_back(ada, table_id, must_refuse):
    changed(ada, table_id, notes="rang again")

    told = ada.get(f"/marks/tables/{table_id}/changes").get_json()
    back = ada.patch(f"/marks/tables/{table_id}/standing", {"version": 2, "number": 1})
    never = ada.patch(f"/marks/tables/{table_id}/standing", {"version": 3, "number": 9})

    assert (told["before"], told["after"]) == (1, 2)
    assert "rang again" in told["changes"][0]
    assert back.get_json()["version"] == 3
    assert back.get_json()["table"]["notes"] != "rang again"
    assert "no version 9" in must_refuse(never, 422)["number"]


def test_a_table_is_put_out_of_use(ada, table_id):
    answer = ada.patch(f"/marks/tables/{table_id}/use", {"version": 1, "is_in_use": False})

    assert (answer.get_json()["is_in_use"], answer.get_json()["version"]) == (False, 2)


def test_all_marks_are_read_again_and_those_that_differ_are_named(ada, table_id):
    with transaction() as session:
        tag = make_propeller(session).tag
    ada.post(f"/propellers/{tag}/marks", {"stamp": "OT22LR3-41877"})
    places = ada.get(f"/marks/tables/{table_id}").get_json()["table"]["places"]
    places[2]["meaning"]["value"] = 9
    changed(ada, table_id, places=places)

    asked = ada.post(f"/marks/tables/{table_id}/rereads", {})
    services.work_on(transaction, asked.get_json()["id"])
    found = ada.get(asked.headers["Location"].removeprefix("/api/v1")).get_json()

    assert asked.status_code == 201, asked.text
    assert (found["state"], found["done"], found["differing"], found["page"]) == ("done", 1, 1, 1)
    (mark,) = found["marks"]
    # L is the eleventh letter: 18 in from A at 8 in, 19 in from A at 9 in.
    assert (mark["tag"], mark["seen"], mark["taken_by"]) == (tag, "OT22LR3-41877", "")
    assert mark["before"]["figures"]["pitch_m"] == pytest.approx(0.4572)
    assert mark["after"]["figures"]["pitch_m"] == pytest.approx(0.4826)


def test_a_re_reading_from_a_version_that_never_was_is_refused(ada, table_id, must_refuse):
    assert "no version 7" in must_refuse(ada.post(f"/marks/tables/{table_id}/rereads", {"before": 7}), 422)["before"]


def test_what_the_register_teaches_is_proposed_and_changes_nothing(ada, table_id):
    with transaction() as session:
        for number in (41877, 41878):
            item = make_propeller(session, diameter_m=(0.5588, 0.001), pitch_m=(0.5, 0.001))
            services.record_mark(session, make_who(session), item, f"OT22LR3-{number}")

    taught = ada.get(f"/marks/tables/{table_id}/proposals").get_json()

    # 500 mm is 19.7 in, far from the table's 18 in for L.
    assert all(one["place"] == 3 for one in taught["proposals"])
    assert taught["left_out"] is False
    assert ada.get(f"/marks/tables/{table_id}").get_json()["version"] == 1


def test_owners_see_no_tables_and_no_re_readings(caller_as, table_id):
    owner = caller_as("R. Thorne", "owner")

    assert owner.get(f"/marks/tables/{table_id}/proposals").status_code == 403
    assert owner.get("/marks/rereads/1").status_code == 403
    assert owner.post(f"/marks/tables/{table_id}/rereads", {}).status_code == 403
