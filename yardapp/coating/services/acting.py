"""What is done beside the boat: one tap, one row; corrections are rows too."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.acts import ACTS, UNDO
from yardapp.coating.models import CoatingAct, Job
from yardapp.coating.services.moves import figures_with_stock, settle, take_back
from yardapp.coating.services.stories import OURS, Story, story_of, with_act
from yardapp.coating.services.summing_up import refresh
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who

AHEAD = timedelta(seconds=10)  # a phone's idea of the server's time is off by what the network takes
EARLIEST = timedelta(days=30)


@dataclass(frozen=True, kw_only=True)
class Tap:
    """What somebody did. `at` only where it was sent late, or put right: the moment of the act itself."""

    kind: str
    unit: str = ""
    step: int | None = None
    at: datetime | None = None
    figures: Mapping[str, Any] = field(default_factory=dict)
    note: str = ""


def act(session: Session, who: Who, job_id: int, tap: Tap) -> CoatingAct:
    """Write down one act, at the server's time, or at its own when it was sent late.

    Raises
    ------
    NotFound
        There is no such job.
    Refused
        The job is closed, the act makes no sense there, its time has not come, or a rest can't go back into its tin.
    """
    who.must("record")
    story = _locked(session, who, job_id)
    _must_make_sense(story, tap)
    row = _row(who, job_id, tap)
    row.figures = figures_with_stock(session, story, row.kind, row.figures, row.at)
    _keep(session, who, story, row)
    settle(session, who, row)
    return row


def start_coat(session: Session, who: Who, job_id: int, unit: str, step: int) -> CoatingAct:
    """A coat, or a step before it, begins on one blade or piece.

    Raises
    ------
    Refused
        It makes no sense there.
    """
    return act(session, who, job_id, Tap(kind="started", unit=unit, step=step))


def end_coat(session: Session, who: Who, job_id: int, unit: str, step: int) -> CoatingAct:
    """The last stroke of it is done.

    Raises
    ------
    Refused
        It makes no sense there.
    """
    return act(session, who, job_id, Tap(kind="done", unit=unit, step=step))


def _locked(session: Session, who: Who, job_id: int) -> Story:
    """One act at a time: the next one sees this one."""
    if session.get(Job, job_id, with_for_update=True) is None:
        raise NotFound("There is no such coating job.")
    return story_of(session, who, job_id)


def _must_make_sense(story: Story, tap: Tap) -> None:
    if not story.job.is_open and tap.kind not in OURS:
        raise Refused("This job is closed. Open it again first.")
    if (tap.kind not in ACTS and tap.kind not in OURS) or tap.kind == "undo":
        raise Refused(f"`{tap.kind}` is no act of a coating job.", "kind")
    if tap.kind == "photo" and "photo" not in tap.figures:
        raise Refused("Choose a photo first.", "photo")
    _must_be_in_time(tap.at)


def _must_be_in_time(at: datetime | None) -> None:
    if at is not None and at > now() + AHEAD:
        raise Refused("That moment has not come yet.", "at")
    if at is not None and at < now() - EARLIEST:
        raise Refused("That is more than 30 days ago.", "at")


def _row(who: Who, job_id: int, tap: Tap, **more: Any) -> CoatingAct:
    noted = now()
    return CoatingAct(
        job_id=job_id,
        kind=tap.kind,
        unit=tap.unit,
        step=tap.step,
        at=min(tap.at or noted, noted),
        noted=noted,
        person_id=who.person_id,
        said_by=who.name,
        device=who.device,
        figures=dict(tap.figures),
        note=" ".join(tap.note.split())[:300],
        **{"is_late": tap.at is not None, **more},
    )


def _keep(session: Session, who: Who, story: Story, row: CoatingAct) -> None:
    """Add the row, unless nothing would come of it; then every phone hears of it."""
    session.add(row)
    story.job.version += 1
    session.flush()
    after = with_act(story, row)
    for ignored in after.run.ignored:
        if ignored.number == row.id:
            raise Refused(ignored.why)
    refresh(after)


def undo(session: Session, who: Who, act_id: int) -> CoatingAct:
    """Take one act back; it stays in the log, struck through.

    Raises
    ------
    NotFound
        There is no such act.
    Refused
        It was taken back or put right already, or the job is closed.
    """
    who.must("record")
    wrong, story = _wrong(session, who, act_id)
    row = _row(who, story.job.id, Tap(kind=UNDO, unit=wrong.unit), undoes_id=wrong.id)
    _keep(session, who, story, row)
    take_back(session, who, wrong)
    return row


def add_undo(session: Session, who: Who, wrong: CoatingAct) -> None:
    """Take back what another room had told, be the job closed or open; nothing where that was done before."""
    story = _locked(session, who, wrong.job_id)
    if any(one.id == wrong.id for one in story.standing_acts):
        _keep(session, who, story, _row(who, wrong.job_id, Tap(kind=UNDO), undoes_id=wrong.id))


def correct_step(
    session: Session,
    who: Who,
    act_id: int,
    *,
    at: datetime | None,
    why: str,
    note: str = "",
    figures: Mapping[str, Any] | None = None,
) -> CoatingAct:
    """Put another row in the place of a wrong one: its time, its figures, its note. The old row stays.

    Raises
    ------
    NotFound
        There is no such act.
    Refused
        No reason was given, it was put right already, the moment has not come, or the job is closed.
    """
    who.must("record")
    if not why.strip():
        raise Refused("Say why, in a few words: it is read years later.", "why")
    _must_be_in_time(at)
    wrong, story = _wrong(session, who, act_id)
    tap = Tap(
        kind=wrong.kind,
        unit=wrong.unit,
        step=wrong.step,
        at=at or wrong.at,
        figures=wrong.figures if figures is None else figures,
        note=note,
    )
    row = _row(who, story.job.id, tap, replaces_id=wrong.id, why=why.strip()[:300], is_late=wrong.is_late)
    take_back(session, who, wrong)
    row.figures = figures_with_stock(session, story, row.kind, row.figures, row.at, without=wrong.id)
    _keep(session, who, story, row)
    settle(session, who, row)
    people.note(session, who, "corrected an act", "coating job", story.job.id, number=wrong.id)
    return row


def _wrong(session: Session, who: Who, act_id: int) -> tuple[CoatingAct, Story]:
    job_id = session.scalar(select(CoatingAct.job_id).where(CoatingAct.id == act_id))
    if job_id is None:
        raise NotFound("There is no such act.")
    story = _locked(session, who, job_id)
    if not story.job.is_open:
        raise Refused("This job is closed. Open it again first.")
    found = next((one for one in story.standing_acts if one.id == act_id), None)
    if found is None:
        raise Refused("That was taken back or put right already.")
    return found, story


def attach_photo(
    session: Session, who: Who, job_id: int, picture: gear.Picture, *, unit: str = "", note: str = ""
) -> CoatingAct:
    """Keep a photo in the log of a job, and on the page of the thing that it shows.

    Raises
    ------
    NotFound
        There is no such job.
    Refused
        The job is closed, or has no such blade or piece.
    """
    row = act(session, who, job_id, Tap(kind="photo", unit=unit, figures={"photo": picture.sha256}, note=note))
    story = story_of(session, who, job_id)
    piece = story.piece_of(unit)
    if unit and piece is None:
        raise Refused("That blade or piece is not part of this job.", "unit")
    if piece is not None and piece.item_id is not None:
        item = session.get_one(gear.Item, piece.item_id)
        shown = story.unit(unit)
        gear.attach_photo(session, who, item, picture, note or f"Coating, {shown.label if shown else item.tag}")
    return row


def close_job(session: Session, who: Who, job_id: int, *, is_open: bool = False) -> None:
    """Close a job that is over, or open it again.

    Raises
    ------
    NotFound
        There is no such job.
    """
    who.must("record")
    job = session.get(Job, job_id, with_for_update=True)
    if job is None:
        raise NotFound("There is no such coating job.")
    job.is_open, job.version = is_open, job.version + 1
    people.note(session, who, "opened again" if is_open else "closed", "coating job", job_id)
