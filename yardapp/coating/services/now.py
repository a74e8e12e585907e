"""A job at this moment of the server's clock: what to do, each window, what is left in the pots."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy.orm import Session

from yardapp.coating.amounts import LeftOver, left_over
from yardapp.coating.pieces import Piece
from yardapp.coating.services.stories import Story, kept_story, version_of
from yardapp.coating.services.waiting import waiting_pieces
from yardapp.coating.standing import PotStanding, Standing, standing
from yardapp.db import now
from yardapp.people.services import Who


@dataclass(frozen=True, kw_only=True)
class Window:
    """When the next step may go on one blade or piece; None: only the finger tells, or nothing binds."""

    unit: str
    label: str
    name: str
    phase: str
    opens: datetime | None
    shuts: datetime | None


@dataclass(frozen=True, kw_only=True)
class PotLeft:
    """One pot that stands open, and what it would still cover."""

    pot: PotStanding
    covers: LeftOver | None


def job_now(session: Session, who: Who, job_id: int) -> tuple[Story, Standing]:
    """A job as it stands; only for a session that reads.

    Raises
    ------
    NotFound
        There is no such job.
    """
    story = kept_story(session, who, job_id, version_of(session, job_id))
    return story, standing(story.run, now().timestamp())


def _moment(at_s: float | None) -> datetime | None:
    return None if at_s is None else datetime.fromtimestamp(at_s, UTC)


def windows(session: Session, who: Who, job_id: int) -> list[Window]:
    """The window of each blade and piece, in the order of work.

    Raises
    ------
    NotFound
        There is no such job.
    """
    _story, there = job_now(session, who, job_id)
    return [
        Window(
            unit=unit.key,
            label=unit.label,
            name=unit.name,
            phase=unit.phase,
            opens=_moment(unit.opens_s),
            shuts=_moment(unit.shuts_s),
        )
        for unit in there.units
    ]


def product_left(session: Session, who: Who, job_id: int) -> list[PotLeft]:
    """Each pot that stands open, and what it would still cover: by its volume, in the time that it is good, and which
    pieces of other jobs that is.

    Raises
    ------
    NotFound
        There is no such job.
    """
    story, there = job_now(session, who, job_id)
    return pots_left(story, there, waiting_pieces(session, story.system_id, without=job_id, but=items_of(story)))


def items_of(story: Story) -> list[int]:
    """The tagged things of a job, by number."""
    return [piece.item_id for piece in story.pieces if piece.item_id is not None]


def pots_left(story: Story, there: Standing, pieces: Sequence[Piece] = ()) -> list[PotLeft]:
    """The same, of a job that is at hand; a pot of which nobody said how much was mixed covers nobody knows what.

    `pieces`: what else a rest may go onto.
    """
    return [PotLeft(pot=pot, covers=_covers(story, there, pot, pieces)) for pot in there.pots]


def _covers(story: Story, there: Standing, pot: PotStanding, pieces: Sequence[Piece]) -> LeftOver | None:
    run = next((one for one in reversed(story.run.pots) if one.product == pot.product and not one.is_gone), None)
    volume_m3 = _unused_m3(story, pot.product, run.mixed_s if run else None, run.volume_m3 if run else None)
    step = next((one for one in story.system.coats if story.system.steps[one].product == pot.product), None)
    area_m2 = sum(unit.area_m2 or 0.0 for unit in story.units)
    work_s = sum(unit.work_s for unit in story.units)
    if volume_m3 is None or volume_m3 <= 0 or step is None or not area_m2:
        return None
    return left_over(
        story.system,
        step,
        volume_m3,
        now_s=there.now_s,
        good_until_s=pot.good_until_s,
        pace_m2ps=area_m2 / work_s,
        loss_ratio=story.job.loss_ratio,
        pieces=pieces,
    )


def _unused_m3(story: Story, product: str, mixed_s: float | None, volume_m3: float | None) -> float | None:
    """What was mixed, less what the coats since then have taken by the sheet."""
    if volume_m3 is None or mixed_s is None:
        return None
    used = 0.0
    for unit in story.units:
        for done in story.run.unit(unit.key).done:
            step = story.system.steps[done.step]
            if step.product == product and done.started_s >= mixed_s and step.is_coat:
                rate = left_over(story.system, done.step, 1.0, now_s=0.0, good_until_s=None, pace_m2ps=1.0)
                used += (unit.area_m2 or 0.0) / rate.by_volume_m2 if rate else 0.0
    return volume_m3 - used
