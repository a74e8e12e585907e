"""Give things a tag, and find them by it."""

from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session, aliased

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.figures import KINDS, LETTERS
from yardapp.gear.models import Counter, Item
from yardapp.gear.services.bins import bin_at
from yardapp.gear.services.evidence import Said, add_evidence
from yardapp.gear.services.happening import happened
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels


def next_tag(session: Session, kind: str) -> str:
    """The next tag of this kind: P-0001 for propellers, S-0001 for shafts, N-0001 for nuts."""
    letter = LETTERS[kind]
    counter = session.get(Counter, letter, with_for_update=True) or _first_counter(session, letter)
    number, counter.following = counter.following, counter.following + 1
    session.flush()
    return f"{letter}-{number:04d}"


def _first_counter(session: Session, letter: str) -> Counter:
    """Two may want the very first tag at the same moment: whoever comes second finds the other's row."""
    try:
        with session.begin_nested():
            session.add(Counter(letter=letter, following=1))
    except IntegrityError:
        session.expire_all()
    return session.get_one(Counter, letter, with_for_update=True)


def log_item(
    session: Session,
    who: Who,
    *said: Said,
    kind: str = "propeller",
    place: str = "",
    note: str = "",
    came_off_id: int | None = None,
    at: datetime | None = None,
    tag: str = "",
) -> Item:
    """Give a thing a tag, and keep what is known of it. An owner's entry waits for the office as a proposal.

    `tag` is a blank one that `bind_tag` has looked at; else it gets the next of its kind.

    Raises
    ------
    NotAllowed
        This role may not even propose.
    NotFound
        The drive that it came off is not in the register.
    Refused
        No place was given, or a statement makes no sense.
    """
    who.must("propose")
    if kind not in KINDS:
        raise Refused(f"`{kind}` is none of {', '.join(KINDS)}.", "kind")
    if not place.strip():
        raise Refused("Where was it put? A rack, a bin, a corner of the shed.", "place")
    came_off = vessels.drive_label(session, came_off_id, who) if came_off_id is not None else ""
    there = bin_at(session, place)
    item = Item(
        tag=tag or next_tag(session, kind),
        kind=kind,
        place=there.label if there else " ".join(place.split())[:120],
        bin_id=there.id if there else None,
        note=note.strip(),
        came_off_id=came_off_id,
        is_proposed=not who.may("record"),
        logged_by=who.person_id,
        logged=now(),
    )
    session.add(item)
    session.flush()  # events and evidence name the item's number
    kind_of_line = "came off" if came_off_id else "logged"
    happened(session, who, item, kind_of_line, at=at, standing="here", drive_id=came_off_id, drive=came_off)
    add_evidence(session, who, item, *said)
    people.note(session, who, "logged", "item", item.id, tag=item.tag)
    return item


def item_by_tag(session: Session, who: Who, tag: str, *, kind: str | None = None, for_change: bool = False) -> Item:
    """The item that `tag` leads to, when this person may see it: of a thing logged twice, the one that was kept.

    Raises
    ------
    NotFound
        Nothing carries it, or this person may not know of it.
    """
    item = tagged(session, who, tag, kind=kind, for_change=for_change)
    if item.merged_into_id is None:
        return item
    return session.get_one(Item, item.merged_into_id, with_for_update=for_change)


def tagged(session: Session, who: Who, tag: str, *, kind: str | None = None, for_change: bool = False) -> Item:
    """The item that bears `tag` itself, though it may have been found to be another.

    Raises
    ------
    NotFound
        Nothing carries it, or this person may not know of it.
    """
    chosen = select(Item).where(Item.tag == tag.strip().upper(), seen_by(who))
    if kind is not None:
        chosen = chosen.where(Item.kind == kind)
    item = session.scalar(chosen.with_for_update() if for_change else chosen)
    if item is None:
        raise NotFound(f"Nothing here carries the tag {tag}.")
    return item


def lock(session: Session, *clauses: ColumnElement[bool]) -> list[Item]:
    """Items that one act changes together, locked by number: two such acts then wait for each other, and never both."""
    chosen = select(Item).where(*clauses).order_by(Item.id).with_for_update()
    return list(session.scalars(chosen.execution_options(populate_existing=True)))


def seen_by(who: Who) -> ColumnElement[bool]:
    """The clause that keeps an owner to what is on their own boats and what they proposed, under each of its tags."""
    if who.may("see"):
        return Item.id > 0
    kept = aliased(Item)
    theirs = select(kept.id).where(_of_owner(kept, who))
    return or_(_of_owner(Item, who), Item.merged_into_id.in_(theirs))


def _of_owner(item: Any, who: Who) -> ColumnElement[bool]:
    own = vessels.drives_of_owner(who)
    return or_(item.aboard_id.in_(own), item.came_off_id.in_(own), item.logged_by == who.person_id)
