"""A number and its unit: sizes, angles, powers, speeds, weights, plain numbers."""

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from yardapp.quantities import numerals, units
from yardapp.quantities.asking import WHAT, Asked, Read, article
from yardapp.quantities.numerals import Numeral, Unreadable
from yardapp.quantities.units import Kind, Unit

ALWAYS: dict[Kind, str] = {
    "angle": "deg",
    "rotation": "rpm",
    "speed": "kn",
    "mass": "kg",
    "number": "",
    "torque": "N m",
    "volume": "l",
    "density": "kg/m³",
    "temperature": "°C",
}
DIFFER: dict[Kind, str] = {
    "power": "hp, PS and kW differ",
    "force": "kN, lbf and kgf differ",
    "pressure": "bar, psi and MPa differ",
    "area": "m² and in² differ",
    "duration": "minutes and hours differ",
}
NEVER_INCHES_ABOVE = 60  # a judgement: no propeller or shaft of a yard is larger

_FEET = re.compile(r"(?:ft\.?|feet|foot|')[\s-]*(?P<second>\d.*|\.\d.*)", re.ASCII | re.IGNORECASE)
_DEGREES = re.compile(r"(?:°|deg\.?|degrees?)\s*(?P<second>\d+(?:\.\d+)?)\s*(?:'|min\.?)", re.ASCII | re.IGNORECASE)
_HOURS = re.compile(
    r"(?:h|hrs?|hours?)\.?\s*(?P<second>\d+)\s*(?:m|mins?|minutes?)?\.?",
    re.ASCII | re.IGNORECASE,
)
_TO_ONE = re.compile(r"\s*(?::|\bto\b)\s*1$", re.ASCII | re.IGNORECASE)


def read_measure(asked: Asked) -> Read:
    """One number and perhaps a unit; feet and inches; degrees and minutes; hours and minutes."""
    numeral, rest = first(asked)
    for kind, second, compose in _COMPOUND:
        if kind == asked.kind and numeral.number >= 0 and (match := second.fullmatch(rest)):
            return compose(asked, numeral, match["second"])
    if rest:
        return asked.figure(numeral.number, unit_typed(asked, rest))
    unit, why = _assumption(asked, numeral)
    return asked.figure(numeral.number, unit, why)


def read_number(asked: Asked) -> Read:
    """A plain number or a ratio to one; it needs no unit, so nothing is assumed."""
    found = read_measure(replace(asked, text=_TO_ONE.sub(":1", asked.text)))
    return found if asked.assume else replace(found, assumed=False, why="")


def read_count(asked: Asked) -> Read:
    """A whole number, nothing else beside it."""
    if not asked.text.isdigit():
        raise asked.refuse()
    return asked.figure(Fraction(asked.text), units.named("count", ""))


def first(asked: Asked) -> tuple[Numeral, str]:
    """The number the text begins with and the rest of it.

    Raises
    ------
    Unreadable
        It begins with no number.
    """
    taken = numerals.take(asked.text)
    if taken is None:
        raise asked.refuse()
    return taken


def unit_typed(asked: Asked, written: str) -> Unit:
    """The unit that was typed.

    Raises
    ------
    Unreadable
        It is no unit, has two meanings, or measures something else.
    """
    unit = units.find(asked.kind, written)
    if unit is not None:
        return unit
    if meanings := units.TWO_MEANINGS.get(units.called(written)):
        raise Unreadable(f"`{asked.typed}`: {written} {meanings}")
    if kinds := units.kinds_of(written):
        other = article(WHAT[kinds[0]])
        raise Unreadable(f"`{asked.typed}` is {other}, not {article(asked.what)}. Try {asked.examples}.")
    raise asked.refuse()


def _assumption(asked: Asked, numeral: Numeral) -> tuple[Unit, str]:
    if asked.assume is None and asked.kind == "length":
        return _by_magnitude(numeral)
    if asked.assume is None and asked.kind in DIFFER:
        raise Unreadable(f"`{asked.typed}` has no unit, and {DIFFER[asked.kind]}. Type {asked.examples}.")
    unit = units.named(asked.kind, ALWAYS[asked.kind] if asked.assume is None else asked.assume)
    return unit, f"no unit typed; this box reads {unit.spoken}"


def _by_magnitude(numeral: Numeral) -> tuple[Unit, str]:
    inches = units.named("length", "in")
    if numeral.is_fraction:
        return inches, "no unit typed; a fraction is read as inches"
    if numeral.number > NEVER_INCHES_ABOVE:
        return units.named("length", "mm"), f"no unit typed; a size above {NEVER_INCHES_ABOVE} is read as mm"
    return inches, f"no unit typed; a size up to {NEVER_INCHES_ABOVE} is read as inches"


def _feet_and_inches(asked: Asked, feet: Numeral, written: str) -> Read:
    inches, rest = first(replace(asked, text=written))
    if rest and units.find("length", rest) != units.named("length", "in"):
        raise asked.refuse()
    return _added(asked, feet, inches.number, 12, "ft", "feet and inches that do not add up. Try 2 ft 3 1/2 in.")


def _degrees_and_minutes(asked: Asked, degrees: Numeral, written: str) -> Read:
    return _added(asked, degrees, Fraction(written), 60, "deg", "degrees and minutes that do not add up. Try 3° 35'.")


def _hours_and_minutes(asked: Asked, hours: Numeral, written: str) -> Read:
    return _added(asked, hours, Fraction(written), 60, "h", "hours and minutes that do not add up. Try 2 h 30 min.")


def _added(asked: Asked, over: Numeral, part: Fraction, parts: int, unit: str, wrong: str) -> Read:
    """So many and so many parts of one, which is how a person carries over."""
    if part >= parts or over.number.denominator != 1 or over.is_fraction:
        raise Unreadable(f"`{asked.typed}` has {wrong}")
    return asked.figure(over.number + part / parts, units.named(asked.kind, unit))


_COMPOUND: tuple[tuple[Kind, re.Pattern[str], Callable[[Asked, Numeral, str], Read]], ...] = (
    ("length", _FEET, _feet_and_inches),
    ("angle", _DEGREES, _degrees_and_minutes),
    ("duration", _HOURS, _hours_and_minutes),
)
