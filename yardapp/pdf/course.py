"""The course of an SVG path as corners: straight pieces as they are, arcs and curves in short ones."""

import cmath
import math
import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import TypeAlias

Corner: TypeAlias = tuple[float, float]
Corners: TypeAlias = list[Corner]
Course: TypeAlias = list[tuple[Corners, bool]]
STEPS = 32
COUNTS = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "Q": 4, "C": 6}


def course_of(said: str) -> Course:
    """Each piece of a path: its corners, and whether it closes. Capital letters only: our drawings write no others."""
    pieces: Course = []
    for letter, figures in _steps(said):
        if letter == "Z":
            pieces[-1] = (pieces[-1][0], True)
        elif letter == "M":
            pieces.append(([(figures[0], figures[1])], False))
        else:
            corners = pieces[-1][0]
            corners += GO[letter](corners[-1], figures)
    return pieces


def _steps(said: str) -> Iterator[tuple[str, list[float]]]:
    """One step at a time; figures beyond one step's repeat it, and after a move they are lines."""
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", said):
        figures = [float(one) for one in re.findall(r"-?\d*\.?\d+", rest)]
        if letter == "Z":
            yield letter, []
            continue
        size = COUNTS[letter]
        for start in range(0, len(figures), size):
            yield "L" if letter == "M" and start else letter, figures[start : start + size]


def _arc(start: Corner, figures: list[float]) -> Corners:
    """An elliptic arc without tilt, from its ends, as SVG 1.1 appendix F.6.5 finds its centre."""
    rx, ry, _, is_large, is_sweeping, x, y = figures
    if rx == 0 or ry == 0 or start == (x, y):
        return [(x, y)]
    first, last = complex(start[0] / rx, start[1] / ry), complex(x / rx, y / ry)
    half = (last - first) / 2
    grown = max(abs(half), 1.0)  # a radius too small for its ends is made to reach
    off = 1j * half / abs(half) * math.sqrt(max(grown**2 - abs(half) ** 2, 0))
    centre = (first + last) / 2 + (off if bool(is_large) != bool(is_sweeping) else -off)
    turn = cmath.phase((last - centre) / (first - centre))
    if is_sweeping and turn < 0:
        turn += math.tau
    elif not is_sweeping and turn > 0:
        turn -= math.tau
    spots = [centre + (first - centre) * cmath.rect(1, turn * step / STEPS) for step in range(1, STEPS)]
    return [*((spot.real * rx, spot.imag * ry) for spot in spots), (x, y)]


def _bend(start: Corner, figures: list[float]) -> Corners:
    """A Bézier curve of any order, by de Casteljau's halving between its points."""
    guides = [complex(*start), *(complex(x, y) for x, y in zip(figures[::2], figures[1::2], strict=True))]
    spots = [_between(guides, step / STEPS) for step in range(1, STEPS + 1)]
    return [(spot.real, spot.imag) for spot in spots]


def _between(guides: list[complex], share: float) -> complex:
    while len(guides) > 1:
        guides = [a + (b - a) * share for a, b in pairwise(guides)]
    return guides[0]


GO: dict[str, Callable[[Corner, list[float]], Corners]] = {
    "L": lambda start, to: [(to[0], to[1])],
    "H": lambda start, to: [(to[0], start[1])],
    "V": lambda start, to: [(start[0], to[0])],
    "A": _arc,
    "Q": _bend,
    "C": _bend,
}


def arrow_heads(course: Course, *, at_start: bool, at_end: bool) -> Iterator[Corners]:
    """The arrows of a dimension line: eight long, seven wide, the tip on the end of the line."""
    first, last = course[0][0], course[-1][0]
    if at_start and len(first) > 1:
        yield _head(first[0], first[1])
    if at_end and len(last) > 1:
        yield _head(last[-1], last[-2])


def _head(tip: Corner, back: Corner) -> Corners:
    run = complex(back[0] - tip[0], back[1] - tip[1])
    run = run / abs(run) if run else 1 + 0j
    corners = [complex(*tip), complex(*tip) + run * (8 + 3.5j), complex(*tip) + run * (8 - 3.5j)]
    return [(corner.real, corner.imag) for corner in corners]
