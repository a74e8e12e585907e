"""A shaft along its length: how far it is bowed, or where it is worn."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import Point, circle, dimension, known, line, notes, sheet, words

LEFT, RIGHT, AXIS = 36.0, 304.0, 110.0
TALL = 44.0  # the largest figure reaches so far on the sheet
HALF, DEEP = 34.0, 18.0  # of a shaft's body, and of the deepest wear on each side
NOT_ALONG = "Places along it not read: drawn evenly."


@dataclass(frozen=True, kw_only=True)
class ShaftPlace:
    """One place along a shaft: how far along, its figure (offset or wear, m), and what is said of it."""

    along_m: float | None
    figure_m: float
    label: str = ""
    name: str = ""
    is_worst: bool = False


def shaft_bow(places: Sequence[ShaftPlace], *, key: str = "bow") -> Markup:
    """The shaft's middle line against the line it turns about, drawn larger than it is; its ends lie on supports."""
    return _drawn(places, "Bow of the shaft", "its middle stands off", _bow, key)


def shaft_wear(places: Sequence[ShaftPlace], *, key: str = "wear") -> Markup:
    """The shaft's outline, worn places drawn deeper than they are."""
    return _drawn(places, "Wear along the shaft", "it is thinner by", _worn, key)


Draw = Callable[[Sequence[ShaftPlace], list[float], str], list[str]]


def _drawn(places: Sequence[ShaftPlace], title: str, verb: str, draw: Draw, key: str) -> Markup:
    if not places:
        said, below = notes(["Not read at any place."], 24)
        return sheet(key, 340, below, title=f"{title}: not drawn", desc="Not read yet.", marks=said)
    told = ["Across it is drawn far larger than it is."]
    if not all(known(place.along_m) for place in places):
        told.append(NOT_ALONG)
    said, below = notes(told, AXIS + TALL + 62)
    worst = next((place for place in places if place.is_worst), None)
    most = f", most at {worst.name or 'the marked place'}: {worst.label}" if worst else ""
    desc = " ".join(f"At {place.name or 'a place'} {verb} {place.label}." for place in places)
    marks = [*draw(places, _stands(places), key), *said]
    return sheet(key, 340, below - 8, title=f"{title}{most}", desc=f"{desc} {' '.join(told)}", marks=marks)


def _stands(places: Sequence[ShaftPlace]) -> list[float]:
    """Where each place stands on the sheet: by its distance, or evenly where those were not read."""
    alongs = [place.along_m for place in places]
    if any(along is None or not known(along) for along in alongs) or len(set(alongs)) < 2:
        step = (RIGHT - LEFT) / (len(places) + 1)
        return [LEFT + step * number for number in range(1, len(places) + 1)]
    known_alongs = [along for along in alongs if along is not None]
    first, last = min(known_alongs), max(known_alongs)
    inset = 0.08 * (RIGHT - LEFT)
    return [LEFT + inset + (along - first) / (last - first) * (RIGHT - LEFT - 2 * inset) for along in known_alongs]


def _bow(places: Sequence[ShaftPlace], stands: list[float], key: str) -> list[str]:
    most = max((place.figure_m for place in places), default=0.0)
    tops = [AXIS - (TALL * place.figure_m / most if most else 0.0) for place in places]
    marks = [
        line([(LEFT - 12, AXIS), (RIGHT + 12, AXIS)], "thin chain", name="axis"),
        line([(LEFT, AXIS), *zip(stands, tops, strict=True), (RIGHT, AXIS)], "line heavy", name="middle line"),
        _support(LEFT),
        _support(RIGHT),
    ]
    for place, x, y in zip(places, stands, tops, strict=True):
        marks += [
            dimension(key, (x, AXIS), (x, y), name="offset") if AXIS - y > 4 else "",
            circle(x, y, 4, "line fillpaper" if not place.is_worst else "gap", name="station"),
            words(x, y - 12, place.label, anchor="middle", drawn="dim halo"),
            words(x, AXIS + 24, place.name, anchor="middle"),
        ]
    return marks


def _support(x: float) -> str:
    return line([(x, AXIS), (x - 9, AXIS + 16), (x + 9, AXIS + 16)], "line fillpaper", closed=True, name="support")


def _worn(places: Sequence[ShaftPlace], stands: list[float], key: str) -> list[str]:
    most = max((place.figure_m for place in places), default=0.0)
    depths = [DEEP * place.figure_m / most if most else 0.0 for place in places]
    top = [(x, AXIS - HALF + depth) for x, depth in zip(stands, depths, strict=True)]
    outline: list[Point] = [(LEFT, AXIS - HALF), *top, (RIGHT, AXIS - HALF)]
    under: list[Point] = [(x, 2 * AXIS - y) for x, y in reversed(outline)]
    marks = [
        line([*outline, *under], "line fillshaft", closed=True, name="outline"),
        line([(LEFT - 12, AXIS), (RIGHT + 12, AXIS)], "thin chain", name="axis"),
        line([(LEFT, AXIS - HALF), (RIGHT, AXIS - HALF)], "thin dash", name="unworn"),
    ]
    for number, (place, x) in enumerate(zip(places, stands, strict=True)):
        rung = AXIS - HALF - (10 if number % 2 == 0 else 28)
        marks += [
            words(x, rung, place.label, anchor="middle", drawn="dim halo"),
            words(x, AXIS + HALF + (20 if number % 2 == 0 else 38), place.name, anchor="middle"),
            circle(x, AXIS - HALF, 3.5, "gap" if place.is_worst else "line fillpaper", name="place"),
        ]
    return marks
