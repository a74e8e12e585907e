"""Whose a reading may be that was taken while two tags hung crossed, for what other rooms keep of a thing."""

from typing import Any

from sqlalchemy import ColumnElement, ScalarSelect, literal_column, select
from sqlalchemy.orm import InstrumentedAttribute, aliased

from yardapp.gear.models import Event, Item

SWAPPED: ColumnElement[str] = literal_column("'tags swapped'")  # in the query itself: so its own index is used


def perhaps_of(item_id: InstrumentedAttribute[Any], at: InstrumentedAttribute[Any]) -> ScalarSelect[str]:
    """The tag of the thing that was perhaps meant at a moment; empty where no tags were crossed then.

    A column to be chosen beside a row that names the thing by `item_id`. A swap that was undone says nothing.
    """
    swap, undoing, other = aliased(Event), aliased(Event), aliased(Item)
    undone = select(undoing.id).where(undoing.undoes_id == swap.id).exists()
    chosen = select(other.tag).join(swap, swap.other_id == other.id)
    chosen = chosen.where(swap.item_id == item_id, swap.kind == SWAPPED, swap.since < at, swap.at > at, ~undone)
    return chosen.order_by(swap.at.desc()).limit(1).correlate(item_id.parent, at.parent).scalar_subquery()
