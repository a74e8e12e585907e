"""A number and its unit: sizes, angles, powers, speeds, weights, plain numbers."""

import re
from dataclasses import replace
from fractions import Fraction

from yardapp.quantities import numerals, units
from yardapp.quantities.asking import WHAT, Asked, Read, article
from yardapp.quantities.numerals import Numeral, Unreadable
from yardapp.quantities.units import Kind, Unit

ALWAYS: dict[Kind, str] = {"angle": "deg", "rotation": "rpm", "speed": "kn", "mass": "kg", "number": ""}
NEVER_INCHES_ABOVE = 60  # a judgement: no propeller or shaft of a yard is larger

_FEET = re.compile(r"(?:ft\.?|feet|foot|')[\s-]*(?P<inches>\d.*|\.\d.*)", re.ASCII | re.IGNORECASE)
_DEGREES = re.compile(r"(?:°|deg\.?|degrees?)\s*(?P<minutes>\d+(?:\.\d+)?)\s*(?:'|min\.?)", re.ASCII | re.IGNORECASE)
_TO_ONE = re.compile(r"\s*(?::|\bto\b)\s*1$", re.ASCII | re.IGNORECASE)


def read_measure(asked: Asked) -> Read:
    """One number and perhaps a unit; feet and inches; degrees and minutes."""
    numeral, rest = first(asked)
    if asked.kind == "length" and (feet := _FEET.fullmatch(rest)):
        return _feet_and_inches(asked, numeral, feet["inches"])
    if asked.kind == "angle" and (degrees := _DEGREES.fullmatch(rest)):
        return _degrees_and_minutes(asked, numeral, Fraction(degrees["minutes"]))
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
    if asked.assume is None and asked.kind == "power":
        raise Unreadable(f"`{asked.typed}` has no unit, and hp, PS and kW differ. Type {asked.examples}.")
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
    if inches.number >= 12 or feet.number.denominator != 1:
        raise Unreadable(f"`{asked.typed}` has feet and inches that do not add up. Try 2 ft 3 1/2 in.")
    return asked.figure(feet.number + inches.number / 12, units.named("length", "ft"))


def _degrees_and_minutes(asked: Asked, degrees: Numeral, minutes: Fraction) -> Read:
    if minutes >= 60 or degrees.number.denominator != 1:
        raise Unreadable(f"`{asked.typed}` has degrees and minutes that do not add up. Try 3° 35'.")
    return asked.figure(degrees.number + minutes / 60, units.named("angle", "deg"))
