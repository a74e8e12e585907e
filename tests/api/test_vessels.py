import pytest

from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from yardapp import db
from yardapp.gear import services as gear


def test_a_boat_is_entered_and_found_again(ada):
    answer = ada.post("/vessels", {"name": "Kittiwake", "owner": "R. Thorne", "length": "30 ft", "block_ratio": 0.4})
    said = answer.get_json()

    assert answer.status_code == 201
    assert answer.headers["Location"] == f"/api/v1/vessels/{said['id']}"
    # A foot is 0.3048 m.
    assert (said["length_m"], said["length_m_typed"]) == (pytest.approx(9.144), "30 ft")
    assert ada.get(f"/vessels/{said['id']}").get_json() == said
    assert ada.get("/vessels").get_json()["vessels"] == [
        {"id": said["id"], "name": "Kittiwake", "kind": "", "owner": "R. Thorne"}
    ]


def test_a_bare_length_of_a_boat_is_metres_and_said_so(ada):
    said = ada.post("/vessels", {"name": "Kittiwake", "length": "9.5"}).get_json()

    assert said["length_m"] == 9.5
    assert [one["field"] for one in said["assumed"]] == ["length"]


def test_boats_are_read_page_by_page_even_of_one_name(ada):
    with db.transaction() as session:
        for name in ("Kittiwake", "Kittiwake", "Kittiwake", "Sea Otter"):
            boats.make_vessel(session, name=name)

    seen, after = [], "limit=2"
    while after:
        page = ada.get(f"/vessels?{after}").get_json()
        seen += [one["id"] for one in page["vessels"]]
        after = page["after"] and f"limit=2&after={page['after']}&after_id={page['after_id']}"

    assert sorted(seen) == [1, 2, 3, 4]


def test_what_a_change_leaves_out_stays(ada):
    body = {"name": "Kittiwake", "owner": "R. Thorne", "length_m": 9.5, "block_ratio": 0.4, "note": "blue hull"}
    number = ada.post("/vessels", body).get_json()["id"]

    renamed = ada.patch(f"/vessels/{number}", {"version": 1, "name": "Sea Otter"}).get_json()
    longer = ada.patch(f"/vessels/{number}", {"version": 2, "length": "10 m"}).get_json()
    unknown = ada.patch(f"/vessels/{number}", {"version": 3, "block_ratio": None}).get_json()

    assert (renamed["name"], renamed["length_m"], renamed["note"]) == ("Sea Otter", 9.5, "blue hull")
    assert [one["name"] for one in renamed["names"]] == ["Kittiwake", "Sea Otter"]
    assert (longer["length_m"], longer["block_ratio"]) == (10.0, 0.4)
    assert (unknown["length_m"], unknown["length_m_typed"], unknown["block_ratio"]) == (10.0, "10 m", None)


def test_a_change_on_an_old_version_is_refused_with_both(ada, must_refuse):
    number = ada.post("/vessels", {"name": "Kittiwake"}).get_json()["id"]
    ada.patch(f"/vessels/{number}", {"version": 1, "name": "Sea Otter"})

    late = ada.patch(f"/vessels/{number}", {"version": 1, "name": "Petrel"})

    must_refuse(late, 409)
    assert (late.get_json()["version"], late.get_json()["theirs"]["name"]) == (2, "Sea Otter")


def test_an_account_that_is_none_is_a_wrong_field(ada, must_refuse):
    assert set(must_refuse(ada.post("/vessels", {"name": "Kittiwake", "owner_id": 77}), 422)) == {"owner_id"}


def test_a_boat_shows_what_is_aboard_in_few_queries(ada, count_queries):
    with db.transaction() as session:
        drive = boats.make_drive(session)
        item = make_propeller(session)
        gear.move_item(session, ada.who, item.tag, "went on", drive_id=drive.id)

    with count_queries() as asked:
        said = ada.get(f"/vessels/{drive.vessel_id}").get_json()

    assert [one["tag"] for one in said["aboard"]] == [item.tag]
    assert [one["id"] for one in said["drives"]] == [drive.id]
    assert len(asked) <= 3, asked


def test_an_owner_sees_their_own_boats_and_enters_none(caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")
    with db.transaction() as session:
        hers = boats.make_vessel(session, name="Sea Otter", owner_id=owner.who.person_id)
        other = boats.make_vessel(session)

    assert [one["id"] for one in owner.get("/vessels").get_json()["vessels"]] == [hers.id]
    must_refuse(owner.get(f"/vessels/{other.id}"), 404)
    must_refuse(owner.post("/vessels", {"name": "Petrel"}), 403)
    must_refuse(owner.patch(f"/vessels/{hers.id}", {"version": 1, "name": "Petrel"}), 403)
