"""The work of a re-reading: batch by batch, each kept as it is done, by whichever process finds it waiting."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from typing import Any

from sqlalchemy import insert, or_, select, update
from sqlalchemy.orm import Session

from yardapp.db import engine_for, now
from yardapp.marks.models import Mark, Reread, RereadFound, TableVersion
from yardapp.marks.services.rereading import LEFT_AFTER
from yardapp.stamps.tables import Readings, Shelf, Table, compile_table, from_plain, reread

A_BATCH = 2000
LOOK_AGAIN_S = 2.0
Opened = Callable[[], AbstractContextManager[Session]]


def keep_working(url: str, tell: Callable[[str], None]) -> threading.Event:
    """Work on whatever re-reading waits in the register at `url`, until the event that comes back is set."""
    stop = threading.Event()

    def watch() -> None:
        while not stop.is_set():
            try:
                _work_on_all(url, stop)
            except Exception as fault:  # whatever it was, the yard must go on being served
                tell(f"Reading the marks again broke off: {fault}")
            stop.wait(LOOK_AGAIN_S)

    threading.Thread(target=watch, name="marks read again", daemon=True).start()
    return stop


def _work_on_all(url: str, stop: threading.Event) -> None:
    """A door of its own, closed again at once: the processes that serve pages may be forked off at any time."""
    engine = engine_for(url)
    writing = engine.execution_options(sqlite_begin="IMMEDIATE")

    @contextmanager
    def opened() -> Iterator[Session]:
        with Session(writing, expire_on_commit=False) as session, session.begin():
            yield session

    try:
        with Session(engine) as session:
            waiting = session.scalars(select(Reread.id).where(_to_be_taken()).order_by(Reread.id)).all()
        for job_id in waiting:
            work_on(opened, job_id, stop)
    finally:
        engine.dispose()


def work_on(opened: Opened, job_id: int, stop: threading.Event | None = None) -> None:
    """Work through the marks, batch by batch, each kept as it is done; begun again, it goes on where it was left."""
    if not _take(opened, job_id):
        return
    try:
        shelves = _shelves(opened, job_id)
        while not (stop and stop.is_set()) and _batch(opened, job_id, *shelves):
            pass
    except Exception:
        with opened() as session:
            session.execute(update(Reread).where(Reread.id == job_id).values(state="failed"))
        raise


def _to_be_taken() -> Any:
    """It waits, or whoever worked on it is gone."""
    return or_(Reread.state == "waiting", (Reread.state == "working") & (Reread.beat < now() - LEFT_AFTER))


def _take(opened: Opened, job_id: int) -> bool:
    """Say that this process works on it; one of two that try at once is told no."""
    with opened() as session:
        taken = session.execute(
            update(Reread)
            .where(Reread.id == job_id, _to_be_taken())
            .values(state="working", beat=now())
            .returning(Reread.id)
            .execution_options(synchronize_session=False)
        )
        return taken.first() is not None


def _shelves(opened: Opened, job_id: int) -> tuple[Shelf, Shelf]:
    with opened() as session:
        job = session.get_one(Reread, job_id)
        bodies = [session.get_one(TableVersion, number).body for number in (job.before_id, job.after_id)]
    return both_of(*(from_plain(body) for body in bodies))


def both_of(before: Table, after: Table) -> tuple[Shelf, Shelf]:
    """Two versions of a table, ready to read with in turn."""
    older = compile_table(before, is_checked=True)
    return Shelf([older]), Shelf([compile_table(after, is_checked=True, like=older)])


def _batch(opened: Opened, job_id: int, before: Shelf, after: Shelf) -> bool:
    """Read the next marks and keep which differ; whether there may be more. Nobody's save waits for the reading."""
    with opened() as session:
        since = session.get_one(Reread, job_id).last_mark_id
        rows = session.execute(select(Mark.id, Mark.seen).where(Mark.id > since).order_by(Mark.id).limit(A_BATCH)).all()
    found = differing([(number, seen) for number, seen in rows], before, after)
    with opened() as session:
        job = session.scalars(select(Reread).where(Reread.id == job_id).with_for_update()).one()
        if job.last_mark_id != since:
            return False  # somebody else took it up meanwhile, and goes on
        _keep(session, job, found)
        job.done += len(rows)
        job.total = max(job.total, job.done)
        job.last_mark_id = rows[-1].id if rows else since
        job.state = "working" if len(rows) == A_BATCH else "done"
        return job.state == "working"


def _keep(session: Session, job: Reread, found: list[dict[str, Any]]) -> None:
    if found:
        session.execute(insert(RereadFound), [one | {"reread_id": job.id} for one in found])
    job.differing += len(found)
    job.beat = now()


def differing(marks: Sequence[tuple[int, str]], before: Shelf, after: Shelf) -> list[dict[str, Any]]:
    """Of numbered marks, those that the two read differently: the best reading of each, in brief."""
    texts = [seen for _number, seen in marks]
    pairs = zip(marks, reread(texts, before), reread(texts, after), strict=True)
    return [
        {"mark_id": number, "before": _brief(old), "after": _brief(new)}
        for (number, _seen), old, new in pairs
        if old.digest != new.digest
    ]


def _brief(found: Readings) -> dict[str, Any]:
    """The best reading's figures, by name, for the page to put into words."""
    best = found.best
    return {"count": found.count, "mark": best.mark if best else "", "figures": dict(best.figures) if best else {}}
