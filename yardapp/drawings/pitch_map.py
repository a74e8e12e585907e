"""A pitch survey as a polar map: a sector a blade, a ring a radius, the figure in its cell."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import Point, circle, figure, notes, path, sheet, words

MIDDLE_X, MIDDLE_Y = 170.0, 180.0
INNER, OUTER = 40.0, 150.0
# Half the way between two sectors, in radians.
BETWEEN_RAD = 0.03
FILLS = {"high": "line gap", "low": "line hatch", "": "line fillpaper", "gap": "thin dot none"}
WORDS = {"high": "high ", "low": "low ", "": ""}


@dataclass(frozen=True, kw_only=True)
class PitchCell:
    """One blade at one radius: its figure as text, and "high", "low" or "" (within what was asked)."""

    label: str
    side: str = ""


def pitch_map(
    cells: Sequence[Sequence[PitchCell | None]],
    radii: Sequence[str],
    *,
    mean_label: str = "",
    asked_label: str = "",
    key: str = "pitch-map",
) -> Markup:
    """`cells[blade][radius]`, radii from the hub outward; None is not read. Blade 1 points up, then clockwise from aft.

    `asked_label` says what high and low are measured against.
    """
    said = _said(cells, asked_label)
    if not cells or not radii:
        marks, below = notes(["No blade was read."], 24)
        return sheet(key, 340, below, title="Pitch map: not drawn", desc="No blade was read.", marks=marks)
    lines, below = notes(said, MIDDLE_Y + OUTER + 44)
    marks = [
        *(mark for blade in range(len(cells)) for mark in _blade(cells[blade], blade, len(cells), len(radii))),
        circle(MIDDLE_X, MIDDLE_Y, INNER - 6, "thin fillpaper"),
        words(MIDDLE_X, MIDDLE_Y + 5, mean_label, anchor="middle"),
        *lines,
    ]
    title = f"Pitch of {len(cells)} blades at {', '.join(radii)}"
    return sheet(key, 340, below - 8, title=title, desc=" ".join([_rings(radii), *said]), marks=marks, top=2)


def _rings(radii: Sequence[str]) -> str:
    return f"Rings from the hub outward: {', '.join(radii)}. Rings are evenly spaced, not to scale."


def _said(cells: Sequence[Sequence[PitchCell | None]], asked_label: str) -> list[str]:
    sides = {cell.side for blade in cells for cell in blade if cell}
    said = [f"High and low: against {asked_label or 'what was asked'}."] if sides & {"high", "low"} else []
    if any(cell is None for blade in cells for cell in blade):
        said.append("Empty cells were not read.")
    return said


def _blade(cells: Sequence[PitchCell | None], blade: int, blades: int, rings: int) -> list[str]:
    sector_rad = 2 * math.pi / blades
    middle_rad = blade * sector_rad
    marks = [_number(blade, middle_rad)]
    step = (OUTER - INNER) / rings
    for ring, cell in enumerate(cells):
        inner = INNER + ring * step
        marks.append(_cell(middle_rad, sector_rad, inner, inner + step, cell, f"{blade + 1}/{ring + 1}"))
        if cell:
            marks.append(_figure_in(middle_rad, inner + step / 2, WORDS[cell.side] + cell.label))
    return marks


def _figure_in(middle_rad: float, radius: float, text: str) -> str:
    """A figure along the ring, the right way up."""
    x, y = _at(middle_rad, radius)
    turn_rad = math.remainder(middle_rad, 2 * math.pi)
    if abs(turn_rad) > math.pi / 2:
        turn_rad = math.remainder(turn_rad + math.pi, 2 * math.pi)
    x, y = x - 5 * math.sin(turn_rad), y + 5 * math.cos(turn_rad)
    return words(x, y, text, anchor="middle", turn_deg=math.degrees(turn_rad))


def _number(blade: int, middle_rad: float) -> str:
    x, y = _at(middle_rad, OUTER + 14)
    return words(x, y + 6, str(blade + 1), anchor="middle", drawn="dim big")


def _cell(middle_rad: float, sector_rad: float, inner: float, outer: float, cell: PitchCell | None, name: str) -> str:
    """A ring's part in one sector; a single blade takes nearly the whole ring."""
    half_rad = sector_rad / 2 - BETWEEN_RAD
    large = int(2 * half_rad > math.pi)
    first, second = middle_rad - half_rad, middle_rad + half_rad
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = (
        _at(first, inner),
        _at(first, outer),
        _at(second, outer),
        _at(second, inner),
    )
    course = (
        f"M{figure(x1)} {figure(y1)} L{figure(x2)} {figure(y2)}"
        f" A{figure(outer)} {figure(outer)} 0 {large} 1 {figure(x3)} {figure(y3)} L{figure(x4)} {figure(y4)}"
        f" A{figure(inner)} {figure(inner)} 0 {large} 0 {figure(x1)} {figure(y1)}Z"
    )
    return path(course, FILLS[cell.side if cell else "gap"], name=name)


def _at(turn_rad: float, radius: float) -> Point:
    """A place on the map, turning clockwise from straight up."""
    return MIDDLE_X + radius * math.sin(turn_rad), MIDDLE_Y - radius * math.cos(turn_rad)
