"""Moves: from one place to another, alone or with its set. A thing is in exactly one place."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.gear.figures import ONE_A_LINE
from yardapp.gear.models import Event, Item
from yardapp.gear.services.bins import bin_at
from yardapp.gear.services.happening import happened, on_that_day
from yardapp.gear.services.items import item_by_tag, lock
from yardapp.gear.services.settling import history_of, must_have_been_free, settle, then
from yardapp.gear.whereabouts import (
    DUE_MAY_BE_SAID,
    MOVES,
    NAME_NEEDED,
    PLACE_NEEDED,
    SETTLES,
    Whereabouts,
    after,
    around,
    may_follow,
)
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

TOWARDS = {"to shop": "at the shop: ", "lent": "lent to ", "sold": "sold to "}


@dataclass(frozen=True, kw_only=True)
class Going:
    """One move as somebody says it: what happened, where to, when, expected back."""

    kind: str
    place: str = ""
    drive_id: int | None = None
    at: datetime | None = None
    due_on: date | None = None
    note: str = ""


def move_item(
    session: Session,
    who: Who,
    tag: str,
    kind: str,
    *,
    place: str = "",
    drive_id: int | None = None,
    at: datetime | None = None,
    due_on: date | None = None,
    note: str = "",
    is_alone: bool = False,
) -> Item:
    """Move an item, and with it the set that it belongs to; `is_alone`: it leaves its set and goes by itself.

    Raises
    ------
    NotFound
        Nothing carries the tag, or there is no such drive.
    Refused
        From where the register believes it to be it can't go there, another is on that shaft line, or the place, the
        shop or the boat is missing.
    """
    who.must("record")
    item = item_by_tag(session, who, tag)
    going = Going(kind=kind, place=place, drive_id=drive_id, at=at, due_on=due_on, note=note)
    _must_make_sense(going)
    if is_alone:
        leave(session, who, item, note=f"{kind} without the rest")
    make_move(session, who, together(session, item), going)
    people.note(session, who, kind, "item", item.id, place=item.place)
    return item


def _must_make_sense(going: Going) -> None:
    if going.kind not in MOVES:
        raise Refused(f"`{going.kind}` is not a move.", "kind")
    on_that_day(going.at)
    if going.kind == "went on" and going.drive_id is None:
        raise Refused("Which boat and shaft did it go on?", "drive_id")
    if going.kind in PLACE_NEEDED and not going.place.strip():
        raise Refused("Where was it put?", "place")
    if going.kind in NAME_NEEDED and not going.place.strip():
        raise Refused(NAME_NEEDED[going.kind], "place")
    if going.due_on is not None and going.kind in DUE_MAY_BE_SAID and going.due_on < (going.at or now()).date():
        raise Refused("It can't be expected back before it goes.", "due_on")


def together(session: Session, item: Item) -> list[Item]:
    """An item and the rest of its set, locked; itself first."""
    is_mine = Item.id == item.id if item.set_id is None else Item.set_id == item.set_id
    return sorted(lock(session, is_mine), key=lambda one: one.id != item.id)


def leave(session: Session, who: Who, item: Item, *, note: str = "", with_id: int | None = None) -> None:
    """It belongs to its set no more; one that is left alone is a set no more either."""
    if item.set_id is None:
        return
    set_id, item.set_id = item.set_id, None
    first = happened(session, who, item, "left set", set_id=set_id, note=note, with_id=with_id)
    rest = session.scalars(select(Item).where(Item.set_id == set_id)).all()
    if len(rest) == 1:
        rest[0].set_id = None
        happened(session, who, rest[0], "left set", set_id=set_id, note="the last of its set", with_id=first.id)


def make_move(session: Session, who: Who, items: Sequence[Item], going: Going) -> Event:
    """One act: every item goes, or none does."""
    at, first = going.at or now(), None
    label = vessels.drive_label(session, going.drive_id, who) if going.drive_id else ""
    for item in items:
        lines = history_of(session, item)
        event = _event(session, who, item, going, at, label, lines, first)
        first = first or event
        if going.at is not None:
            must_have_been_free(session, item, [*lines, event])
    settle(session, items)
    assert first is not None
    return first


def _event(
    session: Session,
    who: Who,
    item: Item,
    going: Going,
    at: datetime,
    label: str,
    lines: list[Event],
    first: Event | None,
) -> Event:
    there, following = around(lines, at)
    before = after(there) if there else None
    if not may_follow(going.kind, before):
        assert before is not None
        raise Refused(contradiction(item, before), "kind")
    is_aboard = MOVES[going.kind][0] == "aboard"
    if is_aboard:
        _must_be_free(session, item, going.drive_id, label)
    was_aboard = before if before is not None and before.standing == "aboard" else None
    came_off = was_aboard or _said_before(item, label) if going.kind == "came off" else was_aboard
    event = Event(
        kind=going.kind,
        at=at,
        standing=MOVES[going.kind][0],
        drive_id=going.drive_id if is_aboard else came_off.drive_id if came_off else None,
        drive=label if is_aboard else came_off.drive if came_off else "",
        place="" if is_aboard else _place(session, going),
        due_on=going.due_on if going.kind in DUE_MAY_BE_SAID else None,
        note=going.note[:300],
        with_id=first.id if first else None,
        set_id=item.set_id,
    )
    if following is not None and may_follow(following.kind, before) and not may_follow(following.kind, after(event)):
        raise Refused(then(item, following), "at")
    return happened(session, who, item, event=event)


def _said_before(item: Item, label: str) -> Whereabouts | None:
    return Whereabouts(standing="aboard", drive_id=item.came_off_id, drive=label) if item.came_off_id else None


def _place(session: Session, going: Going) -> str:
    place = " ".join(going.place.split())[:100]
    if going.kind in PLACE_NEEDED:
        there = bin_at(session, place)
        return there.label if there else place
    towards = TOWARDS.get(going.kind, "")
    if towards.endswith(" to ") and place.casefold().startswith("to "):  # "to whom?" - "to the ferry shed"
        place = place[3:].lstrip()
    return f"{towards}{place}" if place else going.kind


def contradiction(item: Item, before: Whereabouts) -> str:
    """Where the register believes it to be, since when, and how to settle it."""
    since = f" since {before.since.astimezone():%-d %b %Y}" if before.since else ""
    return (
        f"The register has {item.tag} {before.said}{since}. {SETTLES[before.standing]}; "
        f"or, if that is wrong, undo that move on the page of {item.tag}."
    )


def _must_be_free(session: Session, item: Item, drive_id: int | None, label: str) -> None:
    """A shaft line carries one propeller and one shaft."""
    if item.kind not in ONE_A_LINE:
        return
    there = session.scalar(
        select(Item.tag).where(Item.aboard_id == drive_id, Item.kind == item.kind, Item.id != item.id)
    )
    if there is not None:
        raise Refused(f"{there} is on {label}. Take that off first.", "drive_id")
