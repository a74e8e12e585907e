"""Air, metal and humidity: dew point, margin, and whether to go, to wait, or to measure first."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from yardapp.coating.system import Limits
from yardapp.errors import OutsideRange
from yardapp.formulas.dew import dew_margin, dew_point, dew_point_from_wet_bulb, humidity_of, is_dry_enough

TOO_OLD_S = 1800.0
COLDEST_C, WARMEST_C = -45.0, 60.0
GO, WAIT, UNKNOWN = "go", "wait", "unknown"


@dataclass(frozen=True, kw_only=True)
class Reading:
    """What was read beside the boat; None is "not read". The metal's own temperature, not the air's."""

    at_s: float
    air_c: float | None = None
    metal_c: float | None = None
    relative_humidity: float | None = None
    wet_bulb_c: float | None = None
    who: str = ""


@dataclass(frozen=True, kw_only=True)
class Gate:
    """Go, wait or unknown, and every reason. `due_s`: when this reading is too old to lean on."""

    verdict: str
    why: tuple[str, ...]
    dew_c: float | None = None
    margin_c: float | None = None
    due_s: float | None = None


def gate(reading: Reading | None, limits: Limits | None, now_s: float) -> Gate:
    """Judge one reading against a step's limits. What was not read, or too long ago, is unknown: never passed."""
    if reading is None:
        return Gate(verdict=UNKNOWN, why=("Nobody has read the weather: measure air, metal and humidity.",))
    limits = limits or Limits()
    due_s = reading.at_s + TOO_OLD_S
    try:
        dew_c = dew_of(reading)
        margin_c = _margin(reading, dew_c)
    except OutsideRange as refusal:
        said = f"{_CALLED.get(refusal.argument, refusal.argument)} can't be right: it {refusal.said}"
        return Gate(verdict=UNKNOWN, why=(said,), due_s=due_s)
    shown = {"dew_c": dew_c, "margin_c": margin_c, "due_s": due_s}
    if now_s > due_s:
        old = f"The last reading is {(now_s - reading.at_s) / 60:.0f} minutes old: measure again."
        return Gate(verdict=UNKNOWN, why=(old,), **shown)
    against = (*_against(reading, limits, margin_c), *_too_humid(share_of(reading, dew_c), limits))
    missing = tuple(_missing(reading, margin_c))
    verdict = WAIT if against else UNKNOWN if missing else GO
    return Gate(verdict=verdict, why=against + missing, **shown)


# Every tap folds the whole job anew, and a reading never changes.
@lru_cache(maxsize=4096)
def what_cannot_be(reading: Reading) -> str:
    """Why a reading can't be right, or "": a slip of the pen must not turn a blade."""
    for called, at_c in (("air", reading.air_c), ("metal", reading.metal_c), ("wet bulb", reading.wet_bulb_c)):
        if at_c is not None and not COLDEST_C <= at_c <= WARMEST_C:
            return f"The {called} can't be at {at_c:g} °C."
    try:
        dew_of(reading)
    except OutsideRange as refusal:
        return f"{_CALLED.get(refusal.argument, refusal.argument)} can't be right: it {refusal.said}"
    share = reading.relative_humidity
    return "" if share is None or 0 < share <= 1 else "Humidity is above zero and at most 100 %."


def dew_of(reading: Reading) -> float | None:
    """Dew point from the humidity, else from the wet bulb; None where neither was read.

    Raises
    ------
    OutsideRange
        A figure can't be right.
    """
    if reading.air_c is None:
        return None
    if reading.relative_humidity is not None:
        return _known(float(dew_point(reading.air_c, reading.relative_humidity)))
    if reading.wet_bulb_c is not None:
        return _known(float(dew_point_from_wet_bulb(reading.air_c, reading.wet_bulb_c)))
    return None


def share_of(reading: Reading, dew_c: float | None) -> float | None:
    """Relative humidity as read, else as the wet bulb tells it."""
    if reading.relative_humidity is not None or reading.air_c is None or dew_c is None:
        return reading.relative_humidity
    return _known(float(humidity_of(reading.air_c, dew_c)))


_CALLED = {
    "air_c": "The air's temperature",
    "surface_c": "The metal's temperature",
    "relative_humidity": "The humidity",
    "wet_bulb_c": "The wet bulb's temperature",
    "dew_point_c": "The dew point",
}


def _margin(reading: Reading, dew_c: float | None) -> float | None:
    if reading.metal_c is None or dew_c is None:
        return None
    return _known(float(dew_margin(reading.metal_c, dew_c)))


def _known(figure: float) -> float | None:
    return None if math.isnan(figure) else figure


def _against(reading: Reading, limits: Limits, margin_c: float | None) -> Iterator[str]:
    """What is known to be wrong."""
    yield from _outside("Metal", reading.metal_c, limits.metal_low_c, limits.metal_high_c)
    yield from _outside("Air", reading.air_c, limits.air_low_c, limits.air_high_c)
    if margin_c is not None and not is_dry_enough(margin_c, limits.margin_c):
        yield f"Metal is {margin_c:.1f} degrees above the dew point; it must be {limits.margin_c:g} or more."


def _too_humid(share: float | None, limits: Limits) -> Iterator[str]:
    least, most = limits.relative_humidity_least, limits.relative_humidity_most
    if share is not None and most is not None and share > most + 1e-9:
        yield f"Humidity is {share:.0%}; the sheet gives at most {most:.0%}."
    if share is not None and least is not None and share < least - 1e-9:
        yield f"Humidity is {share:.0%}; the sheet gives at least {least:.0%}."


def _outside(called: str, at_c: float | None, low_c: float | None, high_c: float | None) -> Iterator[str]:
    if at_c is not None and low_c is not None and at_c < low_c - 1e-9:
        yield f"{called} is {at_c:.1f} °C; the sheet gives {_span(low_c, high_c)}."
    if at_c is not None and high_c is not None and at_c > high_c + 1e-9:
        yield f"{called} is {at_c:.1f} °C; the sheet gives {_span(low_c, high_c)}."


def _span(low_c: float | None, high_c: float | None) -> str:
    if low_c is None or high_c is None:
        return f"at most {high_c:g} °C" if low_c is None else f"at least {low_c:g} °C"
    return f"{low_c:g} to {high_c:g} °C"


def _missing(reading: Reading, margin_c: float | None) -> Iterator[str]:
    """What must be read before anything can be said."""
    if reading.metal_c is None:
        yield "Nobody has read the metal itself: the air does not tell."
    if reading.air_c is None:
        yield "Nobody has read the air."
    if reading.relative_humidity is None and reading.wet_bulb_c is None:
        yield "Nobody has read the humidity."
    elif margin_c is None and reading.metal_c is not None and reading.air_c is not None:
        yield "The dew point can't be told from these figures."
