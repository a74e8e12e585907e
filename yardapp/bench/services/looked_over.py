"""Who looked a propeller over and what is open on it, as rows for other rooms to build on: no page of the bench's."""

from typing import Any

from sqlalchemy import Integer, cast, func, literal, null, select

from yardapp.bench.models import Fault, FaultClosing, Ring

SOUND = "rings"


def open_fault_rows(items: Any) -> Any:
    """Item, `fault`, its kind and severity, its blade, when: each fault that still stands on one of `items`."""
    said = func.coalesce(Fault.kind, "").concat("|").concat(Fault.severity)
    chosen = select(Fault.item_id, literal("fault").label("what"), said.label("word"), Fault.blade, Fault.at)
    return _standing(chosen).where(Fault.item_id.in_(items))


def look_rows(items: Any) -> Any:
    """Item, `looked`, nothing more, when last: each of `items` that somebody looked over or heard ring clear."""
    faults = select(Fault.item_id, Fault.at).where(Fault.item_id.in_(items))
    rings = select(Ring.item_id, Ring.at).where(Ring.heard == SOUND, Ring.item_id.in_(items))
    looks = faults.union_all(rings).subquery()
    at = func.max(looks.c.at).label("at")
    return select(
        looks.c.item_id, literal("looked").label("what"), literal("").label("word"), cast(null(), Integer), at
    ).group_by(looks.c.item_id)


def barred(item_id: Any) -> Any:
    """The clause that picks items with an open fault that bars them from turning."""
    return item_id.in_(_standing(select(Fault.item_id)).where(Fault.severity == "stop"))


def _standing(chosen: Any) -> Any:
    return chosen.outerjoin(FaultClosing, FaultClosing.fault_id == Fault.id).where(FaultClosing.id.is_(None))
