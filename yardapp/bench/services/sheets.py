"""Read sheets back, look at one before it is kept, find what is on the bench."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Select, select
from sqlalchemy.orm import Session, aliased

from yardapp.bench.models import Sheet
from yardapp.bench.services.keeping import known_of
from yardapp.bench.sums import Known
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.people.services import Who

ON_ONE_PAGE = 30


@dataclass(frozen=True, kw_only=True)
class SheetRow:
    """One kept sheet, the tag of its propeller, and the sheet that took its place."""

    sheet: Sheet
    tag: str
    replaced_by: int | None


@dataclass(frozen=True, kw_only=True)
class AtBench:
    """A propeller or shaft, what is known of it, and its sheets, newest first."""

    item: gear.Item
    known: Known
    sheets: Sequence[SheetRow] = ()


def _chosen(who: Who) -> Select[Sheet, gear.Item, int]:
    later = aliased(Sheet)
    return (
        select(Sheet, gear.Item, later.id)
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


def _row(sheet: Sheet, item: gear.Item, replaced_by: int | None) -> SheetRow:
    return SheetRow(sheet=sheet, tag=item.tag, replaced_by=replaced_by)


def sheets_of(session: Session, who: Who, tag: str) -> AtBench:
    """A propeller or shaft, and all its sheets.

    Raises
    ------
    NotFound
        Nothing here carries the tag.
    """
    there = at_bench(session, who, tag, None)
    chosen = _chosen(who).where(Sheet.item_id == there.item.id).order_by(Sheet.id.desc())
    rows = [_row(*row) for row in session.execute(chosen)]
    return AtBench(item=there.item, known=there.known, sheets=rows)


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
    sheet, item, replaced_by = found
    return _row(sheet, item, replaced_by), AtBench(item=item, known=known_of(item))


def readings_of(session: Session, who: Who, sheet_id: int | None) -> dict[str, Any]:
    """What was read on a kept sheet; nothing where there is none, or this person may not know of it."""
    if sheet_id is None:
        return {}
    found = session.execute(_chosen(who).where(Sheet.id == sheet_id)).first()
    return {} if found is None else found[0].readings
