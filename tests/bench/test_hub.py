import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.services import BoreReading
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear

# SAE J755 1-1/4 in, as shaft_tapers.csv has it: 31.75 mm, 3-1/2 in long, 1:16; small end 1.030 to 1.032 in.
BORE = {"bore_large_m": 0.03185, "bore_small_m": 0.0262875, "bore_length_m": 0.0890, "hub_length_m": 0.095}
SHAFT = {"shaft_large_m": 0.03175, "shaft_taper": 1 / 16, "shaft_length_m": 0.0889}


def reading(u=None, **said):
    return BoreReading(**said, **({f"u_{name}": u for name in said if name.endswith("_m")} if u is not None else {}))


def test_the_hub_goes_up_by_the_difference_over_the_taper():
    outcome = bench.bore_of(reading(0.000025, **BORE, **SHAFT, u_shaft_taper=0.0))

    # trade.md: 0.1 mm on the bore moves a 1:16 hub by 1.6 mm.
    up = outcome.sum_of("set_up_m")
    assert up.value == pytest.approx(0.0016)
    assert up.u == pytest.approx(16 * 0.000025 * 2**0.5)
    # 95 mm of hub on 88.9 of taper, 1.6 up: 4.5 mm past its end.
    assert outcome.sum_of("overhang_m").value == pytest.approx(0.0045)


def test_a_hub_that_stays_short_of_the_tapers_end_is_told():
    outcome = bench.bore_of(reading(**(BORE | {"hub_length_m": 0.080}), **SHAFT))

    assert any("clamp the shaft's shoulder" in remark for remark in outcome.remarks)


def test_another_taper_than_the_shafts_parts_toward_one_end():
    outcome = bench.bore_of(reading(**BORE, **(SHAFT | {"shaft_taper": 1 / 12})))

    # trade.md: 1:12 and 1:16 part by 2.08 mm in 100; over 89 mm that is 1.854.
    assert outcome.sum_of("parting_m").value == pytest.approx(0.0208333 * 0.089, rel=1e-4)
    assert any("part toward the nut end" in remark for remark in outcome.remarks)


def test_a_pilot_bore_says_how_much_metal_is_still_to_go_and_what_wall_is_left():
    outcome = bench.bore_of(
        reading(bore_kind="pilot", bore_large_m=0.0250, hub_length_m=0.095, hub_diameter_m=0.070, **SHAFT)
    )

    # By hand: 31.75 - 25 = 6.75 mm at the large end; 95 mm on, the taper has taken 5.9375: 0.8125 mm.
    assert outcome.sum_of("metal_1_m").value == pytest.approx(0.00675)
    assert outcome.sum_of("metal_2_m").value == pytest.approx(0.0008125)
    assert outcome.sum_of("wall_m").value == pytest.approx((0.070 - 0.03175) / 2)


def test_a_pilot_bore_that_is_too_big_already_is_told():
    outcome = bench.bore_of(reading(bore_kind="pilot", bore_large_m=0.0300, hub_length_m=0.095, **SHAFT))

    assert any("would not clean up" in remark for remark in outcome.remarks)


def test_the_nearest_standard_ends_stand_with_their_tolerance():
    outcome = bench.bore_of(reading(0.000025, bore_large_m=0.03175, bore_small_m=0.0262, bore_length_m=0.0889))

    first, second, _ = outcome.more["standards"]
    assert (first["end"], first["is_it"], second["is_it"]) == ("SAE J755 1-1/4 in", True, False)
    small = next(row for row in first["held"] if row["what"] == "small_m")
    assert (small["low"], small["high"]) == pytest.approx((1.030 * 0.0254, 1.032 * 0.0254))


def test_without_a_shaft_nothing_is_said_of_one():
    outcome = bench.bore_of(reading(**BORE))

    assert outcome.sum_of("set_up_m") is None


@pytest.fixture
def tags(register):
    with transaction() as session:
        who = make_who(session)
        shaft = gear.log_item(
            session,
            who,
            gear.Said(what="diameter_m", basis="measured", value=0.03175, u_value=0.000005),
            gear.Said(what="taper", basis="measured", value=1 / 16, u_value=0.0001),
            gear.Said(what="taper_length_m", basis="measured", value=0.0889, u_value=0.00025),
            kind="shaft",
            place="Rack S",
        )
        return make_propeller(session, bore_large_m=None).tag, shaft.tag


BOXES = {
    "bore_kind": "taper",
    "bore_large_m": "31.85",
    "bore_small_m": "26.2875",
    "bore_length_m": "89",
    "hub_length_m": "95",
}


def test_a_shaft_chosen_by_its_tag_brings_its_figures_from_the_register(client, fetch, tags):
    tag, shaft = tags
    answer = client.send(f"/bench/{tag}/bore", shaft_tag=shaft.lower(), **BOXES)

    assert answer.status_code == 303
    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
    assert (sheet.readings["shaft_tag"], sheet.readings["shaft_large_m"]) == (shaft, 0.03175)
    assert sheet.results["set_up_m"] == pytest.approx(0.0016)
    said = fetch("/bench/sheets/1")
    assert "SAE J755 1-1/4 in" in said
    assert "From, to" in said
    assert "Set-up" in said
    assert f'value="{shaft}"' in fetch("/bench/sheets/1/correct")


def test_the_preview_lays_the_bore_over_the_registers_shaft_as_the_kept_sheet_does(client, tags):
    tag, shaft = tags
    looked = client.send(f"/bench/{tag}/bore/preview", shaft_tag=shaft, **BOXES).text

    # SAE J755: 1-1/4 in, 1:16, of the register; the hub of 31.85 goes up by 0.1 x 16.
    for said in ("shaft 1:16", "up by 1.6", "Shaft, large end"):
        assert said in looked


def test_a_shaft_may_be_typed_instead(client, tags):
    client.send(f"/bench/{tags[0]}/bore", shaft_large_m="31.75", shaft_taper="1:16", shaft_length_m="88.9", **BOXES)

    with snapshot() as session:
        assert session.scalars(select(Sheet)).one().results["overhang_m"] == pytest.approx(0.0045)


def test_a_tag_that_no_shaft_carries_is_told_beside_its_box(client, tags):
    answer = client.send(f"/bench/{tags[0]}/bore", shaft_tag="S-9999", **BOXES)
    looked = client.send(f"/bench/{tags[0]}/bore/preview", shaft_tag="S-9999", **BOXES)

    assert answer.status_code == 422
    assert "No shaft here carries the tag S-9999" in answer.text
    assert "No shaft here carries the tag S-9999" in looked.text
