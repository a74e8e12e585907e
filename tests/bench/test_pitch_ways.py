from math import atan, degrees, pi, tan

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.services import Known, PitchReading
from yardapp.db import snapshot, transaction
from yardapp.errors import OutsideRange, Refused

# pitch_examples.csv M3: 299.70 mm; with the arc taken for the chord it would be 301.54.
CHORD = {"rise_m": 0.0182827, "radius_m": 0.1575, "chord_m": 0.060}
TEMPLATE = {"template_pitch_m": 0.4, "radius_m": 0.15, "gap_m": 0.002, "width_m": 0.12}


def test_rise_along_a_straight_gauge_gives_the_published_pitch():
    outcome = bench.pitch_of(PitchReading(**CHORD))

    assert outcome.value == pytest.approx(0.29970, abs=5e-6)
    # 2 asin(60 / 315) is 21.96 degrees.
    assert degrees(outcome.sum_of("swing_rad").value) == pytest.approx(21.96, abs=0.005)


def test_heights_of_both_edges_along_a_gauge_give_the_same():
    reading = {"leading_m": 0.0782827, "trailing_m": 0.060, "radius_m": 0.1575, "chord_m": 0.060}

    assert bench.pitch_of(PitchReading(**reading)).value == pytest.approx(0.29970, abs=5e-6)


def test_radius_and_chord_both_weigh_on_a_gauges_pitch():
    known = {"u_rise_m": 0.0001, "u_radius_m": 0.0005, "u_chord_m": 0.0002}
    outcome = bench.pitch_of(PitchReading(**CHORD, **known))

    # By the slopes of pi h / asin(w / 2r), taken by hand with differences of 1e-6 m:
    # rise 16.393 mm/mm, radius 1.9262, chord -5.0563.
    by_hand = ((16.393 * 0.1) ** 2 + (1.9262 * 0.5) ** 2 + (5.0563 * 0.2) ** 2) ** 0.5
    assert outcome.u * 1000 == pytest.approx(by_hand, rel=2e-3)


@pytest.mark.parametrize(("gap_at", "sign"), [("leading", 1), ("trailing", -1)])
def test_a_gap_at_the_leading_edge_is_more_pitch_and_at_the_trailing_edge_less(gap_at, sign):
    outcome = bench.pitch_of(PitchReading(**TEMPLATE, gap_at=gap_at))

    # 2 mm over 120 mm is 0.9549 degrees; the template stands at 23.00 degrees.
    by_hand = 2 * pi * 0.15 * tan(atan(0.4 / (2 * pi * 0.15)) + sign * atan(2 / 120))
    assert outcome.value == pytest.approx(by_hand)
    assert (outcome.value > 0.4) == (sign > 0)


def test_a_template_that_touches_all_along_has_the_blades_pitch():
    outcome = bench.pitch_of(PitchReading(**(TEMPLATE | {"gap_m": 0.0})))

    assert outcome.value == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("reading", "box"),
    [
        ({**TEMPLATE, "gap_at": ""}, "gap_at"),
        ({**TEMPLATE, "gap_m": None}, "gap_m"),
        ({**TEMPLATE, "width_m": None, "gap_at": "leading"}, "width_m"),
        ({**TEMPLATE, "radius_m": None}, "radius_m"),
        ({**CHORD, "radius_m": None}, "radius_m"),
        ({**CHORD, "rise_m": -0.01}, "rise_m"),
    ],
)
def test_a_reading_that_is_missing_or_can_not_stand_names_its_box(reading, box):
    with pytest.raises(Refused) as refused:
        bench.pitch_of(PitchReading(**reading))

    assert refused.value.argument == box


def test_a_gauge_longer_than_the_circle_is_refused_at_its_box():
    with pytest.raises(OutsideRange) as refused:
        bench.pitch_of(PitchReading(**(CHORD | {"chord_m": 0.4})))

    assert refused.value.argument == "chord_m"


def test_any_radius_will_do_but_one_outside_the_propeller_is_told():
    outcome = bench.pitch_of(PitchReading(**(CHORD | {"radius_m": 0.32})), Known(diameter_m=0.6))

    assert any("outside the propeller" in remark for remark in outcome.remarks)


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, diameter_m=(0.45, 0.0005), pitch_m=None).tag


@pytest.mark.parametrize("way", ["chord", "template"])
def test_each_way_has_its_page_and_a_blank_sheet(fetch, tag, way):
    assert 'name="radius_m"' in fetch(f"/bench/{tag}/pitch?way={way}")
    assert "Radius" in fetch(f"/bench/{tag}/pitch/blank?way={way}")


def test_a_template_sheet_is_kept_with_its_picture_and_opens_again_for_correction(client, fetch, tag):
    boxes = {"radius_m": "150", "template_pitch_m": "400", "gap_m": "2", "width_m": "120", "gap_at": "leading"}
    answer = client.send(f"/bench/{tag}/pitch", way="template", **boxes)

    assert answer.status_code == 303
    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
    assert sheet.results["pitch_m"] == pytest.approx(2 * pi * 0.15 * tan(atan(0.4 / (2 * pi * 0.15)) + atan(2 / 120)))
    said = fetch(f"/bench/sheets/{sheet.id}")
    assert "Template laid on the blade" in said
    assert "the leading edge" in said
    assert 'value="2"' in fetch(f"/bench/sheets/{sheet.id}/correct")


def test_a_chord_sheet_is_kept_with_its_tools(client, fetch, tag):
    client.send(f"/bench/{tag}/pitch", way="chord", radius_m="157.5", rise_m="18.2827 mm", chord_m="60")

    said = fetch("/bench/sheets/1")
    assert "chord gauge" in said
    assert "Rise along a straight gauge" in said
