"""What is said of a drive: engine, gear, shaft line, and the room for a propeller."""

from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels.hull_words import BEHIND, SHAFT_ALLOYS
from yardapp.vessels.models import Drive
from yardapp.vessels.services.boats import happened, vessel_by_id
from yardapp.vessels.services.shaft_lines import drive_by_id
from yardapp.vessels.sizes import USUAL, box_of, is_same, is_usual, plain, plus_minus_of, rising, u_of

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
ENGINE = ("engine", "rated_power_w", "rated_speed_rps", "reduction_ratio", "engine_curve")
READ_OFF_THE_BOAT = tuple(USUAL)
LINE_FIGURES = (
    "safety_factor",
    "shaft_span_m",
    "key_length_m",
    "thread_length_m",
    "nut_length_m",
    "cutter_length_m",
    "bearing_diameter_m",
    "rudder_distance_m",
    "ahead_distance_m",
    "aperture_length_m",
    "shaft_depth_m",
    "old_mass_kg",
)
LINE_WORDS = ("shaft_alloy", "behind")
WORDS = ("position", "engine", "hand", "hull_clearance_from", "note")
CURVE = "engine_curve"
DRIVE_BOXES = (*WORDS, *DRIVE_FIGURES, CURVE)
LINE_BOXES = LINE_WORDS + LINE_FIGURES
LISTS = {
    "shaft_alloy": (None, *SHAFT_ALLOYS),
    "behind": (None, *BEHIND),
    "position": POSITIONS,
    "hand": (None, "right", "left"),
    "hull_clearance_from": ("centre", "surface"),
}
ASKS = {
    "position": "Centre, port or starboard.",
    "hand": "Right or left.",
    "hull_clearance_from": "From the shaft's centre or from its surface.",
    "shaft_alloy": "One of the metals of the list.",
    "behind": "What stands behind the screw, or beside two of them: one of the list.",
}
EMPTY: Mapping[str, str | None] = {
    "position": "centre",
    "engine": "",
    "hand": None,
    "hull_clearance_from": "centre",
    "note": "",
    "shaft_alloy": None,
    "behind": None,
}


def set_drive(session: Session, who: Who, vessel_id: int, said: Mapping[str, Any]) -> Drive:
    """Enter a drive of a boat once. `said` carries figures by name, and beside each what was typed and its ±.

    The ± of `NAME` is `u_NAME` (k = 1) or `plus_minus_NAME` (k = 2, of a taper 1:N its N); with neither, the usual one.

    Raises
    ------
    NotFound
        There is no such boat.
    Refused
        She has a drive in that position already, or a word is not one of its list.
    """
    who.must("record")
    vessel_by_id(session, who, vessel_id, for_change=True)  # two phones may enter the same shaft at once
    drive = Drive(vessel_id=vessel_id, changed=now(), typed={}, **EMPTY)
    _write(drive, said)
    one_a_position(session, drive)
    session.add(drive)
    session.flush()  # its history names its number
    happened(session, who, vessel_id, "logged", drive_id=drive.id)
    people.note(session, who, "logged", "drive", drive.id)
    return drive


def _write(drive: Drive, said: Mapping[str, Any]) -> None:
    for name in (*WORDS, *LINE_WORDS):
        if name in said:
            _write_word(drive, name, said[name] or EMPTY[name])
    if CURVE in said:
        drive.engine_curve = rising(said[CURVE], CURVE)
    drive.typed = dict(drive.typed or {})  # a new one, else the change is not seen
    for name in (*DRIVE_FIGURES, *LINE_FIGURES):
        is_new = name in said and not is_same(getattr(drive, name), said[name])
        if is_new:  # the same figure, written another way by the box, keeps what was typed first
            setattr(drive, name, said[name])
            drive.typed[name] = said.get(f"{name}_typed") or ""
        if name in READ_OFF_THE_BOAT:
            _write_plus_minus(drive, name, said, is_new=is_new)


def _write_word(drive: Drive, name: str, word: str | None) -> None:
    word = word.strip() if word else word
    if name in LISTS and word not in LISTS[name]:
        raise Refused(ASKS[name], name)
    if name == "engine" and len(word or "") > 80:
        raise Refused("In 80 letters, please; the rest goes into the note.", name)
    setattr(drive, name, word)


def _write_plus_minus(drive: Drive, name: str, said: Mapping[str, Any], *, is_new: bool) -> None:
    value, box = getattr(drive, name), box_of(name)
    if said.get(f"u_{name}") is not None:
        u = said[f"u_{name}"] if value is not None else None
    elif is_new or box in said:
        u = u_of(name, value, said.get(box))
        drive.typed[box] = said.get(f"{box}_typed") or ""
    else:
        return
    if not is_same(u, getattr(drive, f"u_{name}")):
        setattr(drive, f"u_{name}", u)


def one_a_position(session: Session, drive: Drive) -> None:
    """Raise Refused when another drive in use stands there."""
    there = (Drive.vessel_id == drive.vessel_id, Drive.position == drive.position, Drive.id != (drive.id or 0))
    with session.no_autoflush:
        taken = session.scalar(select(Drive.id).where(Drive.is_in_use, *there).limit(1))
    if drive.is_in_use is not False and taken is not None:
        raise Refused(f"She has a drive there already: {drive.position}. Change that one.", "position")


def change_drive(session: Session, who: Who, drive_id: int, version: int, said: Mapping[str, Any]) -> Drive:
    """Change what is said of a drive; what stood before stays in its history.

    Raises
    ------
    NotFound
        There is no such drive.
    Superseded
        Somebody saved this drive since `version`, and it is not what is wanted here.
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


def _change(session: Session, who: Who, drive_id: int, version: int, said: Mapping[str, Any], kind: str) -> Drive:
    drive, _vessel = drive_by_id(session, who, drive_id, for_change=True)
    before, theirs = _standing(drive), as_typed(drive)
    with session.no_autoflush:
        _write(drive, said)
        changed = {name: old for name, old in before.items() if getattr(drive, name) != old}
        if drive.version != version and changed:
            theirs = {name: text for name, text in theirs.items() if name in said}
            raise Superseded(drive.version, theirs, last_hand(session, drive))
        one_a_position(session, drive)
    drive.version, drive.changed = drive.version + 1, now()
    happened(session, who, drive.vessel_id, kind, drive_id=drive.id, before=changed)
    people.note(session, who, kind, "drive", drive.id, what=sorted(changed))
    return drive


def _standing(drive: Drive) -> dict[str, Any]:
    uncertain = (f"u_{name}" for name in READ_OFF_THE_BOAT)
    return {name: getattr(drive, name) for name in (*WORDS, *DRIVE_FIGURES, *LINE_BOXES, CURVE, *uncertain)}


def as_typed(drive: Drive) -> dict[str, str]:
    """What stands there, box by box, with its units: whoever reads it may work in others."""
    words = {name: getattr(drive, name) or "" for name in (*WORDS, *LINE_WORDS)}
    figures = {name: plain(name, getattr(drive, name)) for name in (*DRIVE_FIGURES, *LINE_FIGURES)}
    pairs = "\n".join(f"{turns * 60:.6g} rpm, {power / 1000:.6g} kW" for turns, power in drive.engine_curve or ())
    return words | figures | {CURVE: pairs} | _plus_minus_typed(drive)


def _plus_minus_typed(drive: Drive) -> dict[str, str]:
    typed = {}
    for name in READ_OFF_THE_BOAT:
        value, u = getattr(drive, name), getattr(drive, f"u_{name}")
        figure = None if is_usual(name, value, u) else plus_minus_of(name, value, u)
        typed[box_of(name)] = plain("n_ratio" if name == "taper" else name, figure)
    return typed


def last_hand(session: Session, drive: Drive) -> str:
    """Who saved this drive last."""
    trail: Sequence[Any] = people.audit_of(session, "drive", drive.id, limit=1)
    return trail[0].name if trail else "Somebody"
