"""Read sheets back, look at one before it is kept, find what is on the bench."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Select, and_, false, func, select, true
from sqlalchemy.orm import Session, aliased

from yardapp.bench.models import Fault, FaultClosing, HalfDone, Sheet
from yardapp.bench.services.keeping import known_of
from yardapp.bench.sums import Known
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.people.services import Who

ON_ONE_PAGE = 30


@dataclass(frozen=True, kw_only=True)
class SheetRow:
    """One kept sheet, the tag of its propeller, the sheet that took its place, the work done since, and when.

    `perhaps_of` is the tag of the thing that was perhaps read: tags may have been crossed then.
    """

    sheet: Sheet
    tag: str
    replaced_by: int | None
    work_since: str | None = None
    worked_at: datetime | None = None
    perhaps_of: str | None = None


@dataclass(frozen=True, kw_only=True)
class AtBench:
    """A propeller or shaft, what is known of it, its sheets, newest first, and those in the writing."""

    item: gear.Item
    known: Known
    sheets: Sequence[SheetRow] = ()
    begun: Sequence[HalfDone] = ()
    open_faults: int = 0


# What each method's sheet speaks of: work that leaves it in doubt ends the age in which it was read.
SPEAKS_OF = {
    "diameter": {"diameter_m"},
    "pitch": {"pitch_m"},
    "survey": {"pitch_m"},
    "alike": {"pitch_m", "diameter_m"},
    "area": {"area_ratio"},
    "bore": {"bore_large_m", "keyway_width_m"},
}


def _chosen(who: Who) -> Select[Sheet, gear.Item, int, str, datetime, str]:
    later = aliased(Sheet)
    cases = [(Sheet.method == method, frozenset(figures)) for method, figures in SPEAKS_OF.items()]
    work, when = gear.first_work_after(Sheet.at, cases)
    return (
        select(Sheet, gear.Item, later.id, work, when, gear.perhaps_of(Sheet.item_id, Sheet.at))
        .join(gear.Item, gear.Item.id == Sheet.item_id)
        .outerjoin(later, later.replaces_id == Sheet.id)
        .where(gear.seen_by(who))
    )


def newest_sheets(session: Session, who: Who, *, limit: int = ON_ONE_PAGE, before: int | None = None) -> list[SheetRow]:
    """The newest sheets of everything that this person may see."""
    chosen = _chosen(who).order_by(Sheet.id.desc()).limit(limit)
    if before is not None:
        chosen = chosen.where(Sheet.id < before)
    return [_row(*row) for row in session.execute(chosen)]


def _row(
    sheet: Sheet, item: gear.Item, later: int | None, work: str | None, when: datetime | None, other: str | None
) -> SheetRow:
    return SheetRow(sheet=sheet, tag=item.tag, replaced_by=later, work_since=work, worked_at=when, perhaps_of=other)


def sheets_of(session: Session, who: Who, tag: str, kind: str | None = None) -> AtBench:
    """A propeller or shaft, whichever is asked for (None: either), all its sheets, and those that somebody began.

    Raises
    ------
    NotFound
        Nothing here carries the tag.
    """
    standing = select(func.count(Fault.id)).outerjoin(FaultClosing, FaultClosing.fault_id == Fault.id)
    standing = standing.where(Fault.item_id == gear.Item.id, FaultClosing.id.is_(None))
    is_begun = and_(HalfDone.item_id == gear.Item.id, HalfDone.sheet_id.is_(None), HalfDone.is_dropped.is_(False))
    found = session.execute(
        select(gear.Item, standing.correlate(gear.Item).scalar_subquery(), HalfDone)
        .outerjoin(HalfDone, and_(is_begun, true() if who.may("record") else false()))
        .where(gear.Item.tag == tag.strip().upper(), gear.seen_by(who), gear.Item.kind == kind if kind else true())
        .order_by(HalfDone.touched.desc(), HalfDone.id.desc())
        .limit(ON_ONE_PAGE)
    ).all()
    if not found:
        raise NotFound(f"Nothing here carries the tag {tag}.")
    item, open_faults, _ = found[0]
    begun = [half for *_, half in found if half is not None]
    chosen = _chosen(who).where(gear.under_any_tag(Sheet.item_id, gear.kept_ids(gear.Item.id == item.id)))
    chosen = chosen.order_by(Sheet.id.desc())
    rows = [_row(*row) for row in session.execute(chosen)]
    return AtBench(item=item, known=known_of(item), sheets=rows, begun=begun, open_faults=open_faults)


def at_bench(session: Session, who: Who, tag: str, kind: str | None = "propeller") -> AtBench:
    """A propeller or shaft, whichever is asked for (None: either), and what is known of it.

    Raises
    ------
    NotFound
        Nothing of this kind here carries the tag.
    """
    item = gear.item_by_tag(session, who, tag, kind=kind)
    return AtBench(item=item, known=known_of(item))


def sheet_by_id(session: Session, who: Who, sheet_id: int) -> tuple[SheetRow, AtBench]:
    """One kept sheet, and the propeller it is of.

    Raises
    ------
    NotFound
        There is no such sheet, or this person may not know of it.
    """
    found = session.execute(_chosen(who).where(Sheet.id == sheet_id)).first()
    if found is None:
        raise NotFound("There is no such sheet here.")
    return _row(*found), AtBench(item=found[1], known=known_of(found[1]))


def sheets_by_id(session: Session, who: Who, ids: Sequence[int]) -> dict[int, tuple[SheetRow, gear.Item]]:
    """Several kept sheets by their numbers, each with its thing; those this person may not know of are left out."""
    found = session.execute(_chosen(who).where(Sheet.id.in_(ids)))
    return {row[0].id: (_row(*row), row[1]) for row in found}


def standing(session: Session, who: Who, item_id: int, method: str) -> list[Sheet]:
    """The sheets of one thing by one method that nobody corrected and no work has overtaken, newest first."""
    chosen = _chosen(who).where(gear.under_any_tag(Sheet.item_id, [item_id]), Sheet.method == method)
    rows = (_row(*row) for row in session.execute(chosen.order_by(Sheet.id.desc())))
    return [row.sheet for row in rows if row.replaced_by is None and row.work_since is None]


def others_like(session: Session, row: SheetRow, *, limit: int = 8) -> list[Sheet]:
    """Other sheets of the same thing by the same method that still stand, newest first."""
    later = aliased(Sheet)
    chosen = (
        select(Sheet)
        .outerjoin(later, later.replaces_id == Sheet.id)
        .where(gear.under_any_tag(Sheet.item_id, gear.kept_ids(gear.Item.id == row.sheet.item_id)))
        .where(Sheet.method == row.sheet.method, Sheet.id != row.sheet.id)
        .where(later.id.is_(None))
    )
    return list(session.scalars(chosen.order_by(Sheet.id.desc()).limit(limit)))


def readings_of(session: Session, who: Who, sheet_id: int | None) -> dict[str, Any]:
    """What was read on a kept sheet; nothing where there is none, or this person may not know of it."""
    if sheet_id is None:
        return {}
    found = session.execute(_chosen(who).where(Sheet.id == sheet_id)).first()
    return {} if found is None else found[0].readings
