import math

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp import db
from yardapp.gear import services as gear

BLADES, RADII, ANGLES = (1, 2, 3), (0.5, 0.6, 0.7, 0.8), (0, 15, 30, 45)


def body(pitch_mm=450.0, **said):
    """A helicoid as somebody sends it: 20 mm and pitch x angle / 360; `pitch_mm` may differ by blade and radius."""
    points = [
        {"blade": blade, "radius_ratio": radius, "angle_deg": angle, "height_mm": 20 + here * angle / 360}
        for blade in BLADES
        for radius in RADII
        for here in [pitch_mm(blade, radius) if callable(pitch_mm) else pitch_mm]
        for angle in ANGLES
    ]
    errors = {"height_mm": 0.5, "angle_deg": 0.5}
    return {
        "blades": 3,
        "hand": "right",
        "diameter": "0.6 m",
        "design_pitch": "450 mm",
        "readings": points,
        "plus_minus": errors,
        **said,
    }


def test_a_survey_comes_back_with_every_mean_and_its_plus_minus(ada):
    answer = ada.post("/bench/survey", body())
    said = answer.get_json()

    assert answer.status_code == 200
    # By hand: 12 sections of 45 degrees, each end ± 0.5 mm and ± 0.5 degrees at k = 2.
    section = math.hypot(8 * math.sqrt(2) * 0.0005, 0.450 * math.sqrt(2) * 0.5 / 45)
    assert said["pitch"]["value"] == pytest.approx(0.450)
    assert (said["pitch"]["unit"], said["pitch"]["plus_minus"]) == ("m", pytest.approx(section / math.sqrt(12)))
    assert [one["blade"] for one in said["blades"]] == [1, 2, 3]
    assert said["blades"][0]["pitch"]["plus_minus"] == pytest.approx(section / 2)
    assert len(said["sections"]) == 12
    assert said["sections"][5]["radius_ratio"] == 0.6
    assert said["sections"][5]["pitch"]["plus_minus"] == pytest.approx(section)
    assert said["formula"] == "yardapp.formulas.pitch_survey.mean_pitch"
    assert said["warnings"] == []


def test_classes_stand_only_where_the_readings_can_tell(ada):
    coarse = {one["quantity"]: one for one in ada.post("/bench/survey", body()).get_json()["classes"]}
    fine = ada.post("/bench/survey", body(plus_minus={"height_mm": 0.1, "angle_deg": 0.05})).get_json()

    # ISO 484-2:1981 floors of class S: section 7.5 mm, read within ± 9.0; propeller 4 mm, read within ± 2.6.
    assert coarse["mean_pitch_of_section"]["class"] is None
    assert "wider than" in coarse["mean_pitch_of_section"]["note"]
    assert coarse["mean_pitch_of_propeller"]["class"] == "S"
    assert {one["class"] for one in fine["classes"]} == {"S"}
    assert fine["overall"] == "S"
    assert "by analogy" in fine["scope"]


def test_one_section_far_off_is_a_warning_and_a_line_for_the_shop(ada):
    said = ada.post("/bench/survey", body(lambda blade, radius: 500 if (blade, radius) == (2, 0.6) else 450)).get_json()

    assert said["warnings"] == ["Check blade 2, 0.6 R: 500 mm, the others 450 mm."]
    # 50 mm of pitch over 45 degrees are 6.25 mm of rise, half at each edge.
    assert said["shop_list"][0] == {
        "blade": 2,
        "radius_ratio": 0.6,
        "leading_m": pytest.approx(-0.003125),
        "trailing_m": pytest.approx(0.003125),
    }
    assert said["deviation"]["value"] == pytest.approx(0.050 / 12)


def test_a_rise_of_the_wrong_sign_for_the_hand_is_a_warning(ada):
    said = ada.post("/bench/survey", body(-450.0)).get_json()

    assert "that is a left-hand propeller" in said["warnings"][0]
    assert said["pitch"]["value"] == pytest.approx(0.450)


def test_a_common_error_does_not_average_out(ada):
    separate = ada.post("/bench/survey", body()).get_json()["pitch"]["plus_minus"]
    common = ada.post(
        "/bench/survey", body(plus_minus={"height_mm": 0.5, "angle_deg": 0}, common={"angle_deg": 0.5})
    ).get_json()["pitch"]["plus_minus"]

    assert common > 2.5 * separate


def test_without_a_plus_minus_nothing_is_claimed(ada):
    sent = body()
    del sent["plus_minus"]

    said = ada.post("/bench/survey", sent).get_json()

    assert (said["pitch"]["plus_minus"], said["classes"], said["overall"]) == (None, [], None)


@pytest.mark.parametrize(
    "change",
    [
        {"readings": []},
        {"blades": 9},
        {"hand": "up"},
        {"diameter": "wide"},
        {"readings": [{"blade": 1, "radius_ratio": 1.2, "angle_deg": 0, "height_mm": 1}]},
        {"readings": [{"blade": 1, "radius_ratio": 0.7, "angle_deg": 0, "height_mm": 1}]},
        {"plus_minus": {"height_mm": -1}},
    ],
)
def test_what_can_not_be_is_refused(ada, must_refuse, change):
    must_refuse(ada.post("/bench/survey", body(**change)), 422)


def test_too_little_is_told_under_the_name_that_was_sent(ada, must_refuse):
    alone = [{"blade": 1, "radius_ratio": 0.7, "angle_deg": 0, "height_mm": 1}]

    said = must_refuse(ada.post("/bench/survey", body(readings=alone)), 422)

    assert said == {"readings": "Read two stations of one radius at least: a pitch is a rise over a swing."}


def test_a_survey_is_kept_and_can_be_corrected(ada):
    with db.transaction() as session:
        tag = make_propeller(session, pitch_m=None).tag

    first = ada.post(f"/propellers/{tag}/sheets", {"method": "survey", **body()})
    again = ada.post(
        f"/propellers/{tag}/sheets",
        {"method": "survey", "corrects": first.get_json()["id"], "why": "Misread", **body(460.0)},
    )

    assert (first.status_code, again.status_code) == (201, 201)
    assert first.get_json()["figures"]["pitch_m"]["value"] == pytest.approx(0.450)
    assert len(first.get_json()["readings"]["cells"]) == 48
    found = ada.get(f"/propellers/{tag}/sheets").get_json()["sheets"]
    assert [one["method"] for one in found] == ["survey", "survey"]
    assert found[1]["replaced_by"] == found[0]["id"]


def test_a_survey_that_was_sent_opens_on_the_page_as_if_it_were_typed(ada, client):
    with db.transaction() as session:
        tag = make_propeller(session, pitch_m=None).tag
    number = ada.post(f"/propellers/{tag}/sheets", {"method": "survey", **body()}).get_json()["id"]

    page = client.get(f"/bench/surveys/{number}").text
    opened = client.send(f"/bench/surveys/{number}/correct", why="Misread").headers["Location"]
    grid = client.get(opened).text

    assert "Pitch survey 450.0" in page
    assert 'name="h-2-0.6-4" value="76.25 mm"' in grid
    assert 'name="a-2-0.6-4" value="45 deg"' in grid


def test_a_survey_without_a_design_pitch_is_held_against_the_registers_stamp_and_says_so(ada):
    with db.transaction() as session:
        item = make_propeller(session, pitch_m=None)
        gear.add_evidence(session, make_who(session), item, gear.Said(what="pitch_m", basis="stamped", value=0.4572))
        tag = item.tag
    sent = {"method": "survey", **body()}
    said = ada.post(f"/propellers/{tag}/sheets", {**sent, "design_pitch": None}).get_json()
    own = ada.post(f"/propellers/{tag}/sheets", sent).get_json()

    # Read 450.0 mm, stamped 457.2 (18 in): 7.2 under.
    assert said["survey"]["deviation"]["value"] == pytest.approx(-0.0072)
    assert "held against the register's, 457.2 mm (18 in)." in " ".join(said["remarks"])
    assert own["survey"]["deviation"]["value"] == pytest.approx(0.0, abs=1e-9)
    assert "register's" not in " ".join(own["remarks"])


def test_a_kept_survey_gives_means_classes_and_warnings_as_the_computed_one_does(ada):
    with db.transaction() as session:
        tag = make_propeller(session, pitch_m=None).tag
    sent = body(lambda blade, radius: 500 if (blade, radius) == (2, 0.6) else 450)
    computed = ada.post("/bench/survey", sent).get_json()

    kept = ada.post(f"/propellers/{tag}/sheets", {"method": "survey", **sent}).get_json()

    assert kept["survey"]["warnings"] == ["Check blade 2, 0.6 R: 500 mm, the others 450 mm."]
    assert kept["survey"] == {name: computed[name] for name in kept["survey"]}
