"""What is known of a hull and of a shaft line, as tables. No database, no request."""

from collections.abc import Mapping, Sequence
from typing import Any

from yardapp import quantities
from yardapp.filters import kind_of
from yardapp.quantities import System
from yardapp.vessels.hull_words import BEHIND, HULL_KINDS, PLANING_KINDS, POWER_TAKEN

HULL_LABELS = {
    "hull_kind": "hull",
    "planing_kind": "kind of planing boat",
    "displacement_kg": "displacement",
    "beam_m": "beam on the waterline",
    "draught_m": "draught of the hull",
    "wetted_m2": "wetted surface",
    "waterplane_m2": "area of the waterplane",
    "prismatic_ratio": "prismatic coefficient",
    "midship_ratio": "midship coefficient",
    "waterplane_ratio": "waterplane coefficient",
    "lcb_m": "centre of buoyancy",
    "lcf_m": "centre of the waterplane",
    "chine_beam_m": "beam over the chines",
    "deadrise_rad": "deadrise",
    "lcg_m": "centre of gravity",
    "speed_power": "speed and power",
    "speed_power_kind": "that power is",
}
LINE_LABELS = {
    "shaft_alloy": "metal of the shaft",
    "behind": "behind or beside the propeller",
    "safety_factor": "safety factor",
    "shaft_span_m": "longest span",
    "key_length_m": "key, length",
    "thread_length_m": "thread",
    "nut_length_m": "nuts and lock",
    "cutter_length_m": "cutter",
    "bearing_diameter_m": "bearing's housing",
    "rudder_distance_m": "taper to rudder",
    "ahead_distance_m": "taper to deadwood or strut",
    "aperture_length_m": "aperture",
    "shaft_depth_m": "shaft under water",
    "old_mass_kg": "weight of the old propeller",
}
WORDS: Mapping[str, Mapping[str, str]] = {
    "hull_kind": HULL_KINDS,
    "planing_kind": PLANING_KINDS,
    "speed_power_kind": POWER_TAKEN,
    "behind": BEHIND,
}
SYSTEMS: tuple[System, System] = ("mm", "in")


def pairs_said(pairs: Sequence[Sequence[float]] | None, kind: quantities.Kind = "speed") -> str:
    """Pairs in a line: `5 kn 6 kW; 6 kn 11 kW`."""
    if not pairs:
        return "not known"
    return "; ".join(f"{quantities.show(first, kind)} {quantities.show(power, 'power')}" for first, power in pairs)


def hull_rows(vessel: Any) -> list[dict[str, Any]]:
    """What is known of her hull; what is not is asked for on her hull's page."""
    return _rows(vessel, HULL_LABELS, vessel.hull_typed or {})


def line_rows(drive: Any) -> list[dict[str, Any]]:
    """What is known of a shaft line beside its end and engine."""
    return _rows(drive, LINE_LABELS, drive.typed or {})


def _rows(record: Any, labels: Mapping[str, str], typed: Mapping[str, str]) -> list[dict[str, Any]]:
    known = ((name, label, getattr(record, name)) for name, label in labels.items())
    return [_row(name, label, value, typed) for name, label, value in known if value not in (None, "", [])]


def _row(name: str, label: str, value: Any, typed: Mapping[str, str]) -> dict[str, Any]:
    row = {"label": label[:1].upper() + label[1:], "basis": f"“{typed[name]}”" if typed.get(name) else ""}
    if name == "speed_power":
        return row | {"first": pairs_said(value)}
    if isinstance(value, str):
        return row | {"first": WORDS.get(name, {}).get(value, value)}
    if name == "cutter_length_m" and value == 0:
        return row | {"first": "none", "basis": "looked"}
    first, second = (quantities.show(value, kind_of(name), system) for system in SYSTEMS)
    return row | {"first": first, "second": second if second != first else ""}


def boxes_of(record: Any, names: Sequence[str]) -> dict[str, Any]:
    """A record's figures by the boxes of its form; a word that is not known is the empty choice."""
    found = {name: getattr(record, name) for name in names}
    return {name: "" if value is None and not _is_figure(name) else value for name, value in found.items()}


def _is_figure(name: str) -> bool:
    try:
        return bool(kind_of(name))
    except KeyError:
        return False
