"""The area of the blades, in a line and as a picture."""

from collections.abc import Mapping
from typing import Any

from yardapp.bench.rows import row_name
from yardapp.bench.showing.pictures import Picture
from yardapp.bench.showing.words import figure, label_of
from yardapp.bench.sums import Known, Outcome
from yardapp.drawings.blade_outline import blade_outline, blade_widths
from yardapp.quantities import System

MOST_STATIONS = 10


def lead(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`Blade area ratio 0.52 ± 0.01, expanded`."""
    return f"Blade area ratio {figure('area_ratio', outcome.value, system, outcome.u)}, expanded"


def picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The blade by its widths, or the outline of its rubbing."""
    names = ("blade_area_m2", "expanded_area_m2", "projected_area_m2")
    found = [one for one in map(outcome.sum_of, names) if one is not None]
    rows = [(label_of(one.what), figure(one.what, one.value, system, one.u)) for one in found]
    if outcome.more.get("points"):
        said = figure("traced_area_m2", outcome.sum_of("traced_area_m2").value, system)  # type: ignore[union-attr]
        return blade_outline([(x, y) for x, y in outcome.more["points"]], label=said), rows
    diameter = readings.get("diameter_m") or known.diameter_m
    hub = readings.get("hub_diameter_m") or known.hub_diameter_m
    stations = [
        (readings[radius], readings[width], figure("width_m", readings[width], system))
        for radius, width in ((row_name("radius_m", n), row_name("width_m", n)) for n in range(1, MOST_STATIONS + 1))
        if readings.get(radius) and readings.get(width)
    ]
    if not stations or not diameter or not hub:
        return None, rows
    return blade_widths(stations, diameter / 2, min(hub / 2, stations[0][0])), rows
