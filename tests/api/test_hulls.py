"""A boat's hull over the API."""

import pytest

from tests.factories import vessels as boats
from yardapp import db


@pytest.fixture
def vessel_id(register):
    with db.transaction() as session:
        return boats.make_vessel(session).id


def test_a_hull_is_changed_and_read_back(ada, vessel_id):
    answer = ada.patch(
        f"/vessels/{vessel_id}/hull",
        {
            "version": 1,
            "hull_kind": "displacement_single",
            "displacement": "8 t",
            "beam": "3.1",
            "speed_power": [[2.5, 4000.0], [3.0, 8000.0]],
            "speed_power_kind": "shaft",
        },
    )
    said = answer.get_json()

    assert answer.status_code == 200, said
    assert said["figures"]["displacement_kg"] == {"value": 8000.0, "unit": "kg", "plus_minus": None, "basis": None}
    assert said["figures"]["beam_m"]["value"] == 3.1
    assert said["assumed"][0]["field"] == "beam"
    assert ada.get(f"/vessels/{vessel_id}/hull").get_json()["speed_power"] == [[2.5, 4000.0], [3.0, 8000.0]]


def test_null_is_not_known_and_what_is_left_out_stays(ada, vessel_id):
    ada.patch(f"/vessels/{vessel_id}/hull", {"version": 1, "displacement_kg": 8000.0, "hull_kind": "planing_single"})

    said = ada.patch(f"/vessels/{vessel_id}/hull", {"version": 2, "displacement_kg": None}).get_json()

    assert "displacement_kg" not in said["figures"]
    assert said["hull_kind"] == "planing_single"


def test_speeds_that_fall_are_refused_by_name(ada, must_refuse, vessel_id):
    body = {"version": 1, "speed_power": [[3.0, 8000.0], [2.5, 4000.0]]}

    assert set(must_refuse(ada.patch(f"/vessels/{vessel_id}/hull", body), 422)) == {"speed_power"}


def test_a_hull_that_somebody_saved_meanwhile_is_told(ada, vessel_id):
    ada.patch(f"/vessels/{vessel_id}/hull", {"version": 1, "displacement_kg": 8000.0})

    answer = ada.patch(f"/vessels/{vessel_id}/hull", {"version": 1, "displacement_kg": 9000.0})

    assert answer.status_code == 409


def test_a_drive_keeps_its_shaft_line(ada):
    with db.transaction() as session:
        drive_id = boats.make_drive(session).id
    body = {
        "version": 1,
        "shaft_alloy": "Austenitic stainless 316, annealed",
        "shaft_span": "1400 mm",
        "old_mass": "9 kg",
    }

    said = ada.patch(f"/drives/{drive_id}", body).get_json()

    assert said["shaft_alloy"] == "Austenitic stainless 316, annealed"
    assert said["figures"]["shaft_span_m"]["value"] == 1.4
    assert said["figures"]["old_mass_kg"]["value"] == 9.0
