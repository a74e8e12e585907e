"""What is known of a hull: its kind, its weight and lines, its speed and power."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from yardapp.errors import Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels.hull_words import HULL_KINDS, PLANING_KINDS, POWER_TAKEN
from yardapp.vessels.models import Vessel
from yardapp.vessels.services.boats import happened, vessel_by_id
from yardapp.vessels.sizes import is_same, plain, rising

HULL_FIGURES = (
    "length_m",
    "block_ratio",
    "displacement_kg",
    "beam_m",
    "draught_m",
    "wetted_m2",
    "waterplane_m2",
    "prismatic_ratio",
    "midship_ratio",
    "waterplane_ratio",
    "lcb_m",
    "lcf_m",
    "chine_beam_m",
    "deadrise_rad",
    "lcg_m",
)
HULL_WORDS = ("hull_kind", "planing_kind", "speed_power_kind")
LISTS: Mapping[str, Mapping[str, str]] = {
    "hull_kind": HULL_KINDS,
    "planing_kind": PLANING_KINDS,
    "speed_power_kind": POWER_TAKEN,
}


def set_hull(session: Session, who: Who, vessel_id: int, version: int, said: Mapping[str, Any]) -> Vessel:
    """Keep what is said of a hull; a name left out stays as it is, and what stood before stays in her history.

    Raises
    ------
    NotFound
        There is no such boat.
    Superseded
        Somebody saved her record since `version`, and it is not what is wanted here.
    Refused
        A word is not one of its list, or speeds and powers do not rise.
    """
    who.must("change")
    vessel = vessel_by_id(session, who, vessel_id, for_change=True)
    wanted: dict[str, Any] = {name: _word(name, said[name]) for name in HULL_WORDS if name in said}
    wanted |= {name: said[name] for name in HULL_FIGURES if name in said}
    if "speed_power" in said:
        wanted["speed_power"] = rising(said["speed_power"], "speed_power")
    before = {name: getattr(vessel, name) for name, value in wanted.items() if not _stands(vessel, name, value)}
    if vessel.version != version and before:
        theirs = {name: text for name, text in hull_as_typed(vessel).items() if name in said}
        raise Superseded(vessel.version, theirs, _last_hand(session, vessel))
    _write(vessel, wanted, before, said)
    happened(session, who, vessel.id, "changed", before=before)
    people.note(session, who, "changed", "vessel", vessel.id, what=sorted(before))
    return vessel


def _word(name: str, word: str | None) -> str | None:
    if not word:
        return None
    if word not in LISTS[name]:
        raise Refused(f"One of {', '.join(LISTS[name])}.", name)
    return word


def _stands(vessel: Vessel, name: str, value: Any) -> bool:
    stands = getattr(vessel, name)
    if name in HULL_FIGURES:
        return is_same(stands, value)
    return bool((stands or None) == (value or None))


def _write(vessel: Vessel, wanted: Mapping[str, Any], before: Mapping[str, Any], said: Mapping[str, Any]) -> None:
    typed = dict(vessel.hull_typed or {})
    for name in before:
        setattr(vessel, name, wanted[name])
        if name == "length_m":
            vessel.length_m_typed = str(said.get("length_m_typed") or "")[:40]
        elif f"{name}_typed" in said:
            typed[name] = said[f"{name}_typed"] or ""
    vessel.hull_typed = typed
    vessel.version += 1


def hull_as_typed(vessel: Vessel) -> dict[str, str]:
    """What stands there, box by box, with its units."""
    words = {name: getattr(vessel, name) or "" for name in HULL_WORDS}
    pairs = "\n".join(f"{speed:.6g} m/s, {power:.6g} W" for speed, power in vessel.speed_power or ())
    return words | {name: plain(name, getattr(vessel, name)) for name in HULL_FIGURES} | {"speed_power": pairs}


def _last_hand(session: Session, vessel: Vessel) -> str:
    trail = people.audit_of(session, "vessel", vessel.id, limit=1)
    return trail[0].name if trail else "Somebody"
