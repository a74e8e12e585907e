import pytest
from sqlalchemy import select

from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.services import BearingReading, RunOutReading, ShaftEndReading, WearReading
from yardapp.db import snapshot, transaction
from yardapp.errors import OutsideRange, Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Item


def wear(*diameters_mm, second=(), u_m=0.000005, **said):
    rows = {f"diameter_{number}_m": value / 1000 for number, value in enumerate(diameters_mm, 1)}
    rows |= {f"second_{number}_m": value / 1000 for number, value in enumerate(second, 1) if value}
    return WearReading(**rows, **{f"u_{name}": u_m for name in rows}, **said)


def test_wear_is_largest_less_each_and_the_worst_is_named():
    outcome = bench.wear_of(wear(38.10, 37.82, 38.05, place_2="aft bearing"))

    # 38.10 less 37.82 is 0.28 mm; two readings of u 0.005 mm: 0.0071.
    assert outcome.value == pytest.approx(0.00028)
    assert outcome.u == pytest.approx(0.00000707, abs=1e-8)
    assert outcome.sum_of("worn_3_m").value == pytest.approx(0.00005)
    assert "Most worn: aft bearing." in outcome.remarks


def test_out_of_round_counts_with_its_thinner_diameter():
    outcome = bench.wear_of(wear(38.10, 38.00, second=(0, 37.90)))

    assert outcome.sum_of("ovality_2_m").value == pytest.approx(0.0001)
    assert outcome.value == pytest.approx(0.0002)


def test_no_wear_that_the_readings_could_tell_is_said():
    outcome = bench.wear_of(wear(38.100, 38.095))

    assert "No wear that the readings could tell." in outcome.remarks


def test_a_diameter_far_off_the_others_is_told_by_its_place():
    outcome = bench.wear_of(wear(38.1, 28.1, 38.0, 38.05))

    assert "Check place 2: 28.1 mm, the others 38 mm to 38.1 mm." in outcome.remarks


@pytest.mark.parametrize(
    ("reading", "box"),
    [
        (wear(38.1), "diameter_2_m"),
        (wear(38.1, 38.0, second=(0, 0, 38.0)), "diameter_3_m"),
        (WearReading(), "diameter_1_m"),
    ],
)
def test_wear_that_can_not_be_told_names_its_box(reading, box):
    with pytest.raises(Refused) as refused:
        bench.wear_of(reading)

    assert refused.value.argument == box


def test_run_out_is_the_full_swing_twice_the_bends_offset():
    outcome = bench.run_out_of(
        RunOutReading(
            along_1_m=0.2, along_2_m=0.9, swing_1_m=0.0001, u_swing_1_m=0.00001, swing_2_m=0.0005, u_swing_2_m=0.00001
        )
    )

    # trade.md: run-out is twice the bend's offset; 0.5 mm of swing is 0.25 mm, its u half of 0.01 mm.
    assert (outcome.value, outcome.u) == pytest.approx((0.00025, 0.000005))
    assert outcome.sum_of("offset_1_m").value == pytest.approx(0.00005)
    assert "It stands off furthest at station 2." in outcome.remarks


def test_the_dial_at_four_quarters_tells_bend_from_out_of_round():
    quarters = {"top_1_m": 0.0003, "starboard_1_m": 0.0005, "bottom_1_m": -0.0003, "port_1_m": -0.0003}
    outcome = bench.run_out_of(RunOutReading(**quarters, **{f"u_{name}": 0.00001 for name in quarters}))

    # By hand: half of 0.6 and half of 0.8 mm at right angles is 0.5 mm; 0.3 - 0.5 - 0.3 + 0.3 is 0.2 mm out of round.
    assert outcome.value == pytest.approx(0.0005)
    assert outcome.sum_of("swung_1_m").value == pytest.approx(0.0008)
    assert outcome.sum_of("out_of_round_1_m").value == pytest.approx(0.0002)
    assert any("out of round it is not bent" in remark for remark in outcome.remarks)


@pytest.mark.parametrize(
    ("reading", "box"),
    [
        (RunOutReading(), "swing_1_m"),
        (RunOutReading(along_1_m=0.5, along_2_m=0.4, swing_1_m=0.1, swing_2_m=0.1), "along_2_m"),
        (RunOutReading(top_1_m=0.0, bottom_1_m=0.1, port_1_m=0.1), "starboard_1_m"),
    ],
)
def test_run_out_that_can_not_stand_names_its_box(reading, box):
    with pytest.raises(Refused) as refused:
        bench.run_out_of(reading)

    assert refused.value.argument == box


@pytest.mark.parametrize(
    ("play_mm", "verdicts"),
    [
        # clearances.md, one inch of shaft: 3 % due is 0.762 mm, 6 % 1.524, 1/32 in 0.794, 1/16 in 1.588.
        (0.50, ["yes", "yes", "yes", "yes"]),
        (0.77, ["ask", "yes", "ask", "yes"]),
        (1.00, ["no", "yes", "no", "yes"]),
        (2.00, ["no", "no", "no", "no"]),
    ],
)
def test_play_stands_beside_each_of_the_rival_limits(play_mm, verdicts):
    reading = BearingReading(
        bearing_bore_m=0.0254 + play_mm / 1000, u_bearing_bore_m=0.000025, shaft_m=0.0254, u_shaft_m=0.000005
    )

    outcome = bench.bearing_of(reading)

    assert outcome.value == pytest.approx(play_mm / 1000)
    assert [one["policy"] for one in outcome.more["policies"]] == ["3 % due", "6 % limit", "1/32 in", "1/16 in"]
    assert [one["verdict"] for one in outcome.more["policies"]] == verdicts


def test_how_far_the_shaft_lifts_is_its_play():
    outcome = bench.bearing_of(BearingReading(lift_m=0.0009, u_lift_m=0.00001, shaft_m=0.0381))

    assert outcome.value == pytest.approx(0.0009)


def test_no_play_is_no_comfort():
    outcome = bench.bearing_of(BearingReading(bearing_bore_m=0.0381, shaft_m=0.0381))

    assert any("bound by misalignment" in remark for remark in outcome.remarks)


@pytest.mark.parametrize(("given", "box"), [({}, "shaft_m"), ({"shaft_m": 0.0381}, "bearing_bore_m")])
def test_a_bearing_asks_for_what_it_needs(given, box):
    with pytest.raises(Refused) as refused:
        bench.bearing_of(BearingReading(**given))

    assert refused.value.argument == box


def test_a_shafts_end_has_its_taper_and_the_standards_tolerance():
    # SAE J755 1-1/4 in as shaft_tapers.csv has it: small end 1.030 to 1.032 in, 3-1/2 in long, 7/8 in 9 to the inch.
    outcome = bench.shaft_end_of(
        ShaftEndReading(
            large_m=0.03175,
            u_large_m=0.000005,
            small_m=0.02619375,
            u_small_m=0.000005,
            length_m=0.0889,
            u_length_m=0.00025,
            thread="7/8 in, 9 to the inch",
        )
    )

    assert outcome.value == pytest.approx(1 / 16)
    first = outcome.more["standards"][0]
    assert (first["end"], first["is_it"]) == ("SAE J755 1-1/4 in", True)
    small = next(row for row in first["held"] if row["what"] == "small_m")
    assert (small["low"], small["high"]) == pytest.approx((1.030 * 0.0254, 1.032 * 0.0254))
    assert outcome.remarks == ("Thread found: 7/8 in, 9 to the inch. The standard end has 7/8 in, 9 to the inch.",)


@pytest.mark.parametrize(
    ("given", "box"),
    [
        ({}, "large_m"),
        ({"large_m": 0.03, "small_m": 0.03}, "small_m"),
        ({"large_m": 0.03, "small_m": 0.01, "length_m": 0.01}, "length_m"),
    ],
)
def test_an_end_that_can_not_be_names_its_box(given, box):
    with pytest.raises((Refused, OutsideRange)) as refused:
        bench.shaft_end_of(ShaftEndReading(**given))

    assert refused.value.argument == box


@pytest.fixture
def tag(register):
    with transaction() as session:
        return gear.log_item(session, make_who(session), kind="shaft", place="Rack S").tag


@pytest.mark.parametrize("sheet", ["wear", "run-out", "run-out?way=around", "shaft-end", "bearing", "bearing?way=lift"])
def test_each_sheet_of_a_shaft_has_its_page_with_a_picture(fetch, tag, sheet):
    said = fetch(f"/bench/{tag}/{sheet}")

    assert "Where to read: not to scale" in said
    assert "Save the sheet" in said


@pytest.mark.parametrize("sheet", ["wear", "run_out", "run_out?way=around", "shaft_end", "bearing", "bearing?way=lift"])
def test_each_sheet_of_a_shaft_prints_blank(fetch, tag, sheet):
    path, _, way = sheet.partition("?")
    said = fetch(f"/bench/{tag}/{path}/blank?{way}")

    assert "Read by" in said
    assert "Blades" not in said


BOXES = {
    "wear": {
        "place_1": "gland",
        "along_1_m": "200",
        "diameter_1_m": "38.1",
        "place_2": "aft",
        "along_2_m": "900",
        "diameter_2_m": "37.82",
    },
    "run-out": {"way": "swing", "along_1_m": "300", "swing_1_m": "0.5", "along_2_m": "600", "swing_2_m": "0.2"},
    "shaft-end": {
        "large_m": "31.75",
        "small_m": "26.19",
        "length_m": "88.9",
        "keyway_width_m": "7.93",
        "thread": "7/8 in",
    },
    "bearing": {"bearing_bore_m": "39", "shaft_m": "38.1", "bearing": "the bracket"},
}
SAID = {
    "wear": "Worn by 0.28",
    "run-out": "Off its line by 0.25",
    "shaft-end": "SAE J755 1-1/4 in: the readings are this end",
    "bearing": "1/32 in",
}


@pytest.mark.parametrize("sheet", BOXES)
def test_a_sheet_of_a_shaft_is_kept_shown_and_opened_for_correction(client, fetch, tag, sheet):
    answer = client.send(f"/bench/{tag}/{sheet}", **BOXES[sheet])

    assert answer.status_code == 303, answer.text
    said = fetch("/bench/sheets/1")
    assert SAID[sheet] in said
    assert "<svg" in said
    again = fetch("/bench/sheets/1/correct")
    assert all(f'value="{value}"' in again for name, value in BOXES[sheet].items() if name != "way")
    assert tag in fetch("/bench")


def test_a_shafts_figures_become_evidence(client, tag):
    client.send(f"/bench/{tag}/wear", **BOXES["wear"])
    client.send(f"/bench/{tag}/shaft-end", **BOXES["shaft-end"])

    with snapshot() as session:
        item = session.scalars(select(Item)).one()
    # The newest reading speaks: the end's large end; its taper is 5.56 over 88.9.
    assert item.diameter_m == pytest.approx(0.03175)
    assert item.taper == pytest.approx(5.56 / 88.9)
    assert item.taper_length_m == pytest.approx(0.0889)
    assert item.keyway_width_m == pytest.approx(0.00793)


def test_a_shafts_page_leads_to_its_sheets_and_a_gap_to_the_one_that_fills_it(client, fetch, tag):
    said = fetch(f"/shafts/{tag}")

    assert f'href="/bench/{tag}"' in said
    assert f'href="/bench/{tag}/wear"' in said
    assert f'href="/bench/{tag}/shaft-end"' in said
    listed = fetch(f"/bench/{tag}")
    assert "Straightness" in listed
    assert "Pitch" not in listed


def test_a_propeller_is_no_shaft_and_a_shaft_no_propeller(client, tag):
    assert client.get(f"/bench/{tag}/pitch").status_code == 404
    with snapshot() as session:
        assert session.scalars(select(Sheet)).all() == []


def test_an_untouched_sheet_shows_where_to_read_and_complains_of_nothing(client, tag):
    empty = client.post(f"/bench/{tag}/wear/preview", data={"way": "wear"}, headers={"HX-Request": "true"})
    begun = client.post(
        f"/bench/{tag}/wear/preview", data={"way": "wear", "diameter_1_m": "38.1"}, headers={"HX-Request": "true"}
    )

    assert "Where to read" in empty.text
    assert "said-refused" not in empty.text
    assert "Read at two places or more" in begun.text
