"""Log things, find them by tag, move them, change their records."""

from collections.abc import Mapping
from datetime import datetime

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.gear.figures import WORK
from yardapp.gear.models import Counter, Event, Item
from yardapp.gear.services.evidence import Said, add_evidence, refresh, words_of
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

LETTERS = {"propeller": "P", "shaft": "S"}
HAPPENINGS = frozenset({"logged", "came off", "went on", "moved", "sold", "scrapped", "lost", "found", *WORK})


def next_tag(session: Session, kind: str) -> str:
    """The next tag of this kind: P-0001 for propellers, S-0001 for shafts."""
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
) -> Item:
    """Give a thing a tag, and keep what is known of it. An owner's entry waits for the office as a proposal.

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
    if not place.strip():
        raise Refused("Where was it put? A rack, a bin, a corner of the shed.", "place")
    if came_off_id is not None:
        vessels.drive_label(session, came_off_id, who)
    item = Item(
        tag=next_tag(session, kind),
        kind=kind,
        place=" ".join(place.split())[:120],
        note=note.strip(),
        came_off_id=came_off_id,
        is_proposed=not who.may("record"),
        logged_by=who.person_id,
        logged=now(),
    )
    session.add(item)
    session.flush()  # events and evidence name the item's number
    _happened(session, who, item, "came off" if came_off_id else "logged", at=at, drive_id=came_off_id)
    add_evidence(session, who, item, *said)
    people.note(session, who, "logged", "item", item.id, tag=item.tag)
    return item


def _happened(
    session: Session,
    who: Who,
    item: Item,
    kind: str,
    *,
    at: datetime | None = None,
    drive_id: int | None = None,
    note: str = "",
) -> Event:
    event = Event(
        item_id=item.id,
        kind=kind,
        at=at or now(),
        noted=now(),
        person_id=who.person_id,
        said_by=who.name,
        drive_id=drive_id,
        drive=vessels.drive_label(session, drive_id, who) if drive_id else "",
        place=item.place,
        note=note[:300],
    )
    session.add(event)
    session.flush()  # `refresh` reads the events back
    return event


def item_by_tag(session: Session, who: Who, tag: str, *, kind: str | None = None, for_change: bool = False) -> Item:
    """The item that carries `tag`, when this person may see it.

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


def seen_by(who: Who) -> ColumnElement[bool]:
    """The clause that keeps an owner to what is on their own boats and what they proposed."""
    if who.may("see"):
        return Item.id > 0
    own = vessels.drives_of_owner(who)
    return or_(Item.aboard_id.in_(own), Item.came_off_id.in_(own), Item.logged_by == who.person_id)


def move_item(
    session: Session,
    who: Who,
    tag: str,
    kind: str,
    *,
    place: str = "",
    drive_id: int | None = None,
    at: datetime | None = None,
    note: str = "",
) -> Item:
    """Put an item on a drive or take it off to a place; it is in exactly one place at a time.

    Raises
    ------
    NotFound
        Nothing carries the tag, or there is no such drive.
    Refused
        Another propeller is on that drive, the place is missing, or the day has not come.
    """
    who.must("record")
    item = item_by_tag(session, who, tag, for_change=True)
    if at is not None and at > now():
        raise Refused("That moment has not come yet.", "at")
    if kind == "went on":
        _put_on(session, who, item, drive_id)
    else:
        _put_down(item, kind, place)
    item.version += 1
    _happened(
        session, who, item, kind, at=at, drive_id=drive_id or item.came_off_id if kind == "came off" else drive_id
    )
    item.words = words_of(item)
    people.note(session, who, kind, "item", item.id, place=item.place)
    return item


def _put_on(session: Session, who: Who, item: Item, drive_id: int | None) -> None:
    if drive_id is None:
        raise Refused("Which boat and shaft did it go on?", "drive_id")
    label = vessels.drive_label(session, drive_id, who)
    there = session.scalar(
        select(Item.tag).where(Item.aboard_id == drive_id, Item.kind == item.kind, Item.id != item.id)
    )
    if there is not None:
        raise Refused(f"{there} is on {label}. Take that off first.", "drive_id")
    item.aboard_id, item.place = drive_id, ""  # the boat's name is looked up: she may be renamed
    try:
        session.flush()
    except IntegrityError:
        raise Refused(f"Another {item.kind} was put on {label} at the same moment.", "drive_id") from None


def _put_down(item: Item, kind: str, place: str) -> None:
    if kind not in ("came off", "moved", "sold", "scrapped", "lost", "found"):
        raise Refused(f"`{kind}` is not a move.", "kind")
    if not place.strip() and kind in ("came off", "moved", "found"):
        raise Refused("Where was it put?", "place")
    if kind == "came off":
        if item.aboard_id is None:
            raise Refused(f"{item.tag} is on no boat.", "kind")
        item.came_off_id = item.aboard_id
    item.aboard_id = None
    item.place = " ".join(place.split())[:120] or kind


def record_work(
    session: Session, who: Who, tag: str, kind: str, *said: Said, at: datetime | None = None, note: str = ""
) -> Item:
    """Write down work that changed the item; figures read before it no longer speak.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Refused
        That is no work that the register knows, or the day has not come.
    """
    who.must("record")
    if kind not in WORK:
        raise Refused(f"`{kind}` is none of {', '.join(WORK)}.", "kind")
    if at is not None and at > now():
        raise Refused("That day has not come yet.", "at")
    item = item_by_tag(session, who, tag, for_change=True)
    event = _happened(session, who, item, kind, at=at, note=note)
    refresh(session, item)
    add_evidence(session, who, item, *(_since(one, event) for one in said))
    item.version += 1
    people.note(session, who, kind, "item", item.id)
    return item


def _since(said: Said, event: Event) -> Said:
    """A figure given with the work speaks of its outcome."""
    return Said(**{**said.__dict__, "true_from": event.at, "source": "event", "source_id": event.id})


def change_item(
    session: Session, who: Who, tag: str, version: int, *, place: str | None = None, note: str | None = None
) -> Item:
    """Change the record itself: its place and its note. Figures change by evidence alone.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Superseded
        Somebody saved this record since `version`.
    """
    who.must("change")
    item = item_by_tag(session, who, tag, for_change=True)
    wanted = _wanted(item, place, note)
    if item.version != version and any(getattr(item, name) != value for name, value in wanted.items()):
        raise Superseded(item.version, {"place": item.place, "note": item.note}, _last_hand(session, item))
    if wanted.get("place", item.place) != item.place:
        item.place = wanted["place"]
        _happened(session, who, item, "moved")
    item.note = wanted.get("note", item.note)
    item.version += 1
    item.words = words_of(item)
    people.note(session, who, "changed", "item", item.id, **wanted)
    return item


def _wanted(item: Item, place: str | None, note: str | None) -> Mapping[str, str]:
    wanted = {} if note is None else {"note": note.strip()}
    if place is not None and item.aboard_id is not None and place.strip():
        raise Refused(f"{item.tag} is on a boat. Take it off with “Move”.", "place")
    if place is not None and item.aboard_id is None:
        if not place.strip():
            raise Refused("Where is it? A rack, a bin, a corner of the shed.", "place")
        wanted["place"] = " ".join(place.split())[:120]
    return wanted


def _last_hand(session: Session, item: Item) -> str:
    trail = people.audit_of(session, "item", item.id, limit=1)
    return trail[0].name if trail else "Somebody"


def accept_proposal(session: Session, who: Who, tag: str) -> Item:
    """Take an owner's proposal into the register.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    """
    who.must("change")
    item = item_by_tag(session, who, tag, for_change=True)
    item.is_proposed = False
    item.version += 1
    people.note(session, who, "accepted", "item", item.id)
    return item
