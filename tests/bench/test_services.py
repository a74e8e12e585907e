from math import radians

import pytest
from sqlalchemy import select

from tests.factories.bench import PITCH, make_diameter_sheet, make_pitch_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.services import BoreReading, DiameterReading, Filled, PitchReading
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Evidence, Item
from yardapp.people.services import Who

OFFICE = Who(person_id=None, name="Ada Brook", role="office")


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, diameter_m=(0.450, 0.0005), pitch_m=None).tag


def evidence_of(session, what):
    return session.scalars(select(Evidence).where(Evidence.what == what).order_by(Evidence.id)).all()


def test_a_pitch_sheet_keeps_its_readings_and_becomes_the_working_figure(tag):
    with transaction() as session:
        sheet = make_pitch_sheet(session, tag, blade=2)

    with snapshot() as session:
        kept = session.get_one(Sheet, sheet.id)
        item = session.scalars(select(Item)).one()
        said = evidence_of(session, "pitch_m")[-1]
    assert (kept.readings["rise_m"], kept.readings["u_rise_m"], kept.readings["blade"]) == (0.0333, 0.0002, 2)
    assert kept.said_by == "Ada Brook"
    # reference/pitch_examples.csv M1.
    assert kept.results["pitch_m"] == pytest.approx(0.29970, abs=5e-6)
    assert (item.pitch_m, item.u_pitch_m) == pytest.approx((0.29970, 0.00195), abs=5e-6)
    assert (said.basis, said.source, said.source_id) == ("measured", "sheet", sheet.id)


def test_a_look_says_what_the_sheet_then_keeps(tag):
    reading = PitchReading(**PITCH, radius_m=0.158, u_radius_m=0.0003)
    with snapshot() as session:
        looked = bench.look(session, OFFICE, tag, bench.PITCH, reading).outcome
    with transaction() as session:
        sheet = bench.measure_pitch(session, make_who(session), tag, reading)

    assert bench.Outcome.from_kept(sheet.results) == looked


def test_a_look_saves_nothing(tag):
    with snapshot() as session:
        bench.look(session, OFFICE, tag, bench.PITCH, PitchReading(**PITCH))

    with snapshot() as session:
        assert session.scalars(select(Sheet)).all() == []


def test_an_owner_does_not_measure(tag):
    with transaction() as session, pytest.raises(NotAllowed):
        bench.measure_pitch(session, make_who(session, name="R. Thorne", role="owner"), tag, PitchReading(**PITCH))


def test_a_shaft_has_no_pitch(tag):
    with transaction() as session:
        shaft = gear.log_item(session, make_who(session), kind="shaft", place="Rack S")
        with pytest.raises(NotFound):
            make_pitch_sheet(session, shaft.tag)


def test_a_stamp_that_the_reading_allows_agrees_and_one_that_it_does_not_is_told(tag):
    with transaction() as session:
        who, item = make_who(session), gear.item_by_tag(session, make_who(session), tag)
        gear.add_evidence(session, who, item, gear.Said(what="pitch_m", basis="stamped", value=0.3048))
        gear.add_evidence(session, who, item, gear.Said(what="pitch_m", basis="paper", value=0.3000))

        sheet = make_pitch_sheet(session, tag)

    said = {one["basis"]: one for one in sheet.results["compared"]}
    # The reading is 299.7 ± 3.9 mm: 304.8 lies 5.1 away, 300.0 only 0.3.
    assert (said["stamped"]["agrees"], said["paper"]["agrees"]) == (False, True)
    assert said["stamped"]["apart"] == pytest.approx(0.0051, abs=1e-4)


def test_a_stamp_from_before_the_re_pitching_is_not_held_against_the_reading(tag):
    with transaction() as session:
        who, item = make_who(session), gear.item_by_tag(session, make_who(session), tag)
        gear.add_evidence(session, who, item, gear.Said(what="pitch_m", basis="stamped", value=0.3556))
        gear.record_work(session, who, tag, "re-pitched")

        sheet = make_pitch_sheet(session, tag)

    assert list(sheet.results["compared"]) == []


def test_blades_counted_for_a_diameter_are_kept_when_nobody_had_counted_them(tag):
    with transaction() as session:
        reading = DiameterReading(across_m=0.45, u_across_m=0.0005, blades=4)
        bench.measure_diameter(session, make_who(session), tag, reading)
        bench.measure_diameter(session, make_who(session), tag, reading)

    with snapshot() as session:
        assert [row.value for row in evidence_of(session, "blades")] == [4.0]


def test_every_bore_figure_is_evidence_and_so_is_the_taper(tag):
    with transaction() as session:
        reading = BoreReading(
            bore_kind="taper",
            bore_large_m=0.03175,
            u_bore_large_m=0.000025,
            bore_small_m=0.02619375,
            u_bore_small_m=0.000025,
            bore_length_m=0.0889,
            u_bore_length_m=0.00025,
            keyway_depth_m=0.0,
            u_keyway_depth_m=0.00025,
        )
        bench.measure_bore(session, make_who(session), tag, reading)

    with snapshot() as session:
        item = session.scalars(select(Item)).one()
    assert item.bore_kind == "taper"
    assert (item.bore_large_m, item.bore_small_m, item.keyway_depth_m) == (0.03175, 0.02619375, 0.0)
    assert item.taper == pytest.approx(0.0625)
    # (0.05/88.9) mm on each end at k = 2, and the length's 0.5 mm on 88.9: u = 0.00044.
    assert item.u_taper == pytest.approx(0.00044, abs=2e-5)
    assert item.known["taper"] == "measured"


def test_a_correction_takes_the_place_of_the_old_sheet_and_its_evidence(tag):
    with transaction() as session:
        old = make_pitch_sheet(session, tag)
    with transaction() as session:
        reading = PitchReading(rise_m=0.0343, u_rise_m=0.0002, swing_rad=radians(40), u_swing_rad=radians(0.1))
        new = bench.measure_pitch(
            session, make_who(session), tag, reading, Filled(corrects=old.id, why="Misread the gauge by 1 mm")
        )

    with snapshot() as session:
        before, after = evidence_of(session, "pitch_m")
        item = session.scalars(select(Item)).one()
        _, there = bench.sheet_by_id(session, OFFICE, new.id)
    assert (new.replaces_id, new.why) == (old.id, "Misread the gauge by 1 mm")
    assert (after.replaces_id, after.true_from, after.source_id) == (before.id, before.true_from, new.id)
    # 34.3 x 360 / 40.
    assert item.pitch_m == pytest.approx(0.3087)
    assert item.odds == []
    assert there.item.id == item.id


def test_a_correction_is_not_held_against_the_sheet_that_it_replaces(tag):
    with transaction() as session:
        old = make_pitch_sheet(session, tag)
        reading = PitchReading(**{**PITCH, "rise_m": 0.0500})
        why = Filled(corrects=old.id, why="Another blade")
        new = bench.measure_pitch(session, make_who(session), tag, reading, why)

    assert list(new.results["compared"]) == []


def test_a_correction_withdraws_what_it_no_longer_says(tag):
    with transaction() as session:
        who = make_who(session)
        both = BoreReading(hub_length_m=0.09, u_hub_length_m=0.0003, hub_diameter_m=0.07, u_hub_diameter_m=0.00003)
        old = bench.measure_bore(session, who, tag, both)
        one = BoreReading(hub_length_m=0.09, u_hub_length_m=0.0003)
        bench.measure_bore(session, who, tag, one, Filled(corrects=old.id, why="That was the bush, not the hub"))

    with snapshot() as session:
        item = session.scalars(select(Item)).one()
    assert (item.hub_length_m, item.hub_diameter_m) == (0.09, None)


def test_a_correction_of_a_reading_from_before_the_work_does_not_speak_after_it(tag):
    with transaction() as session:
        old = make_pitch_sheet(session, tag)
    with transaction() as session:
        gear.record_work(session, make_who(session), tag, "re-pitched")
    with transaction() as session:
        reading = PitchReading(**{**PITCH, "rise_m": 0.0343})
        bench.measure_pitch(session, make_who(session), tag, reading, Filled(corrects=old.id, why="Misread"))

    with snapshot() as session:
        assert session.scalars(select(Item.pitch_m)).one() is None


def test_a_sheet_is_corrected_once_and_never_without_a_reason(tag):
    with transaction() as session:
        who = make_who(session)
        old = make_pitch_sheet(session, tag)
        with pytest.raises(Refused, match="Say why"):
            bench.measure_pitch(session, who, tag, PitchReading(**PITCH), Filled(corrects=old.id, why=" "))
        bench.measure_pitch(session, who, tag, PitchReading(**PITCH), Filled(corrects=old.id, why="Misread"))
        with pytest.raises(Refused, match="corrected before"):
            bench.measure_pitch(session, who, tag, PitchReading(**PITCH), Filled(corrects=old.id, why="Again"))


def test_a_correction_of_a_correction_goes_on_from_the_newest(tag):
    with transaction() as session:
        who, number = make_who(session), make_pitch_sheet(session, tag).id
        for rise_m in (0.0340, 0.0350):
            reading = PitchReading(**{**PITCH, "rise_m": rise_m})
            number = bench.measure_pitch(session, who, tag, reading, Filled(corrects=number, why="Misread")).id

    with snapshot() as session:
        # 35 x 360 / 40.
        assert session.scalars(select(Item.pitch_m)).one() == pytest.approx(0.315)
        rows = bench.newest_sheets(session, OFFICE)
    assert [row.replaced_by is None for row in rows] == [True, False, False]


def test_a_sheet_of_another_propeller_can_not_be_corrected_here(tag):
    with transaction() as session:
        other = make_propeller(session)
        sheet = make_diameter_sheet(session, other.tag)
        with pytest.raises(NotFound):
            bench.measure_pitch(
                session, make_who(session), tag, PitchReading(**PITCH), Filled(corrects=sheet.id, why="Wrong tag")
            )


def test_an_owner_sees_the_sheets_of_their_own_boats_alone(tag):
    with transaction() as session:
        make_pitch_sheet(session, tag)
        owner = make_who(session, name="R. Thorne", role="owner")
        assert bench.newest_sheets(session, owner) == []
        with pytest.raises(NotFound):
            bench.sheet_by_id(session, owner, 1)
