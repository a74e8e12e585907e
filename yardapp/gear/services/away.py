"""What is at a shop or lent, when it is expected back, and who was asked about what is late."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import ScalarSelect, func, select
from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.gear.models import Event, Item
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import item_by_tag, seen_by
from yardapp.gear.services.search import ItemRow, listed, row_of
from yardapp.people import services as people
from yardapp.people.services import Who

OUT = ("shop", "lent")
SHOWN = 500


@dataclass(frozen=True, kw_only=True)
class Away:
    """One thing that is to come back."""

    item: ItemRow
    due_on: date | None
    since: datetime | None
    chased: datetime | None
    days_late: int


def away(session: Session, who: Who, today: date) -> Sequence[Away]:
    """Everything at a shop or lent, the latest first; what nobody has promised for a day comes last."""
    chosen = listed().add_columns(
        Item.due_on,
        _last(("to shop", "lent")).label("since"),
        _last(("chased",)).label("chased"),
    )
    chosen = chosen.where(Item.standing.in_(OUT), seen_by(who))
    rows = session.execute(chosen.order_by(Item.due_on.is_(None), Item.due_on, Item.id).limit(SHOWN))
    return [
        Away(
            item=row_of(row),
            due_on=row.due_on,
            since=row.since,
            chased=row.chased if row.chased and row.since and row.chased >= row.since else None,
            days_late=max((today - row.due_on).days, 0) if row.due_on else 0,
        )
        for row in rows
    ]


def _last(kinds: tuple[str, ...]) -> ScalarSelect[datetime]:
    return (
        select(func.max(Event.at))
        .where(Event.item_id == Item.id, Event.kind.in_(kinds))
        .correlate(Item)
        .scalar_subquery()
    )


def count_late(session: Session, who: Who, today: date) -> int:
    """How many things should be back by now."""
    chosen = select(func.count(Item.id)).where(Item.standing.in_(OUT), Item.due_on < today, seen_by(who))
    return session.scalar(chosen) or 0


def chase(session: Session, who: Who, tag: str, *, said: str, due_on: date | None = None) -> Item:
    """Write down that somebody was asked where it is, what they said, and what they promise now.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Refused
        It is neither at a shop nor lent, or nothing was said.
    """
    who.must("record")
    item = item_by_tag(session, who, tag, for_change=True)
    if item.standing not in OUT:
        raise Refused(f"{item.tag} is neither at a shop nor lent.")
    if not said.strip():
        raise Refused("Who was asked, and what did they say?", "said")
    happened(session, who, item, "chased", note=said.strip(), due_on=due_on)
    if due_on is not None:
        item.due_on = due_on
    item.version += 1
    people.note(session, who, "chased", "item", item.id)
    return item
