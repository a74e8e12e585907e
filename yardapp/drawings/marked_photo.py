"""Arrows and circles over a photo, in shares of its width and height; the photo itself is not touched."""

import math
from collections.abc import Iterable
from typing import Protocol

from markupsafe import Markup

WEIGHT = 1 / 130  # of the longer side, for a line
HEAD = 5.0  # lines long is an arrow's head


class Mark(Protocol):
    """What is drawn: both ends in shares of the photo."""

    @property
    def kind(self) -> str:
        """Arrow or circle."""

    from_x_ratio: float
    from_y_ratio: float
    to_x_ratio: float
    to_y_ratio: float
    words: str


def marked_photo(href: str, width: int, height: int, marks: Iterable[Mark], *, label: str) -> Markup:
    """The photo at `href` with its marks over it, numbered; `label` is read out."""
    weight = WEIGHT * max(width, height)
    drawn = Markup("").join(_mark(mark, number, width, height, weight) for number, mark in enumerate(marks, 1))
    return Markup(
        '<svg class="marked" viewBox="0 0 {width} {height}" role="img" aria-label="{label}">'
        '<image href="{href}" width="{width}" height="{height}"/>{drawn}</svg>'
    ).format(width=width, height=height, label=label, href=href, drawn=drawn)


def _mark(mark: Mark, number: int, width: int, height: int, weight: float) -> Markup:
    start = mark.from_x_ratio * width, mark.from_y_ratio * height
    end = mark.to_x_ratio * width, mark.to_y_ratio * height
    course = _circle(start, end) if mark.kind == "circle" else _arrow(start, end, weight)
    lines = Markup("").join(
        Markup('<path class="marked-{}" d="{}" stroke-width="{:.1f}"/>').format(name, course, thick * weight)
        for name, thick in (("halo", 2.2), ("line", 1.0))
    )
    return lines + _number(number, _beside(mark, start, end, (width, height), weight), weight)


def _beside(
    mark: Mark, start: tuple[float, float], end: tuple[float, float], size: tuple[int, int], weight: float
) -> tuple[float, float]:
    """The number's left foot: behind an arrow's tail or above a circle, and never off the photo."""
    high, wide = 5 * weight, 3 * weight  # of a digit
    if mark.kind == "circle":
        x, y = start[0] - wide / 2, start[1] - math.dist(start, end) - 2 * weight
    else:
        along = math.atan2(start[1] - end[1], start[0] - end[0])
        x = start[0] + 4.5 * weight * math.cos(along) - wide / 2
        y = start[1] + 4.5 * weight * math.sin(along) + 0.36 * high
    return min(max(x, weight), size[0] - wide - weight), min(max(y, high), size[1] - weight)


def _number(number: int, at: tuple[float, float], weight: float) -> Markup:
    size = 5 * weight
    return Markup(
        '<text class="marked-number" x="{:.1f}" y="{:.1f}" font-size="{:.1f}" stroke-width="{:.1f}">{}</text>'
    ).format(at[0], at[1], size, weight, number)


def _circle(centre: tuple[float, float], edge: tuple[float, float]) -> str:
    radius = math.dist(centre, edge)
    left, right, y = centre[0] - radius, centre[0] + radius, centre[1]
    arc = f"A {radius:.1f} {radius:.1f} 0 0 1"
    return f"M {left:.1f} {y:.1f} {arc} {right:.1f} {y:.1f} {arc} {left:.1f} {y:.1f}"


def _arrow(tail: tuple[float, float], tip: tuple[float, float], weight: float) -> str:
    along = math.atan2(tail[1] - tip[1], tail[0] - tip[0])
    sides = [
        (tip[0] + HEAD * weight * math.cos(along + turn), tip[1] + HEAD * weight * math.sin(along + turn))
        for turn in (-0.5, 0.5)
    ]
    one, other = (f"{x:.1f} {y:.1f}" for x, y in sides)
    return f"M {tail[0]:.1f} {tail[1]:.1f} L {tip[0]:.1f} {tip[1]:.1f} M {one} L {tip[0]:.1f} {tip[1]:.1f} L {other}"
