"""Have we seen this one? A thing held beside every other: past, sold, lost and stolen ones."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import ColumnElement, and_, bindparam, case, func, or_, select, union
from sqlalchemy.orm import Session, aliased

from yardapp.db import UtcTime, now, words_like
from yardapp.gear.models import Event, Item
from yardapp.gear.seen_before import U_UNKNOWN, Likeness, likeness
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import item_by_tag, seen_by
from yardapp.gear.services.photo_grid import Pictured, newest_photo
from yardapp.gear.services.search import listed, row_of
from yardapp.gear.services.story import TOLD
from yardapp.gear.working import K
from yardapp.marks.services.serials import bearing, seen_on, serials_among, serials_in
from yardapp.people import services as people
from yardapp.people.services import Who

GONE = ("sold", "scrapped", "lost", "stolen")
TOLD_APART = "told apart"
LOOKED_AT = 400  # nearest in size of those that may be it
SHOWN = 12
MARKS = 20  # the newest on one thing
REACH_M = 0.02
FRESH = timedelta(days=30)  # as long as it stands on the thing's own page that it may have been here before
UNCERTAIN = ("u_diameter_m", "u_pitch_m", "u_bore_large_m")


@dataclass(frozen=True, kw_only=True)
class Lookalike(Pictured):
    """A thing that may be the same, why, and since when it is where the register has it."""

    like: Likeness
    is_gone: bool
    since: datetime | None


@dataclass(frozen=True, kw_only=True)
class SeenBefore:
    """One thing, its newest photo, and which it may be."""

    item: Item
    photo: str
    serials: Sequence[str]
    found: Sequence[Lookalike]


def seen_before(session: Session, who: Who, tag: str) -> SeenBefore:
    """Hold a thing beside every other of its kind: past, sold, lost and stolen ones first. Two queries.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    NotAllowed
        Owners see their own gear only.
    """
    who.must("see")
    item, photo, marks = _with_photo(session, who, tag)
    serials = list(dict.fromkeys([*serials_in(item.stamp), *serials_among(marks)]))
    rows = session.execute(_may_be(session, who, item, serials)).all()
    found = [one for row in rows if (one := _held_beside(item, row)) is not None]
    found.sort(key=lambda one: (one.like.is_serial, one.is_gone, one.like.weight), reverse=True)
    return SeenBefore(item=item, photo=photo, serials=serials, found=found[:SHOWN])


def _with_photo(session: Session, who: Who, tag: str) -> tuple[Item, str, list[str]]:
    """The thing, its newest photo, and the newest of the marks that were seen on it."""
    mark, on_it = seen_on(Item.id)
    chosen = select(Item, newest_photo(), mark.seen).outerjoin(mark, on_it)
    chosen = chosen.where(Item.tag == tag.strip().upper(), seen_by(who)).order_by(mark.id.desc()).limit(MARKS)
    rows = session.execute(chosen).all()
    if not rows:  # say so as everywhere
        return item_by_tag(session, who, tag), "", []
    return rows[0][0], rows[0].photo or "", [row.seen for row in rows if row.seen is not None]


def _held_beside(item: Item, row: Any) -> Lookalike | None:
    like = likeness(item, row, is_serial=bool(row.is_serial))
    is_gone = row.standing in GONE
    # One that the register knows to be somewhere is worth a look only where much speaks for it.
    if like is None or not (like.is_likely or (is_gone and like.agreed)):
        return None
    return Lookalike(row=row_of(row), photo=row.photo or "", like=like, is_gone=is_gone, since=row.since)


def _may_be(session: Session, who: Who, item: Item, serials: Sequence[str]) -> Any:
    """Those near in size or bearing the same number, the gone ones first: two roads, each along an index."""
    apart = select(Event.other_id).where(Event.item_id == item.id, Event.kind == TOLD_APART)
    other = aliased(Event)
    since = select(func.max(other.at)).where(other.item_id == Item.id, other.standing == Item.standing)
    numbered = _numbered(session, serials)
    roads = [select(Item.id).where(*_near(item))] if item.diameter_m is not None else []
    roads += [select(numbered.subquery())] if serials else []
    if not roads:  # nothing is known of it: those of its hand and blades that are gone
        roads = [select(Item.id).where(Item.kind == item.kind, Item.standing.in_(GONE), *_looks(item))]
    is_serial = Item.id.in_(numbered) if serials else Item.id < 0
    return (
        listed()
        .add_columns(*(getattr(Item, name) for name in UNCERTAIN), newest_photo(), is_serial.label("is_serial"))
        .add_columns(since.scalar_subquery().label("since"))
        .where(Item.id.in_(union(*roads).subquery().select()), Item.id != item.id, Item.kind == item.kind)
        .where(Item.standing != "merged", Item.id.not_in(apart), seen_by(who))
        .order_by(is_serial.desc(), Item.standing.in_(GONE).desc(), func.abs(Item.diameter_m - (item.diameter_m or 0)))
        .limit(LOOKED_AT)
    )


def _numbered(session: Session, serials: Sequence[str]) -> Any:
    """On which things one of these numbers was seen, as a mark or within a stamp."""
    within = [select(Item.id).where(words_like(session, "gear", Item, serial)) for serial in serials]
    return union(bearing(serials), *within) if within else bearing(serials)


def _near(item: Item) -> list[ColumnElement[bool]]:
    diameter_m = item.diameter_m or 0.0
    widest = REACH_M + K * (item.u_diameter_m or U_UNKNOWN * diameter_m)
    return [Item.kind == item.kind, Item.diameter_m.between(diameter_m - widest, diameter_m + widest), *_looks(item)]


def _looks(item: Item) -> list[ColumnElement[bool]]:
    """Hand and blades as far as both know them."""
    known = [(Item.hand, item.hand), (Item.blades, item.blades)]
    return [or_(column == value, column.is_(None)) for column, value in known if value is not None]


def tell_apart(session: Session, who: Who, tag: str, other_tag: str) -> Item:
    """Write down that somebody held the two beside each other, and they are two. It is not asked again.

    Raises
    ------
    NotFound
        Nothing carries one of the tags.
    """
    who.must("record")
    item, other = item_by_tag(session, who, tag), item_by_tag(session, who, other_tag)
    happened(session, who, item, TOLD_APART, other_id=other.id)
    people.note(session, who, TOLD_APART, "item", item.id, other=other.tag)
    return item


def _gone_one() -> ColumnElement[Any]:
    """The tag of a gone thing that a newly logged one may be: size, hand and blades all known and alike."""
    old, apart = aliased(Item), aliased(Event)
    both = [_u2(one) for one in (Item, old)]
    alike = and_(
        old.kind == Item.kind,
        old.diameter_m.between(Item.diameter_m - REACH_M, Item.diameter_m + REACH_M),
        (old.diameter_m - Item.diameter_m) * (old.diameter_m - Item.diameter_m) <= K * K * (both[0] + both[1]),
        old.hand == Item.hand,
        old.blades == Item.blades,
        old.standing.in_(GONE),
        old.id != Item.id,
    )
    held = select(apart.other_id).where(apart.item_id == Item.id, apart.kind == TOLD_APART).correlate(Item)
    newest = select(old.tag).where(alike, old.id.not_in(held)).order_by(old.id.desc())
    since = bindparam("fresh_since", type_=UtcTime(), callable_=lambda: now() - FRESH)  # the query is built once
    is_fresh = and_(Item.logged > since, Item.standing.not_in((*GONE, "merged")))
    return case((is_fresh, newest.limit(1).correlate(Item).scalar_subquery()), else_=None)


def _u2(item: Any) -> Any:
    u = func.coalesce(item.u_diameter_m, U_UNKNOWN * item.diameter_m)
    return u * u


TOLD["seen_before"] = _gone_one
