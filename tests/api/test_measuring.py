from math import pi, radians

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp import db
from yardapp.gear import services as gear

TIPS = [{"blade": number, "height_m": height} for number, height in enumerate((0.100, 0.1061, 0.1001), 1)]
ALIKE = {"blades": 3, "tips": TIPS, "plus_minus": {"height_m": 0.0001}}
WIDTHS = [{"radius_m": radius, "width_m": width} for radius, width in ((0.075, 0.15), (0.125, 0.175), (0.175, 0.18))]
WEAR = {"places": [{"place": "gland", "diameter_m": 0.0381}, {"place": "aft", "diameter_m": 0.03782}]}
RUN_OUT = {"stations": [{"along_m": 0.3, "swing_m": 0.0005}], "plus_minus": {"swing_m": 0.00002}}
END = {"large": "31.75 mm", "small": "26.19375 mm", "length": "88.9 mm", "thread": "7/8 in, 9 to the inch"}
BEARING = {"bearing_bore": "26.4 mm", "shaft": "25.4 mm", "plus_minus": {"bearing_bore": "0.05 mm"}}


@pytest.fixture
def tag(register):
    with db.transaction() as session:
        return make_propeller(session, pitch_m=None, blades=(3, 0.0)).tag


@pytest.fixture
def shaft(register):
    with db.transaction() as session:
        return gear.log_item(session, make_who(session), kind="shaft", place="Rack S").tag


def test_the_blade_that_is_bent_is_named(ada):
    said = ada.post("/bench/alike", ALIKE).get_json()

    # By hand: 106.1 less the mean of 100 and 100.1 is 6.05 mm; ± 0.1 x sqrt(3/2).
    odd = said["odd"][0]
    assert (odd["what"], odd["blade"], odd["is_odd"]) == ("height_m", 2, True)
    assert (odd["off"], odd["plus_minus"]) == pytest.approx((0.00605, 0.0001225), abs=1e-6)
    assert "Blade 2" in said["remarks"][0]


def test_spacing_has_its_class_and_angles_that_do_not_close_are_told(ada):
    tips = [{"blade": number, "spacing_rad": radians(angle)} for number, angle in enumerate((121, 120, 121), 1)]
    said = ada.post("/bench/alike", {"blades": 3, "tips": tips, "plus_minus": {"spacing_rad": radians(0.2)}}).get_json()

    assert said["classes"][0]["iso_class"] == "S"
    assert any("add up to 362°, not 360°" in remark for remark in said["remarks"])


def test_what_is_missing_of_a_row_is_told_under_the_list_that_was_sent(ada, must_refuse):
    said = must_refuse(ada.post("/bench/alike", {"blades": 3, "tips": [{"blade": 1, "height_m": 0.1}]}), 422)

    assert set(said) == {"tips"}


@pytest.mark.parametrize(
    ("how", "expected_m2"),
    [
        # 230 squares of 1 cm2, three blades; an outline of 100 x 230 mm, three blades.
        ({"whole": 200, "part": 60, "square": "10 mm"}, 0.069),
        ({"outline": [{"x_m": x, "y_m": y} for x, y in ((0, 0), (0.1, 0), (0.1, 0.23), (0, 0.23))]}, 0.069),
    ],
    ids=["squares", "outline"],
)
def test_the_area_comes_by_each_way_of_tracing(ada, how, expected_m2):
    said = ada.post("/bench/area", {"blades": 3, "diameter": "500 mm", **how}).get_json()

    expanded = next(one for one in said["sums"] if one["what"] == "expanded_area_m2")
    assert expanded["value"] == pytest.approx(expected_m2)
    assert said["area_ratio"]["value"] == pytest.approx(expected_m2 / (pi / 4 * 0.25))


def test_the_area_comes_from_widths_with_the_shadow_beside_it(ada):
    body = {"blades": 3, "diameter": "500 mm", "hub_diameter": "100 mm", "pitch": "500 mm", "widths": WIDTHS}
    said = ada.post("/bench/area", body).get_json()

    by_name = {one["what"]: one["value"] for one in said["sums"]}
    # Taylor's line at a pitch ratio of one: 0.838.
    assert by_name["projected_area_m2"] == pytest.approx(0.838 * by_name["expanded_area_m2"], rel=1e-3)


def test_wear_bend_end_and_play_of_a_shaft(ada):
    assert ada.post("/bench/wear", WEAR).get_json()["largest_wear"]["value"] == pytest.approx(0.00028)
    bow = ada.post("/bench/run_out", RUN_OUT).get_json()["bow"]
    # Run-out is twice the bend's offset, and so is its ±.
    assert (bow["value"], bow["plus_minus"]) == pytest.approx((0.00025, 0.00001))
    end = ada.post("/bench/shaft_end", END).get_json()
    assert end["taper"]["value"] == pytest.approx(1 / 16)
    assert (end["standards"][0]["end"], end["standards"][0]["is_it"]) == ("SAE J755 1-1/4 in", True)
    play = ada.post("/bench/bearing", BEARING).get_json()
    assert play["play"]["value"] == pytest.approx(0.001)
    # One inch of shaft: 3 % is 0.762 mm, 6 % 1.524, 1/32 in 0.794, 1/16 in 1.588 (clearances.md).
    assert [one["verdict"] for one in play["policies"]] == ["no", "yes", "no", "yes"]


def test_repeats_give_their_mean_and_tell_common_from_separate(ada, must_refuse):
    body = {
        "rise_m": 0.0741,
        "swing_rad": radians(45),
        "plus_minus": {"rise_m": 0.0001, "swing_rad": radians(0.5)},
        "repeats": {"rise_m": [0.074, 0.0745, 0.0738]},
    }
    said = ada.post("/bench/pitch", body).get_json()

    # 592.8 mm; scatter 592.8 x 0.20817 / 74.1 is 1.665 mm at k = 1, tools 3.318.
    assert said["pitch"]["value"] == pytest.approx(0.5928)
    assert (said["separate"], said["common"]) == pytest.approx((2 * 0.001665, 2 * 0.003318), abs=5e-6)
    alone = must_refuse(ada.post("/bench/pitch", body | {"repeats": {"gap_m": [0.1, 0.2]}}), 422)
    assert set(alone) == {"repeats.gap_m"}


def test_a_hub_goes_up_its_shaft_typed_or_by_its_tag(ada, shaft, must_refuse):
    ada.post(f"/shafts/{shaft}/sheets", {"method": "shaft_end", **END})
    bore = {"bore_large": "31.85 mm", "bore_small": "26.2875 mm", "bore_length": "89 mm"}

    by_tag = ada.post("/bench/bore", {**bore, "shaft_tag": shaft}).get_json()
    typed = ada.post("/bench/bore", {**bore, "shaft_large": "31.75 mm", "shaft_taper": "1:16"}).get_json()

    for said in (by_tag, typed):
        up = next(one["value"] for one in said["sums"] if one["what"] == "set_up_m")
        assert up == pytest.approx(0.0016, abs=1e-6)
    assert set(must_refuse(ada.post("/bench/bore", {**bore, "shaft_tag": "S-9999"}), 422)) == {"shaft_tag"}


@pytest.mark.parametrize(
    ("method", "body", "figure", "value"),
    [
        ("alike", ALIKE, "spread_m", 0.0061),
        (
            "area",
            {"blades": 3, "diameter": "500 mm", "whole": 230, "part": 0, "square": "10 mm"},
            "expanded_area_m2",
            0.069,
        ),
    ],
)
def test_sheets_of_a_propeller_are_kept(ada, tag, method, body, figure, value):
    answer = ada.post(f"/propellers/{tag}/sheets", {"method": method, **body})

    assert answer.status_code == 201, answer.text
    sheet = answer.get_json()
    assert sheet["figures"][figure]["value"] == pytest.approx(value)
    assert sheet["work_since"] is None
    assert ada.get(f"/propellers/{tag}/sheets").get_json()["sheets"] == [sheet]


@pytest.mark.parametrize(
    ("method", "body"), [("wear", WEAR), ("run_out", RUN_OUT), ("shaft_end", END), ("bearing", BEARING)]
)
def test_sheets_of_a_shaft_are_kept_and_only_of_a_shaft(ada, tag, shaft, method, body):
    answer = ada.post(f"/shafts/{shaft}/sheets", {"method": method, **body})

    assert answer.status_code == 201, answer.text
    assert ada.get(f"/shafts/{shaft}/sheets").get_json()["sheets"] == [answer.get_json()]
    assert ada.post(f"/shafts/{tag}/sheets", {"method": method, **body}).status_code == 404
    assert ada.get(f"/propellers/{shaft}/sheets").status_code == 404


def test_a_fault_is_marked_closed_and_marked_again(ada, tag, must_refuse):
    crack = {"kind": "crack", "severity": "stop", "side": "face", "blade": 2, "radius_ratio": 0.7, "size": "12 mm"}
    first = ada.post(f"/propellers/{tag}/faults", crack)

    assert first.status_code == 201
    fault = first.get_json()
    assert (fault["number"], fault["size"]["value"], fault["size_typed"]) == (1, pytest.approx(0.012), "12 mm")
    assert ada.get("/faults").get_json()["faults"] == [fault]
    closed = ada.post(f"/faults/{fault['id']}/closing", {"how": "ground out"}).get_json()
    assert closed["closed"]["how"] == "ground out"
    assert set(must_refuse(ada.post(f"/faults/{fault['id']}/closing", {"how": "again"}), 422)) == {"how"}
    again = ada.post(f"/propellers/{tag}/faults", {**crack, "reopens_id": fault["id"]}).get_json()
    assert (again["number"], again["reopens_id"]) == (2, fault["id"])
    assert set(must_refuse(ada.post(f"/propellers/{tag}/faults", {**crack, "blade": 4}), 422)) == {"blade"}


def test_how_it_rang_is_noted(ada, tag):
    ring = ada.post(f"/propellers/{tag}/rings", {"heard": "dull", "blade": 2}).get_json()

    assert ada.get(f"/propellers/{tag}/condition").get_json()["rings"] == [ring]


def test_the_list_of_tools_is_the_yards_own_affair(ada, caller_as, must_refuse):
    tools = {tool["name"]: tool for tool in ada.get("/tools").get_json()["tools"]}

    # The issue's own list: tape 1 mm, protractor 1 degree.
    assert (tools["tape"]["plus_minus"], tools["tape"]["unit"]) == (0.001, "m")
    assert tools["protractor"]["plus_minus"] == pytest.approx(radians(1))
    must_refuse(caller_as("R. Thorne", "owner").get("/tools"), 403)


def test_two_sheets_are_held_against_each_other(ada, tag, must_refuse):
    rises = ({"rise_m": rise, "swing_rad": radians(40), "plus_minus": {"rise_m": 0.0004}} for rise in (0.0333, 0.0345))
    first, second = (
        ada.post(f"/propellers/{tag}/sheets", {"method": "pitch", **body}).get_json()["id"] for body in rises
    )

    said = ada.get(f"/sheets/{first}/against/{second}").get_json()

    # 1.2 mm of rise over 40 degrees is 10.8 mm of pitch.
    assert said["differences"][0]["apart"] == pytest.approx(0.0108)
    assert said["differences"][0]["agrees"] is None
    assert said["is_one_place"] is True
    must_refuse(ada.get(f"/sheets/{first}/against/{first}"), 404)
