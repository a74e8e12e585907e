"""Where things are and what belongs together, through the second door."""

import pytest

from tests.factories import vessels as boats
from tests.factories.people import make_person
from yardapp import db


@pytest.fixture
def tag(ada) -> str:
    return ada.post("/propellers", {"place": "Rack A", "diameter": "22 in", "hand": "right"}).get_json()["tag"]


def test_a_part_is_logged_into_the_set_of_its_propeller(ada, tag):
    answer = ada.post("/parts", {"kind": "nut", "with_tag": tag, "thread_diameter": "1 1/4 in", "hand": "right"})
    nut = answer.get_json()

    assert answer.headers["Location"] == "/api/v1/items/N-0001"
    # One and a quarter times 25.4 mm.
    assert nut["figures"]["thread_diameter_m"]["value"] == pytest.approx(0.03175)
    said = ada.get(f"/sets/{nut['set_id']}").get_json()
    assert [one["tag"] for one in said["items"]] == [tag, "N-0001"]
    assert [one["tag"] for one in ada.get("/parts?kind=nut").get_json()["items"]] == ["N-0001"]
    moved = ada.post(f"/items/{tag}/moves", {"kind": "moved", "place": "Bench"}).get_json()
    assert (moved["place"], ada.get("/items/N-0001").get_json()["place"]) == ("Bench", "Bench")


def test_what_a_part_has_no_figure_for_is_told_by_name(ada, tag, must_refuse):
    assert set(must_refuse(ada.post("/parts", {"kind": "key", "place": "x", "hand": "left"}), 422)) == {"hand"}
    assert set(must_refuse(ada.post("/parts", {"kind": "key", "with_tag": "P-0999"}), 422)) == {"with_tag"}


def test_what_is_away_is_listed_chased_and_undone(ada, tag):
    sent = ada.post(f"/items/{tag}/moves", {"kind": "to shop", "place": "the shop", "due_on": "2099-01-01"}).get_json()
    ada.post(f"/items/{tag}/chase", {"said": "later", "due_on": "2099-02-01"})

    (row,) = ada.get("/away").get_json()["items"]
    assert (row["item"]["tag"], row["due_on"], row["days_late"]) == (tag, "2099-02-01", 0)
    assert row["chased"]
    move = next(event for event in sent["events"] if event["kind"] == "to shop")
    undone = ada.post(f"/items/{tag}/undone", {"event_id": move["id"], "why": "never left"}).get_json()
    assert (undone["standing"], undone["place"]) == ("here", "Rack A")
    assert [event["is_undone"] for event in undone["events"] if event["kind"] == "to shop"] == [True]


def test_a_contradiction_says_where_the_register_has_it(ada, tag, must_refuse):
    with db.transaction() as session:
        drive_id = boats.make_drive(session).id
    ada.post(f"/items/{tag}/moves", {"kind": "to shop", "place": "the shop"})

    said = must_refuse(ada.post(f"/items/{tag}/moves", {"kind": "went on", "drive_id": drive_id}), 422)

    assert "at the shop: the shop" in said["kind"]


def test_work_has_figures_as_found_and_as_left_and_a_name(ada, tag):
    body = {"kind": "re-pitched", "pitch": "17 in", "found": {"pitch": "18 in"}, "by_whom": "the shop", "cost": "240"}
    said = ada.post(f"/propellers/{tag}/work", body).get_json()

    # 17 and 18 times 25.4 mm.
    assert said["figures"]["pitch_m"]["value"] == pytest.approx(0.4318)
    assert {(one["source"], round(one["value"], 4)) for one in said["evidence"] if one["what"] == "pitch_m"} == {
        ("as found", 0.4572),
        ("as left", 0.4318),
    }
    assert {(one["by_whom"], one["cost"]) for one in said["events"] if one["kind"] == "re-pitched"} == {
        ("the shop", "240")
    }
    declined = ada.post(f"/items/{tag}/declined", {"offered": "balance it", "declined_by": "R. Thorne"}).get_json()
    assert "R. Thorne" in {one["by_whom"] for one in declined["events"]}


def test_one_thing_under_two_tags_is_merged(ada, tag, must_refuse):
    other = ada.post("/propellers", {"place": "Rack B"}).get_json()["tag"]

    said = ada.post(f"/items/{tag}/merged", {"other_tag": other, "why": "one serial"}).get_json()

    assert {event["tag"] for event in said["events"]} == {tag, other}
    assert ada.get(f"/items/{other}").get_json()["tag"] == tag
    must_refuse(ada.post(f"/items/{tag}/merged", {"other_tag": "P-0999", "why": "x"}), 422)


def test_crossed_tags_are_swapped_with_two_names(ada, tag, must_refuse):
    other = ada.post("/propellers", {"place": "Rack B", "hand": "left"}).get_json()["tag"]
    with db.transaction() as session:
        second = make_person(session, name="Finn Marsh", role="hand").id
    body = {"other_tag": other, "second_id": second, "seen": {"hand": "left"}, "seen_at_other": {"hand": "right"}}

    said = ada.post(f"/items/{tag}/swapped", body).get_json()

    assert said["place"] == "Rack B"
    assert "Finn Marsh" in {event["by_whom"] for event in said["events"]}
    must_refuse(ada.post(f"/items/{tag}/swapped", body | {"seen_at_other": {}}), 422)


def test_the_rack_map_is_made_and_read(ada, tag):
    ada.post("/propellers", {"place": "C 2"})

    made = ada.post("/bins", {"rack": "C", "bins": 3}).get_json()

    assert {one["label"]: one["count"] for one in made["bins"]} == {
        "Rack C, bin 1": 0,
        "Rack C, bin 2": 1,
        "Rack C, bin 3": 0,
    }
    assert ada.get("/bins").get_json() == made


def test_owners_do_none_of_it(caller_as, tag, must_refuse):
    owner = caller_as("R. Thorne", "owner")
    own = owner.post("/propellers", {"place": "my shed"}).get_json()["tag"]

    for address, body in {
        f"/items/{own}/chase": {"said": "x"},
        f"/items/{own}/declined": {"offered": "x", "declined_by": "y"},
        f"/items/{own}/together": {"tags": [tag]},
        f"/items/{own}/merged": {"other_tag": own, "why": "x"},
        "/bins": {"rack": "C"},
    }.items():
        must_refuse(owner.post(address, body), 403)
    must_refuse(owner.get("/bins"), 403)
