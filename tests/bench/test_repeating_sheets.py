from datetime import UTC, datetime, timedelta
from math import radians

import pytest

from tests.bench.surveys import cells_of, reading_of
from tests.factories.bench import make_pitch_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.services import DiameterReading, PitchReading
from yardapp.bench.showing.ages import WORKS
from yardapp.db import Clock, transaction
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.gear.figures import WORK


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, diameter_m=None, pitch_m=None, blades=(3, 0.0)).tag


@pytest.fixture
def day(monkeypatch):
    """The server's clock, set to a day of March 2026."""

    def at(number):
        monkeypatch.setattr(Clock, "tells", staticmethod(lambda: datetime(2026, 3, number, 12, tzinfo=UTC)))

    return at


def read_pitch(session, tag, rise_m, name="Ada Brook"):
    reading = PitchReading(rise_m=rise_m, u_rise_m=0.0002, swing_rad=radians(40), u_swing_rad=radians(0.1))
    return bench.measure_pitch(session, make_who(session, name=name), tag, reading)


@pytest.mark.parametrize(("second_m", "agrees"), [(0.0338, True), (0.0345, False)])
def test_two_peoples_sheets_are_held_against_each_other(tag, second_m, agrees):
    with transaction() as session:
        first = read_pitch(session, tag, 0.0333)
        second = read_pitch(session, tag, second_m, "Finn Marsh")
        found = bench.compare_sheets(session, make_who(session), first.id, second.id)

    one = found.differences[0]
    # 299.70 mm with u 1.95 mm (pitch_examples.csv M1) twice: 2 x 1.95 x root 2 is 5.5 mm; 0.5 mm of rise is 4.5 mm,
    # 1.2 mm of it 10.8.
    assert one.what == "pitch_m"
    assert one.allowed == pytest.approx(0.0055, abs=0.0001)
    assert one.apart == pytest.approx((second_m - 0.0333) * 9)
    assert one.agrees is agrees
    assert not found.is_one_person


def test_sheets_without_a_plus_minus_can_not_tell(tag):
    with transaction() as session:
        who = make_who(session)
        sheets = [
            bench.measure_pitch(session, who, tag, PitchReading(rise_m=rise, swing_rad=radians(40)))
            for rise in (0.033, 0.034)
        ]
        found = bench.compare_sheets(session, who, sheets[0].id, sheets[1].id)

    assert found.differences[0].agrees is None


def test_only_two_sheets_of_one_thing_by_one_method_can_be_compared(tag):
    with transaction() as session:
        who = make_who(session)
        other = make_propeller(session, pitch_m=None).tag
        here, there = make_pitch_sheet(session, tag), make_pitch_sheet(session, other)
        wide = bench.measure_diameter(session, who, tag, DiameterReading(tip_radius_m=0.28, u_tip_radius_m=0.0005))
        for second in (here, there, wide):
            with pytest.raises(Refused):
                bench.compare_sheets(session, who, here.id, second.id)
        with pytest.raises(NotFound):
            bench.compare_sheets(session, who, here.id, 999)
        with pytest.raises(NotFound):
            bench.compare_sheets(session, make_who(session, name="R. Thorne", role="owner"), here.id, there.id)


def test_after_a_re_pitch_the_old_sheets_stay_marked_as_from_before_it(tag, day):
    with transaction() as session:
        day(2)
        old = make_pitch_sheet(session, tag)
        wide = bench.measure_diameter(
            session, make_who(session), tag, DiameterReading(tip_radius_m=0.28, u_tip_radius_m=0.0005)
        )
        day(9)
        gear.record_work(session, make_who(session), tag, "re-pitched")
        day(16)
        new = make_pitch_sheet(session, tag)
        gear.record_work(session, make_who(session), tag, "cut down", at=datetime(2026, 3, 16, 11, tzinfo=UTC))
        rows = {row.sheet.id: row for row in bench.sheets_of(session, make_who(session), tag).sheets}

    assert (rows[old.id].work_since, rows[old.id].worked_at) == ("re-pitched", datetime(2026, 3, 9, 12, tzinfo=UTC))
    assert rows[new.id].work_since is None
    # Cutting down leaves the diameter in doubt, not the pitch.
    assert rows[wide.id].work_since == "cut down"


def test_sheets_of_two_ages_are_told_as_such(tag, day):
    with transaction() as session:
        day(2)
        old = make_pitch_sheet(session, tag)
        day(9)
        gear.record_work(session, make_who(session), tag, "re-pitched")
        day(10)
        new = make_pitch_sheet(session, tag)
        found = bench.compare_sheets(session, make_who(session), old.id, new.id)

    assert not found.is_one_age


def test_the_pages_mark_what_is_from_before_and_lead_to_a_comparison(client, fetch, tag, monkeypatch):
    with transaction() as session:
        make_pitch_sheet(session, tag)
        make_pitch_sheet(session, tag)
        monkeypatch.setattr(Clock, "tells", staticmethod(lambda: datetime.now(UTC) + timedelta(hours=1)))
        gear.record_work(session, make_who(session), tag, "re-pitched")

    assert "from before the re-pitch of" in fetch(f"/bench/{tag}")
    assert "from before the re-pitch of" in fetch("/bench")
    one = fetch("/bench/sheets/1")
    assert "from before the re-pitch of" in one
    assert 'href="/bench/compare?first=1&amp;second=2"' in one
    assert 'href="/bench/compare?first=1&amp;second=2"' in fetch(f"/bench/{tag}")


def test_two_sheets_stand_side_by_side_on_a_page(client, fetch, tag):
    with transaction() as session:
        read_pitch(session, tag, 0.0333)
        read_pitch(session, tag, 0.0345, "Finn Marsh")

    said = fetch("/bench/compare?first=1&second=2")

    assert "10.8 mm more" in said
    assert "More than their ± allow together" in said
    assert "Finn Marsh" in said
    fetch("/bench/compare?first=1&second=1", status=404)
    fetch("/bench/compare?first=1", status=404)


@pytest.mark.parametrize(("blades", "is_wrong"), [(3, True), (4, False)])
def test_a_way_that_is_wrong_for_this_count_of_blades_says_so(fetch, register, blades, is_wrong):
    with transaction() as session:
        tag = make_propeller(session, blades=(float(blades), 0.0)).tag

    said = fetch(f"/bench/{tag}/diameter")

    assert (f"wrong with {blades} blades: no tip stands opposite another" in said) is is_wrong


def test_open_faults_are_counted_on_the_bench_of_the_propeller(client, fetch, tag):
    with transaction() as session:
        fault = bench.FaultSaid(kind="nick", severity="note", side="face", blade=1, radius_ratio=0.9)
        bench.raise_fault(session, make_who(session), tag, fault)

    assert "1 open fault;" in fetch(f"/bench/{tag}")


def test_every_work_that_leaves_a_figure_in_doubt_has_its_name_as_a_thing():
    assert sorted(kind for kind, in_doubt in WORK.items() if in_doubt and kind not in WORKS) == []


def test_sheets_of_two_blades_are_not_taken_for_a_repeat(client, fetch, tag):
    with transaction() as session:
        numbers = [make_pitch_sheet(session, tag, blade=blade).id for blade in (1, 2, 2)]

    assert "They read different places" in fetch(f"/bench/compare?first={numbers[0]}&second={numbers[1]}")
    assert "They read different places" not in fetch(f"/bench/compare?first={numbers[1]}&second={numbers[2]}")
    page = fetch(f"/bench/{tag}")
    assert f'href="/bench/compare?first={numbers[1]}&amp;second={numbers[2]}">Pitch, blade 2: the two newest' in page
    assert page.count("/bench/compare?") == 1


def test_two_surveys_are_compared_blade_by_blade(tag):
    with transaction() as session:
        who = make_who(session)
        first = bench.measure_survey(session, who, tag, reading_of(cells_of(0.450)))
        second = bench.measure_survey(
            session, who, tag, reading_of(cells_of(lambda blade, _: 0.456 if blade == 2 else 0.450))
        )
        found = bench.compare_sheets(session, who, first.id, second.id)

    apart = {one.what: one.apart for one in found.differences if one.what.startswith("pitch_")}
    # One blade of three by 6 mm more: 2 mm more on the mean.
    assert apart["pitch_m"] == pytest.approx(0.002)
    assert [apart[f"pitch_{blade}_m"] for blade in (1, 2, 3)] == pytest.approx([0.0, 0.006, 0.0])
    assert found.differences[0].what == "pitch_m"
