"""The propeller's disc in its room: the hull above, the sole below, the tip gap, and what rules ask for."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import circle, dimension, known, line, notes, sheet, words

MIDDLE, HIGH, TOP = 130.0, 236.0, 34.0


@dataclass(frozen=True, kw_only=True)
class RuleBand:
    """What one rule asks for between tip and hull."""

    label: str
    clearance_m: float


@dataclass(frozen=True)
class _Room:
    radius_m: float
    hull_m: float | None
    sole_m: float | None
    bands: Sequence[RuleBand]

    @property
    def above_m(self) -> float:
        asked = [self.radius_m + band.clearance_m for band in self.bands]
        return max([self.radius_m, self.hull_m or 0.0, *asked])

    @property
    def scale(self) -> float:
        """Sheet units a metre."""
        return HIGH / (self.above_m + max(self.radius_m, self.sole_m or 0.0))

    @property
    def centre(self) -> float:
        return TOP + self.above_m * self.scale

    def y(self, above_m: float) -> float:
        """Height of a place above the shaft's centre, on the sheet."""
        return self.centre - above_m * self.scale


def disc_under_hull(
    diameter_m: float | None,
    shaft_to_hull_m: float | None,
    *,
    shaft_to_sole_m: float | None = None,
    bands: Sequence[RuleBand] = (),
    diameter_label: str = "",
    tip_gap_label: str = "",
    sole_gap_label: str = "",
    key: str = "disc",
) -> Markup:
    """The disc from aft, to scale; both distances from the shaft's centre, square to the shaft."""
    said = _missing(diameter_m, shaft_to_hull_m)
    if not diameter_m or not known(diameter_m):
        marks, below = notes(said, 24)
        return sheet(key, 340, below, title="Disc under the hull: not drawn", desc=" ".join(said), marks=marks)
    room = _Room(diameter_m / 2, _given(shaft_to_hull_m), _given(shaft_to_sole_m), bands)
    lines, below = notes(said, TOP + HIGH + 46)
    marks = [
        *_disc(room, diameter_label),
        *_bands(room),
        *(_hull(room, room.hull_m, tip_gap_label, key) if room.hull_m else []),
        *(_sole(room, room.sole_m, sole_gap_label, key) if room.sole_m else []),
        *lines,
    ]
    title = f"Disc under the hull: {tip_gap_label or 'tip gap not known'}"
    asked = [f"{band.label} is asked for by one rule." for band in bands]
    return sheet(key, 340, below - 8, title=title, desc=" ".join([diameter_label, *asked, *said]), marks=marks)


def _given(length_m: float | None) -> float | None:
    return length_m if known(length_m) else None


def _disc(room: _Room, label: str) -> list[str]:
    radius, y = room.radius_m * room.scale, room.centre
    return [
        circle(MIDDLE, y, radius, "line fillpaper dash", name="disc"),
        circle(MIDDLE, y, 7, "line fillshaft", name="shaft"),
        line([(MIDDLE - radius - 8, y), (MIDDLE + radius + 8, y)], "thin chain"),
        line([(MIDDLE, y - radius - 8), (MIDDLE, y + radius + 8)], "thin chain"),
        words(MIDDLE, y + 36, label, anchor="middle", drawn="dim big"),
    ]


def _hull(room: _Room, hull_m: float, label: str, key: str) -> list[str]:
    """The hull's bottom, hatched above, and the gap from the tip."""
    y, tip = room.y(hull_m), room.y(room.radius_m)
    strokes = [line([(x, y), (x + 10, y - 10)], "thin") for x in range(8, 240, 14)]
    x = MIDDLE - 44
    return [
        line([(6, y), (254, y)], "line", name="hull"),
        *strokes,
        line([(x - 6, tip), (MIDDLE, tip)], "thin"),
        dimension(key, (x, tip), (x, y), name="tip gap"),
        words(x - 10, min((y + tip) / 2 + 5, tip + 18), label, anchor="end", drawn="dim halo"),
    ]


def _sole(room: _Room, sole_m: float, label: str, key: str) -> list[str]:
    y, tip = room.y(-sole_m), room.y(-room.radius_m)
    x = MIDDLE - 44
    return [
        line([(6, y), (254, y)], "line", name="sole"),
        line([(x - 6, tip), (MIDDLE, tip)], "thin"),
        dimension(key, (x, tip), (x, y), name="sole gap"),
        words(x - 22, max((y + tip) / 2 + 5, y + 20), label, anchor="end"),
    ]


def _bands(room: _Room) -> list[str]:
    """A dotted line where the hull would have to be for each rule; labels kept apart."""
    marks: list[str] = []
    above = float("inf")
    for band in sorted(room.bands, key=lambda band: band.clearance_m):
        y = room.y(room.radius_m + band.clearance_m)
        above = min(y, above - 17)
        marks.append(line([(MIDDLE - 20, y), (256, y), (264, above)], "thin dot", name=f"band {band.label}"))
        marks.append(words(268, above + 5, band.label))
    return marks


def _missing(diameter_m: float | None, shaft_to_hull_m: float | None) -> list[str]:
    said = []
    if not diameter_m or not known(diameter_m):
        said.append("Diameter not known.")
    if not known(shaft_to_hull_m):
        said.append("Shaft centre to hull not measured: the hull is not drawn.")
    return said
