"""Figures in plain words, in millimetres; the rooms with screens bring their own."""

from collections.abc import Callable
from math import floor, log10

Say = Callable[[str, float, float | None], str]


def plain(kind: str, value: float, u: float | None = None) -> str:
    """Write a figure with its ± at k = 2, two figures of it, in mm, 1:N, % or kW."""
    if kind == "taper":
        return "1:" + _rounded(1 / value, None if u is None else u / value**2)
    factor, unit = _UNITS.get(kind, (1.0, ""))
    return _rounded(value * factor, None if u is None else u * factor) + unit


_UNITS = {
    "length": (1000.0, " mm"),
    "ratio": (100.0, " %"),
    "power": (0.001, " kW"),
    "speed": (3600 / 1852, " kn"),
    "rotation": (60.0, " rpm"),
    "mass": (1.0, " kg"),
    "pressure": (1e-6, " MPa"),
    "force": (0.001, " kN"),
    "torque": (1.0, " N m"),
    "duration": (1 / 86400, " days"),
    "area": (1.0, " m²"),
    "angle": (57.29577951308232, "°"),
}


def _rounded(value: float, u: float | None) -> str:
    if not u:
        return f"{value:.4g}"
    places = max(0, min(9, 1 - floor(log10(2 * u))))
    return f"{value:.{places}f} ± {2 * u:.{places}f}"


def listed(words: tuple[str, ...] | list[str], last: str = "and") -> str:
    """Join words as one says them: a, b and c."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def sentence(text: str) -> str:
    """Begin with a capital."""
    return text[:1].upper() + text[1:]
