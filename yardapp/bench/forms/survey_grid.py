"""The grid of a survey: which cells there are, and what was typed into them."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from math import pi
from typing import Any, NamedTuple

from yardapp import quantities
from yardapp.quantities import Kind, Unreadable

MOST_RADII, MOST_STATIONS = 12, 12
REACH: dict[Kind, float] = {"length": 3.0, "angle": 4 * pi}
WORDS: dict[Kind, str] = {"length": "height", "angle": "angle"}


class Wrong(Exception):
    """A line of radii or angles that can't stand."""

    def __init__(self, said: str) -> None:
        super().__init__(said)
        self.said = said


class Label(NamedTuple):
    """What a cell is called, in the shape in which a box says it."""

    text: str


@dataclass(kw_only=True)
class GridBox:
    """One box of the grid: a height or an angle."""

    name: str
    kind: Kind
    label: Label
    typed: str = ""
    figure: float | None = None
    errors: list[str] = field(default_factory=list)

    @property
    def id(self) -> str:
        """Its id on the page."""
        return self.name


@dataclass(kw_only=True)
class Station:
    """One place that is read: a height, and where each has its own, an angle."""

    blade: int
    radius_ratio: float
    station: int
    height: GridBox
    angle: GridBox | None
    fixed_rad: float | None = None

    @property
    def angle_rad(self) -> float | None:
        """Its angle: its own, or that of its step."""
        return self.fixed_rad if self.angle is None else self.angle.figure

    @property
    def is_half(self) -> bool:
        """Whether one of the two was read and the other not."""
        return self.angle is not None and (self.height.figure is None) != (self.angle.figure is None)


@dataclass(kw_only=True)
class Grid:
    """All stations, by blade and radius; `heads` are what each column is called."""

    radii: list[float]
    heads: list[str]
    rows: dict[tuple[int, float], list[Station]]

    def blades(self) -> list[tuple[int, list[tuple[float, list[Station]]]]]:
        """Blade by blade, each with its radii from the hub outward."""
        numbers = sorted({blade for blade, _ in self.rows})
        return [(blade, [(radius, self.rows[blade, radius]) for radius in self.radii]) for blade in numbers]

    def stations(self) -> Iterator[Station]:
        """Every station in the order in which it is read."""
        for row in self.rows.values():
            yield from row

    def cells(self) -> Iterator[GridBox]:
        """Every box in the order in which it is read."""
        for station in self.stations():
            yield from (box for box in (station.angle, station.height) if box is not None)

    def halves(self) -> list[GridBox]:
        """The boxes that are empty though the other of their station was read."""
        return [
            station.angle if station.angle is not None and station.angle.figure is None else station.height
            for station in self.stations()
            if station.is_half
        ]

    def readings(self) -> list[dict[str, Any]]:
        """What was read, as the service takes it."""
        return [_reading(one) for one in self.stations() if one.height.figure is not None and one.angle_rad is not None]


def _reading(one: Station) -> dict[str, Any]:
    said = {
        "blade": one.blade,
        "radius_ratio": one.radius_ratio,
        "station": one.station,
        "height_m": one.height.figure,
        "angle_rad": one.angle_rad,
        "height_m_typed": one.height.typed,
    }
    return said if one.angle is None else {**said, "angle_rad_typed": one.angle.typed}


def grid_of(form: Any) -> Grid:
    """The grid that a form's set-up asks for, with what was typed; empty while the set-up can't be read."""
    try:
        radii = radii_in(form.radii.data or "")
        fixed = angles_in(form.angles.data or "") if form.way.data == "steps" else None
    except Wrong:
        return Grid(radii=[], heads=[], rows={})
    count = len(fixed) if fixed is not None else min(form.stations.data or 0, MOST_STATIONS)
    heads = [quantities.show(angle, "angle") for angle in fixed] if fixed else [f"{n}" for n in range(1, count + 1)]
    rows = {
        (blade, radius): [
            _station(form, blade, radius, station, fixed[station - 1] if fixed else None)
            for station in range(1, count + 1)
        ]
        for blade in range(1, (form.blades.data or 0) + 1)
        for radius in radii
    }
    return Grid(radii=radii, heads=heads, rows=rows)


def _station(form: Any, blade: int, radius: float, station: int, fixed: float | None) -> Station:
    place = f"{blade}-{radius:g}-{station}"
    said = f"Blade {blade}, {radius:g} R, station {station}"
    height = _box(form, f"h-{place}", "length", said if fixed is not None else f"{said}, height")
    angle = None if fixed is not None else _box(form, f"a-{place}", "angle", f"{said}, angle")
    return Station(blade=blade, radius_ratio=radius, station=station, height=height, angle=angle, fixed_rad=fixed)


def _box(form: Any, name: str, kind: Kind, label: str) -> GridBox:
    box = GridBox(name=name, kind=kind, label=Label(label), typed=form.typed.get(name, ""))
    if box.typed:
        unit = "deg" if kind == "angle" else "in" if form.unit.data == "in" else "mm"
        box.figure, wrong = _read(box.typed, kind, unit)
        box.errors += [wrong] if wrong else []
    return box


@lru_cache(maxsize=8192)
def _read(typed: str, kind: Kind, unit: str) -> tuple[float | None, str]:
    """What was typed in SI, or why it is none. A page sends all its cells again at every key: most were read before."""
    reach = REACH[kind]
    try:
        return quantities.read(typed, kind, unit, at_least=-reach, at_most=reach, what=WORDS[kind]).value, ""
    except Unreadable as refusal:
        return None, refusal.said


def radii_in(text: str) -> list[float]:
    """Radii as shares of the tip's, from the hub outward.

    Raises
    ------
    Wrong
        There is none or too many, or one is no radius.
    """
    radii = sorted(_numbers(text, "R", "radius"))
    if not radii:
        raise Wrong("At which radii? Such as 0.5 0.6 0.7 0.8 0.9.")
    if len(radii) > MOST_RADII:
        raise Wrong(f"At most {MOST_RADII} radii.")
    if radii[0] <= 0 or radii[-1] > 1:
        raise Wrong("A radius is a share of the tip's: above 0, at most 1.")
    if len(set(radii)) < len(radii):
        raise Wrong("Each radius once.")
    return radii


def angles_in(text: str) -> list[float]:
    """Angles of the stations in radians, as they stand.

    Raises
    ------
    Wrong
        There are fewer than two or too many, they do not go one way, or one is no angle.
    """
    angles = _numbers(text, "°", "angle")
    steps = [after - before for before, after in pairwise(angles)]
    if not steps:
        raise Wrong("Two stations at least, such as 0 10 20 30 40.")
    if len(angles) > MOST_STATIONS:
        raise Wrong(f"At most {MOST_STATIONS} stations.")
    if not (all(step > 0 for step in steps) or all(step < 0 for step in steps)):
        raise Wrong("The angles of the stations must go one way.")
    if max(map(abs, angles)) > 360:
        raise Wrong("An angle reaches to 360 degrees.")
    return [angle * pi / 180 for angle in angles]


def _numbers(text: str, unit: str, what: str) -> list[float]:
    parts = [part.rstrip(",").removesuffix(unit) for part in text.replace(";", " ").replace(f" {unit}", unit).split()]
    try:
        return [
            quantities.read(part, "number", at_least=-1000, at_most=1000, what=what).value for part in parts if part
        ]
    except Unreadable as refusal:
        raise Wrong(refusal.said) from refusal
