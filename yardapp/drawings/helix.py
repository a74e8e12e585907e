"""The helix of a blade unrolled: how far along, how far up, and the full turn that they belong to."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import circle, dimension, known, line, notes, path, sheet, words

LEFT, FLOOR, WIDE, HIGH = 46.0, 246.0, 236.0, 190.0


@dataclass(frozen=True)
class _Triangle:
    """The two triangles in metres: what was read, and one full turn."""

    base_m: float
    rise_m: float
    full_base_m: float
    full_rise_m: float

    @property
    def scale(self) -> float:
        """Sheet units a metre, the same across and up."""
        return min(WIDE / self.full_base_m, HIGH / self.full_rise_m)


def helix_triangle(
    radius_m: float | None,
    swing_rad: float | None,
    rise_m: float | None,
    *,
    base_label: str = "",
    rise_label: str = "",
    angle_label: str = "",
    pitch_label: str = "",
    turn_label: str = "",
    key: str = "helix",
) -> Markup:
    """The reading as a triangle inside that of one full turn, to scale; swing is the share of the turn that was read.

    `base_label` says the way along the reading, `turn_label` the way round one full turn, `pitch_label` its height.
    """
    triangle = _triangle(radius_m, swing_rad, rise_m)
    said = _missing(radius_m, swing_rad, rise_m)
    if triangle is None:
        marks, below = notes(said, 24)
        return sheet(key, 340, below, title="Helix unrolled: not drawn", desc=" ".join(said), marks=marks)
    lines, below = notes(said, FLOOR + 70)
    marks = [
        *_full_turn(triangle, key),
        *_reading(triangle, key),
        *_labels(triangle, base_label, rise_label, angle_label, pitch_label, turn_label),
        *lines,
    ]
    title = f"Helix unrolled: {', '.join(label for label in (rise_label, pitch_label, angle_label) if label)}"
    desc = " ".join(["A triangle: along it the way round, up it the rise; one full turn rises by the pitch.", *said])
    return sheet(key, 340, below - 8, title=title, desc=desc, marks=marks)


def _triangle(radius_m: float | None, swing_rad: float | None, rise_m: float | None) -> _Triangle | None:
    if swing_rad is None or rise_m is None or not (known(swing_rad) and known(rise_m)) or swing_rad <= 0 or rise_m <= 0:
        return None
    turns = 2 * math.pi / swing_rad
    # Without a radius the way along is not known; it is then drawn at the radius where the helix stands at 30 degrees.
    radius = radius_m if radius_m and known(radius_m) else rise_m * turns / (2 * math.pi * math.tan(math.pi / 6))
    base_m = swing_rad * radius
    return _Triangle(base_m, rise_m, base_m * turns, rise_m * turns)


def _full_turn(triangle: _Triangle, key: str) -> list[str]:
    right = LEFT + triangle.full_base_m * triangle.scale
    top = FLOOR - triangle.full_rise_m * triangle.scale
    return [
        line([(LEFT, FLOOR), (right, FLOOR), (right, top)], "thin", closed=True, name="full turn"),
        dimension(key, (right + 14, FLOOR), (right + 14, top), name="pitch"),
        dimension(key, (LEFT, FLOOR + 40), (right, FLOOR + 40), name="turn"),
    ]


def _reading(triangle: _Triangle, key: str) -> list[str]:
    right = LEFT + triangle.base_m * triangle.scale
    top = FLOOR - triangle.rise_m * triangle.scale
    slope_rad = math.atan2(triangle.rise_m, triangle.base_m)
    far = 34.0
    x, y = LEFT + far * math.cos(slope_rad), FLOOR - far * math.sin(slope_rad)
    return [
        line([(LEFT, FLOOR), (right, FLOOR), (right, top)], "line gap", closed=True, name="reading"),
        line([(LEFT, FLOOR), (right, top)], "line"),
        path(f"M{LEFT + far:.2f} {FLOOR} A{far} {far} 0 0 0 {x:.2f} {y:.2f}", "thin", name="angle"),
        circle(right, top, 3.5, "line fillpaper"),
        dimension(key, (LEFT, FLOOR + 14), (right, FLOOR + 14), name="base"),
    ]


def _labels(triangle: _Triangle, base: str, rise: str, angle: str, pitch: str, turn: str) -> list[str]:
    right = LEFT + triangle.base_m * triangle.scale
    top = FLOOR - triangle.rise_m * triangle.scale
    full_right = LEFT + triangle.full_base_m * triangle.scale
    full_top = FLOOR - triangle.full_rise_m * triangle.scale
    return [
        words(right + 8, FLOOR + 19, base),
        words(right + 7, (FLOOR + top) / 2 + 5, rise, drawn="dim halo"),
        words(LEFT - 6, FLOOR - 8, angle, anchor="end", drawn="dim"),
        words(full_right + 29, (FLOOR + full_top) / 2, pitch, anchor="middle", turn_deg=-90, drawn="dim big"),
        words((LEFT + full_right) / 2, FLOOR + 57, turn, anchor="middle"),
    ]


def _missing(radius_m: float | None, swing_rad: float | None, rise_m: float | None) -> list[str]:
    said = []
    if not known(swing_rad):
        said.append("Swing not read.")
    if not known(rise_m):
        said.append("Rise not read.")
    if not radius_m or not known(radius_m):
        said.append("Radius not known: not to scale along, and the angle is not true. The pitch does not need it.")
    return said
