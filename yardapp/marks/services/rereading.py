"""All marks of the register read by two versions of a table: asked for, and how far it is."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.marks.models import MakerTable, Mark, Reread, RereadFound, TableVersion, Taken
from yardapp.marks.services.tables import MOST_ID, table_page
from yardapp.people.services import Who

A_PAGE = 50
LEFT_AFTER = timedelta(seconds=20)  # nobody has worked on it for so long: whoever worked on it is gone


@dataclass(frozen=True, kw_only=True)
class FoundRow:
    """One mark that reads differently; `taken_by` is who took the old reading as evidence, if anybody did."""

    tag: str
    seen: str
    before: dict[str, Any]
    after: dict[str, Any]
    taken_by: str


@dataclass(frozen=True, kw_only=True)
class RereadPage:
    """How far a re-reading is, and one page of what it has found."""

    id: int
    table_id: int
    table: str
    before: int
    after: int
    state: str
    done: int
    total: int
    differing: int
    beat: datetime
    at: datetime
    said_by: str
    number: int
    rows: Sequence[FoundRow]

    @property
    def is_left(self) -> bool:
        """Whether it is unfinished and nobody works on it."""
        return not self.is_over and self.beat < now() - LEFT_AFTER

    @property
    def is_over(self) -> bool:
        """Whether nothing more is to come."""
        return self.state in ("done", "failed")

    @property
    def first(self) -> int:
        """The number of this page's first row among all that differ; 0 where there is none."""
        return (self.number - 1) * A_PAGE + 1 if self.rows else 0


def ask_reread(session: Session, who: Who, table_id: int, before: int | None = None) -> int:
    """Ask for all marks to be read by a version and by the one that stands; gives the number to ask after.

    Raises
    ------
    NotFound
        There is no such table, or no such version of it.
    """
    who.must("record")
    page = table_page(session, who, table_id)
    older = page.numbered(max(1, page.version - 1) if before is None else before)
    job = Reread(
        table_id=table_id,
        before_id=older.id,
        after_id=page.newest.id,
        state="waiting",
        done=0,
        total=session.scalar(select(func.count(Mark.id))) or 0,
        differing=0,
        last_mark_id=0,
        beat=now(),
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(job)
    session.flush()
    return job.id


def reread_page(session: Session, who: Who, job_id: int, number: int = 1) -> RereadPage:
    """How far it is, and the page of that number of the marks that read differently so far.

    Raises
    ------
    NotFound
        Nobody asked for it.
    """
    who.must("see")
    job, maker, title, versions = _asked_for(session, job_id)
    number = min(max(1, number), max(1, -(-job.differing // A_PAGE)))
    return RereadPage(
        id=job.id,
        table_id=job.table_id,
        table=f"{maker}, {title}" if title else maker,
        before=versions[0],
        after=versions[1],
        state=job.state,
        done=job.done,
        total=job.total,
        differing=job.differing,
        beat=job.beat,
        at=job.at,
        said_by=job.said_by,
        number=number,
        rows=_rows(session, job, number) if job.differing else (),
    )


def _asked_for(session: Session, job_id: int) -> tuple[Reread, str, str, tuple[int, int]]:
    before, after = (
        select(TableVersion.version).where(TableVersion.id == column).scalar_subquery()
        for column in (Reread.before_id, Reread.after_id)
    )
    found = session.execute(
        select(Reread, MakerTable.maker, MakerTable.title, before, after)
        .join(MakerTable, MakerTable.id == Reread.table_id)
        .where(Reread.id == min(job_id, MOST_ID))
    ).first()
    if found is None:
        raise NotFound("Nobody asked for that re-reading.")
    job, maker, title, *versions = found
    return job, maker, title, (versions[0], versions[1])


def _rows(session: Session, job: Reread, number: int) -> list[FoundRow]:
    """One page of them, in the order in which the marks were kept."""
    taken_by = (
        select(func.max(Taken.said_by))
        .where(Taken.mark_id == RereadFound.mark_id, Taken.version_id == job.before_id)
        .scalar_subquery()
    )
    found = session.execute(
        select(gear.Item.tag, Mark.seen, RereadFound.before, RereadFound.after, taken_by)
        .join(Mark, Mark.id == RereadFound.mark_id)
        .join(gear.Item, gear.Item.id == Mark.item_id)
        .where(RereadFound.reread_id == job.id)
        .order_by(RereadFound.mark_id)
        .limit(A_PAGE)
        .offset((number - 1) * A_PAGE)
    )
    return [
        FoundRow(tag=tag, seen=seen, before=before, after=after, taken_by=by or "")
        for tag, seen, before, after, by in found
    ]
