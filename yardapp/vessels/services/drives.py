"""Drives: engine, gear, shaft line, and the room for a propeller."""

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from yardapp.db import now, words_like
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Happening, Vessel
from yardapp.vessels.services.boats import may_see_vessel

POSITIONS = ("centre", "port", "starboard")
DRIVE_FIGURES = (
    "rated_power_w",
    "rated_speed_rps",
    "reduction_ratio",
    "shaft_diameter_m",
    "taper",
    "taper_length_m",
    "keyway_width_m",
    "keyway_depth_m",
    "hub_space_m",
    "hull_clearance_m",
)
ENGINE = ("engine", "rated_power_w", "rated_speed_rps", "reduction_ratio")
READ_OFF_THE_BOAT = DRIVE_FIGURES[3:]
WORDS = ("position", "engine", "hand", "hull_clearance_from", "note")


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
    """The numbers of the drives on boats any of whose names or owners hold `word`, as a query to build on."""
    return select(Drive.id).join(Vessel, Vessel.id == Drive.vessel_id).where(words_like(session, "vessels", Vessel, word))


def drive_by_id(session: Session, who: Who, drive_id: int, *, for_change: bool = False) -> tuple[Drive, Vessel]:
    """A drive and the boat it stands in.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    chosen = select(Drive, Vessel).join(Vessel, Vessel.id == Drive.vessel_id)
    chosen = chosen.where(Drive.id == drive_id, may_see_vessel(who))
    found = session.execute(chosen.with_for_update(of=Drive) if for_change else chosen).first()
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


def list_drives(session: Session, who: Who, *, after: int = 0, limit: int = 50) -> list[tuple[Drive, str]]:
    """Drives and their labels by number, from the one after `after`."""
    rows = session.execute(
        select(Drive, Vessel.name)
        .join(Vessel, Vessel.id == Drive.vessel_id)
        .where(Drive.id > after, may_see_vessel(who))
        .order_by(Drive.id)
        .limit(limit)
    )
    return [(drive, label_of(name, drive.position)) for drive, name in rows]


def set_drive(session: Session, who: Who, vessel_id: int, said: Mapping[str, Any]) -> Drive:
    """Enter a drive of a boat once. `said` carries figures by name, `u_NAME` and `NAME_typed` beside them.

    Raises
    ------
    NotFound
        There is no such boat.
    Refused
        She has a drive in that position already, or a word is not one of its list.
    """
    who.must("record")
    if session.scalar(select(Vessel.id).where(Vessel.id == vessel_id, may_see_vessel(who))) is None:
        raise NotFound("There is no such boat here.")
    drive = Drive(vessel_id=vessel_id, changed=now(), typed={})
    _write(drive, {"position": "centre", **said})
    _one_a_position(session, drive)
    session.add(drive)
    session.flush()  # its history names its number
    _happened(session, who, drive, "logged")
    people.note(session, who, "logged", "drive", drive.id)
    return drive


def _write(drive: Drive, said: Mapping[str, Any]) -> None:
    if said.get("position", "centre") not in POSITIONS:
        raise Refused("Centre, port or starboard.", "position")
    if said.get("hand") not in (None, "", "right", "left"):
        raise Refused("Right or left.", "hand")
    for name in WORDS:
        if name in said:
            setattr(drive, name, said[name] or (None if name == "hand" else getattr(Drive, name).default.arg))
    typed = dict(drive.typed or {})
    for name in DRIVE_FIGURES:
        if name in said:
            setattr(drive, name, said[name])
            typed[name] = said.get(f"{name}_typed") or ""
        if name in READ_OFF_THE_BOAT and f"u_{name}" in said:
            setattr(drive, f"u_{name}", said[f"u_{name}"])
    drive.typed = typed


def _one_a_position(session: Session, drive: Drive) -> None:
    taken = select(Drive.id).where(
        Drive.vessel_id == drive.vessel_id, Drive.position == drive.position, Drive.is_in_use, Drive.id != (drive.id or 0)
    )
    if session.scalar(taken) is not None:
        raise Refused(f"She has a drive there already: {drive.position}. Change that one.", "position")


def change_drive(session: Session, who: Who, drive_id: int, version: int, said: Mapping[str, Any]) -> Drive:
    """Change what is said of a drive; what stood before stays in its history.

    Raises
    ------
    NotFound
        There is no such drive.
    Superseded
        Somebody saved this drive since `version`.
    """
    who.must("change")
    return _change(session, who, drive_id, version, said, "changed")


def re_engine(session: Session, who: Who, drive_id: int, version: int, said: Mapping[str, Any]) -> Drive:
    """Give a drive another engine or gear: the old one's figures stay in its history, the shaft line stays.

    Raises
    ------
    NotFound
        There is no such drive.
    Superseded
        Somebody saved this drive since `version`.
    """
    who.must("change")
    blank = dict.fromkeys(ENGINE[1:])
    return _change(session, who, drive_id, version, {**blank, "engine": "", **said}, "re-engined")


def _change(
    session: Session, who: Who, drive_id: int, version: int, said: Mapping[str, Any], kind: str
) -> Drive:
    drive, _vessel = drive_by_id(session, who, drive_id, for_change=True)
    if drive.version != version:
        raise Superseded(drive.version, _as_typed(drive), _last_hand(session, drive))
    before = {name: getattr(drive, name) for name in (*WORDS, *DRIVE_FIGURES)}
    _write(drive, said)
    _one_a_position(session, drive)
    drive.version, drive.changed = drive.version + 1, now()
    changed = {name: old for name, old in before.items() if getattr(drive, name) != old}
    _happened(session, who, drive, kind, changed)
    people.note(session, who, kind, "drive", drive.id, what=sorted(changed))
    return drive


def _as_typed(drive: Drive) -> dict[str, str]:
    words = {name: getattr(drive, name) or "" for name in WORDS}
    return words | {name: (drive.typed or {}).get(name, "") for name in DRIVE_FIGURES}


def _happened(session: Session, who: Who, drive: Drive, kind: str, before: Mapping[str, Any] | None = None) -> None:
    session.add(
        Happening(
            vessel_id=drive.vessel_id,
            drive_id=drive.id,
            kind=kind,
            at=now(),
            person_id=who.person_id,
            said_by=who.name,
            before=dict(before or {}),
        )
    )


def _last_hand(session: Session, drive: Drive) -> str:
    trail: Sequence[Any] = people.audit_of(session, "drive", drive.id, limit=1)
    return trail[0].name if trail else "Somebody"
