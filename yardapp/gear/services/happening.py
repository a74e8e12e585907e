"""One line of an item's history: the only door through which one is written."""

from datetime import datetime
from typing import Any

from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.gear.models import Event, Item
from yardapp.people.services import Who


def on_that_day(at: datetime | None) -> None:
    """Refuse a day that has not come.

    Raises
    ------
    Refused
        It lies ahead.
    """
    if at is not None and at > now():
        raise Refused("That moment has not come yet.", "at")


def happened(
    session: Session, who: Who, item: Item, kind: str = "", *, event: Event | None = None, **said: Any
) -> Event:
    """Write one line, now or at the moment that it says, by this person."""
    event = event or Event(kind=kind, at=said.pop("at", None) or now(), **{"place": item.place, **said})
    event.item_id, event.noted = item.id, now()
    event.person_id, event.said_by = who.person_id, who.name
    event.note = (event.note or "")[:300]
    session.add(event)
    session.flush()  # what follows reads the history back, or names this line
    return event
