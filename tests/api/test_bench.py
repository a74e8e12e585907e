from math import pi, radians

import pytest

from tests.factories.gear import make_propeller
from yardapp import db

# tests/published/derived/geometry.csv, pitch_M1: 33.3 mm over 40 degrees is 299.70 mm; with u 0.2 mm and u 0.1 degree
# a million draws gave 1.95 mm, so the ± at k = 2 is 3.9 mm.
RISE = {"rise": "33.3 mm", "swing": "40 deg", "plus_minus": {"rise": "0.4 mm", "swing": "0.2 deg"}}
RISE_IN_SI = {
    "rise_m": 0.0333,
    "swing_rad": radians(40),
    "plus_minus": {"rise_m": 0.0004, "swing_rad": radians(0.2)},
}


@pytest.mark.parametrize("reading", [RISE, RISE_IN_SI], ids=["typed", "si"])
def test_pitch_from_a_rise_comes_with_its_plus_minus(ada, reading):
    answer = ada.post("/bench/pitch", reading)
    said = answer.get_json()

    assert answer.status_code == 200
    assert said["pitch"]["value"] == pytest.approx(0.29970, abs=5e-6)
    assert said["pitch"]["plus_minus"] == pytest.approx(0.0039, abs=0.00002)
    assert said["pitch"]["unit"] == "m"
    assert said["formula"] == "yardapp.formulas.pitch.pitch_from_rise"
    assert said["source"]
    assert said["sums"][-1]["inputs"][0]["name"] == "rise_m"


@pytest.mark.parametrize(
    "reading",
    [
        {"leading": "143.3 mm", "trailing": "110 mm", "swing": "40 deg"},  # the same rise as a difference
        {"radius": "157.5 mm", "angle_rad": 0.294070525669},  # tests/published/derived/geometry.csv, pitch_M2
    ],
    ids=["edges", "angle"],
)
def test_pitch_comes_from_edges_and_from_an_angle_too(ada, reading):
    said = ada.post("/bench/pitch", reading).get_json()

    assert said["pitch"]["value"] == pytest.approx(0.29970, abs=1e-5)
    assert said["pitch"]["plus_minus"] is None  # nobody said how well it was read


def test_a_reading_that_is_missing_is_told_by_name(ada, must_refuse):
    assert must_refuse(ada.post("/bench/pitch", {"rise": "110 mm"}), 422) == {
        "swing_rad": "Read the swing off the ring."
    }
    assert set(must_refuse(ada.post("/bench/pitch", {}), 422)) == {"swing_rad"}


def test_a_reading_that_can_not_be_right_is_told_under_the_name_that_was_sent(ada, must_refuse):
    typed = must_refuse(ada.post("/bench/pitch", {"rise": "-3 mm", "swing": "68 deg"}), 422)
    in_si = must_refuse(ada.post("/bench/pitch", {"rise_m": -0.003, "swing_rad": 1.2}), 422)

    assert set(typed) == {"rise"}
    assert set(in_si) == {"rise_m"}


def test_every_wrong_reading_is_told_at_once(ada, must_refuse):
    body = {"rise": "eleven", "swing": "68 mm", "radius": "1 in", "radius_m": 0.0254, "plus_minus": {"angle": "1 deg"}}

    said = must_refuse(ada.post("/bench/pitch", body), 422)

    assert set(said) == {"rise", "swing", "radius_m", "plus_minus.angle"}
    assert "not both" in said["radius_m"]
    assert "no angle to go with it" in said["plus_minus.angle"]


def test_the_unit_of_a_plus_minus_is_never_assumed(ada, must_refuse):
    said = must_refuse(ada.post("/bench/pitch", {**RISE, "plus_minus": {"rise": "0.5"}}), 422)

    assert said == {"plus_minus.rise": "`0.5` has no unit, and a ± needs one. Try 0.5 mm or 1/64 in."}


def test_a_unit_that_had_to_be_assumed_is_said(ada):
    said = ada.post("/bench/diameter", {"tip_radius": "11"}).get_json()

    # 11 in is a radius of 279.4 mm.
    assert said["diameter"]["value"] == pytest.approx(0.5588)
    assert said["assumed"] == [
        {"field": "tip_radius", "typed": "11", "why": "no unit typed; a size up to 60 is read as inches"}
    ]


def test_diameter_from_tip_to_tip_hangs_on_the_blades(ada, must_refuse):
    said = ada.post("/bench/diameter", {"chord": "500 mm", "blades": 3}).get_json()
    blind = must_refuse(ada.post("/bench/diameter", {"chord": "500 mm"}), 422)

    # 500 / cos 30 degrees = 577.35 mm, the circle round an equilateral triangle.
    assert said["diameter"]["value"] == pytest.approx(0.57735, abs=5e-6)
    assert set(blind) == {"blades"}


def test_a_bore_gives_its_taper_and_the_standard_nearest_to_it(ada):
    # SAE J755, 1-1/4 in: large end 1.250 in, small end 1.031 in (26.19375 mm) over 3-1/2 in.
    body = {"bore_large": "1 1/4 in", "bore_small": "26.19375 mm", "bore_length": "3 1/2 in"}

    said = ada.post("/bench/bore", body).get_json()

    assert said["taper"]["value"] == pytest.approx(1 / 16, rel=1e-9)
    assert said["near"]["taper"] == pytest.approx(1 / 16)
    assert ada.post("/bench/bore", {"keyway_width": "5/16 in"}).get_json()["taper"] is None


def test_nothing_is_kept_of_what_is_only_worked_out(ada, count_queries):
    with count_queries() as asked:
        ada.post("/bench/pitch", RISE)

    assert len(asked) == 1, asked  # who calls, and no more


@pytest.fixture
def tag(register) -> str:
    with db.transaction() as session:
        return make_propeller(session, pitch_m=None).tag


def test_a_sheet_is_kept_and_is_evidence(ada, tag):
    answer = ada.post(f"/propellers/{tag}/sheets", {"method": "pitch", "blade": 1, **RISE})
    sheet = answer.get_json()

    assert answer.status_code == 201
    assert answer.headers["Location"] == f"/api/v1/sheets/{sheet['id']}"
    assert sheet["figures"]["pitch_m"]["value"] == pytest.approx(2 * pi * 0.0333 / radians(40))
    assert sheet["readings"]["rise_m_typed"] == "33.3 mm"
    figures = ada.get(f"/propellers/{tag}").get_json()["figures"]
    assert figures["pitch_m"] == {
        "value": pytest.approx(0.29970, abs=5e-6),
        "unit": "m",
        "plus_minus": pytest.approx(0.0039, abs=0.00002),
        "basis": "measured",
    }
    assert ada.get(f"/sheets/{sheet['id']}").get_json() == sheet
    assert ada.get(f"/propellers/{tag}/sheets").get_json()["sheets"] == [sheet]


def test_a_sheet_is_corrected_by_another_that_says_why(ada, tag, must_refuse):
    first = ada.post(f"/propellers/{tag}/sheets", {"method": "diameter", "tip_radius": "275 mm"}).get_json()
    right = {"method": "diameter", "tip_radius": "280 mm", "corrects": first["id"]}

    blind = ada.post(f"/propellers/{tag}/sheets", right)
    second = ada.post(f"/propellers/{tag}/sheets", {**right, "why": "read off the wrong end"})

    assert set(must_refuse(blind, 422)) == {"why"}
    assert second.status_code == 201
    assert ada.get(f"/sheets/{first['id']}").get_json()["replaced_by"] == second.get_json()["id"]


def test_only_the_yard_keeps_sheets(caller_as, tag, must_refuse):
    owner = caller_as("R. Thorne", "owner")

    answer = owner.post(f"/propellers/{tag}/sheets", {"method": "diameter", "tip_radius": "275 mm"})

    must_refuse(answer, 403)


def test_a_sheet_without_a_method_says_which_there_are(ada, tag, must_refuse):
    assert must_refuse(ada.post(f"/propellers/{tag}/sheets", {}), 422) == {"method": "Is missing."}
    said = must_refuse(ada.post(f"/propellers/{tag}/sheets", {"method": "guess"}), 422)
    assert said == {"method": "Must be one of 'pitch', 'diameter', 'bore', 'survey', 'alike', 'area'."}
    assert set(must_refuse(ada.post(f"/propellers/{tag}/sheets", {"method": "pitch", "rise": 5}), 422)) == {"rise"}


def test_blades_sent_one_by_one_are_held_against_each_other_and_a_template_is_common_to_them(ada):
    with db.transaction() as session:
        tag = make_propeller(session, diameter_m=(0.6, 0.0005), pitch_m=None).tag
    # Half a turn: a pitch is twice the rise. A swing known to 0.02 rad (k = 2) of pi is 1/157 of a pitch.
    errors = {"rise_m": 0.0, "swing_rad": 0.02}
    sent = {"method": "pitch", "radius_m": 0.18, "swing_rad": pi, "plus_minus": errors, "common": ["swing_rad"]}
    *_, last = [
        ada.post(f"/propellers/{tag}/sheets", sent | {"blade": blade, "rise_m": pitch / 2}).get_json()
        for blade, pitch in enumerate((0.290, 0.350, 0.290, 0.290), 1)
    ]

    assert last["remarks"][0].startswith("Check blade 2, 0.6 R: 350 mm")
    # The mean of the four is 305 mm; all of its ± is the template's, 305 x 0.02 / pi.
    assert last["figures"]["blades_pitch_m"]["value"] == pytest.approx(0.305)
    assert last["figures"]["blades_pitch_m"]["plus_minus"] == pytest.approx(0.305 * 0.02 / pi, rel=1e-3)


def test_a_figure_that_is_said_to_be_common_must_have_been_sent(ada, must_refuse):
    assert must_refuse(ada.post("/bench/pitch", {**RISE, "common": ["gap_m"]}), 422) == {
        "common": "gap_m was not sent."
    }
