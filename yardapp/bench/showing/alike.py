"""Blades held against each other, in words and in a picture."""

from collections.abc import Mapping
from typing import Any

from yardapp.bench.rows import MOST_BLADES, row_name
from yardapp.bench.showing.pictures import Picture
from yardapp.bench.showing.words import figure, label_of
from yardapp.bench.sums import Known, Outcome
from yardapp.drawings.blades_alike import BladeTip, blades_alike
from yardapp.quantities import System


def lead(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`Blade 2 is off: 6.1 mm`, or that they are alike."""
    odd = [one for one in outcome.more.get("odd", ()) if one["is_odd"]]
    if not odd:
        return "Blades alike"
    named = [one for one in odd if one["blade"] is not None]
    if not named:
        return "Blades differ"
    far = "; ".join(
        f"blade {one['blade']} off by {figure(one['what'], abs(one['off']), system, one['u'] or None)}" for one in named
    )
    return f"{far[:1].upper()}{far[1:]}"


def picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """Every blade at its place, and its tip's height against the others'."""
    blades = int(outcome.more.get("blades") or 0)
    odd = {one["blade"] for one in outcome.more.get("odd", ()) if one["blade"] is not None}
    radii = [readings.get(row_name("tip_radius_m", number)) for number in range(1, blades + 1)]
    longest = max((radius for radius in radii if radius), default=None)
    tips = [
        BladeTip(
            number=number,
            is_odd=number in odd,
            radius_ratio=radius / longest if radius and longest else None,
            **_off(outcome, "place", "rad", number, system),
            **_off(outcome, "track", "m", number, system),
        )
        for number, radius in enumerate(radii, 1)
    ]
    return blades_alike(tips), _rows(outcome, system)


def _off(outcome: Outcome, base: str, unit: str, number: int, system: System) -> dict[str, Any]:
    """How far one blade is off in one quantity, and how it is said."""
    name = row_name(f"{base}_{unit}", number)
    found = outcome.sum_of(name)
    if found is None:
        return {}
    said = figure(name, found.value, system)
    return {f"{base}_{unit}": found.value, f"{base}_label": said if said.startswith("-") else f"+{said}"}


def _rows(outcome: Outcome, system: System) -> list[tuple[str, str]]:
    names = [row_name(what, number) for what in ("track_m", "place_rad") for number in range(1, MOST_BLADES + 1)]
    found = [one for one in map(outcome.sum_of, names) if one is not None]
    return [(label_of(one.what), figure(one.what, one.value, system, one.u)) for one in found]
