"""Sets: parts that come off and go on together. Whatever belongs to a set lies in one place with the rest."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import and_, select
from sqlalchemy.orm import Session, aliased

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.figures import KINDS, ONE_A_LINE
from yardapp.gear.models import Event, Item, Set
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import item_by_tag, seen_by
from yardapp.gear.services.moves import leave
from yardapp.gear.services.search import ItemRow, listed, row_of
from yardapp.people import services as people
from yardapp.people.services import Who

MATE = aliased(Item)


@dataclass(frozen=True, kw_only=True)
class SetPage:
    """A set, what belongs to it, and what ever came to it or left it, newest first."""

    set: Set
    items: Sequence[ItemRow]
    lines: Sequence[tuple[Event, str]]


def keep_together(session: Session, who: Who, tag: str, tags: Sequence[str], *, name: str = "") -> Set:
    """Keep things together with this one: in its set if it has one, else in a new one.

    Raises
    ------
    NotFound
        Nothing carries one of the tags.
    Refused
        Nothing else is named, one belongs to another set, they lie apart, or there would be two propellers.
    """
    who.must("record")
    item = item_by_tag(session, who, tag, for_change=True)
    others = [
        _found(session, who, other) for other in dict.fromkeys(one.strip().upper() for one in tags if one.strip())
    ]
    joining = [other for other in others if other.id != item.id]
    if not joining:
        raise Refused("Which others? Type or scan their tags.", "tags")
    members = [item, *joining]
    there = session.get(Set, item.set_id) if item.set_id else None
    if there is not None:
        members += session.scalars(select(Item).where(Item.set_id == there.id, Item.id != item.id))
    _must_go_together(item, members)
    if there is None:
        there = Set(name=(" ".join(name.split()) or f"Set of {item.tag}")[:80], made=now(), said_by=who.name)
        session.add(there)
        session.flush()  # the items name its number
    for one in [item, *joining]:
        _join(session, who, one, there)
    people.note(session, who, "kept together", "item", item.id, tags=[one.tag for one in joining])
    return there


def _found(session: Session, who: Who, tag: str) -> Item:
    try:
        return item_by_tag(session, who, tag, for_change=True)
    except NotFound as refusal:
        raise Refused(str(refusal), "tags") from None


def _must_go_together(item: Item, members: Sequence[Item]) -> None:
    for one in members:
        if one.set_id not in (None, item.set_id):
            raise Refused(f"{one.tag} belongs to another set. Take it out of that one first.", "tags")
        if (one.standing, one.aboard_id, one.place) != (item.standing, item.aboard_id, item.place):
            raise Refused(f"{one.tag} and {item.tag} lie apart. Write down first that they came to one place.", "tags")
    kinds = [one.kind for one in members]
    for kind in ONE_A_LINE:
        if kinds.count(kind) > 1:
            raise Refused(f"A set goes on one shaft line: it holds one {KINDS[kind].label.lower()}.", "tags")


def _join(session: Session, who: Who, item: Item, there: Set) -> None:
    if item.set_id == there.id:
        return
    item.set_id = there.id
    item.version += 1
    happened(session, who, item, "joined set", set_id=there.id, note=there.name)


def leave_set(session: Session, who: Who, tag: str, *, why: str = "") -> Item:
    """Take one thing out of its set; it stays where it is.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Refused
        It belongs to no set.
    """
    who.must("record")
    item = item_by_tag(session, who, tag, for_change=True)
    if item.set_id is None:
        raise Refused(f"{item.tag} belongs to no set.")
    leave(session, who, item, note=why)
    item.version += 1
    people.note(session, who, "left set", "item", item.id)
    return item


def set_mates(session: Session, who: Who, tag: str) -> tuple[Item, list[str]]:
    """An item, and the tags of whatever moves with it.

    Raises
    ------
    NotFound
        Nothing carries the tag, or this person may not know of it.
    """
    rows = session.execute(
        select(Item, MATE.tag)
        .outerjoin(MATE, and_(MATE.set_id == Item.set_id, MATE.id != Item.id))
        .where(Item.tag == tag.strip().upper(), seen_by(who))
        .order_by(MATE.id)
    ).all()
    if not rows:
        raise NotFound(f"Nothing here carries the tag {tag}.")
    return rows[0].Item, [row.tag for row in rows if row.tag is not None]


def set_page(session: Session, who: Who, set_id: int) -> SetPage:
    """A set and what belongs to it, as far as this person may see.

    Raises
    ------
    NotFound
        There is no such set, or this person may not know of it.
    """
    rows = session.execute(
        select(Set, Event, Item.tag)
        .join(Event, Event.set_id == Set.id)
        .join(Item, Item.id == Event.item_id)
        .where(Set.id == set_id, Event.kind.in_(("joined set", "left set")), seen_by(who))
        .order_by(Event.id.desc())
    ).all()
    if not rows:
        raise NotFound("There is no such set here.")
    found = session.execute(listed().where(Item.set_id == set_id, seen_by(who)).order_by(Item.id))
    return SetPage(set=rows[0].Set, items=[row_of(row) for row in found], lines=[(row.Event, row.tag) for row in rows])
