"""Curves and dots over two axes, where people compare: demand and engine, trials, the register's propellers."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup, escape

from yardapp.drawings.sheet import Point, circle, line, sheet, words

LEFT, RIGHT, TOP, FLOOR = 58.0, 322.0, 14.0, 206.0
LETTER, LINE_HIGH = 8.2, 14.0  # how much room a label takes: a letter's width, a line's height


@dataclass(frozen=True, kw_only=True)
class Axis:
    """One axis: from, to, and its ticks as (figure, label)."""

    label: str
    low: float
    high: float
    ticks: Sequence[tuple[float, str]] = ()
    tall: float = FLOOR - TOP  # of the axis that stands up, in the drawing's own unit

    @property
    def floor(self) -> float:
        """Where the axis that stands up begins."""
        return TOP + self.tall

    def share(self, value: float) -> float:
        return (value - self.low) / (self.high - self.low)

    def holds(self, value: float) -> bool:
        """Whether a figure is known and lies on the axis."""
        slack = 1e-9 * (self.high - self.low)
        return self.low - slack <= value <= self.high + slack


@dataclass(frozen=True, kw_only=True)
class Curve:
    """Points joined by a line; NaN breaks it. drawn: "line", "thin", "thin dash"…"""

    points: Sequence[tuple[float, float]]
    label: str = ""
    drawn: str = "line"


@dataclass(frozen=True, kw_only=True)
class Dot:
    """One thing to compare, and the page it opens."""

    x: float
    y: float
    label: str = ""
    href: str = ""
    is_chosen: bool = False
    name: str = ""  # what a screen reader calls it, where no label is drawn


@dataclass(frozen=True, kw_only=True)
class Region:
    """A part of the plot that is shaded: at each x from one y to another; NaN breaks it. drawn: "hatch", "gap"…"""

    course: Sequence[tuple[float, float, float]]
    label: str = ""
    drawn: str = "region"


@dataclass(frozen=True, kw_only=True)
class Band:
    """A part of the x axis that is shaded, such as diameters for which there is no room."""

    low: float
    high: float
    label: str = ""


def plot(
    x: Axis,
    y: Axis,
    *,
    title: str,
    curves: Sequence[Curve] = (),
    dots: Sequence[Dot] = (),
    bands: Sequence[Band] = (),
    regions: Sequence[Region] = (),
    key: str = "plot",
    tall: float = FLOOR - TOP,
) -> Markup:
    """Axes with what is compared; what lies outside them is left out and counted under the plot."""
    y = replace(y, tall=tall)
    floor = TOP + tall
    outside = sum(not (x.holds(dot.x) and y.holds(dot.y)) for dot in dots)
    said = f"{outside} outside the plot." if outside else ""
    marks = [
        *(mark for region in regions for mark in _region(x, y, region)),
        *(mark for band in bands for mark in _band(x, y, band)),
        *_axes(x, y),
        *(mark for curve in curves for mark in _curve(x, y, curve)),
        *(_region_label(x, y, region) for region in regions),
        *_curve_labels(x, y, curves),
        *_dots(x, y, [dot for dot in dots if x.holds(dot.x) and y.holds(dot.y)]),
        words(LEFT, floor + 60, said),
    ]
    named = [*(curve.label for curve in curves), *(region.label for region in regions), *(dot.label for dot in dots)]
    labels = [label for label in named if label]
    desc = f"Across: {x.label}. Up: {y.label}. {'Shown: ' + ', '.join(labels) + '. ' if labels else ''}{said}"
    return sheet(key, 340, floor + (68 if said else 48), title=title, desc=desc.strip(), marks=marks)


def _place(x: Axis, y: Axis, point: tuple[float, float]) -> Point:
    return LEFT + x.share(point[0]) * (RIGHT - LEFT), y.floor - y.share(point[1]) * y.tall


def _axes(x: Axis, y: Axis) -> list[str]:
    marks = [line([(LEFT, TOP), (LEFT, y.floor), (RIGHT, y.floor)], "line", name="axes")]
    for value, label in x.ticks:
        at = LEFT + x.share(value) * (RIGHT - LEFT)
        marks += [line([(at, y.floor), (at, y.floor + 5)], "thin"), words(at, y.floor + 20, label, anchor="middle")]
    for value, label in y.ticks:
        at = y.floor - y.share(value) * y.tall
        marks += [line([(LEFT - 5, at), (RIGHT, at)], "thin dot"), words(LEFT - 9, at + 5, label, anchor="end")]
    middle = (TOP + y.floor) / 2
    marks.append(words((LEFT + RIGHT) / 2, y.floor + 40, x.label, anchor="middle"))
    marks.append(words(14, middle, y.label, anchor="middle", turn_deg=-90))
    return marks


def _curve(x: Axis, y: Axis, curve: Curve) -> list[str]:
    runs = [[_place(x, y, point) for point in run] for run in _runs(x, y, curve.points)]
    return [line(run, curve.drawn, name=f"curve {curve.label}") for run in runs]


def _curve_labels(x: Axis, y: Axis, curves: Sequence[Curve]) -> list[str]:
    """Each at its curve's end, or as far back along it as keeps clear of those before."""
    taken: list[tuple[Point, float]] = []
    marks = []
    for curve in curves:
        runs = [[_place(x, y, point) for point in run] for run in _runs(x, y, curve.points)]
        if not runs or not curve.label:
            continue
        wide = LETTER * len(curve.label)
        spots = [(min(at, RIGHT) - 4, max(up - 7, TOP + 4)) for at, up in reversed(runs[-1])]
        spot = next((one for one in spots if all(_is_clear(one, wide, *other) for other in taken)), spots[0])
        taken.append((spot, wide))
        marks.append(words(*spot, curve.label, anchor="end", drawn="dim halo"))
    return marks


def _is_clear(spot: Point, wide: float, other: Point, other_wide: float) -> bool:
    """Whether two labels that end at these points do not hide one another."""
    apart = spot[0] + 2 < other[0] - other_wide or other[0] + 2 < spot[0] - wide
    return apart or abs(spot[1] - other[1]) >= LINE_HIGH


def _runs(x: Axis, y: Axis, course: Sequence[tuple[float, float]]) -> Iterator[list[tuple[float, float]]]:
    """The parts of a curve that lie on the axes, in one piece each."""
    run: list[tuple[float, float]] = []
    for point in [*course, (math.nan, math.nan)]:
        if x.holds(point[0]) and y.holds(point[1]):
            run.append(point)
            continue
        if len(run) > 1:
            yield run
        run = []


def _band(x: Axis, y: Axis, band: Band) -> list[str]:
    low, high = (LEFT + min(max(x.share(edge), 0), 1) * (RIGHT - LEFT) for edge in (band.low, band.high))
    corners = [(low, TOP), (high, TOP), (high, y.floor), (low, y.floor)]
    shade = line(corners, "gap", closed=True, name=f"band {band.label}")
    return [shade, words((low + high) / 2, TOP + 14, band.label, anchor="middle")]


def _region(x: Axis, y: Axis, region: Region) -> list[str]:
    """Each part of it in one piece, cut at the edges of the plot."""
    pieces = _pieces(x, y, region)
    return [line(_round(x, y, run), region.drawn, closed=True, name=f"region {region.label}") for run in pieces]


def _region_label(x: Axis, y: Axis, region: Region) -> str:
    """In the middle of its largest piece."""
    largest = max(_pieces(x, y, region), key=len, default=[])
    if not largest or not region.label:
        return ""
    at, low, high = largest[len(largest) // 2]
    return words(*_place(x, y, (at, (low + high) / 2)), region.label, anchor="middle", drawn="dim halo")


def _pieces(x: Axis, y: Axis, region: Region) -> list[list[tuple[float, float, float]]]:
    runs: list[list[tuple[float, float, float]]] = [[]]
    for at, low, high in region.course:
        low, high = max(low, y.low), min(high, y.high)
        if x.holds(at) and low < high:
            runs[-1].append((at, low, high))
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if len(run) > 1]


def _round(x: Axis, y: Axis, run: Sequence[tuple[float, float, float]]) -> list[Point]:
    """Along its lower edge and back along its upper."""
    below = [_place(x, y, (at, low)) for at, low, _ in run]
    return below + [_place(x, y, (at, high)) for at, _, high in reversed(run)]


def _dots(x: Axis, y: Axis, dots: Sequence[Dot]) -> list[str]:
    """Every dot, and those of their labels that keep clear of one another: the chosen one's first."""
    taken: list[tuple[Point, float]] = []
    shown: set[int] = set()
    for number in sorted(range(len(dots)), key=lambda one: not dots[one].is_chosen):
        at, wide = _place(x, y, (dots[number].x, dots[number].y)), LETTER * len(dots[number].label)
        spot = (at[0] + 11 + wide if _is_left(at) else at[0] - 11, at[1])
        if all(_is_clear(spot, wide, *other) for other in taken):
            shown.add(number)
            taken.append((spot, wide))
    return [_dot(x, y, dot, is_labelled=number in shown) for number, dot in enumerate(dots)]


def _is_left(at: Point) -> bool:
    return at[0] < (LEFT + RIGHT) / 2


def _dot(x: Axis, y: Axis, dot: Dot, *, is_labelled: bool) -> str:
    at_x, at_y = _place(x, y, (dot.x, dot.y))
    drawn = "line fillink" if dot.is_chosen else "line fillpaper"
    right, said = _is_left((at_x, at_y)), dot.label if is_labelled else ""
    label = words(at_x + (11 if right else -11), at_y - 8, said, anchor="start" if right else "end", drawn="dim halo")
    # A wide ring that nothing paints, so that a thumb hits the dot.
    marks = f"{circle(at_x, at_y, 16, 'touch')}{circle(at_x, at_y, 6, drawn, name='dot')}{label}"
    named = f' aria-label="{escape(dot.name)}"' if dot.name else ""
    return f'<a href="{escape(dot.href)}"{named}>{marks}</a>' if dot.href else marks
