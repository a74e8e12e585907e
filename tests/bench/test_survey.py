import json

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import select

from tests.bench.surveys import ANGLES_DEG, RADII, cells_of, reading_of
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench.models import Sheet
from yardapp.bench.services.keeping import Filled
from yardapp.bench.services.survey import design_pitch_of, measure_survey, survey_of
from yardapp.bench.survey.words import class_note, error_note, fault_said
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, OutsideRange, Refused
from yardapp.formulas.iso484 import band
from yardapp.gear import services as gear
from yardapp.gear.models import Evidence, Item


def survey(cells, **said):
    return survey_of(reading_of(cells, **said)).more["survey"]


def warnings(cells, **said):
    return [fault_said(fault) for fault in survey(cells, **said)["faults"]]


def test_every_mean_is_what_plain_numpy_makes_of_the_readings():
    rng = np.random.default_rng(7)
    cells = cells_of(lambda blade, radius: 0.44 + 0.01 * blade * radius)
    for cell in cells:
        cell["height_m"] += rng.normal(0, 0.0003)
    # Written here from the definition: whole rise over whole swing; then plain means of means.
    heights = np.array([cell["height_m"] for cell in cells]).reshape(3, len(RADII), len(ANGLES_DEG))
    sections = (heights[..., -1] - heights[..., 0]) * 360 / (ANGLES_DEG[-1] - ANGLES_DEG[0])
    steps = np.diff(heights, axis=-1) * 360 / np.diff(ANGLES_DEG)

    outcome = survey_of(reading_of(cells))

    said = outcome.more["survey"]
    np.testing.assert_allclose(np.array(said["section"], float)[..., 0], sections, rtol=1e-12)
    np.testing.assert_allclose(np.array(said["local"], float)[..., 0], steps, rtol=1e-12)
    np.testing.assert_allclose(np.array(said["blade"], float)[..., 0], sections.mean(axis=1), rtol=1e-12)
    assert outcome.value == pytest.approx(sections.mean(axis=1).mean(), rel=1e-12)


def test_the_plus_minus_is_what_separate_readings_make_of_it():
    # By hand: 12 sections of 45 degrees, each end u 0.05 mm and 0.05 degrees; P = 450 mm.
    on_height, on_angle = 8 * np.sqrt(2) * 0.00005, 0.450 * np.sqrt(2) * 0.05 / 45

    outcome = survey_of(reading_of(cells_of(0.450)))

    assert outcome.u == pytest.approx(np.hypot(on_height, on_angle) / np.sqrt(12), rel=1e-6)
    assert (outcome.u_separate, outcome.u_common) == pytest.approx((outcome.u, 0.0))
    assert "averages out" in error_note(outcome.more["survey"])


def test_a_common_error_does_not_average_out_and_is_told_apart():
    common = float(np.radians(0.25))
    outcome = survey_of(reading_of(cells_of(0.450), u_angle_rad=0.0, u_common_angle_rad=common))

    # The template's two outer marks alone: P sqrt(2) 0.25 / 45.
    assert outcome.u_common == pytest.approx(0.450 * np.sqrt(2) * 0.25 / 45, rel=1e-6)
    assert "does not average out" in error_note(outcome.more["survey"])


def test_one_section_far_off_is_named_with_the_others_beside_it():
    cells = cells_of(lambda blade, radius: 0.312 if (blade, radius) == (2, 0.6) else 0.285 + 0.002 * blade)

    assert warnings(cells) == ["Check blade 2, 0.6 R: 312 mm, the others 287 to 291 mm."]


def test_a_whole_blade_far_off_is_named_once():
    # A blade 20 % off: every section of it would be told.
    cells = cells_of(lambda blade, radius: 0.540 if blade == 3 else 0.450)

    assert warnings(cells) == ["Check blade 3: 540 mm, the others 450 mm."]


def test_one_height_misread_inside_a_section_is_named_by_its_station():
    cells = cells_of(0.450)
    next(c for c in cells if (c["blade"], c["radius_ratio"], c["station"]) == (1, 0.7, 2))["height_m"] += 0.004

    (said,) = warnings(cells)
    assert said.startswith("Check blade 1, 0.7 R, station 2: at 42.75 mm")


def test_a_rise_of_the_wrong_sign_for_the_hand_is_told_and_the_pitch_still_found():
    falling = cells_of(0.450, way=-1)

    (said,) = warnings(falling, hand="right")
    assert "The face climbs clockwise, seen from above: that is a left-hand propeller" in said
    assert warnings(falling, hand="left") == []
    assert warnings(falling, hand="right", counts="clockwise") == []
    assert survey_of(reading_of(falling)).value == pytest.approx(0.450)


def test_one_section_that_falls_where_the_others_climb_is_left_out_and_told():
    cells = cells_of(0.450)
    for cell in cells:
        if (cell["blade"], cell["radius_ratio"]) == (2, 0.8):
            cell["height_m"] = 0.1 - cell["height_m"]

    outcome = survey_of(reading_of(cells))

    (fault,) = outcome.more["survey"]["faults"]
    assert fault_said(fault).startswith("Check blade 2, 0.8 R: its face falls where the others climb.")
    assert fault["stops"]
    assert outcome.value == pytest.approx(0.450)
    assert "1 of 12 sections" in " ".join(outcome.remarks)


def test_a_station_out_of_order_is_told_and_put_in_its_place():
    cells = cells_of(0.450)
    one = [c for c in cells if (c["blade"], c["radius_ratio"]) == (1, 0.5)]
    for name in ("angle_rad", "height_m"):
        one[1][name], one[2][name] = one[2][name], one[1][name]

    assert warnings(cells) == [
        "Check blade 1, 0.5 R, station 3: 15° is out of order, the other angles go one way along the blade."
    ]
    assert survey_of(reading_of(cells)).value == pytest.approx(0.450)


def test_stations_counted_from_the_other_edge_are_in_order_too():
    backwards = cells_of(0.450, angles_deg=ANGLES_DEG[::-1])

    assert warnings(backwards) == []
    assert survey_of(reading_of(backwards)).value == pytest.approx(0.450)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"angle_rad": 0.0}, "two stations of this radius stand at one angle"),
        ({"station": 1}, "was read twice"),
    ],
)
def test_two_readings_at_one_place_are_told_and_can_not_be_kept(change, said):
    cells = cells_of(0.450)
    cells[1].update(change)

    found = survey(cells)["faults"]

    assert any(said in fault_said(fault) and fault["stops"] for fault in found)


def test_what_was_not_read_is_left_out_of_every_mean():
    cells = [c for c in cells_of(0.450) if (c["blade"], c["radius_ratio"]) != (3, 0.8)]

    said = survey(cells)

    assert said["section"][2][3] is None
    assert said["blade"][2][0] == pytest.approx(0.450)


@pytest.mark.parametrize(
    ("cells", "refusal", "argument"),
    [
        ([], Refused, "cells"),
        (cells_of(0.450, angles_deg=(0.0,)), Refused, "cells"),
        (cells_of(0.450, blades=4), Refused, "cells"),
        (cells_of(0.450, radii=(1.2,)), OutsideRange, "radius_ratio"),
        (cells_of(0.450, angles_deg=(0.0, 800.0)), Refused, "cells"),
    ],
)
def test_too_little_or_what_lies_outside_is_refused(cells, refusal, argument):
    with pytest.raises(refusal) as said:
        survey_of(reading_of(cells))

    assert said.value.argument == argument


def test_classes_stand_with_the_note_on_scope_and_the_figures_that_decide():
    said = survey(cells_of(0.459), design_pitch_m=0.450, diameter_m=0.6)
    by_name = {row["quantity"]: row for row in said["classes"]}

    # ISO 484-2:1981 floors: 9 mm of 450 is beyond I (7.5) for the propeller's mean only at III (15 mm floor).
    assert band("mean_pitch_of_propeller", "II", 0.450).plus_m == pytest.approx(0.0075)
    assert by_name["mean_pitch_of_propeller"]["iso_class"] == "III"
    assert "where class III allows 15 mm" in class_note(by_name["mean_pitch_of_propeller"])
    assert "by analogy" in said["scope"]


def test_coarse_readings_get_no_class_and_hear_why():
    coarse = {"u_height_m": 0.002, "u_angle_rad": float(np.radians(1.0)), "design_pitch_m": 0.450}
    said = survey(cells_of(0.450), **coarse)

    assert said["overall"] == ""
    assert {row["iso_class"] for row in said["classes"] if row["quantity"].startswith("mean_pitch_of_s")} == {""}
    assert "is wider than" in class_note(said["classes"][1])


def test_without_a_plus_minus_there_is_no_class():
    said = survey(cells_of(0.450), u_height_m=None, u_angle_rad=None, design_pitch_m=0.450)

    assert (said["classes"], said["propeller"][1]) == ([], None)
    assert "no class" in error_note(said)


def test_the_shop_list_names_blade_radius_edge_and_millimetres():
    cells = cells_of(lambda blade, radius: 0.480 if (blade, radius) == (2, 0.6) else 0.450)
    shop = survey(cells, design_pitch_m=0.450, wanted_class="II")["shop"]

    # 30 mm of pitch over 45 degrees are 3.75 mm of rise, half at each edge: 30 x 45 / 360 / 2.
    (move,) = shop["moves"]
    assert (move["blade"], move["radius_ratio"]) == (2, 0.6)
    assert (move["leading_m"], move["trailing_m"]) == pytest.approx((-0.001875, 0.001875))
    assert not move["is_within_readings"]


def test_without_a_pitch_to_reach_the_blades_are_made_alike():
    cells = cells_of(lambda blade, radius: 0.500 if blade == 2 else 0.450)
    shop = survey(cells, wanted_class="S")["shop"]

    assert shop["is_own_mean"]
    assert shop["wanted_m"] == pytest.approx((0.450 + 0.500 + 0.450) / 3)


def test_a_survey_is_kept_with_its_cells_and_becomes_evidence(register):
    with transaction() as session:
        who, item = make_who(session), make_propeller(session, pitch_m=None)
        cells = cells_of(0.450)
        cells[0]["height_m_typed"] = "20,0"
        sheet = measure_survey(session, who, item.tag, reading_of(cells), Filled(boxes={"height_tool": "x"}))
        sheet_id = sheet.id

    with snapshot() as session:
        kept = session.get_one(Sheet, sheet_id)
        pitch_m, u_pitch_m = session.execute(select(Item.pitch_m, Item.u_pitch_m)).one()
        said = session.scalars(select(Evidence).where(Evidence.source == "sheet")).all()
    assert kept.readings["cells"][0]["height_m_typed"] == "20,0"
    assert len(kept.readings["cells"]) == 48
    assert kept.results["more"]["survey"]["blade"][1][0] == pytest.approx(0.450)
    assert pitch_m == pytest.approx(0.450)
    assert u_pitch_m == pytest.approx(kept.results["u_pitch_m"])
    # Nobody had counted the blades before.
    assert {(one.what, one.source_id) for one in said} == {("pitch_m", sheet_id), ("blades", sheet_id)}
    assert json.dumps(kept.results)


def test_a_survey_that_can_not_be_is_not_kept(register):
    cells = cells_of(0.450)
    cells[1]["angle_rad"] = 0.0
    with pytest.raises(Refused, match="Mend it, or leave it empty"), transaction() as session:
        measure_survey(session, make_who(session), make_propeller(session).tag, reading_of(cells))

    with snapshot() as session:
        assert session.scalars(select(Sheet)).all() == []


def test_owners_do_not_survey(register):
    with transaction() as session:
        owner, tag = make_who(session, name="R. Thorne", role="owner"), make_propeller(session).tag

        with pytest.raises(NotAllowed):
            measure_survey(session, owner, tag, reading_of(cells_of(0.45)))


def test_the_stamp_is_the_pitch_that_it_should_have(register):
    with transaction() as session:
        item = make_propeller(session, pitch_m=None)
        who = make_who(session)
        for basis, value in (("guessed", 0.4), ("stamped", 0.4572), ("measured", 0.46)):
            gear.add_evidence(session, who, item, gear.Said(what="pitch_m", basis=basis, value=value))
        found = gear.item_page(session, who, item.tag, "propeller")

    assert design_pitch_of(found) == pytest.approx(0.4572)


def test_a_stamp_from_before_it_was_re_pitched_no_longer_speaks(register):
    with transaction() as session:
        item, who = make_propeller(session, pitch_m=None), make_who(session)
        gear.add_evidence(session, who, item, gear.Said(what="pitch_m", basis="stamped", value=0.4572))
        gear.record_work(session, who, item.tag, "re-pitched", note="An inch off.")
        found = gear.item_page(session, who, item.tag, "propeller")

    assert design_pitch_of(found) is None


AT = st.sampled_from([0.0, 10.0, 20.0, 30.0, -20.0])
HEIGHTS = st.one_of(st.floats(-0.5, 0.5), st.sampled_from([0.0, 0.02, 0.0325, 0.045]))
CELLS = st.lists(
    st.builds(
        lambda blade, radius, station, angle, height: {
            "blade": blade,
            "radius_ratio": radius,
            "station": station,
            "angle_rad": float(np.radians(angle)),
            "height_m": height,
        },
        st.integers(1, 4),
        st.sampled_from([0.5, 0.7]),
        st.integers(1, 3),
        AT,
        HEIGHTS,
    ),
    max_size=24,
)


SAYS = st.tuples(
    st.sampled_from([None, 0.0, 0.0001]), st.sampled_from([None, 0.45]), st.sampled_from(["right", "left", ""])
)


def answer_or_refusal(cells, u_height_m, design_pitch_m, hand):
    try:
        return survey_of(reading_of(cells, blades=4, hand=hand, u_height_m=u_height_m, design_pitch_m=design_pitch_m))
    except (Refused, OutsideRange) as refusal:
        return refusal.said


@settings(max_examples=150, deadline=None)
@given(CELLS, SAYS)
def test_whatever_is_read_a_survey_answers_or_refuses_in_words(cells, said):
    outcome = answer_or_refusal(cells, *said)
    if isinstance(outcome, str):
        assert outcome
        return

    assert outcome.value > 0
    assert all(fault_said(fault).endswith((".", "?")) for fault in outcome.more["survey"]["faults"])
    # What a sheet keeps goes into both databases' JSON, which has no "not a number".
    assert json.loads(json.dumps(outcome.kept(), allow_nan=False))["pitch_m"] == outcome.value
