"""The units we know, what people call them, and what one of each is in SI.

The registry holds these definitions and no others. It is given names from this list and nothing that a person typed.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from pint import UnitRegistry

Kind = Literal[
    "length", "angle", "taper", "power", "rotation", "speed", "mass", "number", "count",
    "force", "torque", "pressure", "area", "volume", "density", "temperature", "duration",
]  # fmt: skip

# Written as the registry reads them. A turn and a radian are dimensions of their own here: rpm can only become turns a
# second (÷ 60), never radians a second, and an angle never passes for a plain number.
DEFINITIONS = """
metre = [length]
second = [time]
kilogram = [mass]
radian = [angle]
turn = [turn]
minute = 60 * second
hour = 3600 * second
micrometre = 0.000001 * metre
millimetre = 0.001 * metre
centimetre = 0.01 * metre
thousandth = 0.0000254 * metre
inch = 0.0254 * metre
foot = 0.3048 * metre
degree = 0.017453292519943295769236907684886 * radian
arcminute = 0.000290888208665721596153948461415 * radian
gram = 0.001 * kilogram
tonne = 1000 * kilogram
pound = 0.45359237 * kilogram
watt = kilogram * metre ** 2 / second ** 3
kilowatt = 1000 * watt
mechanical_horsepower = 745.69987158227022 * watt
metric_horsepower = 735.49875 * watt
rps = turn / second
rpm = turn / minute
mps = metre / second
kmph = 1000 * metre / hour
mph = 1609.344 * metre / hour
knot = 1852 * metre / hour
day = 86400 * second
newton = kilogram * metre / second ** 2
kilonewton = 1000 * newton
pound_force = 4.4482216152605 * newton
kilogram_force = 9.80665 * newton
newton_metre = kilogram * metre ** 2 / second ** 2
pound_force_foot = 1.3558179483314004 * newton_metre
pascal = kilogram / metre / second ** 2
kilopascal = 1000 * pascal
megapascal = 1000000 * pascal
bar = 100000 * pascal
psi = 6894.757293168361 * pascal
square_metre = metre ** 2
square_centimetre = centimetre ** 2
square_millimetre = millimetre ** 2
square_inch = inch ** 2
square_foot = foot ** 2
cubic_metre = metre ** 3
litre = 0.001 * metre ** 3
millilitre = 0.000001 * metre ** 3
kilogram_per_cubic_metre = kilogram / metre ** 3
gram_per_cubic_centimetre = gram / centimetre ** 3
pound_per_cubic_inch = pound / inch ** 3
degree_celsius = [temperature]
degree_fahrenheit = 5 / 9 * degree_celsius
one = 1
percent = 0.01
"""

BASES: dict[Kind, str] = {
    "length": "metre",
    "angle": "radian",
    "power": "watt",
    "rotation": "rps",
    "speed": "mps",
    "mass": "kilogram",
    "number": "one",
    "count": "one",
    "force": "newton",
    "torque": "newton_metre",
    "pressure": "pascal",
    "area": "square_metre",
    "volume": "cubic_metre",
    "density": "kilogram_per_cubic_metre",
    "temperature": "degree_celsius",
    "duration": "second",
}


@dataclass(frozen=True)
class Unit:
    """`name` is what we write; `spoken` is how a sentence calls it; `aliases` are what people type, lower case.

    `shift` is added before the factor: 32 for degrees Fahrenheit, nothing for the rest.
    """

    name: str
    kind: Kind
    defined_as: str
    spoken: str
    aliases: tuple[str, ...] = ()
    shift: int = 0


UNITS: tuple[Unit, ...] = (
    Unit("mm", "length", "millimetre", "mm", ("millimetre", "millimetres", "millimeter", "millimeters", "mms")),
    Unit("cm", "length", "centimetre", "cm", ("centimetre", "centimetres", "centimeter", "centimeters", "cms")),
    Unit("m", "length", "metre", "metres", ("metre", "metres", "meter", "meters")),
    Unit("µm", "length", "micrometre", "µm", ("um", "micron", "microns", "micrometre", "micrometres")),
    Unit("in", "length", "inch", "inches", ('"', "inch", "inches", "ins")),
    Unit("ft", "length", "foot", "feet", ("'", "foot", "feet")),
    Unit("thou", "length", "thousandth", "thou", ("thous", "thousandth", "thousandths")),
    Unit("deg", "angle", "degree", "degrees", ("°", "degree", "degrees", "degs")),
    Unit("rad", "angle", "radian", "radians", ("radian", "radians")),
    Unit("arcmin", "angle", "arcminute", "minutes of arc", ("'",)),
    Unit("W", "power", "watt", "watts", ("watt", "watts")),
    Unit("kW", "power", "kilowatt", "kW", ("kilowatt", "kilowatts", "kws")),
    Unit("hp", "power", "mechanical_horsepower", "hp", ("bhp", "shp", "horsepower", "horse power")),
    Unit("PS", "power", "metric_horsepower", "PS", ("cv", "metric hp", "hp metric", "hp (metric)", "pk", "hk")),
    Unit("rpm", "rotation", "rpm", "rpm", ("rev/min", "revs/min", "r/min", "1/min", "revs per minute", "revs")),
    Unit("rps", "rotation", "rps", "turns a second", ("rev/s", "revs/s", "r/s", "1/s")),
    Unit("kn", "speed", "knot", "knots", ("kt", "kts", "kns", "knot", "knots")),
    Unit("m/s", "speed", "mps", "metres a second", ("mps",)),
    Unit("km/h", "speed", "kmph", "km/h", ("kph", "kmh", "kmph")),
    Unit("mph", "speed", "mph", "miles an hour", ()),
    Unit("kg", "mass", "kilogram", "kg", ("kgs", "kilo", "kilos", "kilogram", "kilograms")),
    Unit("g", "mass", "gram", "grams", ("gram", "grams", "gr")),
    Unit("lb", "mass", "pound", "pounds", ("lbs", "pound", "pounds")),
    Unit("t", "mass", "tonne", "tonnes", ("tonne", "tonnes")),
    Unit("", "number", "one", "a plain number", (":1",)),
    Unit("%", "number", "percent", "per cent", ("percent", "per cent")),
    Unit("", "count", "one", "a whole number", ()),
    Unit("N", "force", "newton", "newtons", ("newton", "newtons")),
    Unit("kN", "force", "kilonewton", "kilonewtons", ("kilonewton", "kilonewtons")),
    Unit("lbf", "force", "pound_force", "pounds of force", ("lbsf", "pounds force", "lb force")),
    Unit("kgf", "force", "kilogram_force", "kilograms of force", ("kp", "kilopond", "kilograms force", "kg force")),
    Unit("N m", "torque", "newton_metre", "newton metres", ("nm", "n.m", "n·m", "newton metres")),
    Unit("lbf ft", "torque", "pound_force_foot", "foot pounds", ("lb ft", "ft lb", "ft lbf", "ft-lb", "ft lbs")),
    Unit("Pa", "pressure", "pascal", "pascals", ()),
    Unit("kPa", "pressure", "kilopascal", "kPa", ()),
    Unit("MPa", "pressure", "megapascal", "MPa", ("n/mm2", "n/mm²")),
    Unit("bar", "pressure", "bar", "bar", ()),
    Unit("psi", "pressure", "psi", "pounds a square inch", ("lbf/in2", "lb/in2", "lbf/in²")),
    Unit("m²", "area", "square_metre", "square metres", ("m2", "sq m", "sqm")),
    Unit("cm²", "area", "square_centimetre", "square centimetres", ("cm2", "sq cm")),
    Unit("mm²", "area", "square_millimetre", "square millimetres", ("mm2", "sq mm")),
    Unit("in²", "area", "square_inch", "square inches", ("in2", "sq in", "sq ins")),
    Unit("ft²", "area", "square_foot", "square feet", ("ft2", "sq ft", "sqft")),
    Unit("l", "volume", "litre", "litres", ("litre", "litres", "liter", "liters", "ltr")),
    Unit("ml", "volume", "millilitre", "millilitres", ("millilitre", "millilitres", "cc", "cm3")),
    Unit("m³", "volume", "cubic_metre", "cubic metres", ("m3",)),
    Unit("kg/m³", "density", "kilogram_per_cubic_metre", "kg/m³", ("kg/m3",)),
    Unit("g/cm³", "density", "gram_per_cubic_centimetre", "g/cm³", ("g/cm3", "g/ml", "kg/l", "g/cc")),
    Unit("lb/in³", "density", "pound_per_cubic_inch", "lb/in³", ("lb/in3",)),
    Unit("°C", "temperature", "degree_celsius", "degrees Celsius", ("c", "deg c", "°", "celsius", "degrees c")),
    Unit("°F", "temperature", "degree_fahrenheit", "degrees Fahrenheit", ("f", "deg f", "fahrenheit"), shift=-32),
    Unit("s", "duration", "second", "seconds", ("sec", "secs", "second", "seconds")),
    Unit("min", "duration", "minute", "minutes", ("mins", "minute", "minutes")),
    Unit("h", "duration", "hour", "hours", ("hr", "hrs", "hour", "hours")),
    Unit("d", "duration", "day", "days", ("day", "days")),
)

# Names that mean two things in a yard, and what to type in their place.
TWO_MEANINGS = {
    "mil": "may be a thousandth of an inch or a millimetre. Type thou or mm.",
    "mils": "may be thousandths of an inch or millimetres. Type thou or mm.",
    "ton": "may be 1000 kg, 2240 lb or 2000 lb. Type t for 1000 kg, or lb.",
    "tons": "may be 1000 kg, 2240 lb or 2000 lb. Type t for 1000 kg, or lb.",
    "hz": "is not how a shaft is counted here. Type rpm.",
    "gal": "may be a US or an imperial gallon, 20 % apart. Type litres.",
    "gallons": "may be US or imperial gallons, 20 % apart. Type litres.",
    "miles": "may be nautical or not. Type kn or mph.",
}

# Of the two micro signs lower case leaves one, the Greek letter, in our names as in what is typed.
_BY_ALIAS = {(unit.kind, alias): unit for unit in UNITS for alias in (unit.name.casefold(), *unit.aliases)}
_BY_NAME = {(unit.kind, unit.name): unit for unit in UNITS}
_AFTER_LETTER = re.compile(r"(?<=[^\W\d_])\.")


def called(written: str) -> str:
    """A unit as people write it, made comparable: lower case, no dots after letters, single spaces."""
    return " ".join(_AFTER_LETTER.sub("", written.casefold()).split())


def to_si(number: Fraction, unit: Unit) -> float:
    """So many of `unit`, in SI, rounded once."""
    return float((number + unit.shift) * factor(unit))


def from_si(value: float, unit: Unit) -> Fraction:
    """An SI figure in `unit`, exactly."""
    return Fraction(value) / factor(unit) - unit.shift


def find(kind: Kind, written: str) -> Unit | None:
    """The unit of this kind that people write so, or None."""
    return _BY_ALIAS.get((kind, called(written)))


def kinds_of(written: str) -> list[Kind]:
    """Every kind of quantity that has a unit written so."""
    return [kind for kind, alias in _BY_ALIAS if alias == called(written)]


def named(kind: Kind, name: str) -> Unit:
    """The unit with our own short name; KeyError when there is none."""
    return _BY_NAME[kind, name]


@lru_cache(maxsize=1)
def _registry() -> "UnitRegistry[Fraction]":
    from pint import UnitRegistry  # loaded where used: 0.17 s that a command without a size need not wait for

    registry: UnitRegistry[Fraction] = UnitRegistry(None, non_int_type=Fraction)
    for definition in DEFINITIONS.strip().splitlines():
        registry.define(definition)
    return registry


@lru_cache(maxsize=64)
def factor(unit: Unit) -> Fraction:
    """SI for one of `unit`, exactly."""
    one = _registry().Quantity(Fraction(1), unit.defined_as)
    return Fraction(one.to(BASES[unit.kind]).magnitude)
