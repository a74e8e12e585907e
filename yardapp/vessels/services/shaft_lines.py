"""Drives in lists and by number, and how each is called."""

from sqlalchemy import Select, select, union
from sqlalchemy.orm import Session

from yardapp.db import words_like
from yardapp.errors import NotFound
from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Happening, Vessel
from yardapp.vessels.services.boats import may_see_vessel


def clearance_from_centre(
    hull_clearance_m: float | None, hull_clearance_from: str, shaft_diameter_m: float | None
) -> float | None:
    """Distance from the shaft's centre to the hull, or None where the reading can't be brought to the centre."""
    if hull_clearance_m is None or hull_clearance_from == "centre":
        return hull_clearance_m
    return None if shaft_diameter_m is None else hull_clearance_m + shaft_diameter_m / 2


def label_of(vessel: str | None, position: str) -> str:
    """How a drive is called: the boat's present name and where in her it stands."""
    return f"{vessel or 'no boat'}, {position}"


def drive_names() -> Select[int, str, str]:
    """Drive, boat's name and position of every drive, as a query for other rooms to build on."""
    return select(Drive.id.label("drive_id"), Vessel.name.label("vessel"), Drive.position).outerjoin(
        Vessel, Vessel.id == Drive.vessel_id
    )


def drives_of_words(session: Session, word: str) -> Select[int]:
    """The numbers of the drives that stand or once stood in boats any of whose names or owners hold `word`."""
    boats = select(Vessel.id).where(words_like(session, "vessels", Vessel, word))
    here = select(Drive.id.label("id")).where(Drive.vessel_id.in_(boats))
    moved = select(Happening.drive_id).where(Happening.vessel_id.in_(boats), Happening.kind == "moved")
    found = union(here, moved.where(Happening.drive_id.is_not(None))).subquery()
    return select(found.c.id)


def drive_by_id(session: Session, who: Who, drive_id: int, *, for_change: bool = False) -> tuple[Drive, Vessel]:
    """A drive and the boat it stands in.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    chosen = select(Drive, Vessel).join(Vessel, Vessel.id == Drive.vessel_id)
    chosen = chosen.where(Drive.id == drive_id, may_see_vessel(who))
    found = session.execute(chosen.with_for_update(of=[Drive, Vessel]) if for_change else chosen).first()
    if found is None:
        raise NotFound("There is no such drive here.")
    return found[0], found[1]


def drive_label(session: Session, drive_id: int, who: Who) -> str:
    """How that drive is called.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    drive, vessel = drive_by_id(session, who, drive_id)
    return label_of(vessel.name, drive.position)


def drive_choices(session: Session, who: Who, limit: int = 2000) -> list[tuple[int, str]]:
    """Number and label of each drive in use, for a list to choose from."""
    rows = session.execute(
        select(Drive.id, Vessel.name, Drive.position)
        .join(Vessel, Vessel.id == Drive.vessel_id)
        .where(Drive.is_in_use, may_see_vessel(who))
        .order_by(Vessel.name, Drive.position)
        .limit(limit)
    )
    return [(row.id, label_of(row.name, row.position)) for row in rows]


def list_drives(
    session: Session, who: Who, *, after: int = 0, limit: int = 50, is_in_use: bool | None = None
) -> list[tuple[Drive, str]]:
    """Drives and their labels by number, from the one after `after`; those in use, those out of use, or all."""
    chosen = select(Drive, Vessel.name).join(Vessel, Vessel.id == Drive.vessel_id)
    chosen = chosen.where(Drive.id > after, may_see_vessel(who))
    if is_in_use is not None:
        chosen = chosen.where(Drive.is_in_use == is_in_use)
    rows = session.execute(chosen.order_by(Drive.id).limit(limit))
    return [(drive, label_of(name, drive.position)) for drive, name in rows]
