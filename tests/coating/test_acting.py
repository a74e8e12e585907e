from datetime import timedelta

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError
from sqlalchemy.orm import Session

from tests.factories.coating import COAT_1, COAT_2, NOON, TOP, coat_whole, make_job, mix, read_weather, tap
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.coating.models import CoatingAct, Job, Piece
from yardapp.coating.standing import standing
from yardapp.db import Register, snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.gear import services as gear

pytestmark = pytest.mark.usefixtures("register")


def told(job_id, clock):
    with snapshot() as session:
        story = coating.story_of(session, make_who(session), job_id)
    return story, standing(story.run, clock().timestamp())


def phases(job_id, clock):
    return [unit.phase for unit in told(job_id, clock)[1].units]


def test_an_act_keeps_the_servers_time_and_who_did_it(clock):
    with transaction() as session:
        job = make_job(session)
        read_weather(session, job.id)
        clock.later(minutes=2)

        act = coating.start_coat(session, make_who(session), job.id, "1", COAT_1)

        assert (act.at, act.noted, act.is_late) == (NOON + timedelta(minutes=2),) * 2 + (False,)
        assert (act.said_by, act.device) == ("Ada Brook", "a test")


def test_every_act_raises_the_number_that_phones_ask_for(clock):
    with transaction() as session:
        job = make_job(session)
        before = coating.version_of(session, job.id)

        read_weather(session, job.id)

        assert coating.version_of(session, job.id) == before + 1


def test_a_second_tap_of_the_same_thing_is_refused_and_changes_nothing(clock):
    with transaction() as session:
        job = make_job(session)
        coating.start_coat(session, make_who(session), job.id, "1", COAT_1)
    with pytest.raises(Refused, match="already begun"), transaction() as session:
        coating.start_coat(session, make_who(session), job.id, "1", COAT_1)

    with snapshot() as session:
        assert len(session.scalars(select(CoatingAct)).all()) == 1
        assert coating.version_of(session, job.id) == 2


def test_an_act_tapped_without_network_keeps_its_own_time_and_is_marked(clock):
    with transaction() as session:
        job = make_job(session)
        clock.later(minutes=30)

        act = tap(session, job.id, "started", "1", COAT_1, at=NOON + timedelta(minutes=4))

        assert (act.at, act.noted, act.is_late) == (NOON + timedelta(minutes=4), NOON + timedelta(minutes=30), True)


@pytest.mark.parametrize(("by", "said"), [({"minutes": 1}, "not come yet"), ({"days": -31}, "30 days ago")])
def test_a_time_that_no_phone_can_mean_is_refused(clock, by, said):
    with transaction() as session:
        job = make_job(session)

        with pytest.raises(Refused, match=said):
            tap(session, job.id, "weather", figures={"air_c": 20.0}, at=NOON + timedelta(**by))


@pytest.mark.parametrize(
    ("kind", "unit", "step"),
    [
        ("started", "9", COAT_1),
        ("started", "1", 99),
        ("painted", "1", COAT_1),
        ("tacky", "1", COAT_1),
        ("undo", "", None),
    ],
)
def test_an_act_that_makes_no_sense_is_refused(clock, kind, unit, step):
    with transaction() as session:
        job = make_job(session)

        with pytest.raises(Refused):
            tap(session, job.id, kind, unit, step)


def test_owners_tap_nothing(clock):
    with transaction() as session:
        job = make_job(session)
        owner = make_who(session, name="R. Thorne", role="owner")

        with pytest.raises(NotAllowed):
            coating.start_coat(session, owner, job.id, "1", COAT_1)


def test_an_act_of_no_job_is_not_found(clock):
    with transaction() as session, pytest.raises(NotFound):
        coating.start_coat(session, make_who(session), 99, "1", COAT_1)


def test_undoing_takes_an_act_back_and_leaves_its_row(clock):
    with transaction() as session:
        job = make_job(session)
        act = coating.start_coat(session, make_who(session), job.id, "1", COAT_1)
    assert phases(job.id, clock) == ["running"]

    with transaction() as session:
        coating.undo(session, make_who(session), act.id)

    assert phases(job.id, clock) == ["to do"]
    story, _ = told(job.id, clock)
    assert [one.kind for one in story.acts] == ["started", "undo"]
    assert story.standing_acts == []


def test_what_was_taken_back_can_t_be_taken_back_again(clock):
    with transaction() as session:
        job = make_job(session)
        act = coating.start_coat(session, make_who(session), job.id, "1", COAT_1)
        coating.undo(session, make_who(session), act.id)

        with pytest.raises(Refused, match="already"):
            coating.undo(session, make_who(session), act.id)


def test_a_corrected_time_moves_the_window_and_says_why(clock):
    with transaction() as session:
        job = make_job(session)
        read_weather(session, job.id)
        mix(session, job.id)
        coating.start_coat(session, make_who(session), job.id, "1", COAT_1)
        clock.later(minutes=5)
        done = coating.end_coat(session, make_who(session), job.id, "1", COAT_1)
    before = told(job.id, clock)[1].units[0].test_s

    with transaction() as session:
        at = NOON + timedelta(minutes=3)
        row = coating.correct_step(session, make_who(session), done.id, at=at, why="tapped late")

    assert row.replaces_id == done.id
    # The window is counted from the last stroke: two minutes earlier.
    assert told(job.id, clock)[1].units[0].test_s == pytest.approx(before - 120)


def test_a_correction_without_a_reason_is_refused(clock):
    with transaction() as session:
        job = make_job(session)
        act = read_weather(session, job.id)

        with pytest.raises(Refused, match="Say why"):
            coating.correct_step(session, make_who(session), act.id, at=None, why=" ")


@pytest.mark.parametrize("act", ["UPDATE coating_act SET note = 'x'", "DELETE FROM coating_act"])
def test_no_door_alters_what_was_tapped(clock, act):
    with transaction() as session:
        read_weather(session, make_job(session).id)

    with pytest.raises(DatabaseError, match="history stays"), transaction() as session:
        session.execute(text(act))


def test_a_closed_job_takes_no_act_until_it_is_opened_again(clock):
    with transaction() as session:
        job = make_job(session)
        coating.close_job(session, make_who(session), job.id)
        with pytest.raises(Refused, match="closed"):
            read_weather(session, job.id)

        coating.close_job(session, make_who(session), job.id, is_open=True)

        assert read_weather(session, job.id).id


def test_a_whole_job_leaves_its_coat_on_the_propeller(clock):
    with transaction() as session:
        item = make_propeller(session)
        gear.note_evidence(
            session, make_who(session), item.tag, gear.Said(what="blades", basis="measured", value=3, u_value=0.0)
        )
        job = make_job(session, tag=item.tag)
        coat_whole(session, job, clock, ("1.1", "1.2", "1.3"))

        piece = session.scalars(select(Piece)).one()

        assert piece.finished is not None
        assert (piece.metal_low_c, piece.metal_high_c, piece.windows_met, piece.foul_release) == (
            20.0,
            20.0,
            True,
            True,
        )


def test_a_missed_window_turns_that_blade_alone(clock):
    with transaction() as session:
        job = make_job(session, blades=2)
        read_weather(session, job.id)
        mix(session, job.id)
        for unit in ("1", "2"):
            tap(session, job.id, "started", unit, COAT_1)
            clock.later(minutes=5)
            tap(session, job.id, "done", unit, COAT_1)
        clock.later(minutes=22)
        read_weather(session, job.id)
        tap(session, job.id, "tacky", "2", COAT_1)
        tap(session, job.id, "started", "2", COAT_2)
        clock.later(minutes=35)

    _, standing_ = told(job.id, clock)

    assert {unit.key: unit.phase for unit in standing_.units} == {"1": "missed", "2": "running"}
    (fault,) = [one for one in standing_.faults if one.unit == "1"]
    assert fault.remedy == "Abrade that blade and give it the coat again."


def test_the_last_coat_on_every_piece_starts_the_cure(clock):
    with transaction() as session:
        job = make_job(session)
        coat_whole(session, job, clock)

    story, standing_ = told(job.id, clock)

    last = max(one.done_s for unit in story.run.units for one in unit.done)
    # 24 h at 10 degrees and 12 h at 30: between the rows the wait is no shorter than a straight line gives, 18 h at 20.
    assert standing_.immersion_s >= last + 18 * 3600 - 1
    assert story.run.units[0].done[-1].step == TOP


def test_a_rolled_back_act_is_not_remembered(clock):
    with transaction() as session:
        job = make_job(session)
    with Session(Register.writing) as session:
        coating.start_coat(session, make_who(session), job.id, "1", COAT_1)
        session.rollback()
    with snapshot() as session:
        who = make_who(session)
        story = coating.kept_story(session, who, job.id, coating.version_of(session, job.id))

    assert story.acts == []


def test_a_story_is_read_once_for_each_version(clock, count_queries):
    with transaction() as session:
        job = make_job(session)
        who = make_who(session)
    with snapshot() as session:
        coating.kept_story(session, who, job.id, job.version)

        with count_queries() as asked:
            coating.kept_story(session, who, job.id, job.version)

    assert asked == []
    with snapshot() as session:
        assert session.scalars(select(Job)).one().version == job.version
