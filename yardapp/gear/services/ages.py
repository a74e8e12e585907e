"""The ages of a thing: each piece of work that changed it ends one and begins the next."""

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import ColumnElement, ScalarSelect, and_, or_, select
from sqlalchemy.orm import InstrumentedAttribute

from yardapp.gear.figures import WORK
from yardapp.gear.models import Event, Item

Case = tuple[ColumnElement[bool], frozenset[str]]


def first_work_after(
    at: InstrumentedAttribute[datetime], cases: Sequence[Case]
) -> tuple[ScalarSelect[str], ScalarSelect[datetime]]:
    """What was first done to an item after a moment that leaves some of its figures in doubt, and when.

    Each case is a clause and the figures that it stands for. Two columns to be chosen beside the item itself.
    """
    doubted = [
        and_(clause, Event.kind.in_([kind for kind, left_in_doubt in WORK.items() if left_in_doubt & figures]))
        for clause, figures in cases
    ]
    chosen = select(Event).where(Event.item_id == Item.id, Event.at > at, or_(*doubted)).order_by(Event.at).limit(1)
    kind, when = (chosen.with_only_columns(column).correlate_except(Event) for column in (Event.kind, Event.at))
    return kind.scalar_subquery(), when.scalar_subquery()
