import pytest

from tests.api.conftest import alike
from tests.factories import vessels as boats
from yardapp import db

TYPED = {
    "position": "port",
    "engine": "Fulmar 38",
    "hand": "left",
    "rated_power": "28 kW",
    "rated_speed": "3000 rpm",
    "reduction": "2.03:1",
    "shaft_diameter": "1 1/2 in",
    "taper": "1:16",
    "hull_clearance": "375 mm",
    "plus_minus": {"shaft_diameter": "0.06 mm", "taper": "0.4"},
}
# 3000 rpm is 50 turns a second; ± 0.4 of N in 1:16 is 0.4 / 16² of the taper.
IN_SI = {
    "position": "starboard",
    "engine": "Fulmar 38",
    "hand": "left",
    "rated_power_w": 28000,
    "rated_speed_rps": 50,
    "reduction_ratio": 2.03,
    "shaft_diameter_m": 0.0381,
    "taper": 0.0625,
    "hull_clearance_m": 0.375,
    "plus_minus": {"shaft_diameter_m": 0.00006, "taper": 0.4 / 256},
}


@pytest.fixture
def vessel_id(register) -> int:
    with db.transaction() as session:
        return boats.make_vessel(session).id


def test_a_drive_is_entered_and_looked_at(ada, vessel_id):
    answer = ada.post("/drives", {"vessel_id": vessel_id, **TYPED})
    said = answer.get_json()

    assert answer.status_code == 201
    assert answer.headers["Location"] == f"/api/v1/drives/{said['id']}"
    assert (said["label"], said["engine"]) == ("Kittiwake, port", "Fulmar 38")
    assert said["figures"]["rated_power_w"] == {"value": 28000.0, "unit": "W", "plus_minus": None, "basis": None}
    assert said["figures"]["shaft_diameter_m"]["plus_minus"] == pytest.approx(0.00006)
    assert said["typed"]["reduction_ratio"] == "2.03:1"
    assert ada.get(f"/drives/{said['id']}").get_json() == said


def test_text_and_si_say_the_same(ada, vessel_id):
    typed = ada.post("/drives", {"vessel_id": vessel_id, **TYPED}).get_json()["figures"]
    in_si = ada.post("/drives", {"vessel_id": vessel_id, **IN_SI}).get_json()["figures"]

    assert len(typed) == 6
    for name, figure in typed.items():
        assert in_si[name] == alike(figure)


def test_a_change_leaves_the_rest_and_null_is_not_known(ada, vessel_id):
    number = ada.post("/drives", {"vessel_id": vessel_id, **TYPED}).get_json()["id"]

    said = ada.patch(f"/drives/{number}", {"version": 1, "taper": "1:12", "rated_power": None}).get_json()

    assert said["version"] == 2
    assert said["figures"]["taper"]["value"] == pytest.approx(1 / 12)
    assert "rated_power_w" not in said["figures"]
    assert said["figures"]["rated_speed_rps"]["value"] == 50.0
    assert (said["hand"], said["engine"], said["position"]) == ("left", "Fulmar 38", "port")


def test_a_change_on_an_old_version_is_refused_with_both(ada, vessel_id, must_refuse):
    number = ada.post("/drives", {"vessel_id": vessel_id, **TYPED}).get_json()["id"]
    ada.patch(f"/drives/{number}", {"version": 1, "taper": "1:12"})

    late = ada.patch(f"/drives/{number}", {"version": 1, "taper": "1:10"})

    must_refuse(late, 409)
    assert late.get_json()["version"] == 2


def test_a_boat_that_is_none_and_a_place_that_is_taken_are_wrong_fields(ada, vessel_id, must_refuse):
    ada.post("/drives", {"vessel_id": vessel_id, **TYPED})

    assert set(must_refuse(ada.post("/drives", {"vessel_id": 77}), 422)) == {"vessel_id"}
    assert set(must_refuse(ada.post("/drives", {"vessel_id": vessel_id, "position": "port"}), 422)) == {"position"}


def test_drives_are_read_page_by_page(ada, vessel_id):
    for position in ("centre", "port", "starboard"):
        ada.post("/drives", {"vessel_id": vessel_id, "position": position})

    first = ada.get("/drives?limit=2").get_json()
    second = ada.get(f"/drives?limit=2&after={first['after']}").get_json()

    assert [one["position"] for one in first["drives"] + second["drives"]] == ["centre", "port", "starboard"]
    assert second["after"] is None


def test_a_number_larger_than_any_is_not_found(ada, must_refuse):
    for number in (2**31, 2**70, 0):
        must_refuse(ada.get(f"/drives/{number}"), 404)
        must_refuse(ada.patch(f"/drives/{number}", {"version": 1}), 404)


def test_an_owner_sees_the_drives_of_their_own_boats(caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")
    with db.transaction() as session:
        hers = boats.make_drive(session, boats.make_vessel(session, owner_id=owner.who.person_id))
        other = boats.make_drive(session)

    assert [one["id"] for one in owner.get("/drives").get_json()["drives"]] == [hers.id]
    must_refuse(owner.get(f"/drives/{other.id}"), 404)
