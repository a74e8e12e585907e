"""What a box asks for, what was typed into it, and how a refusal is worded."""

import re
from dataclasses import dataclass
from fractions import Fraction
from math import pi

from yardapp.quantities import numerals, units
from yardapp.quantities.numerals import Unreadable
from yardapp.quantities.units import Kind, Unit

WHAT: dict[Kind, str] = {
    "length": "size",
    "angle": "angle",
    "taper": "taper",
    "power": "power",
    "rotation": "shaft or engine speed",
    "speed": "speed",
    "mass": "weight",
    "number": "number",
    "count": "whole number",
    "force": "force",
    "torque": "torque",
    "pressure": "pressure or stress",
    "area": "area",
    "volume": "volume",
    "density": "density",
    "temperature": "temperature",
    "duration": "length of time",
}
EXAMPLES: dict[Kind, str] = {
    "length": "23.5, 23 1/2 or 597 mm",
    "angle": "68 or 68 deg",
    "taper": "1:16, 3/4 in per foot or 3.58 deg",
    "power": "38 hp, 38 PS or 28 kW",
    "rotation": "2800 or 2800 rpm",
    "speed": "7.5 or 7.5 kn",
    "mass": "12.5 kg or 27 lb",
    "number": "2.03 or 2.03:1",
    "count": "3 or 4",
    "force": "2.3 kN, 520 lbf or 230 kgf",
    "torque": "120 N m or 90 lbf ft",
    "pressure": "2 bar, 30 psi or 250 MPa",
    "area": "0.12 m² or 186 in²",
    "volume": "0.75 l or 750 ml",
    "density": "7700 kg/m³ or 7.7 g/cm³",
    "temperature": "14 °C or 57 °F",
    "duration": "20 min, 2 h or 2 h 30 min",
}
# Beyond these a figure is a slip of the finger, whatever the box.
AT_MOST: dict[Kind, float] = {
    "length": 20.0,
    "angle": 2 * pi,
    "taper": 1 / 3,
    "power": 20e6,
    "rotation": 500.0,
    "speed": 60.0,
    "mass": 2e6,
    "number": 1e6,
    "count": 10_000.0,
    "force": 1e7,
    "torque": 1e7,
    "pressure": 1e10,
    "area": 1e4,
    "volume": 1e3,
    "density": 25_000.0,
    "temperature": 300.0,
    "duration": 400 * 86400.0,
}
AT_LEAST: dict[Kind, float] = {"temperature": -60.0}  # the rest must be above zero, unless the box says otherwise

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH = "(?:" + "|".join(_MONTHS) + ")[a-z]*"
_DATE = re.compile(
    rf"(?P<day>\d{{1,2}})[-/. ]?{_MONTH}(?:[-/. ]\d{{2,4}})?|{_MONTH}[-/. ]?(?P<second>\d{{1,2}})",
    re.ASCII | re.IGNORECASE,
)
_NAME = re.compile("|".join(_MONTHS), re.IGNORECASE)
_FULL_DATE = re.compile(r"\d{1,2}([-/.])\d{1,2}\1\d{4}|\d{4}-\d{2}-\d{2}", re.ASCII)


@dataclass(frozen=True)
class Read:
    """A figure in SI, how it was written, and what had to be assumed. `exact` counts `unit`s (a taper: the ratio)."""

    value: float
    unit: str
    assumed: bool
    why: str
    typed: str
    exact: Fraction | None
    kind: Kind


@dataclass(frozen=True)
class Asked:
    """One box: the text as typed, the same made plain, and what the box takes."""

    typed: str
    text: str
    kind: Kind
    assume: str | None
    what: str

    @property
    def examples(self) -> str:
        """Three ways to type it right."""
        return EXAMPLES[self.kind]

    def refuse(self) -> Unreadable:
        """The plain refusal: not what this box takes."""
        return Unreadable(f"`{self.typed}` is not {article(self.what)}. Try {self.examples}.")

    def figure(self, number: Fraction, unit: Unit, why: str = "") -> Read:
        """So many of `unit`, in SI; `why` is given when the unit was assumed."""
        return Read(units.to_si(number, unit), unit.name, bool(why), why, self.typed, number, self.kind)


def article(what: str) -> str:
    """`what` with a or an before it."""
    return f"{'an' if what[:1].lower() in 'aeiou' else 'a'} {what}"


def ask(text: str, kind: Kind, assume: str | None, what: str) -> Asked:
    """The box with its text, once that is short, visible and no date.

    Raises
    ------
    Unreadable
        It is empty, too long, has characters no size is written with, or is a date.
    """
    typed = " ".join(text.split())
    if not typed:
        raise Unreadable(f"Nothing was typed. Try {EXAMPLES[kind]}.")
    if len(text) > numerals.AT_MOST_CHARACTERS:
        raise Unreadable(_too_long(text, typed, kind, what))
    if not typed.isprintable():
        raise Unreadable(f"There is a character in it that cannot be seen. Type it again, as {EXAMPLES[kind]}.")
    if any(mark.isdecimal() and not mark.isascii() for mark in typed):
        raise Unreadable(f"`{typed}` has digits that cannot be read here. Type it with 0 to 9, as {EXAMPLES[kind]}.")
    _refuse_dates(typed)
    return Asked(typed, numerals.tidy(typed), kind, assume, what)


def _too_long(text: str, typed: str, kind: Kind, what: str) -> str:
    beginning = "".join(mark for mark in typed[:20] if mark.isprintable())
    return (
        f"`{beginning}…` is {len(text)} characters long; {article(what)} takes at most "
        f"{numerals.AT_MOST_CHARACTERS}. Try {EXAMPLES[kind]}."
    )


def _refuse_dates(typed: str) -> None:
    said = f"`{typed}` is a date, as a spreadsheet makes of a fraction."
    if _FULL_DATE.fullmatch(typed):
        raise Unreadable(f"{said} Type the size, as 3/8 in.")
    if match := _DATE.fullmatch(typed):
        top, bottom = sorted((int(match["day"] or match["second"]), _month(typed)))
        raise Unreadable(f"{said} It may have been {top}/{bottom}: type the size again.")


def _month(typed: str) -> int:
    name = _NAME.search(typed)
    return _MONTHS.index(name[0].casefold()) + 1 if name else 0
