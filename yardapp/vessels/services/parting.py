"""A drive and its boat part company: it is moved to another, taken out of use, taken into use again."""

from typing import Any

from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Vessel
from yardapp.vessels.services.boats import happened, vessel_by_id
from yardapp.vessels.services.drives import ASKS, POSITIONS, last_hand, one_a_position
from yardapp.vessels.services.shaft_lines import drive_by_id, label_of

# The room is the boat's own: what was read in the one does not hold in the other.
ROOM = ("hub_space_m", "u_hub_space_m", "hull_clearance_m", "u_hull_clearance_m")


def move_drive(
    session: Session,
    who: Who,
    drive_id: int,
    version: int,
    vessel_id: int | None,
    *,
    position: str | None = None,
    note: str = "",
) -> Drive:
    """Move a drive to another boat; what is on its shaft goes with it, the room stays, and both histories say so.

    Raises
    ------
    NotFound
        There is no such drive or boat.
    Superseded
        Somebody saved this drive since `version`.
    Refused
        No boat was chosen, she is the one it stands in, or she has a drive in that position already.
    """
    who.must("change")
    drive, old = drive_by_id(session, who, drive_id, for_change=True)
    position = position or drive.position
    if position not in POSITIONS:
        raise Refused(ASKS["position"], "position")
    if vessel_id is None:
        raise Refused("Which boat does it go into?", "vessel_id")
    if drive.version != version:
        theirs = {"vessel_id": str(old.id), "position": drive.position}
        raise Superseded(drive.version, theirs, last_hand(session, drive))
    if vessel_id == old.id:
        raise Refused(f"It stands in {old.name} now. Choose another boat.", "vessel_id")
    _move(session, who, drive, old, vessel_by_id(session, who, vessel_id, for_change=True), position, note)
    return drive


def _move(session: Session, who: Who, drive: Drive, old: Vessel, new: Vessel, position: str, note: str) -> None:
    was = label_of(old.name, drive.position)
    before: dict[str, Any] = {"vessel_id": old.id, "vessel": old.name, "position": drive.position}
    before |= {what: getattr(drive, what) for what in ROOM if getattr(drive, what) is not None}
    for what in ROOM:
        setattr(drive, what, None)
    drive.vessel_id, drive.position = new.id, position
    one_a_position(session, drive)
    drive.version, drive.changed = drive.version + 1, now()
    went = label_of(new.name, position)
    happened(session, who, old.id, "moved", drive_id=drive.id, note=_noted(f"to {went}", note), before=before)
    # Its own history tells the move once; the boat that gets it has a line of her own.
    happened(session, who, new.id, "got a drive", note=_noted(f"{position}, from {was}", note))
    people.note(session, who, "moved", "drive", drive.id, to=new.id)


def _noted(said: str, note: str) -> str:
    return f"{said}. {note.strip()}" if note.strip() else said


def retire_drive(session: Session, who: Who, drive_id: int, *, note: str = "") -> Drive:
    """Take a drive out of use: it is offered nowhere any more, and its record stays.

    Raises
    ------
    NotFound
        There is no such drive.
    Refused
        It is out of use already.
    """
    return _use(session, who, drive_id, note, is_in_use=False)


def return_drive(session: Session, who: Who, drive_id: int, *, note: str = "") -> Drive:
    """Take a drive into use again.

    Raises
    ------
    NotFound
        There is no such drive.
    Refused
        It is in use already, or another one stands in its position by now.
    """
    return _use(session, who, drive_id, note, is_in_use=True)


def _use(session: Session, who: Who, drive_id: int, note: str, *, is_in_use: bool) -> Drive:
    who.must("change")
    drive, vessel = drive_by_id(session, who, drive_id, for_change=True)
    if drive.is_in_use == is_in_use:
        raise Refused(f"It is {'in' if is_in_use else 'out of'} use already.")
    drive.is_in_use = is_in_use
    one_a_position(session, drive)
    drive.version, drive.changed = drive.version + 1, now()
    kind = "into use" if is_in_use else "out of use"
    happened(session, who, vessel.id, kind, drive_id=drive.id, note=note.strip())
    people.note(session, who, kind, "drive", drive.id)
    return drive
