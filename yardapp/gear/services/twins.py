"""What was written of one thing under whichever of its tags: of a thing logged twice, both histories are its own."""

from typing import Any

from sqlalchemy import ColumnElement, Select, func, or_, select
from sqlalchemy.orm import InstrumentedAttribute, aliased

from yardapp.gear.models import Item


def kept_id(item: Any = Item) -> ColumnElement[int]:
    """The number of the tag that is kept: a column beside an item."""
    return func.coalesce(item.merged_into_id, item.id)


def kept_ids(*where: ColumnElement[bool]) -> Select[int]:
    """The numbers of the tags that are kept, of things that are asked for by any tag."""
    return select(kept_id()).where(*where).correlate(None)


def under_any_tag(item_id: InstrumentedAttribute[Any], kept: Any) -> ColumnElement[bool]:
    """The clause "written of one of these", be it under the tag that was kept or under one that leads to it."""
    twin = aliased(Item)
    return item_id.in_(select(twin.id).where(or_(twin.id.in_(kept), twin.merged_into_id.in_(kept))))
