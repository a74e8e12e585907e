"""Marks through the API."""

from tests.factories.marks import make_shelf
from yardapp.db import transaction


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
