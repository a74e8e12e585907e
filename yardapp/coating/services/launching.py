"""What coating says before a launch: is it cured, was every window met, and what stands against it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from yardapp.coating.models import Job, Piece
from yardapp.coating.services.stories import Story, stories_of
from yardapp.coating.standing import Standing, standing
from yardapp.gear import services as gear
from yardapp.people.services import Who

MOST = 10


@dataclass(frozen=True, kw_only=True)
class LaunchLine:
    """What the coating of one thing says about a launch.

    `is_cured`, `windows_met` None: nobody can tell. `missed`: each fault that stands, with the sheet's own remedy.
    """

    job_id: int
    piece_id: int
    title: str
    label: str
    is_open: bool
    finished: datetime | None
    water_from: datetime | None
    is_cured: bool | None
    windows_met: bool | None
    why: str
    missed: tuple[str, ...] = ()


def before_launch(session: Session, who: Who, drive_id: int, at: datetime) -> list[LaunchLine]:
    """What coating says about a launch at a moment, a line for each thing that was coated, newest job first.

    It speaks of jobs that were planned for the drive, and of those that coated what is aboard it now. Of each thing
    only the newest job speaks, and every job that still runs. Two queries; a drive without coating has no line.
    """
    who.must("see")
    aboard = gear.kept_ids(gear.Item.aboard_id == drive_id)
    theirs = select(Piece.job_id).where(gear.under_any_tag(Piece.item_id, aboard))
    newest = select(Job.id).where(or_(Job.drive_id == drive_id, Job.id.in_(theirs))).order_by(Job.id.desc()).limit(MOST)
    stories = stories_of(session, who, Job.id.in_(newest.scalar_subquery()))
    return [line for story in _newest(stories) for line in _lines(story, at)]


def _newest(stories: Sequence[Story]) -> list[Story]:
    """Of each thing only the newest job speaks, and every job that still runs."""
    seen: set[int | str] = set()
    found = []
    for story in stories:
        things: set[int | str] = {piece.item_id or piece.label for piece in story.pieces}
        if story.job.is_open or not things <= seen:
            found.append(story)
        seen |= things
    return found


def _lines(story: Story, at: datetime) -> list[LaunchLine]:
    there = standing(story.run, at.timestamp())
    water = None if there.immersion_s is None else datetime.fromtimestamp(there.immersion_s, UTC)
    return [
        LaunchLine(
            job_id=story.job.id,
            piece_id=piece.id,
            title=story.job.title,
            label=piece.label,
            is_open=story.job.is_open,
            finished=piece.finished,
            water_from=water,
            is_cured=_is_cured(piece, there),
            windows_met=piece.windows_met,
            why=_why(piece, there),
            missed=_missed(story, piece, there),
        )
        for piece in story.pieces
    ]


def _is_cured(piece: Piece, there: Standing) -> bool | None:
    if piece.finished is None or there.waits:
        return False
    return None if there.immersion_s is None else there.cured


def _why(piece: Piece, there: Standing) -> str:
    return f"{piece.label} is not finished. {there.immersion_why}" if piece.finished is None else there.immersion_why


def _missed(story: Story, piece: Piece, there: Standing) -> tuple[str, ...]:
    """Of this piece, what went against the sheet and nobody put right."""
    keys = {unit.key for unit in story.units if unit.piece == str(piece.number)}
    found = [(unit.label, fault) for unit in there.units if unit.key in keys for fault in unit.faults]
    return tuple(f"{label}: {fault.said} {fault.remedy}" for label, fault in found if not fault.remedied)
