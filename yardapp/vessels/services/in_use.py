"""Drives in use as plain rows, many at once: for whoever ranks them."""

from collections.abc import Collection, Sequence
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Vessel
from yardapp.vessels.services.boats import may_see_vessel
from yardapp.vessels.sizes import USUAL

SIZES = tuple(column for name in USUAL for column in (name, f"u_{name}"))


def drive_rows(session: Session, who: Who, *, words: str = "", limit: int = 20_000) -> Sequence[Any]:
    """Each drive's number, place, hand and shaft end, with the boat and her owner; `words` are part of either."""
    chosen = select(
        Drive.id.label("drive_id"),
        Drive.position,
        Drive.hand,
        Drive.hull_clearance_from,
        Vessel.id.label("vessel_id"),
        Vessel.name.label("vessel"),
        Vessel.owner,
        Vessel.length_m.label("vessel_length_m"),
        Vessel.block_ratio,
        Drive.rated_power_w,
        *(getattr(Drive, name) for name in SIZES),
    )
    chosen = chosen.join(Vessel, Vessel.id == Drive.vessel_id).where(Drive.is_in_use, may_see_vessel(who))
    if words:
        chosen = chosen.where(
            or_(Vessel.name.icontains(words, autoescape=True), Vessel.owner.icontains(words, autoescape=True))
        )
    return session.execute(chosen.order_by(Drive.id).limit(limit)).all()


def drives_by_id(session: Session, who: Who, drive_ids: Collection[int]) -> dict[int, tuple[Drive, Vessel]]:
    """Those of the drives that this person may know of, in use or not, each with the boat it stands in."""
    if not drive_ids:
        return {}
    chosen = select(Drive, Vessel).join(Vessel, Vessel.id == Drive.vessel_id)
    chosen = chosen.where(Drive.id.in_(drive_ids), may_see_vessel(who))
    return {drive.id: (drive, vessel) for drive, vessel in session.execute(chosen)}
