"""The helix of a blade unrolled: the reading as a triangle, and the full turn that it is a part of."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import circle, dimension, known, line, notes, path, sheet, words

LEFT, WIDE = 52.0, 168.0
FLOOR, HIGH = 150.0, 120.0
TURN_HIGH, BETWEEN = 90.0, 62.0


@dataclass(frozen=True)
class _Triangle:
    """A right-angled triangle in metres, standing on the sheet."""

    base_m: float
    rise_m: float
    floor: float
    scale: float

    @property
    def right(self) -> float:
        return LEFT + self.base_m * self.scale

    @property
    def top(self) -> float:
        return self.floor - self.rise_m * self.scale


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
    """What was read, to scale, and under it one full turn with the reading in its corner.

    `base_label` says the way along the reading, `turn_label` the way round one full turn, `pitch_label` its height.
    """
    said = _missing(radius_m, swing_rad, rise_m)
    if swing_rad is None or rise_m is None or not (swing_rad > 0 and rise_m > 0):
        marks, below = notes(said, 24)
        return sheet(key, 340, below, title="Helix unrolled: not drawn", desc=" ".join(said), marks=marks)
    reading, turn = _triangles(radius_m, swing_rad, rise_m)
    lines, below = notes(said, turn.floor + 60)
    marks = [
        *_reading(reading, (base_label, rise_label, angle_label), key),
        *_full_turn(turn, swing_rad / (2 * math.pi), (turn_label, pitch_label), key),
        *lines,
    ]
    title = f"Helix unrolled: rise {rise_label or 'as drawn'}, pitch {pitch_label or 'as drawn'}"
    desc = " ".join(["Along: the way round. Up: the rise. One full turn rises by the pitch.", *said])
    return sheet(key, 340, below - 8, title=title, desc=desc, marks=marks, top=reading.top - 20)


def _triangles(radius_m: float | None, swing_rad: float, rise_m: float) -> tuple[_Triangle, _Triangle]:
    turns = 2 * math.pi / swing_rad
    # Without a radius the way along is not known; it is then drawn as where the helix stands at 30 degrees.
    base_m = swing_rad * radius_m if radius_m and known(radius_m) else rise_m / math.tan(math.pi / 6)
    scale = min(WIDE / base_m, HIGH / rise_m)
    turn_scale = min(WIDE / base_m, TURN_HIGH / rise_m) / turns
    turn_floor = FLOOR + BETWEEN + rise_m * turns * turn_scale
    return _Triangle(base_m, rise_m, FLOOR, scale), _Triangle(base_m * turns, rise_m * turns, turn_floor, turn_scale)


def _reading(reading: _Triangle, labels: tuple[str, str, str], key: str) -> list[str]:
    base_label, rise_label, angle_label = labels
    slope_rad = math.atan2(reading.rise_m, reading.base_m)
    far = min(56.0, 0.6 * (reading.right - LEFT))
    x, y = LEFT + far * math.cos(slope_rad), FLOOR - far * math.sin(slope_rad)
    return [
        line([(LEFT, FLOOR), (reading.right, FLOOR), (reading.right, reading.top)], "gap", closed=True, name="reading"),
        line([(LEFT, FLOOR), (reading.right, reading.top)], "line"),
        path(f"M{LEFT + far:.2f} {FLOOR} A{far:.2f} {far:.2f} 0 0 0 {x:.2f} {y:.2f}", "thin", name="angle"),
        circle(reading.right, reading.top, 3.5, "line fillpaper"),
        dimension(key, (LEFT, FLOOR + 14), (reading.right, FLOOR + 14), name="base"),
        dimension(key, (reading.right + 14, FLOOR), (reading.right + 14, reading.top), name="rise"),
        words((LEFT + reading.right) / 2, FLOOR + 31, base_label, anchor="middle"),
        words(reading.right + 24, (FLOOR + reading.top) / 2 - 4, "rise" if rise_label else ""),
        words(reading.right + 24, (FLOOR + reading.top) / 2 + 13, rise_label),
        words(LEFT - 6, FLOOR + 4, angle_label, anchor="end"),
    ]


def _full_turn(turn: _Triangle, share: float, labels: tuple[str, str], key: str) -> list[str]:
    turn_label, pitch_label = labels
    corner_x, corner_y = LEFT + (turn.right - LEFT) * share, turn.floor - (turn.floor - turn.top) * share
    return [
        line([(LEFT, turn.floor), (turn.right, turn.floor), (turn.right, turn.top)], "thin", closed=True, name="turn"),
        line([(LEFT, turn.floor), (corner_x, turn.floor), (corner_x, corner_y)], "gap", closed=True, name="share"),
        dimension(key, (turn.right + 14, turn.floor), (turn.right + 14, turn.top), name="pitch"),
        dimension(key, (LEFT, turn.floor + 14), (turn.right, turn.floor + 14), name="round"),
        words((LEFT + turn.right) / 2, turn.floor + 31, turn_label, anchor="middle"),
        words(turn.right + 24, (turn.floor + turn.top) / 2 - 4, "pitch" if pitch_label else ""),
        words(turn.right + 24, (turn.floor + turn.top) / 2 + 13, pitch_label),
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
