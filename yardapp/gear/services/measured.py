"""When things were last measured and looked over, as rows for other rooms to build on."""

from typing import Any

from sqlalchemy import Integer, cast, func, literal, null, select

from yardapp.gear.models import Event, Evidence


def measured_rows(items: Any) -> Any:
    """Item, `measured`, nothing more, when last: each of `items` of which a size was measured."""
    at = func.max(func.coalesce(Evidence.true_from, Evidence.at)).label("at")
    chosen = select(*_labelled(Evidence.item_id, "measured"), at)
    is_size = Evidence.value.is_not(None)
    return chosen.where(Evidence.item_id.in_(items), Evidence.basis == "measured", is_size).group_by(Evidence.item_id)


def inspected_rows(items: Any) -> Any:
    """Item, `looked`, nothing more, when last: each of `items` that was inspected."""
    chosen = select(*_labelled(Event.item_id, "looked"), func.max(Event.at).label("at"))
    return chosen.where(Event.item_id.in_(items), Event.kind == "inspected").group_by(Event.item_id)


def _labelled(item_id: Any, what: str) -> tuple[Any, ...]:
    return (
        item_id,
        literal(what).label("what"),
        literal("").label("word"),
        cast(null(), Integer).label("blade"),
    )
