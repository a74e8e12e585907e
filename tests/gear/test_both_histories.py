"""One propeller was logged twice, measured, coated, judged and stamped under either tag: the kept one shows it all."""

from types import SimpleNamespace

import pytest
from sqlalchemy import select

from tests.factories.bench import make_diameter_sheet
from tests.factories.coating import coat_whole, make_job, stopped_clock
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp.coating import services as coating
from yardapp.db import now, transaction
from yardapp.fit import services as fit
from yardapp.gear import services as gear
from yardapp.marks import services as marks
from yardapp.people.models import Person
from yardapp.vessels.models import Drive, Vessel


def coated(session, who, tag, system, clock):
    job = make_job(session, tag=tag, system=system)
    units = coating.story_of(session, who, job.id).units
    coat_whole(session, job, clock, tuple(unit.key for unit in units))
    clock.later(hours=1)


@pytest.fixture
def yard(client):
    with stopped_clock() as clock, transaction() as session:
        who, drive = make_who(session), make_drive(session, **SHAFT)
        kept, other = good_propeller(session), good_propeller(session)
        sheets = {one.tag: make_diameter_sheet(session, one.tag).id for one in (kept, other)}
        coated(session, who, kept.tag, "First system", clock)
        coated(session, who, other.tag, "Second system", clock)
        verdicts = {one.tag: fit.keep_verdict(session, who, one.tag, drive.id).id for one in (kept, other)}
        marks.record_mark_of(session, who, other.tag, "DQX 13 X 11")
        gear.merge_items(session, who, kept.tag, other.tag, why="one serial number")
        return SimpleNamespace(
            kept=kept.tag, other=other.tag, kept_id=kept.id, sheets=sheets, verdicts=verdicts, drive=drive.id
        )


def test_bench_sheets_of_both_stand_in_one_list(yard, fetch):
    html = fetch(f"/bench/{yard.kept}")

    assert all(f'href="/bench/sheets/{sheet_id}"' in html for sheet_id in yard.sheets.values())
    assert html.count(f"written under {yard.other}") == 1


def test_coatings_of_both_stand_in_one_history(yard, fetch):
    html = fetch(f"/coating/items/{yard.kept}", queries=4)

    assert "First system" in html
    assert "Second system" in html
    assert html.count(f"Written under {yard.other}.") == 1


def test_verdicts_of_both_stand_in_one_list(yard, fetch):
    html = fetch(f"/fit/{yard.kept}/kept")

    assert all(f'href="/fit/kept/{kept_id}"' in html for kept_id in yard.verdicts.values())


def test_a_verdict_kept_under_the_other_tag_is_held_against_the_tag_that_is_kept(yard, fetch):
    assert "no longer holds" not in fetch(f"/fit/kept/{yard.verdicts[yard.other]}")


def test_an_owner_sees_what_was_written_under_the_other_tag_of_a_thing_of_theirs(yard, client_as):
    owner = client_as("R. Thorne", "owner")
    sheet = f"/bench/sheets/{yard.sheets[yard.other]}"
    before = owner.get(sheet).status_code
    with transaction() as session:
        owner_id = session.scalar(select(Person.id).where(Person.name == "R. Thorne"))
        session.get_one(Vessel, session.get_one(Drive, yard.drive).vessel_id).owner_id = owner_id
        gear.move_item(session, make_who(session), yard.kept, "went on", drive_id=yard.drive)
    after = owner.get(sheet).status_code

    assert (before, after) == (404, 200)


def test_marks_of_both_stand_on_one_page(yard, fetch):
    assert "DQX 13 X 11" in fetch(f"/marks/of/{yard.kept}", queries=4)


def test_a_coat_that_went_on_under_the_other_tag_is_asked_for_before_a_launch(yard, client):
    with transaction() as session:
        who = make_who(session)
        gear.move_item(session, who, yard.kept, kind="went on", drive_id=yard.drive)
        lines = coating.before_launch(session, who, yard.drive, now())

    assert {line.label for line in lines} == {yard.kept, yard.other}
