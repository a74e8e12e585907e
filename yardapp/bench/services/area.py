"""Area of the blades: from widths at radii, squares counted on a rubbing, or the points of its outline."""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from yardapp.bench.repeating import repeatable
from yardapp.bench.rows import row_name, rows_read, rows_reading, work_out_named
from yardapp.bench.services.keeping import Method
from yardapp.bench.sums import Figure, Input, Known, Outcome, Sum, read, source_of, work_out
from yardapp.errors import OutsideRange, Refused
from yardapp.formulas.area import blade_area_ratio, expanded_area
from yardapp.formulas.blade_rubbing import (
    area_of_all,
    area_of_outline,
    area_of_squares,
    blade_area_with_root,
    crosses_itself,
    projected_area,
    u_area_of_outline,
    u_of_cut_squares,
)
from yardapp.formulas.repeats import stray
from yardapp.gear import services as gear

MOST_STATIONS = 10
AreaReading = rows_reading(
    "AreaReading",
    ("radius_m", "width_m"),
    MOST_STATIONS,
    figures=("diameter_m", "hub_diameter_m", "pitch_m", "square_m", "point_m", "root_width_m", "root_gap_m"),
    words=("blades", "whole", "part", "outline"),
)
ALIKE = "Developed area counts as the expanded: on blades as they are made the two differ by little."
NO_PITCH = "Measure the pitch too: the projected area hangs on it."


@repeatable
def area_of(reading: Any, known: Known | None = None) -> Outcome:
    """Expanded, developed and projected area of all blades and their ratios, root and tip pieces included.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        A reading that is needed is missing, or the outline crosses itself.
    """
    known = known or Known()
    blades = reading.blades or known.blades
    if not blades:
        raise Refused("Count the blades: one was read, and all are asked for.", "blades")
    diameter = read(reading, "diameter_m") or _known(known, "diameter_m")
    if diameter is None:
        raise Refused("Measure the diameter first, or say it here: the ratio hangs on it.", "diameter_m")
    sums = _way(reading)(reading, known, diameter, int(blades))
    expanded = next(one for one in sums if one.what == "expanded_area_m2")
    projected, remark = _projected(reading, known, diameter, expanded)
    return Outcome(
        answer="area_ratio",
        sums=(*sums, *projected),
        remarks=(ALIKE, *remark, *_remarks(reading, known)),
        more={"points": reading.outline or [], "blades": int(blades)},
    )


Way = Callable[[Any, Known, Figure, int], list[Sum]]


def _way(reading: Any) -> Way:
    if reading.outline is not None:
        return _by_outline
    if reading.whole is not None or reading.part is not None:
        return _by_squares
    return _by_widths


def _known(known: Known, name: str) -> Figure | None:
    value = getattr(known, name)
    return None if value is None else (value, getattr(known, f"u_{name}"))


def _by_widths(reading: Any, known: Known, diameter: Figure, blades: int) -> list[Sum]:
    radii, widths = (rows_read(reading, name, MOST_STATIONS) for name in ("radius_m", "width_m"))
    _must_go_out(radii, widths, diameter)
    hub = read(reading, "hub_diameter_m") or _known(known, "hub_diameter_m")
    if hub is None:
        raise Refused("How wide is the hub? The piece from hub to first width hangs on it.", "hub_diameter_m")
    figures = {"diameter_m": diameter, "hub_diameter_m": hub}
    figures |= {row_name("radius_m", number): figure for number, figure in radii.items()}
    figures |= {row_name("width_m", number): widths[number] for number in radii}

    def area(**given: float) -> float:
        at = [given[row_name("radius_m", number)] for number in radii]
        wide = [given[row_name("width_m", number)] for number in radii]
        hub_m = min(given["hub_diameter_m"] / 2, at[0])
        return float(expanded_area([*at, given["diameter_m"] / 2], [*wide, 0.0], hub_m, blades))

    def ratio(**given: float) -> float:
        return float(blade_area_ratio(area(**given), given["diameter_m"]))

    return [
        work_out_named("area_ratio", blade_area_ratio, ratio, figures),
        work_out_named("expanded_area_m2", expanded_area, area, figures),
    ]


def _must_go_out(radii: Mapping[int, Figure], widths: Mapping[int, Figure], diameter: Figure) -> None:
    """Three stations or more, outward from the hub, each with both figures, short of the tip."""
    last = 0.0
    for number, (value, _) in radii.items():
        if number not in widths:
            raise Refused("How wide is the blade at this radius?", row_name("width_m", number))
        if value <= last:
            raise Refused(f"Station {number} does not lie further out than the one before it.", _radius(number))
        if value >= diameter[0] / 2:
            raise Refused("That is at the tip or beyond it; the tip itself is reckoned by itself.", _radius(number))
        last = value
    alone = next((number for number in widths if number not in radii), None)
    if alone is not None:
        raise Refused("At what radius is the blade so wide?", _radius(alone))
    if len(radii) < 3:
        raise Refused("Three widths or more, from near the hub to near the tip.", _radius(len(radii) + 1))


def _radius(number: int) -> str:
    return row_name("radius_m", number)


def _by_squares(reading: Any, known: Known, diameter: Figure, blades: int) -> list[Sum]:
    side = read(reading, "square_m")
    if side is None:
        raise Refused("How wide is a square of the paper?", "square_m")
    whole, part = float(reading.whole or 0), float(reading.part or 0)
    share = (0.5, float(u_of_cut_squares(part)) if part else 0.0)
    counted = {"whole_count": (whole, 0.0), "part_count": (part, 0.0), "square_m": side, "part_ratio": share}
    return _from_tracing(reading, work_out("traced_area_m2", area_of_squares, **counted), diameter, blades)


def _by_outline(reading: Any, known: Known, diameter: Figure, blades: int) -> list[Sum]:
    x, y = (np.array(axis, float) for axis in zip(*reading.outline, strict=True))
    if crosses_itself(x, y):
        raise Refused("The outline crosses itself: its points are not in their order round the blade.", "outline")
    u_point = reading.u_point_m
    traced = Sum(
        what="traced_area_m2",
        value=float(area_of_outline(x, y)),
        u=None if u_point is None else float(u_area_of_outline(x, y, u_point)),
        formula=f"{area_of_outline.__module__}.{area_of_outline.__qualname__}",
        source=source_of(area_of_outline),
        inputs=(Input(name="point_count", value=float(len(x))), Input(name="point_m", value=0.0, u=u_point)),
    )
    return _from_tracing(reading, traced, diameter, blades)


def _from_tracing(reading: Any, traced: Sum, diameter: Figure, blades: int) -> list[Sum]:
    """From one blade's tracing to all blades, with the piece between its foot and the hub."""
    gap, width = read(reading, "root_gap_m") or (0.0, 0.0), read(reading, "root_width_m")
    if gap[0] and width is None:
        raise Refused("How wide is the blade at the tracing's foot?", "root_width_m")
    pieces = {"traced_m2": traced.figure, "root_width_m": width or (0.0, 0.0), "root_gap_m": gap}
    blade = work_out("blade_area_m2", blade_area_with_root, **pieces)
    whole = work_out("expanded_area_m2", area_of_all, blade_area_m2=blade.figure, blades=(float(blades), 0.0))
    ratio = work_out("area_ratio", blade_area_ratio, area_m2=whole.figure, diameter_m=diameter)
    return [ratio, traced, blade, whole]


def _projected(reading: Any, known: Known, diameter: Figure, expanded: Sum) -> tuple[list[Sum], list[str]]:
    """The shadow along the shaft, where the pitch is known and Taylor's line reaches."""
    pitch = read(reading, "pitch_m") or _known(known, "pitch_m")
    if pitch is None:
        return [], [NO_PITCH]
    figures = {"expanded_area_m2": expanded.figure, "pitch_m": pitch, "diameter_m": diameter}
    try:
        shadow = work_out("projected_area_m2", projected_area, **figures)
    except OutsideRange as refusal:
        return [], [f"No projected area: the pitch {refusal.said}"]
    ratio = work_out("projected_ratio", blade_area_ratio, area_m2=shadow.figure, diameter_m=diameter)
    return [shadow, ratio], []


def _remarks(reading: Any, known: Known) -> list[str]:
    remarks = ["One blade stands for all."]
    widths = rows_read(reading, "width_m", MOST_STATIONS)
    place = stray([value for value, _ in widths.values()], FAR_OFF) if len(widths) > 3 else None
    if place is not None:
        remarks.append(f"Check width {list(widths)[place]}: it is far off the others.")
    if reading.blades and known.blades and reading.blades != known.blades:
        remarks.append(f"The register says {known.blades} blades. Count again.")
    return remarks


FAR_OFF = 0.7  # a blade's width changes along it: only a slip of the hand is as far off as this


def _statements(reading: Any, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """The expanded area ratio."""
    return (gear.Said(what="area_ratio", basis="measured", value=outcome.value, u_value=outcome.u),)


AREA = Method(
    name="area", reading=AreaReading, work_out=area_of, statements=_statements, tools=("width_tool", "point_tool")
)
