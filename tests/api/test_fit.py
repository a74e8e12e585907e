import pytest

from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from yardapp import db

# tests/fit/pairings.py, the good pair: a 1-1/2 in shaft of SAE J755 and a propeller that fits it; ± is k = 2.
PROPELLER = {
    "hand": "right",
    "blades": 3,
    "diameter": "560 mm",
    "pitch": "400 mm",
    "bore_large": "38 mm",
    "bore_small": "30.856 mm",
    "bore_length": "114.3 mm",
    "taper": "1:16",
    "keyway_width": "9.53 mm",
    "keyway_depth": "4.85 mm",
    "hub_length": "114.3 mm",
    "hub_diameter": "76 mm",
    "bore_kind": "taper",
    "plus_minus": {
        "diameter": "2 mm",
        "bore_large": "0.04 mm",
        "bore_small": "0.04 mm",
        "bore_length": "0.4 mm",
        "taper": "0.4",
        "keyway_width": "0.06 mm",
        "keyway_depth": "0.1 mm",
        "hub_length": "0.4 mm",
        "hub_diameter": "1 mm",
    },
}
DRIVE = {
    "hand": "right",
    "shaft_diameter": "38.1 mm",
    "taper": "1:16",
    "taper_length": "107.95 mm",
    "keyway_width": "9.51 mm",
    "keyway_depth": "4.85 mm",
    "hub_space": "20 mm",
    "hull_clearance": "375 mm",
    "plus_minus": {
        "shaft_diameter": "0.04 mm",
        "taper": "0.4",
        "taper_length": "0.4 mm",
        "keyway_width": "0.06 mm",
        "keyway_depth": "0.1 mm",
        "hub_space": "1 mm",
        "hull_clearance": "2 mm",
    },
}


def test_the_good_pair_goes_on(ada):
    answer = ada.post("/fit", {"propeller": PROPELLER, "drive": DRIVE})
    said = answer.get_json()

    assert answer.status_code == 200
    assert said["verdict"] == "goes on", said
    assert said["checks"][0]["name"] == "hand"
    assert all(check["source"] for check in said["checks"])
    assert said["needs"] == []


def test_the_wrong_hand_does_not_go_on_and_is_offered_no_work(ada):
    said = ada.post("/fit", {"propeller": {**PROPELLER, "hand": "left"}, "drive": DRIVE}).get_json()

    assert said["verdict"] == "does not go on"
    assert [check["name"] for check in said["checks"]] == ["hand"]


@pytest.mark.parametrize("pair", [{"propeller": {}, "drive": {}}, {"propeller": {"hand": "right"}, "drive": DRIVE}])
def test_an_unknown_never_passes_and_says_what_would_settle_it(ada, pair):
    said = ada.post("/fit", pair).get_json()

    assert said["verdict"] == "cannot tell"
    assert said["needs"]
    assert {"figure", "says"} == set(said["needs"][0])


def test_a_guess_settles_nothing(ada):
    said = ada.post("/fit", {"propeller": {**PROPELLER, "basis": "guessed"}, "drive": DRIVE}).get_json()

    assert said["verdict"] == "cannot tell"


def test_typed_text_and_si_are_judged_alike(ada):
    by_text = ada.post("/fit", {"propeller": PROPELLER, "drive": DRIVE}).get_json()
    in_si = {
        "hand": "right",
        "shaft_diameter_m": 0.0381,
        "taper": 0.0625,
        "taper_length_m": 0.10795,
        "keyway_width_m": 0.00951,
        "keyway_depth_m": 0.00485,
        "hub_space_m": 0.020,
        "hull_clearance_m": 0.375,
        "plus_minus": {
            "shaft_diameter_m": 0.00004,
            "taper": 0.4 / 256,
            "taper_length_m": 0.0004,
            "keyway_width_m": 0.00006,
            "keyway_depth_m": 0.0001,
            "hub_space_m": 0.001,
            "hull_clearance_m": 0.002,
        },
    }

    by_si = ada.post("/fit", {"propeller": PROPELLER, "drive": in_si}).get_json()

    assert [check["verdict"] for check in by_si["checks"]] == [check["verdict"] for check in by_text["checks"]]


def test_a_propeller_and_a_drive_of_the_register_are_judged_by_tag_and_number(ada, must_refuse):
    with db.transaction() as session:
        tag, drive_id = make_propeller(session, hand="left").tag, boats.make_drive(session).id

    said = ada.post("/fit", {"propeller": tag, "drive": drive_id}).get_json()

    # The propeller is left hand, the drive wants right hand.
    assert said["verdict"] == "does not go on"
    assert set(must_refuse(ada.post("/fit", {"propeller": "P-0099", "drive": drive_id}), 422)) == {"propeller"}
    assert set(must_refuse(ada.post("/fit", {"propeller": tag, "drive": 77}), 422)) == {"drive"}


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"drive": {}}, "propeller"),
        ({"propeller": 5, "drive": {}}, "propeller"),
        ({"propeller": {}, "drive": "7"}, "drive"),
        ({"propeller": {"pitch": "much"}, "drive": {}}, "propeller.pitch"),
        ({"propeller": {}, "drive": {"taper": "steep"}}, "drive.taper"),
        ({"propeller": {}, "drive": {"hub_space_m": -1}}, "drive.hub_space_m"),
        ({"propeller": {}, "drive": {}, "rule": "12 %"}, "rule"),
    ],
)
def test_what_can_not_stand_is_told_by_its_whole_name(ada, must_refuse, body, field):
    assert set(must_refuse(ada.post("/fit", body), 422)) == {field}


def test_an_owner_can_not_judge_what_they_may_not_see(caller_as, must_refuse):
    owner = caller_as("R. Thorne", "owner")
    with db.transaction() as session:
        tag, drive_id = make_propeller(session).tag, boats.make_drive(session).id

    assert set(must_refuse(owner.post("/fit", {"propeller": tag, "drive": {}}), 422)) == {"propeller"}
    assert set(must_refuse(owner.post("/fit", {"propeller": {}, "drive": drive_id}), 422)) == {"drive"}


# tests/fit/power_pairings.py: a hull of R = 130 V^2, an engine of 28 kW, a propeller that suits both; ± is k = 2.
SUITED = PROPELLER | {
    "diameter": "420 mm",
    "pitch": "292 mm",
    "area_ratio": 0.70,
    "blade_kind": "fixed",
    "plus_minus": PROPELLER["plus_minus"] | {"pitch": "3 mm", "area_ratio": 0.02},
}
BOAT = DRIVE | {
    "rated_power": "28 kW",
    "rated_speed": "3000 rpm",
    "reduction": "2:1",
    "block_ratio": 0.4,
    "is_twin": False,
    "hull_kind": "displacement_single",
    "behind": "streamlined",
    "speed_power": [[speed, 130.0 * speed**3] for speed in (2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0)],
    "speed_power_kind": "effective",
    "shaft_depth": "700 mm",
    "plus_minus": DRIVE["plus_minus"] | {"rated_power": "0.5 kW", "rated_speed": "12 rpm", "reduction_ratio": 0.002},
}


def test_with_her_hull_known_the_engine_is_judged_too(ada):
    answer = ada.post("/fit", {"propeller": SUITED, "drive": BOAT})
    said = answer.get_json()

    assert answer.status_code == 200, said
    assert {part["group"]: part["verdict"] for part in said["parts"]}["engine"] == "goes on", said
    engine = next(check for check in said["checks"] if check["name"] == "engine load")
    units = {row["label"]: row["unit"] for row in engine["compared"]}
    assert units["Engine at full throttle"] == "rev/s"


def test_an_inch_and_a_bit_too_much_pitch_is_re_pitched(ada):
    body = {"propeller": SUITED | {"pitch": "322 mm", "material": "aluminium bronze"}, "drive": BOAT}

    said = ada.post("/fit", body).get_json()

    assert "re-pitch" in said["works"]


def test_what_is_asked_is_answered_and_nothing_else(ada):
    said = ada.post("/fit", {"propeller": SUITED, "drive": BOAT, "ask": ["shaft"]}).get_json()

    assert {part["group"] for part in said["parts"]} == {"shaft", "water"}
    assert "tip room" not in [check["name"] for check in said["checks"]]


def test_rated_power_alone_asks_nothing_of_the_engine(ada):
    drive = DRIVE | {"rated_power": "28 kW", "rated_speed": "3000 rpm", "reduction_ratio": 2.0}

    said = ada.post("/fit", {"propeller": PROPELLER, "drive": drive}).get_json()

    assert said["verdict"] == "goes on"


def test_everything_asked_of_nothing_known_is_answered_with_what_to_measure(ada):
    groups = ["shaft", "seat", "water", "around", "condition", "engine", "blades", "strength"]

    said = ada.post("/fit", {"propeller": {}, "drive": {}, "ask": groups}).get_json()

    assert {part["verdict"] for part in said["parts"]} == {"cannot tell"}
    assert len(said["needs"]) > 20


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"propeller": {}, "drive": {"hull_kind": "raft"}}, "drive.hull_kind"),
        ({"propeller": {}, "drive": {"speed_power": [[1.0]]}}, "drive.speed_power"),
        ({"propeller": {"blade_kind": "wings"}, "drive": {}}, "propeller.blade_kind"),
        ({"propeller": {}, "drive": {}, "ask": ["rigging"]}, "ask"),
    ],
)
def test_a_word_of_hull_or_blades_that_is_none_is_told_by_its_name(ada, must_refuse, body, field):
    assert all(name.startswith(field) for name in must_refuse(ada.post("/fit", body), 422))
