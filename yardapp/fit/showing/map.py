"""The map of sizes, drawn: lines of the engine's speed, what is shaded, and the register's propellers as dots."""

import math
from collections.abc import Callable
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.drawings.plot import Axis, Band, Curve, Dot, Region, plot
from yardapp.fit.services import DriveMap, Spot
from yardapp.fit.size_map import SizeMap, contour, edges, levels, overloaded
from yardapp.quantities import System

INCH_M, MM_M = 0.0254, 0.001
LABELLED = 3  # more labels than this hide one another
TALL = 300.0
STEPS = {"mm": (0.02, 0.05, 0.1, 0.2, 0.5, 1.0), "in": tuple(INCH_M * inches for inches in (1, 2, 4, 6, 12, 24))}


def map_drawing(found: DriveMap, system: System, href: Callable[[str], str]) -> Markup:
    """The whole map as a drawing whose dots open the propellers."""
    sizes = found.sizes
    return plot(
        _axis("diameter", float(sizes.diameter_m[0]), float(sizes.diameter_m[-1]), system),
        _axis("pitch", *_pitches(found), system),
        title=f"Sizes for {found.drive}",
        bands=_bands(sizes),
        regions=_regions(sizes),
        curves=[*_lines(sizes), *_reach(found)],
        dots=_dots(found, system, href),
        key="map",
        tall=TALL,
    )


def _pitches(found: DriveMap) -> tuple[float, float]:
    """From which pitch to which: what the lines and the propellers need, not the whole grid."""
    sizes, best = found.sizes, found.sizes.best
    seen = [pitch for level in levels(sizes) for _, pitch in contour(sizes, level) if not math.isnan(pitch)]
    seen += [spot.pitch_m for spot in found.spots] + ([best.pitch_m] if best else [])
    low, high = float(sizes.pitch_m[0]), float(sizes.pitch_m[-1])
    return (low, high) if not seen else (max(low, 0.9 * min(seen)), min(high, 1.08 * max(seen)))


def _axis(name: str, low: float, high: float, system: System) -> Axis:
    unit = INCH_M if system == "in" else MM_M
    step = next((one for one in STEPS[system] if (high - low) / one <= 6), STEPS[system][-1])
    first = math.ceil(low / step)
    ticks = [(number * step, f"{number * step / unit:.0f}") for number in range(first, math.floor(high / step) + 1)]
    return Axis(label=f"{name}, {system}", low=low, high=high, ticks=ticks)


def _bands(sizes: SizeMap) -> list[Band]:
    if sizes.largest_m is None:
        return []
    return [Band(low=sizes.largest_m, high=float(sizes.diameter_m[-1]), label="no room")]


def _regions(sizes: SizeMap) -> list[Region]:
    found = []
    if sizes.free_rps is not None:
        found.append(Region(course=overloaded(sizes), label="overloaded"))
    if sizes.lacks_area is not None:
        found.append(Region(course=edges(sizes, sizes.lacks_area), label="blades small", drawn="region-hatch"))
    return found


def _lines(sizes: SizeMap) -> list[Curve]:
    return [
        Curve(
            points=contour(sizes, level),
            label=f"{60 * level:.0f}" + (" rated" if level == sizes.rated_rps else ""),
            drawn="line" if level == sizes.rated_rps else "thin",
        )
        for level in levels(sizes)
    ]


def _reach(found: DriveMap) -> list[Curve]:
    return [Curve(points=course, drawn="thin dash") for course in found.reach.values()]


def _dots(found: DriveMap, system: System, href: Callable[[str], str]) -> list[Dot]:
    dots = [_dot(spot, found, system, href, number < LABELLED) for number, spot in enumerate(found.spots)]
    best = found.sizes.best
    if best is not None:
        dots.insert(0, Dot(x=best.diameter_m, y=best.pitch_m, label="best", is_chosen=True))
    return dots


def _dot(spot: Spot, found: DriveMap, system: System, href: Callable[[str], str], is_labelled: bool) -> Dot:
    is_chosen = found.chosen is not None and spot.tag == found.chosen.tag
    return Dot(
        x=spot.diameter_m,
        y=spot.pitch_m,
        label=spot.tag if is_labelled or is_chosen else "",
        href=href(spot.tag),
        is_chosen=is_chosen,
        name=f"{spot.tag}, {size_said(spot.diameter_m, spot.pitch_m, system)}",
    )


def size_said(diameter_m: float, pitch_m: float, system: System) -> str:
    """`560 mm × 400 mm`."""
    return " × ".join(quantities.show(size, "length", system) for size in (diameter_m, pitch_m))


def spot_rows(found: DriveMap, system: System, href: Callable[[str], str]) -> list[list[Any]]:
    """Everybody on the map as a table: tag, size, engine's speed, verdict, where."""
    return [
        [
            (spot.tag, href(spot.tag)),
            size_said(spot.diameter_m, spot.pitch_m, system),
            "on it now" if spot.is_aboard else "",
            _turns(spot.engine_speed_rps, found.sizes.rated_rps),
            spot.verdict,
            spot.where,
        ]
        for spot in found.spots
    ]


def _turns(engine_speed_rps: float | None, rated_rps: float | None) -> str:
    if engine_speed_rps is None or rated_rps is None:
        return "not known"
    past = ", past the governor" if engine_speed_rps > rated_rps else ""
    return f"{10 * round(6 * engine_speed_rps)} rpm{past}"


def map_rows(found: DriveMap, system: System) -> list[tuple[str, str]]:
    """What the drawing shows, as figures."""
    sizes, best = found.sizes, found.sizes.best
    rows = []
    if best is not None:
        rows.append(("Best size of these blades", size_said(best.diameter_m, best.pitch_m, system)))
        rows.append(("Boat's speed with it", quantities.show(best.speed_mps, "speed", system)))
    if sizes.rated_rps is not None:
        rows.append(("Rated speed of the engine", quantities.show(sizes.rated_rps, "rotation", system)))
    if sizes.largest_m is not None:
        said = "class rule" if sizes.rule == "class" else f"{sizes.rule} band"
        rows.append((f"Largest diameter by the {said}", quantities.show(sizes.largest_m, "length", system)))
    if sizes.area_by:
        rows.append(("Blade area by", sizes.area_by))
    area = f"{sizes.area_ratio:.2f}{', assumed' if sizes.is_area_assumed else ''}"
    return [*rows, ("Blades", f"{sizes.blades}, area ratio {area}")]
