"""Things in a list: how each is told apart at a glance."""

from typing import Any

from yardapp import quantities
from yardapp.gear.figures import KINDS, ONE_A_LINE, figures_of
from yardapp.gear.services import ItemRow
from yardapp.quantities import System

AT_A_GLANCE = 3


def size_of(row: Any, system: System) -> str:
    """`22 × 18 in, 3 blades, right hand`: diameter first, pitch second, then blades and hand, as people say it."""
    if row.kind not in ONE_A_LINE:
        return _part(row, system)
    if row.kind == "shaft":
        parts = [_length(row.diameter_m, system), row.taper and quantities.show(row.taper, "taper", system)]
        return ", ".join(part for part in parts if part) or "not measured yet"
    parts = [_pair(row, system), f"{row.blades} blades" if row.blades else "", f"{row.hand} hand" if row.hand else ""]
    return ", ".join(part for part in parts if part) or row.stamp or "not measured yet"


def _part(row: Any, system: System) -> str:
    """`Nut: length 40 mm, width 55 mm`: what it is, then the first figures that anybody knows."""
    known = part_glance(row, system)
    return f"{KINDS[row.kind].label}: {known}" if known else KINDS[row.kind].label


def part_glance(row: Any, system: System) -> str:
    """The first figures that anybody knows of a part."""
    known = [
        f"{figure.label.lower()} {quantities.show(value, figure.kind, system)}"
        for figure in figures_of(row.kind)
        if not figure.is_word and (value := getattr(row, figure.name, None)) is not None
    ]
    return ", ".join(known[:AT_A_GLANCE])


def _length(value: float | None, system: System) -> str:
    return quantities.show(value, "length", system) if value is not None else ""


def _pair(row: Any, system: System) -> str:
    if row.diameter_m is None and row.pitch_m is None:
        return ""
    unit = " in" if system == "in" else " mm"
    diameter, pitch = (_length(size, system).removesuffix(unit) or "?" for size in (row.diameter_m, row.pitch_m))
    return f"{diameter} × {pitch}{unit}"


def listed(row: ItemRow, system: System, href: str) -> dict[str, str]:
    """One row of a list of items."""
    flag = "proposed" if row.is_proposed else "evidence disagrees" if row.is_at_odds else ""
    return {"tag": row.tag, "href": href, "size": size_of(row, system), "where": row.where, "flag": flag}
