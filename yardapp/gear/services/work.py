"""Work on a thing: what was done, by whom, what it cost; its figures as found and as left; and what was declined."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.gear.figures import WORK
from yardapp.gear.models import Event, Item
from yardapp.gear.services.evidence import Said, add_evidence, refresh
from yardapp.gear.services.happening import happened, on_that_day
from yardapp.gear.services.items import item_by_tag
from yardapp.people import services as people
from yardapp.people.services import Who

AS_FOUND, AS_LEFT = "as found", "as left"
A_MOMENT = timedelta(seconds=1)  # what was found was so just before the work


@dataclass(frozen=True, kw_only=True)
class Bill:
    """Who did a piece of work, and what it cost, as written."""

    by_whom: str = ""
    cost: str = ""


def record_work(
    session: Session,
    who: Who,
    tag: str,
    kind: str,
    *left: Said,
    found: Sequence[Said] = (),
    at: datetime | None = None,
    note: str = "",
    bill: Bill = Bill(),
) -> tuple[Item, Event]:
    """Write down work; figures that it changes, read before it, no longer speak. As found and as left are two facts.

    Gives the thing, and the line of history that papers are put to.

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
    on_that_day(at)
    item = item_by_tag(session, who, tag, for_change=True)
    event = happened(session, who, item, kind, at=at, note=note, by_whom=bill.by_whom[:120], cost=bill.cost[:40])
    refresh(session, item)
    before = [_said_with(one, event, AS_FOUND, event.at - A_MOMENT) for one in found]
    add_evidence(session, who, item, *before, *(_said_with(one, event, AS_LEFT, event.at) for one in left))
    item.version += 1
    people.note(session, who, kind, "item", item.id)
    return item, event


def _said_with(said: Said, event: Event, stage: str, true_from: datetime) -> Said:
    """A figure given with the work speaks of what it found or of what it left."""
    note = said.note or f"{stage}, {event.kind}"
    return replace(said, true_from=true_from, source=stage, source_id=event.id, note=note)


def decline_work(
    session: Session, who: Who, tag: str, *, offered: str, declined_by: str, at: datetime | None = None, why: str = ""
) -> Item:
    """Write down what was offered and the owner declined: years later it is evidence.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Refused
        What was offered or who declined is missing, or the day has not come.
    """
    who.must("record")
    if not offered.strip():
        raise Refused("What was offered?", "offered")
    if not declined_by.strip():
        raise Refused("Who declined it? A name is read years later.", "declined_by")
    on_that_day(at)
    item = item_by_tag(session, who, tag, for_change=True)
    happened(
        session, who, item, "declined", at=at, note=offered.strip(), by_whom=declined_by.strip()[:120], why=why[:300]
    )
    people.note(session, who, "declined", "item", item.id)
    return item
