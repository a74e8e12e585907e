"""Which drives stood in a boat, where in her, and from when to when."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session, aliased

from yardapp.errors import NotFound
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.timelines import Strand, strand
from yardapp.vessels.models import Drive, Happening, Vessel
from yardapp.vessels.services.boats import may_see_vessel
from yardapp.vessels.services.story import OF_OTHER_OWNERS


@dataclass(frozen=True, kw_only=True)
class Stay:
    """One drive in one place of a boat; None: since ever, or until now."""

    drive_id: int
    position: str
    since: datetime | None = None
    until: datetime | None = None

    def holds(self, at: datetime) -> bool:
        """Whether it stood there at that moment."""
        return (self.since is None or self.since <= at) and (self.until is None or at < self.until)


def stays_in(session: Session, who: Who, vessel_id: int) -> tuple[Vessel, list[Stay]]:
    """A boat, and every drive that stands or stood in her. One query.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    once = select(Happening.drive_id).where(Happening.vessel_id == vessel_id, Happening.kind == "moved")
    hers = or_(Drive.vessel_id == vessel_id, Drive.id.in_(once.where(Happening.drive_id.is_not(None))))
    moved = (Happening.drive_id == Drive.id) & (Happening.kind == "moved")
    rows = session.execute(
        select(Vessel, Drive, Happening)
        .select_from(Vessel)
        .outerjoin(Drive, hers)
        .outerjoin(Happening, moved)
        .where(Vessel.id == vessel_id, may_see_vessel(who))
        .order_by(Drive.id, Happening.id)
    ).all()
    if not rows:
        raise NotFound("There is no such boat here.")
    drives: dict[int, tuple[Drive, list[Happening]]] = {}
    for _vessel, drive, move in rows:
        if drive is not None:
            drives.setdefault(drive.id, (drive, []))[1].extend([move] if move else [])
    stays = [stay for drive, moves in drives.values() for stay in stays_of(drive, moves, vessel_id)]
    return rows[0].Vessel, stays


def stays_of_drive(session: Session, who: Who, drive_id: int) -> tuple[Drive, Vessel, list[Stay]]:
    """A drive, the boat it stands in, and where it stood: of an owner, in the owner's own boat alone. One query.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    moved = (Happening.drive_id == Drive.id) & (Happening.kind == "moved")
    rows = session.execute(
        select(Drive, Vessel, Happening)
        .join(Vessel, Vessel.id == Drive.vessel_id)
        .outerjoin(Happening, moved)
        .where(Drive.id == drive_id, may_see_vessel(who))
        .order_by(Happening.id)
    ).all()
    if not rows:
        raise NotFound("There is no such drive here.")
    drive, vessel = rows[0].Drive, rows[0].Vessel
    if who.may("see"):
        return drive, vessel, [Stay(drive_id=drive.id, position=drive.position)]
    return drive, vessel, stays_of(drive, [row.Happening for row in rows if row.Happening], vessel.id)


def stays_of(drive: Any, moves: Iterable[Any], vessel_id: int) -> list[Stay]:
    """When a drive stood in that boat: each move tells where it stood before."""
    found, since = [], None
    for move in moves:
        if move.before.get("vessel_id") == vessel_id:
            position = str(move.before.get("position") or drive.position)
            found.append(Stay(drive_id=drive.id, position=position, since=since, until=move.at))
        since = move.at
    if drive.vessel_id == vessel_id:
        found.append(Stay(drive_id=drive.id, position=drive.position, since=since))
    return found


def happenings_strand(*, is_all: bool, vessel_id: Any = None, drive_id: Any = None) -> Strand:
    """What happened to a boat, or to a drive; who had a boat before is not the present owner's to read."""
    where = [Happening.vessel_id == vessel_id] if drive_id is None else [Happening.drive_id == drive_id]
    if drive_id is not None and vessel_id is not None:
        where.append(Happening.vessel_id == vessel_id)
    if not is_all:
        where.append(Happening.kind.not_in(OF_OTHER_OWNERS))
    return strand(
        "boat",
        "boat",
        Happening,
        *where,
        joined=[(Drive, Drive.id == Happening.drive_id)],
        kind=Happening.kind,
        note=Happening.note,
        drive=Drive.position,
    )


def standing_at(stays: Sequence[Stay], at: datetime) -> list[Stay]:
    """The drives that stood in her at that moment, port first."""
    return sorted((stay for stay in stays if stay.holds(at)), key=lambda stay: (stay.position, stay.drive_id))


def _named() -> tuple[Any, Any, Any]:
    boat = aliased(Vessel)
    return boat, boat.id, boat.name


people.NAMED["vessel"] = _named
