"""Boats and drives as the register has them, put into the words of a page. No database, no request."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.drawings.disc_under_hull import disc_under_hull
from yardapp.filters import day, kind_of
from yardapp.formulas.clearance import tip_clearance
from yardapp.quantities import System
from yardapp.vessels.line_showing import HULL_LABELS, LINE_LABELS, pairs_said
from yardapp.vessels.services import VesselPage, VesselRow, clearance_from_centre
from yardapp.vessels.sizes import USUAL, box_of, is_usual, plus_minus_of

LABELS = (
    {
        "position": "position",
        "hand": "propeller's hand",
        "engine": "engine",
        "rated_power_w": "rated power",
        "rated_speed_rps": "rated speed of the engine",
        "reduction_ratio": "reduction",
        "engine_curve": "power at full throttle",
        "shaft_diameter_m": "shaft, large end",
        "taper": "taper",
        "taper_length_m": "taper, length",
        "keyway_width_m": "keyway, width",
        "keyway_depth_m": "keyway, depth",
        "hub_space_m": "bearing to taper",
        "hull_clearance_m": "shaft to hull",
        "hull_clearance_from": "shaft to hull, measured from the shaft's",
        "kind": "what she is",
        "owner": "owner",
        "owner_id": "owner's account",
        "name": "name",
        "length_m": "length",
        "block_ratio": "block coefficient",
        "note": "note",
    }
    | HULL_LABELS
    | LINE_LABELS
)
# What would fill a gap; the boxes for it stand on the drive's change page.
GAPS = {
    "engine": "Read its plate",
    "rated_power_w": "Read the engine's plate",
    "rated_speed_rps": "Read the engine's plate",
    "reduction_ratio": "Read the gear's plate",
    "shaft_diameter_m": "Caliper at the taper's large end",
    "taper": "Caliper at two places, and the length between",
    "taper_length_m": "Tape along the taper",
    "keyway_width_m": "Caliper across the keyway",
    "keyway_depth_m": "Depth rod at the keyway's side",
    "hub_space_m": "Tape from bearing to taper",
    "hull_clearance_m": "Tape, square to the shaft",
}
ENGINE = ("rated_power_w", "rated_speed_rps", "reduction_ratio")
PAIRS: dict[str, quantities.Kind] = {"speed_power": "speed", "engine_curve": "rotation"}
UNSAID = frozenset({"length_m_typed", "vessel_id", "vessel"})
HAPPENED = {
    "logged": "Entered in the register",
    "renamed": "Renamed",
    "changed hands": "Changed hands",
    "account": "Owner's account changed",
    "changed": "Record changed",
    "got a drive": "Got a drive",
}
HAPPENED_TO_DRIVE = {
    "logged": "Drive entered",
    "changed": "Drive changed",
    "re-engined": "Re-engined",
    "moved": "Drive moved",
    "out of use": "Drive taken out of use",
    "into use": "Drive taken into use again",
}


def listed(row: VesselRow, href: str) -> dict[str, str]:
    """One row of the list of boats."""
    return {"tag": row.name, "href": href, "size": row.kind, "where": row.owner}


def former_names(page: VesselPage) -> str:
    """The names she bore before, newest first, each with the day it ended."""
    former = [name for name in reversed(page.names) if name.until is not None]
    return "; ".join(f"{name.name}, until {day(name.until)}" for name in former)


def hand_wanted(drive: Any) -> str:
    """Which propeller this drive asks for."""
    return f"{drive.hand} hand" if drive.hand else "hand not known"


def drive_said(drive: Any, system: System) -> str:
    """A drive in one line: hand, engine, power."""
    power = quantities.show(drive.rated_power_w, "power", system) if drive.rated_power_w else ""
    said = ", ".join(part for part in (hand_wanted(drive), drive.engine, power) if part)
    return said[0].upper() + said[1:]


def engine_rows(drive: Any, gap_href: Callable[[str], str | None]) -> list[dict[str, Any]]:
    """Engine and gear as a table, kilowatts beside horsepower, and the shaft's own speed worked out."""
    named = {"label": "Engine", "first": drive.engine} if drive.engine else _gap("engine", gap_href)
    rows = [named, *(_figure_row(drive, name, gap_href) for name in ENGINE)]
    if drive.rated_speed_rps and drive.reduction_ratio:
        turns = quantities.show(drive.rated_speed_rps / drive.reduction_ratio, "rotation")
        rows.append({"label": "Speed of the shaft", "first": turns, "basis": "engine's ÷ reduction"})
    if drive.engine_curve:
        rows.append({"label": "Power at full throttle", "first": pairs_said(drive.engine_curve, "rotation")})
    return rows


def shaft_rows(drive: Any, system: System, gap_href: Callable[[str], str | None]) -> list[dict[str, Any]]:
    """Shaft end and room as a table, each with its ± in both systems, one under the other: a phone is narrow."""
    return [_size_row(drive, name, system, gap_href) for name in USUAL]


def _gap(name: str, gap_href: Callable[[str], str | None]) -> dict[str, Any]:
    return {"label": _label(name), "gap": GAPS[name], "gap_href": gap_href(name)}


def _label(name: str) -> str:
    return LABELS[name][0].upper() + LABELS[name][1:]


def _figure_row(drive: Any, name: str, gap_href: Callable[[str], str | None]) -> dict[str, Any]:
    value, kind = getattr(drive, name), kind_of(name)
    if value is None:
        return _gap(name, gap_href)
    first, second = (quantities.show(value, kind, system) for system in _SYSTEMS)
    return {
        "label": _label(name),
        "first": first,
        "second": second if second != first else "",
        "basis": _typed(drive, name),
    }


_SYSTEMS: tuple[System, System] = ("mm", "in")


def _typed(drive: Any, name: str) -> str:
    typed = (drive.typed or {}).get(name, "")
    return f"“{typed}”" if typed else ""


def _size_row(drive: Any, name: str, system: System, gap_href: Callable[[str], str | None]) -> dict[str, Any]:
    value, u = getattr(drive, name), getattr(drive, f"u_{name}")
    if value is None:
        return _gap(name, gap_href)
    row = {
        "label": _label(name),
        "basis": ", ".join(part for part in (_typed(drive, name), _trust(drive, name)) if part),
    }
    if name == "keyway_width_m" and value == 0:
        return row | {"first": "no keyway", "basis": "looked"}
    if name == "hull_clearance_m":
        row["label"] = f"{row['label']}, from the shaft's {drive.hull_clearance_from}"
    if name == "taper":
        return row | {"first": quantities.show(value, "taper", u=u)}
    lines = [quantities.show(value, "length", one, u=u) for one in _SYSTEMS]
    return row | {"first": Markup("<br>").join(lines if system == "mm" else reversed(lines))}


def _trust(drive: Any, name: str) -> str:
    """Where the ± comes from."""
    if getattr(drive, f"u_{name}") is None:
        return "no ±"
    is_typed = bool((drive.typed or {}).get(box_of(name)))
    is_ours = not is_typed and is_usual(name, getattr(drive, name), getattr(drive, f"u_{name}"))
    return "usual ±" if is_ours else "± as given"


def usual_in_words(system: System) -> str:
    """The ± taken where none was typed, tool by tool."""
    said = {f"{one.tool} ± {usual(name, system)}": None for name, one in USUAL.items()}
    return "; ".join(said)


def usual(name: str, system: System) -> str:
    """The usual ± of a size, as its box would be filled in."""
    figure = USUAL[name].plus_minus
    return f"{figure:g}" if name == "taper" else quantities.show(figure, "length", system)


def placeholders(system: System) -> dict[str, str]:
    """What an empty ± box stands for, by the box's name."""
    return {box_of(name): usual(name, system) for name in USUAL}


def boxes_of(drive: Any, names: Iterable[str]) -> dict[str, Any]:
    """A drive's figures by the boxes of its form; a ± that nobody typed stays an empty box."""
    found: dict[str, Any] = {"version": drive.version, "hand": drive.hand or ""}
    for name in names:
        if name not in found and hasattr(drive, name):
            found[name] = getattr(drive, name)
    for name in USUAL:
        value, u = getattr(drive, name), getattr(drive, f"u_{name}")
        is_ours = is_usual(name, value, u) and not (drive.typed or {}).get(box_of(name))
        found[box_of(name)] = None if is_ours else plus_minus_of(name, value, u)
    return found


def tip_room(drive: Any, diameter_m: float | None, system: System) -> tuple[Markup, list[tuple[str, str]]] | None:
    """The propeller that is on, under the hull, to scale; nothing where a figure lacks."""
    room_m = clearance_from_centre(drive.hull_clearance_m, drive.hull_clearance_from, drive.shaft_diameter_m)
    if room_m is None or not diameter_m:
        return None
    gap_m = float(tip_clearance(room_m, diameter_m))
    shown = {"Diameter": diameter_m, "Shaft's centre to hull": room_m, "Gap at the tips": gap_m}
    rows = [(what, quantities.show(value, "length", system)) for what, value in shown.items()]
    return disc_under_hull(diameter_m, room_m, diameter_label=f"⌀ {rows[0][1]}", tip_gap_label=rows[2][1]), rows


def history_rows(happenings: Sequence[Any], positions: Mapping[int, str], system: System) -> list[dict[str, Any]]:
    """What happened, newest first, with what stood before."""
    return [
        {
            "when": day(one.at),
            "who": one.said_by,
            "what": _what(one, positions),
            "note": "; ".join(part for part in (one.note, _before(one, system)) if part),
        }
        for one in happenings
    ]


def _what(one: Any, positions: Mapping[int, str]) -> str:
    if one.drive_id is None:
        return str(HAPPENED.get(one.kind, one.kind.capitalize()))
    what = HAPPENED_TO_DRIVE.get(one.kind, one.kind.capitalize())
    return f"{what}, {positions[one.drive_id]}" if one.drive_id in positions else what


def _before(one: Any, system: System) -> str:
    """What stood before, in a sentence."""
    before = {what: old for what, old in one.before.items() if what not in UNSAID}
    sizes = {what: old for what, old in before.items() if not (what.startswith("u_") and what[2:] in before)}
    said = [_stood(what, old, system) for what, old in sizes.items()]
    return f"Before: {'; '.join(said)}." if said else ""


def _stood(what: str, old: Any, system: System) -> str:
    if what == "owner_id":
        return "an account was linked" if old else "no account was linked"
    if what.startswith("u_"):
        return f"± of {LABELS[what[2:]]} was another" if old else f"{LABELS[what[2:]]} had no ±"
    if what in PAIRS:
        return f"{LABELS[what]} {pairs_said(old, PAIRS[what])}"
    if old is None or old == "":
        return f"{LABELS[what]} not known"
    is_figure = isinstance(old, int | float)
    return f"{LABELS[what]} {quantities.both(old, kind_of(what), system) if is_figure else old}"
