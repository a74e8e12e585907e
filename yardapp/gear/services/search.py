"""Find it again: by tag, boat, owner, part of a stamp, size, hand, bore; and the rack, page by page."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import false, func, or_, select, union
from sqlalchemy.orm import Session

from yardapp.db import words_like
from yardapp.gear.asked import Asked, understand
from yardapp.gear.figures import LETTERS, ONE_A_LINE
from yardapp.gear.models import Item
from yardapp.gear.services.items import seen_by
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

PAGE = 50
TRIGRAM = 3
# What tells one part from another, beside what propellers and shafts have.
PART_SIZES = (
    "length_m",
    "width_m",
    "height_m",
    "bore_m",
    "outside_diameter_m",
    "thread_diameter_m",
    "thread_pitch_m",
    "mass_kg",
    "left_ratio",
)
_TAG = re.compile(r"[a-z]-\d{1,9}", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class ItemRow:
    """One item as a list shows it."""

    tag: str
    kind: str
    diameter_m: float | None
    pitch_m: float | None
    blades: int | None
    hand: str | None
    bore_large_m: float | None
    taper: float | None
    stamp: str
    where: str
    is_proposed: bool
    is_at_odds: bool
    length_m: float | None = None
    width_m: float | None = None
    height_m: float | None = None
    bore_m: float | None = None
    outside_diameter_m: float | None = None
    thread_diameter_m: float | None = None
    thread_pitch_m: float | None = None
    mass_kg: float | None = None
    left_ratio: float | None = None
    standing: str = "here"


def listed() -> Any:
    """The columns of a list's row, as a query to build on."""
    on = vessels.drive_names().subquery("aboard")
    return select(
        Item.id,
        Item.tag,
        Item.kind,
        Item.diameter_m,
        Item.pitch_m,
        Item.blades,
        Item.hand,
        Item.bore_large_m,
        Item.taper,
        Item.stamp,
        Item.place,
        Item.is_proposed,
        Item.odds,
        *(getattr(Item, name) for name in (*PART_SIZES, "standing")),
        on.c.vessel,
        on.c.position,
    ).outerjoin(on, on.c.drive_id == Item.aboard_id)


def row_of(row: Any) -> ItemRow:
    """A row of that query as pages know it."""
    return ItemRow(
        tag=row.tag,
        kind=row.kind,
        diameter_m=row.diameter_m,
        pitch_m=row.pitch_m,
        blades=row.blades,
        hand=row.hand,
        bore_large_m=row.bore_large_m,
        taper=row.taper,
        stamp=row.stamp,
        where=vessels.label_of(row.vessel, row.position) if row.position else row.place,
        is_proposed=row.is_proposed,
        is_at_odds=bool(row.odds),
        **{name: getattr(row, name) for name in (*PART_SIZES, "standing")},
    )


def rack(
    session: Session, who: Who, *, kind: str = "propeller", before: int | None = None, limit: int = PAGE
) -> tuple[list[ItemRow], int | None]:
    """Items of one kind, newest first, and the number from which the next page goes on (None: no more).

    The kind `parts` is everything that is neither propeller nor shaft.
    """
    is_kind = Item.kind.not_in(ONE_A_LINE) if kind == "parts" else Item.kind == kind
    chosen = listed().where(is_kind, seen_by(who)).order_by(Item.id.desc()).limit(limit + 1)
    rows = session.execute(chosen if before is None else chosen.where(Item.id < before)).all()
    further = rows[limit - 1].id if len(rows) > limit else None
    return [row_of(row) for row in rows[:limit]], further


def aboard(session: Session, who: Who, drive_ids: Sequence[int]) -> dict[int, list[ItemRow]]:
    """What is on each of these drives now."""
    found: dict[int, list[ItemRow]] = {drive_id: [] for drive_id in drive_ids}
    chosen = listed().add_columns(Item.aboard_id).where(Item.aboard_id.in_(drive_ids), seen_by(who))
    for row in session.execute(chosen.order_by(Item.kind, Item.tag)):
        found[row.aboard_id].append(row_of(row))
    return found


def came_off(session: Session, who: Who, drive_ids: Sequence[int], limit: int = 50) -> list[ItemRow]:
    """What once was on these drives and lies elsewhere now."""
    chosen = listed().where(Item.came_off_id.in_(drive_ids), Item.standing != "aboard", seen_by(who))
    return [row_of(row) for row in session.execute(chosen.order_by(Item.id.desc()).limit(limit))]


def propellers_near(
    session: Session, who: Who, *, hand: str | None, bore_large_m: float | None, limit: int = 30
) -> list[ItemRow]:
    """Propellers ashore of that hand, nearest in bore first; those whose hand or bore nobody knows come last."""
    chosen = listed().where(Item.kind == "propeller", Item.aboard_id.is_(None), seen_by(who))
    if hand is not None:
        chosen = chosen.where(or_(Item.hand == hand, Item.hand.is_(None)))
    if bore_large_m is not None:
        chosen = chosen.order_by(Item.bore_large_m.is_(None), func.abs(Item.bore_large_m - bore_large_m))
    return [row_of(row) for row in session.execute(chosen.order_by(Item.id.desc()).limit(limit))]


def search(session: Session, who: Who, line: str, *, limit: int = 20) -> list[ItemRow]:
    """Items that answer a search line: a tag typed whole answers alone; else the newest first."""
    return search_all(session, who, line, limit=limit)[0]


def search_all(
    session: Session, who: Who, line: str, *, limit: int = 20
) -> tuple[list[ItemRow], list[vessels.VesselRow]]:
    """Items and boats that answer a search line; boats only for words."""
    tagged = listed().where(Item.tag == line.strip().upper(), seen_by(who))
    if _TAG.fullmatch(line.strip()) and (found := session.execute(tagged).first()):
        return [row_of(found)], []
    asked = understand(line)
    if asked.is_empty:
        return [], []
    boats = vessels.search_vessels(session, who, asked.words) if asked.is_words else []
    may_be_boat = bool(boats) or len(asked.words) > 1 or not asked.is_words
    return _items(session, who, asked, limit, is_by_boat=may_be_boat), boats


def _items(session: Session, who: Who, asked: Asked, limit: int, *, is_by_boat: bool) -> list[ItemRow]:
    """The newest that answer. Boats' names are gone through only where one may answer: it costs a sort."""
    chosen = listed().where(seen_by(who), *_figures(asked))
    for word in asked.words:
        chosen = chosen.where(_word(session, word, is_alone=len(asked.words) == 1, is_by_boat=is_by_boat))
    return [row_of(row) for row in session.execute(chosen.order_by(Item.id.desc()).limit(limit))]


def _figures(asked: Asked) -> list[Any]:
    clauses: list[Any] = [
        getattr(Item, name).between(least, most) for name, (least, most) in sorted(asked.ranges.items())
    ]
    if asked.ranges:
        clauses.append(Item.kind == "propeller")
    if asked.hand:
        clauses.append(Item.hand == asked.hand)
    if asked.blades:
        clauses.append(Item.blades == asked.blades)
    return clauses


def _word(session: Session, word: str, *, is_alone: bool, is_by_boat: bool) -> Any:
    """The item's own words, or any name or owner of the boat that it is on or came off."""
    if len(word.strip("?%_\\")) < TRIGRAM:
        return _short(word, is_alone)
    if not is_by_boat:
        return words_like(session, "gear", Item, word)
    own = select(Item.id).where(words_like(session, "gear", Item, word))
    boats = vessels.drives_of_words(session, word)
    on = select(Item.id).where(Item.aboard_id.in_(boats))
    off = select(Item.id).where(Item.came_off_id.in_(boats))
    return Item.id.in_(union(own, on, off).subquery().select())


def _short(word: str, is_alone: bool) -> Any:
    """Too short for the trigrams, which would read every row: alone, it can only be a tag's letter or number."""
    if not word.isalnum():
        return false()
    if not is_alone:
        return Item.words.ilike(f"%{word}%")
    return (
        Item.tag.in_([f"{letter}-{word.zfill(4)}" for letter in LETTERS.values()])
        if word.isdigit()
        else _lettered(word)
    )


def _lettered(word: str) -> Any:
    return Item.tag.like(f"{word.upper()}-%") if word.upper() in LETTERS.values() else false()
