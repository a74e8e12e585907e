from math import radians

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.services import PitchReading
from yardapp.bench.sums import Outcome
from yardapp.db import snapshot, transaction

RISES = {"rise_m": 0.0741, "u_rise_m": 0.00005, "repeats": {"rise_m": (0.0740, 0.0745, 0.0738)}}
SWING = {"swing_rad": radians(45), "u_swing_rad": radians(0.25)}


def test_repeats_of_a_rise_give_their_mean_and_both_uncertainties():
    outcome = bench.pitch_of(PitchReading(**RISES, **SWING))

    # 74.1 x 360 / 45; scatter 0.20817 mm and the gauge's 0.05 mm on 74.1 mm, 0.25 degree on 45:
    # 592.8 x sqrt((0.2141 / 74.1)^2 + (0.25 / 45)^2) = 3.71 mm.
    assert outcome.value == pytest.approx(0.5928)
    assert outcome.u == pytest.approx(0.00371, abs=1e-5)


def test_what_is_common_and_what_is_separate_are_told_apart():
    outcome = bench.pitch_of(PitchReading(**RISES, **SWING))

    # 592.8 x 0.20817 / 74.1 = 1.665 mm of scatter; tools: 592.8 x sqrt((0.05 / 74.1)^2 + (0.25 / 45)^2) = 3.318 mm.
    assert outcome.u_separate == pytest.approx(0.001665, abs=2e-6)
    assert outcome.u_common == pytest.approx(0.003318, abs=2e-6)


def test_a_single_reading_has_the_tools_own_uncertainty_and_no_other():
    outcome = bench.pitch_of(PitchReading(rise_m=0.0741, u_rise_m=0.00005, **SWING))

    assert outcome.u_common == outcome.u
    assert outcome.u_separate == 0


def test_repeats_without_a_known_tool_have_no_plus_minus():
    outcome = bench.pitch_of(PitchReading(rise_m=0.07, repeats={"rise_m": (0.07, 0.0702)}, **SWING))

    assert outcome.u is None


def test_a_slip_among_the_repeats_is_told():
    slipped = {"rise_m": 0.2, "u_rise_m": 0.00005, "repeats": {"rise_m": (0.0740, 0.745, 0.0738)}}
    outcome = bench.pitch_of(PitchReading(**slipped, **SWING))

    assert any("Check rise: 745 mm" in remark for remark in outcome.remarks)


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, pitch_m=None).tag


@pytest.mark.parametrize("typed", ["74, 74.5, 73.8", "74 mm; 74.5 mm; 73.8 mm", "7.40 cm, 74.5 mm, 73.8 mm"])
def test_several_readings_stand_in_one_box_and_are_kept_as_typed(client, tag, typed):
    answer = client.send(f"/bench/{tag}/pitch", way="rise", rise_m=typed, swing_rad="45", rise_tool="height gauge")

    assert answer.status_code == 303
    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
    assert sheet.readings["rise_m_typed"] == typed
    assert sheet.readings["rise_m"] == pytest.approx(0.0741)
    assert sheet.readings["scatter"]["rise_m"]["readings"] == pytest.approx([0.074, 0.0745, 0.0738])
    assert sheet.readings["scatter"]["rise_m"]["u_scatter"] == pytest.approx(0.000208, abs=1e-6)
    assert Outcome.from_kept(sheet.results).u_separate == pytest.approx(0.001665, abs=2e-6)


def test_the_page_says_what_averages_out_and_what_does_not(client, fetch, tag):
    client.send(f"/bench/{tag}/pitch", way="rise", rise_m="74, 74.5, 73.8", swing_rad="45")

    said = fetch("/bench/sheets/1")

    assert "Rise, 3 readings: 74 mm; 74.5 mm; 73.8 mm" in said
    assert "does not average out" in said
    assert "shrinks as more are taken" in said


def test_a_correction_opens_with_every_reading_as_it_was_typed(client, fetch, tag):
    client.send(f"/bench/{tag}/pitch", way="rise", rise_m="74, 74.5, 73.8", swing_rad="45")

    assert 'value="74, 74.5, 73.8"' in fetch("/bench/sheets/1/correct")


def test_one_unreadable_reading_among_several_is_told_by_itself(client, tag):
    answer = client.send(f"/bench/{tag}/pitch", way="rise", rise_m="74, 7..5, 73.8", swing_rad="45")

    assert answer.status_code == 422
    assert "`7..5" in answer.text


def test_a_decimal_comma_is_one_reading_still(client, tag):
    client.send(f"/bench/{tag}/pitch", way="rise", rise_m="74,5 mm", swing_rad="45")

    with snapshot() as session:
        assert session.scalars(select(Sheet)).one().readings["rise_m"] == pytest.approx(0.0745)


def test_the_box_says_how_several_readings_were_understood(client):
    said = client.get("/sizes/understood?text=74, 74.5, 73.8 mm&kind=lengths").text

    assert "3 readings, mean 74.1 mm" in said
