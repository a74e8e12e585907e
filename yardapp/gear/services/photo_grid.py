"""What may have lost its tag: a grid of photos, narrowed down by what can be seen."""

from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import Session

from yardapp.db import words_like
from yardapp.gear.models import Item, Photo
from yardapp.gear.services.items import seen_by
from yardapp.gear.services.search import TRIGRAM, ItemRow, listed, row_of
from yardapp.people.services import Who

GRID = 48
REACH_M = 0.02


@dataclass(frozen=True, kw_only=True)
class Pictured:
    """A thing in a list, with its newest photo (its SHA-256; empty: none)."""

    row: ItemRow
    photo: str


def newest_photo(item: Any = Item) -> ColumnElement[Any]:
    """A thing's newest photo, as a column."""
    newest = select(Photo.sha256).where(Photo.item_id == item.id).order_by(Photo.id.desc()).limit(1)
    return newest.scalar_subquery().label("photo")


def photo_grid(
    session: Session,
    who: Who,
    *,
    kind: str = "propeller",
    hand: str | None = None,
    blades: int | None = None,
    diameter_m: float | None = None,
    stamp: str = "",
    before: int | None = None,
    limit: int = GRID,
) -> tuple[list[Pictured], int | None]:
    """What may have lost its tag, newest first, with a photo of each; and from where the next page goes on.

    What nobody has looked at is shown too. One query.

    Raises
    ------
    NotAllowed
        Owners see their own gear only.
    """
    who.must("see")
    looks = [(Item.hand, hand), (Item.blades, blades)]
    clauses = [or_(column == value, column.is_(None)) for column, value in looks if value is not None]
    if diameter_m is not None:
        near = Item.diameter_m.between(diameter_m - REACH_M, diameter_m + REACH_M)
        clauses.append(or_(near, Item.diameter_m.is_(None)))
    clauses += [words_like(session, "gear", Item, word) for word in stamp.split() if len(word) >= TRIGRAM]
    if before is not None:
        clauses.append(Item.id < before)
    chosen = listed().add_columns(newest_photo()).where(Item.kind == kind, Item.standing != "merged", *clauses)
    rows = session.execute(chosen.where(seen_by(who)).order_by(Item.id.desc()).limit(limit + 1)).all()
    further = rows[limit - 1].id if len(rows) > limit else None
    return [Pictured(row=row_of(row), photo=row.photo or "") for row in rows[:limit]], further
