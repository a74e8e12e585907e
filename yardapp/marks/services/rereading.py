"""All marks of the register read by two versions of a table: which propellers read differently, with progress."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import func, select, update
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.marks.models import Mark, Reread, TableVersion
from yardapp.marks.services.tables import table_page
from yardapp.people.services import Who
from yardapp.stamps.tables import Readings, Shelf, compile_table, from_plain, reread

A_BATCH = 2000
LEFT_AFTER = timedelta(seconds=20)  # nobody has worked on it for so long: whoever worked on it is gone
MOST_KEPT = 500  # propellers named one by one; the rest are counted
Opened = Callable[[], AbstractContextManager[Session]]


@dataclass(frozen=True, kw_only=True)
class RereadPage:
    """How far a re-reading is, and what it has found."""

    id: int
    table_id: int
    state: str
    done: int
    total: int
    result: Sequence[dict[str, Any]]
    differing: int
    beat: datetime
    at: datetime
    said_by: str

    @property
    def is_left(self) -> bool:
        """Whether it is unfinished and nobody works on it."""
        return not self.is_over and self.beat < now() - LEFT_AFTER

    @property
    def is_over(self) -> bool:
        """Whether nothing more is to come."""
        return self.state in ("done", "failed")


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
        last_mark_id=0,
        result=[],
        beat=now() - 2 * LEFT_AFTER,  # nobody works on it yet: whoever looks first begins
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(job)
    session.flush()
    return job.id


def reread_page(session: Session, who: Who, job_id: int) -> RereadPage:
    """How far it is.

    Raises
    ------
    NotFound
        Nobody asked for it.
    """
    who.must("see")
    job = session.get(Reread, job_id) if job_id < 2**31 else None
    if job is None:
        raise NotFound("Nobody asked for that re-reading.")
    return RereadPage(
        id=job.id,
        table_id=job.table_id,
        state=job.state,
        done=job.done,
        total=job.total,
        result=[one for one in job.result if "tag" in one],
        differing=len([one for one in job.result if "tag" in one]) + _uncounted(job.result),
        beat=job.beat,
        at=job.at,
        said_by=job.said_by,
    )


def _uncounted(result: list[Any]) -> int:
    return sum(one.get("more", 0) for one in result)


def work_on(opened: Opened, job_id: int) -> None:
    """Work through the marks, batch by batch, each kept as it is done; begun again, it goes on where it was left."""
    if not _take(opened, job_id):
        return
    try:
        shelves = _shelves(opened, job_id)
        while _batch(opened, job_id, *shelves):
            pass
    except Exception:
        with opened() as session:
            session.execute(update(Reread).where(Reread.id == job_id).values(state="failed"))
        raise


def _take(opened: Opened, job_id: int) -> bool:
    """Say that this process works on it; one of two that try at once is told no."""
    with opened() as session:
        left = now() - LEFT_AFTER
        unfinished = Reread.state.in_(("waiting", "working"))
        taken = session.execute(
            update(Reread)
            .where(Reread.id == job_id, unfinished, Reread.beat < left)
            .values(state="working", beat=now())
            .returning(Reread.id)
        )
        return taken.first() is not None


def _shelves(opened: Opened, job_id: int) -> tuple[Shelf, Shelf]:
    with opened() as session:
        job = session.get_one(Reread, job_id)
        bodies = [session.get_one(TableVersion, number).body for number in (job.before_id, job.after_id)]
    before, after = (Shelf([compile_table(from_plain(body), is_checked=True)]) for body in bodies)
    return before, after


def _batch(opened: Opened, job_id: int, before: Shelf, after: Shelf) -> bool:
    """Read the next marks; whether there may be more."""
    with opened() as session:
        job = session.scalars(select(Reread).where(Reread.id == job_id).with_for_update()).one()
        rows = session.execute(
            select(Mark.id, Mark.seen, gear.Item.tag)
            .join(gear.Item, gear.Item.id == Mark.item_id)
            .where(Mark.id > job.last_mark_id)
            .order_by(Mark.id)
            .limit(A_BATCH)
        ).all()
        marks = [row.seen for row in rows]
        pairs = zip(rows, reread(marks, before), reread(marks, after), strict=True)
        found = [_differing(row.tag, old, new) for row, old, new in pairs if old.digest != new.digest]
        job.result = _kept(job.result, found)
        job.done += len(rows)
        job.total = max(job.total, job.done)
        job.beat = now()
        if rows:
            job.last_mark_id = rows[-1].id
        job.state = "working" if len(rows) == A_BATCH else "done"
        return job.state == "working"


def _differing(tag: str, before: Readings, after: Readings) -> dict[str, Any]:
    return {"tag": tag, "seen": after.seen, "before": _brief(before), "after": _brief(after)}


def _brief(found: Readings) -> dict[str, Any]:
    """The best reading's figures, by name, for the page to put into words."""
    best = found.best
    return {"count": found.count, "mark": best.mark if best else "", "figures": dict(best.figures) if best else {}}


def _kept(before: list[Any], found: list[dict[str, Any]]) -> list[Any]:
    named = [one for one in before if "tag" in one]
    room = MOST_KEPT - len(named)
    left = _uncounted(before) + max(0, len(found) - room)
    return [*named, *found[:room], *([{"more": left}] if left else [])]
