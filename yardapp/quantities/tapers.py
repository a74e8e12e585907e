"""Tapers as a yard writes them: 1:16, 1 in 12, 3/4 in per foot, or the angle of the cone."""

import re
from dataclasses import replace
from fractions import Fraction
from math import tan

from yardapp.quantities import numerals, units
from yardapp.quantities.asking import Asked, Read
from yardapp.quantities.measures import first, read_measure
from yardapp.quantities.numerals import Unreadable

_ONE_IN = re.compile(r"1\s*(?P<by>in|to|:|/)\s*(?P<run>[\d.,][\d.,\s/-]*)", re.ASCII | re.IGNORECASE)
_OVER = re.compile(
    r"(?P<rise>.+?)\s*(?:/\s*(?P<one>[a-z'\"]+\.?)|\b(?:per|in|on)\b\s*(?:an?\s+)?(?P<run>[\d.,]*)\s*(?P<unit>[a-z'\"]+\.?))",
    re.ASCII | re.IGNORECASE,
)
_HALF = re.compile(r"^half(?:[\s-]+angle)?\s+|\s+(?:half(?:[\s-]+angle)?|per side|a side|each side)$", re.IGNORECASE)
STEEPEST_FRACTION = 10  # 1/16 is 1:16; 1/8 may be inches per foot
STEEPEST_BARE = 4  # a bare number from here up is N of 1:N; one below AT_MOST is the ratio itself


def read_taper(asked: Asked) -> Read:
    """Change of diameter over length."""
    if match := _ONE_IN.fullmatch(asked.text):
        return _one_in(asked, match["run"].strip(), by=match["by"])
    if any(mark in asked.text.casefold() for mark in ("°", "deg", "rad")):
        return _cone(asked)
    if match := _OVER.fullmatch(asked.text):
        return _rise_over_run(asked, match)
    return _bare(asked)


def _ratio(asked: Asked, ratio: Fraction, unit: str = "1:N", why: str = "", *, assumed: bool = False) -> Read:
    return Read(float(ratio), unit, assumed, why, asked.typed, ratio, "taper")


def _one_in(asked: Asked, written: str, *, by: str) -> Read:
    run = numerals.whole(written)
    if run is None or run.number <= 0:
        raise asked.refuse()
    if by == "/" and run.number < STEEPEST_FRACTION:
        raise _two_ways(asked)
    return _ratio(asked, 1 / run.number)


def _rise_over_run(asked: Asked, match: re.Match[str]) -> Read:
    per = units.find("length", match["one"] or match["unit"])
    along = numerals.whole(match["run"]) if match["run"] else None
    number, written = first(replace(asked, text=match["rise"]))
    unit = units.find("length", written) if written else _same_system(per)
    if per is None or unit is None or (match["run"] and (along is None or along.number == 0)):
        raise asked.refuse()
    run = (along.number if along else 1) * units.factor(per)
    why = "" if written else f"no unit typed before the length; read as {unit.spoken}"
    return _ratio(asked, number.number * units.factor(unit) / run, f"{unit.name}/{per.name}", why, assumed=not written)


def _same_system(per: units.Unit | None) -> units.Unit | None:
    """Per foot goes with inches; any other length with itself."""
    return units.named("length", "in") if per is not None and per.name == "ft" else per


def _cone(asked: Asked) -> Read:
    half = _HALF.search(asked.text)
    cone = read_measure(replace(asked, kind="angle", text=_HALF.sub("", asked.text).strip()))
    if cone.value <= 0:
        raise asked.refuse()
    if cone.value >= 1:
        raise Unreadable(f"`{asked.typed}` is too wide for a taper. Try {asked.examples}.")
    if half:
        why = "the angle was read as the HALF angle, one side to the centre line"
    else:
        why = "the angle was read as the FULL included angle, from one side of the cone to the other"
    return Read(2 * tan(cone.value if half else cone.value / 2), cone.unit, False, why, asked.typed, None, "taper")


def _bare(asked: Asked) -> Read:
    number = numerals.whole(asked.text)
    if number is None or number.number <= 0:
        raise asked.refuse()
    if number.number >= STEEPEST_BARE:
        return _ratio(asked, 1 / number.number, why="no unit typed; this box reads the N of 1:N", assumed=True)
    if number.is_fraction or number.number > Fraction(1, 2):
        raise _two_ways(asked)
    return _ratio(asked, number.number, why="no unit typed; read as change of diameter over length", assumed=True)


def _two_ways(asked: Asked) -> Unreadable:
    return Unreadable(f"`{asked.typed}` may be a ratio or inches per foot. Try {asked.examples}.")
