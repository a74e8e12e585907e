"""SI to what people read, in either system, and text that reads back to the same figure."""

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from math import degrees, inf, isclose, isfinite
from typing import Literal

from yardapp.quantities import units
from yardapp.quantities.numerals import Unreadable
from yardapp.quantities.reading import read
from yardapp.quantities.rounding import FIGURES_OF_A_DOUBLE, decimals, significant, with_plus_minus
from yardapp.quantities.units import Kind

System = Literal["mm", "in"]

NOT_KNOWN = "not known"
SHOWN_AT_K = 2
LONG_M = 5.0  # from here up a size is a boat's: metres, or feet and inches
SIXTY_FOURTHS = 64
LANDS_WITHIN_IN = 1e-6
MILLILITRES_OF_A_LITRE, FEW_MILLILITRES = 1000, 20
MINUTES_OF_A_DAY = 1440
PARALLEL_BELOW = 1e-5
SAME = 1e-13  # a double's own noise: 44.449999999999996 mm is 1 3/4 in

# The unit a system shows a kind in; where it is one for both, only once.
SHOWN_IN: dict[Kind, tuple[str, str]] = {
    "length": ("mm", "in"),
    "angle": ("deg", "deg"),
    "power": ("kW", "hp"),
    "rotation": ("rpm", "rpm"),
    "speed": ("kn", "kn"),
    "mass": ("kg", "lb"),
    "number": ("", ""),
    "count": ("", ""),
    "force": ("kN", "lbf"),
    "torque": ("N m", "lbf ft"),
    "pressure": ("MPa", "psi"),
    "area": ("m²", "in²"),
    "volume": ("l", "l"),
    "density": ("kg/m³", "lb/in³"),
    "temperature": ("°C", "°F"),
    "duration": ("min", "min"),
}
SIGNS = {"deg": "°"}
# Decimal places of a figure above ten; one more below ten, where they are what the trade reads.
PLACES: dict[tuple[Kind, str], int] = {
    ("power", "kW"): 1, ("power", "hp"): 1, ("rotation", "rpm"): 0, ("speed", "kn"): 1, ("mass", "kg"): 1,
    ("mass", "lb"): 1, ("number", ""): 3, ("count", ""): 0, ("torque", "N m"): 0, ("torque", "lbf ft"): 0,
    ("force", "kN"): 1, ("force", "lbf"): 0,
    ("pressure", "MPa"): 1, ("pressure", "psi"): 0, ("area", "m²"): 2, ("area", "in²"): 1, ("volume", "l"): 1,
    ("density", "kg/m³"): 0, ("density", "lb/in³"): 3, ("temperature", "°C"): 1, ("temperature", "°F"): 0,
}  # fmt: skip


def unit_for(kind: Kind, system: System) -> str:
    """Our short name of the unit this system shows a kind in."""
    return "1:N" if kind == "taper" else SHOWN_IN[kind][system == "in"]


@lru_cache(maxsize=4096)
def show(value: float | None, kind: Kind, system: System = "mm", *, u: float | None = None) -> str:
    """A figure as people read it; with its ± when the standard uncertainty is known."""
    if value is None or not isfinite(value):
        return NOT_KNOWN
    if u is not None and isfinite(u) and u > 0:
        return plus_minus(value, u, kind, system)
    return _SHOWN.get(kind, _plain)(value, kind, system)


def plus_minus(value: float | None, u: float | None, kind: Kind, system: System = "mm") -> str:
    """The value and its ± at k = 2, two significant figures; `u` is the standard uncertainty, k = 1."""
    if value is None or u is None or not isfinite(value) or not isfinite(u) or u <= 0:
        return show(value, kind, system)
    if kind == "taper":
        return _taper_plus_minus(value, u)
    unit = unit_for(kind, system)
    number, half_width = with_plus_minus(_in_unit(value, kind, unit), SHOWN_AT_K * u / _factor(kind, unit))
    if unit in SIGNS:
        return f"{number}{SIGNS[unit]} ± {half_width}{SIGNS[unit]}"
    return f"{number} ± {half_width} {unit}".strip()


def both(value: float | None, kind: Kind, system: System = "mm") -> str:
    """A figure in the system asked for, and in the other one beside it where that differs."""
    here = show(value, kind, system)
    there = _in_words(value) if kind == "taper" else show(value, kind, "in" if system == "mm" else "mm")
    return here if there in (here, NOT_KNOWN) else f"{here} ({there})"


def exact(value: float | None, kind: Kind, system: System = "mm") -> str:
    """Text that `read` gives back to the same figure, to 1e-12 of it; nothing for what is not known."""
    return exact_in(value, kind, unit_for(kind, system))


@lru_cache(maxsize=4096)
def exact_in(value: float | None, kind: Kind, unit: str) -> str:
    """The same, in a unit by its short name."""
    if value is None or not isfinite(value):
        return ""
    if kind == "taper":
        return _shortest(value, lambda figures: f"1:{significant(1 / Fraction(value), figures)}", kind)
    number = units.from_si(value, units.named(kind, unit))
    if unit == "in" and (fraction := _fraction(float(number))) and _reads_back(f"{fraction} in", kind, value):
        return f"{fraction} in"
    return _shortest(value, lambda figures: f"{significant(number, figures)} {unit}".strip(), kind)


def _shortest(value: float, written: Callable[[int], str], kind: Kind) -> str:
    """The fewest figures that read back to the same."""
    tries = (written(figures) for figures in range(1, FIGURES_OF_A_DOUBLE + 1))
    return next((text for text in tries if _reads_back(text, kind, value)), written(FIGURES_OF_A_DOUBLE))


def _reads_back(text: str, kind: Kind, value: float) -> bool:
    try:
        again = read(text, kind, at_least=-inf, at_most=inf).value
    except Unreadable:
        return False
    return isclose(again, value, rel_tol=SAME)


@lru_cache(maxsize=64)
def _factor(kind: Kind, unit: str) -> float:
    return float(units.factor(units.named(kind, unit)))


def _in_unit(value: float, kind: Kind, unit: str) -> float:
    return value / _factor(kind, unit) - units.named(kind, unit).shift


def _plain(value: float, kind: Kind, system: System) -> str:
    """Figures as fine as the trade reads them."""
    unit = unit_for(kind, system)
    number = _in_unit(value, kind, unit)
    finer = abs(number) < 10 and kind not in ("count", "temperature", "density")
    return f"{decimals(number, PLACES[kind, unit] + finer)} {unit}".strip()


def _angle(value: float, kind: Kind, system: System) -> str:
    number = degrees(value)
    return f"{decimals(number, 2 if abs(number) < 10 else 1)}°"


def _length(value: float, kind: Kind, system: System) -> str:
    if abs(value) >= LONG_M:
        return f"{decimals(value, 2)} m" if system == "mm" else _feet(value)
    return _millimetres(value) if system == "mm" else _inches(value)


def _millimetres(value: float) -> str:
    number = value / _factor("length", "mm")
    return f"{decimals(number, 1 if abs(number) >= 100 else 2 if abs(number) >= 1 else 3)} mm"


def _inches(value: float) -> str:
    number = value / _factor("length", "in")
    return f"{_fraction(number) or decimals(number, 3 if abs(number) >= 0.1 else 4)} in"


def _fraction(inches: float) -> str:
    """The trade's fraction where the size lands on one, else nothing."""
    sixty_fourths = round(inches * SIXTY_FOURTHS)
    if sixty_fourths == 0 or abs(inches - sixty_fourths / SIXTY_FOURTHS) > LANDS_WITHIN_IN:
        return ""
    whole, part = divmod(abs(sixty_fourths), SIXTY_FOURTHS)
    shown = " ".join(str(piece) for piece in (whole, Fraction(part, SIXTY_FOURTHS)) if piece)
    return f"-{shown}" if inches < 0 else shown


def _feet(value: float) -> str:
    sign = "-" if value < 0 else ""
    return f"{sign}{_pair(round(abs(value) / _factor('length', 'in')), 12, 'ft', 'in')}"


def _duration(value: float, kind: Kind, system: System) -> str:
    """Minutes up to a day; days and hours beyond."""
    if abs(value) < 60:
        return f"{decimals(value, 0)} s"
    sign, minutes = "-" if value < 0 else "", round(abs(value) / 60)
    if minutes >= MINUTES_OF_A_DAY:
        return f"{sign}{_pair(round(minutes / 60), 24, 'd', 'h')}"
    return f"{sign}{_pair(minutes, 60, 'h', 'min')}"


def _pair(parts: int, in_one: int, over: str, part: str) -> str:
    """So many and so many parts of one, without those that are none."""
    counted = zip(divmod(parts, in_one), (over, part), strict=True)
    return " ".join(f"{number} {unit}" for number, unit in counted if number) or f"0 {part}"


def _volume(value: float, kind: Kind, system: System) -> str:
    """Millilitres below a litre: product is mixed by the cup."""
    number = value / _factor("volume", "ml")
    if round(abs(number)) >= MILLILITRES_OF_A_LITRE:
        return _plain(value, kind, system)
    return f"{decimals(number, 1 if abs(number) < FEW_MILLILITRES else 0)} ml"


def _taper(value: float, kind: Kind, system: System) -> str:
    return f"1:{decimals(1 / value, 1)}" if abs(value) > PARALLEL_BELOW else "parallel"


def _taper_plus_minus(value: float, u: float) -> str:
    """The ± of N in 1:N: the relative uncertainty of the ratio, of N."""
    if abs(value) <= PARALLEL_BELOW:
        return "parallel"
    number, half_width = with_plus_minus(1 / value, SHOWN_AT_K * u / value / value)
    return f"1:{number} ± {half_width}"


def _in_words(value: float | None) -> str:
    """A taper as inches per foot, the other way that the trade says it."""
    if not value or not isfinite(value):
        return NOT_KNOWN
    per_foot = value * 12
    return f"{_fraction(per_foot) or decimals(per_foot, 3)} in per foot"


_SHOWN: dict[Kind, Callable[[float, Kind, System], str]] = {
    "length": _length,
    "angle": _angle,
    "taper": _taper,
    "duration": _duration,
    "volume": _volume,
}
