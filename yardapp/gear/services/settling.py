"""Where each thing is, derived from its moves; and who was on a shaft line when."""

from collections.abc import Iterable, Sequence

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.gear.figures import ONE_A_LINE
from yardapp.gear.models import Event, Item
from yardapp.gear.services.bins import bin_at
from yardapp.gear.services.evidence import words_of
from yardapp.gear.whereabouts import Move, Whereabouts, in_order, now_of, spells, standing_after


def then(item: Item, following: Move) -> str:
    """What was written of the time after, and does not go with it."""
    where = following.drive or following.place
    return f"{item.tag} {following.kind} on {following.at.astimezone():%-d %b %Y} ({where}): the two can't both be."


def must_have_been_free(session: Session, item: Item, lines: Sequence[Event]) -> None:
    """The same for days gone by: while this one was on, no other of its kind was."""
    drive_ids = {move.drive_id for move in in_order(lines) if standing_after(move) == "aboard"}
    if item.kind not in ONE_A_LINE:
        return
    for drive_id in drive_ids - {None}:
        mine = spells(lines, drive_id or 0)
        for tag, other in _others_on(session, item, drive_id or 0).items():
            for start, end in spells(other, drive_id or 0):
                if any((end is None or begun < end) and (ended is None or start < ended) for begun, ended in mine):
                    until = f"until {end.astimezone():%-d %b %Y}" if end else "and is on it now"
                    since = f"{start.astimezone():%-d %b %Y}"
                    raise Refused(f"{tag} was on that shaft line from {since} {until}.", "at")


def _others_on(session: Session, item: Item, drive_id: int) -> dict[str, list[Event]]:
    """Every other item of this kind that ever went on that drive, with its lines."""
    ever = select(Event.item_id).where(Event.drive_id == drive_id)
    chosen = select(Item.tag, Event).join(Event, Event.item_id == Item.id)
    chosen = chosen.where(Item.kind == item.kind, Item.id != item.id, Item.id.in_(ever), Item.standing != "merged")
    found: dict[str, list[Event]] = {}
    for tag, event in session.execute(chosen):
        found.setdefault(tag, []).append(event)
    return found


def history_of(session: Session, item: Item) -> list[Event]:
    """The item's own lines, as they were written."""
    return list(session.scalars(select(Event).where(Event.item_id == item.id).order_by(Event.id)))


def settle(session: Session, items: Iterable[Item]) -> None:
    """Derive from the moves where each item is: the one function that writes it."""
    items = list(items)
    lines = {item.id: history_of(session, item) for item in items}
    there = {item.id: now_of(lines[item.id]) for item in items}
    for item in items:  # two may change places: both step off before either steps on
        if item.aboard_id is not None and getattr(there[item.id], "drive_id", None) != item.aboard_id:
            item.standing, item.aboard_id = "here", None
    session.flush()
    with session.no_autoflush:
        for item in items:
            _stand(session, item, there[item.id] or Whereabouts(standing="here", place=item.place), lines[item.id])
    try:
        session.flush()
    except IntegrityError:
        raise Refused("Another was put on that shaft line at the same moment.", "drive_id") from None


def _stand(session: Session, item: Item, there: Whereabouts, lines: Sequence[Event]) -> None:
    there_bin = bin_at(session, there.place) if there.standing == "here" else None
    item.standing, item.aboard_id, item.place = there.standing, there.drive_id, there.place
    item.due_on = there.due_on
    item.bin_id = there_bin.id if there_bin else None
    item.came_off_id = _came_off(lines) or _came_off_as_another(session, item)
    item.version += 1
    item.words = words_of(item)


def _came_off(lines: Sequence[Event]) -> int | None:
    """The drive that it last came off."""
    last, on = None, None
    for move in in_order(lines):
        now_on = move.drive_id if standing_after(move) == "aboard" else None
        if on is not None and now_on != on:
            last = on
        elif move.kind == "came off" and move.drive_id is not None:
            last = move.drive_id
        on = now_on
    return last


def _came_off_as_another(session: Session, item: Item) -> int | None:
    """The same, under another tag that the thing had once."""
    return session.scalar(
        select(Item.came_off_id).where(Item.merged_into_id == item.id, Item.came_off_id.is_not(None)).limit(1)
    )
