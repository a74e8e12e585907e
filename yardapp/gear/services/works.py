"""All work on one thing: each piece with its figures as found and as left and its papers. Two queries."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from sqlalchemy import and_, select
from sqlalchemy.orm import Session

from yardapp.gear.figures import WORK
from yardapp.gear.models import Event, Evidence, Item, Paper
from yardapp.gear.services.items import item_by_tag
from yardapp.gear.services.twins import under_any_tag
from yardapp.gear.services.work import AS_FOUND, AS_LEFT
from yardapp.people.services import Who


@dataclass
class Work:
    """One piece of work, or one that was declined."""

    event: Event
    found: dict[str, Evidence] = field(default_factory=dict)
    left: dict[str, Evidence] = field(default_factory=dict)
    papers: dict[int, Paper] = field(default_factory=dict)


def works_of(session: Session, who: Who, tag: str) -> tuple[Item, Sequence[Work]]:
    """An item and all work on it, newest first, under each tag that it has had.

    Raises
    ------
    NotFound
        Nothing carries the tag, or this person may not know of it.
    """
    item = item_by_tag(session, who, tag)
    said = and_(
        Evidence.source.in_((AS_FOUND, AS_LEFT)), Evidence.source_id == Event.id, Evidence.item_id == Event.item_id
    )
    rows = session.execute(
        select(Event, Evidence, Paper)
        .outerjoin(Evidence, said)
        .outerjoin(Paper, Paper.event_id == Event.id)
        .where(under_any_tag(Event.item_id, [item.id]), Event.kind.in_((*WORK, "declined")))
        .order_by(Event.at.desc(), Event.id.desc(), Evidence.id, Paper.id)
    )
    works: dict[int, Work] = {}
    for row in rows:
        work = works.setdefault(row.Event.id, Work(row.Event))
        if row.Evidence is not None:
            (work.found if row.Evidence.source == AS_FOUND else work.left)[row.Evidence.what] = row.Evidence
        if row.Paper is not None:
            work.papers[row.Paper.id] = row.Paper
    return item, list(works.values())
