"""Makers' tables through the API."""

import pytest

from tests.factories.marks import make_shelf
from yardapp.db import transaction
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
