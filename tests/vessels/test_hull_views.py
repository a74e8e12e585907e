"""A hull's weight, lines, speed and power, and a shaft line: typed, kept, shown, and put before the judge."""

import re

import pytest
from sqlalchemy import select

from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.db import transaction
from yardapp.errors import Refused
from yardapp.fit.services import drive_figures
from yardapp.vessels import services
from yardapp.vessels.models import Drive, Happening, Vessel

HULL = {
    "hull_kind": "displacement_single",
    "displacement_kg": "8 t",
    "length_m": "9.5 m",
    "speed_power": "5 kn, 4 kW\n6 kn 8 kW\n7 kn; 16 kW",
    "speed_power_kind": "shaft",
}
LINE = {
    "shaft_alloy": "Austenitic stainless 316, annealed",
    "safety_factor": "3",
    "shaft_span_m": "1400 mm",
    "cutter_length_m": "0",
    "shaft_depth_m": "700 mm",
    "old_mass_kg": "20 lb",
    "behind": "streamlined",
}


@pytest.fixture
def drive(register):
    with transaction() as session:
        made = boats.make_drive(session)
        return made.id, made.vessel_id


def test_her_hull_is_kept_in_si_with_what_was_typed_and_shown(client, fetch, drive):
    _, vessel_id = drive

    answer = client.send(f"/boats/{vessel_id}/hull", **HULL, version="1")

    assert answer.status_code == 303, answer.text
    with transaction() as session:
        boat = session.get_one(Vessel, vessel_id)
        assert (boat.displacement_kg, boat.length_m, boat.hull_kind) == (8000.0, 9.5, "displacement_single")
        assert boat.speed_power[1] == [pytest.approx(6 * 1852 / 3600), 8000.0]
        assert boat.hull_typed["displacement_kg"] == "8 t"
    page = fetch(f"/boats/{vessel_id}")
    assert "8000 kg" in page
    assert "7 kn" in page


def test_the_page_of_her_hull_shows_what_is_kept(client, fetch, drive):
    _, vessel_id = drive
    client.send(f"/boats/{vessel_id}/hull", **HULL, version="1")

    page = fetch(f"/boats/{vessel_id}/hull")

    assert "6 kn, 8 kW" in page
    assert re.search(r'<input[^>]*checked[^>]*value="displacement_single"', page)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("5 kn", "is not a speed and a power"),
        ("6 kn, 8 kW\n5 kn, 4 kW", "must rise"),
        ("6 kn, 8 kW", "Two pairs"),
        ("fast, much", "is not a speed and a power"),
    ],
)
def test_a_curve_that_cannot_be_read_is_told_beside_its_box_and_keeps_what_was_typed(client, drive, typed, said):
    _, vessel_id = drive

    answer = client.send(f"/boats/{vessel_id}/hull", **HULL | {"speed_power": typed}, version="1")

    assert answer.status_code == 422
    assert said in answer.text
    assert typed.splitlines()[0] in answer.text
    with transaction() as session:
        assert session.get_one(Vessel, vessel_id).speed_power is None


def test_a_hull_that_somebody_else_saved_meanwhile_is_put_side_by_side(client, drive):
    _, vessel_id = drive
    client.send(f"/boats/{vessel_id}/hull", **HULL, version="1")

    answer = client.send(f"/boats/{vessel_id}/hull", **HULL | {"displacement_kg": "9 t"}, version="1")

    assert answer.status_code == 409
    assert "9 t" in answer.text


def test_what_stood_before_of_her_hull_stays_in_her_history(client, fetch, drive):
    _, vessel_id = drive
    client.send(f"/boats/{vessel_id}/hull", **HULL, version="1")
    client.send(f"/boats/{vessel_id}/hull", **HULL | {"displacement_kg": "9 t"}, version="2")

    with transaction() as session:
        last = session.scalars(select(Happening).where(Happening.vessel_id == vessel_id).order_by(Happening.id)).all()[
            -1
        ]
        assert last.before["displacement_kg"] == 8000.0
    assert "Before: displacement 8000 kg" in fetch(f"/boats/{vessel_id}")


def test_a_shaft_line_is_kept_shown_and_offered_again(client, fetch, drive):
    drive_id, _ = drive

    answer = client.send(f"/drives/{drive_id}/line", **LINE, version="1")

    assert answer.status_code == 303, answer.text
    with transaction() as session:
        kept = session.get_one(Drive, drive_id)
        assert (kept.shaft_alloy, kept.shaft_span_m, kept.cutter_length_m) == (LINE["shaft_alloy"], 1.4, 0.0)
        assert kept.old_mass_kg == pytest.approx(20 * 0.45359237)
        assert kept.typed["old_mass_kg"] == "20 lb"
        assert kept.shaft_diameter_m == 0.0381  # what the other page holds stays
    assert "Austenitic stainless 316, annealed" in fetch(f"/drives/{drive_id}")
    assert "1400" in fetch(f"/drives/{drive_id}/line")


def test_a_metal_that_is_none_is_refused(register, drive):
    drive_id, _ = drive
    with transaction() as session:
        who = make_who(session)
        with pytest.raises(Refused, match="metals"):
            services.change_drive(session, who, drive_id, 1, {"shaft_alloy": "string"})


def test_a_kind_of_hull_that_is_none_is_refused(register, drive):
    _, vessel_id = drive
    with transaction() as session:
        who = make_who(session)
        with pytest.raises(Refused, match="displacement_single"):
            services.set_hull(session, who, vessel_id, 1, {"hull_kind": "raft"})


def test_what_is_known_of_hull_and_line_is_put_before_the_judge(client, drive):
    drive_id, vessel_id = drive
    client.send(f"/boats/{vessel_id}/hull", **HULL, version="1")
    client.send(f"/drives/{drive_id}/line", **LINE, version="1")

    with transaction() as session:
        who = make_who(session)
        figures = drive_figures(*services.drive_by_id(session, who, drive_id))

    assert figures.hull_kind == "displacement_single"
    assert figures.displacement_kg.value == 8000.0
    assert figures.vessel_length_m.value == 9.5
    assert len(figures.speed_power) == 3
    assert (figures.shaft_alloy, figures.behind) == (LINE["shaft_alloy"], "streamlined")
    assert figures.shaft_span_m.value == 1.4


def test_the_verdict_of_a_boat_whose_hull_is_known_tells_of_her_engine(client, fetch, drive):
    drive_id, vessel_id = drive
    client.send(f"/boats/{vessel_id}/hull", **HULL, version="1")
    with transaction() as session:
        tag = make_propeller(session).tag

    page = fetch(f"/fit/{tag}/on/{drive_id}")

    assert "Engine load" in page


def test_an_owner_may_look_but_not_change(client_as, drive):
    _, vessel_id = drive
    owner = client_as("R. Thorne", "owner")

    assert owner.get(f"/boats/{vessel_id}/hull").status_code in (403, 404)
