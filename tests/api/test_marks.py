"""Marks through the API."""

import pytest

from tests.factories.gear import make_propeller
from tests.factories.marks import make_shelf
from yardapp.db import transaction

STAMP = "OT22LR3-41877"


def test_a_stamp_is_read_and_nothing_is_kept(ada):
    answer = ada.post("/marks/read", {"text": "22 x 18 RH"})
    read = answer.get_json()

    assert answer.status_code == 200
    # 22 and 18 times 25.4 mm.
    assert (read["diameter_m"], read["pitch_m"], read["hand"]) == (0.5588, 0.4572, "right")
    assert (read["unit"], read["unit_assumed"]) == ("in", True)
    assert read["blades"] is None
    assert ada.get("/propellers").get_json()["items"] == []


def test_what_can_not_be_read_is_said_and_never_guessed(ada):
    read = ada.post("/marks/read", {"text": "22 x 1?"}).get_json()

    assert read["pitch_m"] is None
    assert "10 to 19 in" in read["possible_pitches"]


def test_the_readings_by_the_yards_tables_stand_beside_the_plain_sizes(ada):
    with transaction() as session:
        make_shelf(session)

    read = ada.post("/marks/read", {"text": "OT22LR3-41877"}).get_json()

    assert len(read["readings"]) == read["reading_count"]
    one = read["readings"][0]
    assert (one["maker"], one["version"]) == ("Ombry & Thessel", 1)
    # 22 in, and L is 18 in.
    assert (one["figures"]["diameter_m"], one["figures"]["pitch_m"]) == (0.5588, 0.4572)


def test_two_marks_of_one_hub_are_read_together(ada):
    with transaction() as session:
        make_shelf(session)

    read = ada.post("/marks/read", {"text": STAMP, "beside": "22 x 16 RH", "newer": "second"}).get_json()

    # 16 in is 406.4 mm, and somebody saw that it is the newer one.
    assert read["together"]["figures"]["pitch_m"] == pytest.approx(0.4064)
    (conflict,) = read["together"]["conflicts"]
    assert (conflict["figure"], conflict["newer"]) == ("pitch_m", "22 x 16 RH")


def test_what_is_no_mark_says_why_and_breaks_nothing(ada):
    read = ada.post("/marks/read", {"text": "OT[22", "beside": "]["}).get_json()

    assert "[" in read["by_tables"]
    assert read["readings"] == []


def test_a_mark_is_kept_and_a_reading_taken_as_evidence(ada):
    with transaction() as session:
        make_shelf(session)
        tag = make_propeller(session, hand=None, diameter_m=None, pitch_m=None).tag

    kept = ada.post(f"/propellers/{tag}/marks", {"stamp": STAMP, "spot": "side of the hub", "struck": "first"})
    which = kept.get_json()["readings"][0]["which"]
    taken = ada.post(f"/propellers/{tag}/marks/taken", {"stamp": STAMP, "which": which})

    assert (kept.status_code, taken.status_code) == (201, 201), taken.text
    (mark,) = taken.get_json()["marks"]
    assert (mark["stamp"], mark["spot"], mark["struck"]) == (STAMP, "side of the hub", "first")
    assert mark["taken"][0]["figures"]["pitch_m"] == pytest.approx(0.4572)  # L is 18 in
    figure = ada.get(f"/propellers/{tag}").get_json()["figures"]["pitch_m"]
    assert (figure["value"], figure["basis"]) == (pytest.approx(0.4572), "decoded")


def test_a_reading_that_no_table_gives_is_refused(ada, must_refuse):
    with transaction() as session:
        tag = make_propeller(session).tag

    refused = ada.post(f"/propellers/{tag}/marks/taken", {"stamp": STAMP, "which": "0000"})

    assert "look at the readings again" in must_refuse(refused, 422)["stamp"]
