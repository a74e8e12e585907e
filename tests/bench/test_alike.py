from math import radians

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.rows import row_name
from yardapp.bench.services import AlikeReading, Known
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear.models import Item

TENTH_RAD = radians(0.1)


def reading(blades=3, u_m=0.00005, u_rad=TENTH_RAD, **rows):
    """Rows by name, as `height_m=(100, 106.1, 100)` in mm and `spacing_rad=(120, 121, 119)` in degrees."""
    said = {"blades": blades}
    for name, values in rows.items():
        for number, value in enumerate(values, 1):
            one = row_name(name, number)
            said[one] = radians(value) if name == "spacing_rad" else value / 1000
            said[f"u_{one}"] = u_rad if name == "spacing_rad" else u_m
    return AlikeReading(**said)


def test_the_blade_whose_tip_stands_off_the_others_is_named_with_how_far():
    outcome = bench.alike_of(reading(height_m=(100, 106.1, 100.1)))

    # By hand: 106.1 less the mean of 100 and 100.1 is 6.05 mm; u is 0.05 x sqrt(3/2) = 0.0612.
    odd = outcome.more["odd"][0]
    assert (odd["what"], odd["blade"]) == ("height_m", 2)
    assert (odd["off"], odd["u"]) == pytest.approx((0.00605, 0.0000612), abs=1e-7)
    assert outcome.sum_of("track_2_m").value == pytest.approx(0.00605)
    assert outcome.sum_of("track_2_m").u == pytest.approx(0.0000612, abs=1e-7)
    assert outcome.value == pytest.approx(0.0061)  # track, highest to lowest
    assert outcome.remarks[0].startswith("Blade 2: its tip stands 6.05 ± 0.12 mm higher than the others'")


def test_blades_within_the_readings_are_called_alike():
    outcome = bench.alike_of(reading(height_m=(100, 100.05, 100.1)))

    assert outcome.remarks[0] == "The blades are alike, as far as the readings can tell."


@pytest.mark.parametrize(("blades", "heights"), [(2, (100, 106)), (3, (100, 106, 112))])
def test_where_nobody_can_say_which_is_bent_it_says_so(blades, heights):
    outcome = bench.alike_of(reading(blades=blades, height_m=heights))

    assert "which of them is bent these readings can't say" in outcome.remarks[0]


def test_a_blade_bent_round_is_named_and_the_angles_add_up():
    outcome = bench.alike_of(reading(blades=4, spacing_rad=(92, 88, 90, 90)))

    odd = outcome.more["odd"][0]
    assert (odd["what"], odd["blade"]) == ("place_rad", 2)
    assert odd["off"] == pytest.approx(radians(2))
    assert odd["u"] == pytest.approx(outcome.sum_of("place_2_rad").u, rel=1e-9)
    assert any("add up to 360°" in remark for remark in outcome.remarks)


def test_angles_that_do_not_add_up_to_a_full_turn_are_told():
    outcome = bench.alike_of(reading(spacing_rad=(120, 121, 121)))

    # Three angles of u 0.1 degree: their sum is good to 2 x 0.173 = 0.35 degree, and 362 is 2 off.
    assert any("add up to 362°, not 360°; the readings allow 0.35°" in remark for remark in outcome.remarks)


@pytest.mark.parametrize(
    ("off_deg", "u_deg", "diameter_m", "found", "note"),
    [
        # ISO 484-2:1981 (secondary): 1 degree for classes S and I, 2 degrees for II and III.
        (0.6, 0.1, 1.0, "S", "covers this diameter"),
        (1.6, 0.1, 1.0, "II", "covers this diameter"),
        (2.6, 0.1, 1.0, "none", "covers this diameter"),
        (0.6, 0.1, 0.5, "S", "by analogy only"),
        (0.6, 0.1, None, "S", "Cannot tell whether ISO 484 applies"),
        (0.6, 1.0, 1.0, "", "wider than what a class allows"),
    ],
)
def test_spacing_has_its_class_where_the_readings_can_tell_one(off_deg, u_deg, diameter_m, found, note):
    spacings = (120 + off_deg, 120 - off_deg, 120)

    outcome = bench.alike_of(
        reading(spacing_rad=spacings, u_rad=radians(u_deg)), Known(diameter_m=diameter_m, blades=3)
    )

    (said,) = outcome.more["classes"]
    assert said["class"] == found
    assert note in said["note"]


def test_rake_of_each_blade_and_the_one_raked_otherwise():
    outcome = bench.alike_of(
        reading(height_m=(95, 95, 101), root_m=(120, 120, 120), tip_radius_m=(260, 260, 260), root_radius_m=())
    )

    # Root less tip: 25, 25, 19 mm aft; the third is 6 less than the others.
    assert outcome.sum_of("rake_1_m").value == pytest.approx(0.025)
    assert outcome.sum_of("rake_3_m").value == pytest.approx(0.019)
    raked = next(one for one in outcome.more["odd"] if one["what"] == "rake_m")
    assert (raked["blade"], raked["off"]) == (3, pytest.approx(-0.006))


def test_the_angle_of_rake_needs_both_radii():
    given = reading(height_m=(95, 95), root_m=(120, 120), tip_radius_m=(260, 260), blades=2)
    with_root = AlikeReading(**(given.__dict__ | {"root_radius_m": 0.060, "u_root_radius_m": 0.0005}))

    assert bench.alike_of(given).sum_of("rake_angle_1_rad") is None
    # atan(25 / 200) is 7.125 degrees.
    assert bench.alike_of(with_root).sum_of("rake_angle_1_rad").value == pytest.approx(radians(7.125), abs=1e-5)


def test_the_longest_tip_gives_the_diameter():
    outcome = bench.alike_of(reading(tip_radius_m=(279.5, 278, 279)))

    assert outcome.sum_of("diameter_m").value == pytest.approx(0.559)


def test_one_blade_twenty_per_cent_off_is_told_beside_the_others():
    outcome = bench.alike_of(reading(blades=4, tip_radius_m=(289, 212, 287, 291)))

    assert "Check blade 2: 212 mm, the others 287 mm to 291 mm." in outcome.remarks


@pytest.mark.parametrize(
    ("said", "box"),
    [
        ({"blades": None, "height_m": (100, 100)}, "blades"),
        ({"blades": 2, "height_m": (100, 100, 100)}, "blades"),
        ({}, "height_1_m"),
        ({"spacing_rad": (120, 120)}, "spacing_3_rad"),
        ({"height_m": (100,)}, "height_2_m"),
    ],
)
def test_what_is_missing_is_told_at_its_box(said, box):
    with pytest.raises(Refused) as refused:
        bench.alike_of(reading(**said))

    assert refused.value.argument == box


def test_what_was_seen_of_its_balance_goes_along():
    given = AlikeReading(**(reading(height_m=(100, 100, 100)).__dict__ | {"heavy_blade": 2, "balance": "9 g at tip 3"}))

    outcome = bench.alike_of(given)

    assert "Hung free, blade 2 comes down." in outcome.remarks
    assert "Balance: 9 g at tip 3" in outcome.remarks


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, diameter_m=None, blades=(3, 0.0)).tag


BOXES = {
    "blades": "3",
    "height_1_m": "100",
    "height_2_m": "106.1",
    "height_3_m": "100.1",
    "tip_radius_1_m": "279.5",
    "tip_radius_2_m": "278",
    "tip_radius_3_m": "279",
    "spacing_1_rad": "120",
    "spacing_2_rad": "120.2",
    "spacing_3_rad": "119.8",
}


def test_a_sheet_of_all_blades_is_kept_shown_and_corrected(client, fetch, tag):
    answer = client.send(f"/bench/{tag}/alike", way="alike", heavy_blade="2", **BOXES)

    assert answer.status_code == 303
    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
        item = session.scalars(select(Item)).one()
    assert (sheet.readings["height_2_m_typed"], sheet.readings["height_2_m_tool"]) == ("106.1", "height gauge")
    assert item.diameter_m == pytest.approx(0.559)
    said = fetch(f"/bench/sheets/{sheet.id}")
    assert "Blade 2 off by 6.05 ± 0.12 mm" in said
    assert "Height of the tip, blade 2, height gauge" in said
    assert "<svg" in said
    assert "3 blades against each other; off: blade 2" in said
    again = fetch(f"/bench/sheets/{sheet.id}/correct")
    assert 'value="106.1"' in again
    assert "Blades alike" in fetch(f"/bench/{tag}")


def test_the_page_opens_with_a_box_for_each_blade_and_prints_blank(fetch, tag):
    said = fetch(f"/bench/{tag}/alike")

    assert 'name="height_3_m"' in said
    assert 'name="height_4_m"' not in said
    assert "Angle to next" in fetch(f"/bench/{tag}/alike/blank")


def test_an_angle_left_out_is_told_beside_its_box_and_saves_nothing(client, tag):
    answer = client.send(f"/bench/{tag}/alike", way="alike", **(BOXES | {"spacing_3_rad": ""}))

    assert answer.status_code == 422
    assert 'id="spacing_3_rad-said"' in answer.text
    with snapshot() as session:
        assert session.scalars(select(Sheet)).all() == []


def test_what_it_says_is_shown_before_it_is_kept(client, tag):
    answer = client.send(f"/bench/{tag}/alike/preview", way="alike", **BOXES)

    assert answer.status_code == 200
    assert "its tip stands 6.05 ± 0.12 mm higher" in answer.text
