"""Work as its form tells it: what was read before and after, who did it, the papers that came with it."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, time
from typing import Any

from sqlalchemy.orm import Session

from yardapp.gear.models import Item
from yardapp.gear.services.evidence import Said
from yardapp.gear.services.papers import KeptPaper, put_papers
from yardapp.gear.services.work import AS_FOUND, AS_LEFT, Bill, record_work
from yardapp.marks import services as marks
from yardapp.people.services import Who

FIGURES = ("diameter_m", "pitch_m", "bore_large_m", "mass_kg")


def work_done(
    session: Session,
    who: Who,
    tag: str,
    *,
    kind: str,
    done_on: date | None = None,
    note: str = "",
    by_whom: str = "",
    cost: str = "",
    basis: str = "paper",
    stamp: str = "",
    papers: Sequence[KeptPaper] = (),
    **figures: Any,
) -> Item:
    """Write down work with its figures: `pitch_m` as left, `found_pitch_m` as found, what was typed beside each.

    Figures that a shop gave are paper until somebody measures.

    Raises
    ------
    NotAllowed, NotFound, Refused
        As `record_work` does.
    """
    found, left = (
        _said(figures, "found_", basis, f"{AS_FOUND}, {kind}"),
        _said(figures, "", basis, f"{AS_LEFT}, {kind}"),
    )
    bill = Bill(by_whom=by_whom, cost=cost)
    at = noon_of(done_on)
    item, event = record_work(session, who, tag, kind, *left, found=found, at=at, note=note, bill=bill)
    if stamp.strip():
        marks.record_mark(session, who, item, stamp)
    put_papers(session, who, item, event, papers)
    return item


def _said(figures: dict[str, Any], prefix: str, basis: str, note: str) -> list[Said]:
    given = {name: figures.get(f"{prefix}{name}") for name in FIGURES}
    typed = {name: figures.get(f"{prefix}{name}_typed", "") for name in FIGURES}
    return [
        Said(what=name, basis=basis, value=value, typed=typed[name], note=note)
        for name, value in given.items()
        if value is not None
    ]


def noon_of(day: date | None) -> datetime | None:
    """A day without an hour is told as its noon; today is now."""
    return datetime.combine(day, time(12), UTC) if day and day != datetime.now(UTC).date() else None
