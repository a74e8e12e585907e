"""The sizes of a shaft end and its room, and pairs: how well each is usually read, and how each is written plainly."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import isclose
from typing import Any

from yardapp.errors import Refused

MOST_PAIRS = 60
K = 2  # the ± that people type and read; `u_` columns are k = 1


@dataclass(frozen=True)
class Usual:
    """The tool a size is usually read with, and its ± (k = 2): metres, or of a taper 1:N its N."""

    plus_minus: float
    tool: str


# Common practice, no source: what a yard's tools are good for in a hand that takes care.
USUAL = {
    "shaft_diameter_m": Usual(0.00005, "caliper"),
    "taper": Usual(0.2, "1:N from a caliper at two places"),
    "taper_length_m": Usual(0.001, "tape"),
    "keyway_width_m": Usual(0.00005, "caliper"),
    "keyway_depth_m": Usual(0.0001, "depth rod of a caliper"),
    "hub_space_m": Usual(0.001, "tape"),
    "hull_clearance_m": Usual(0.005, "tape, held square by eye"),
}
SAME = 1e-9  # two figures that differ by less of themselves were typed alike


def box_of(name: str) -> str:
    """The box beside a size in which its ± is typed."""
    return f"plus_minus_{name}"


def u_of(name: str, value: float | None, plus_minus: float | None) -> float | None:
    """Standard uncertainty of a size, from the ± that was typed or else the usual one; None without a size."""
    if value is None:
        return None
    half_width = USUAL[name].plus_minus if plus_minus is None else plus_minus
    # A taper is 1/N: what N may be out by, as a share of N, the taper may be out by as a share of itself.
    return half_width / K * (value * value if name == "taper" else 1.0)


def plus_minus_of(name: str, value: float | None, u: float | None) -> float | None:
    """The ± as people type it, from the standard uncertainty."""
    if value is None or u is None:
        return None
    return K * u / (value * value if name == "taper" else 1.0)


def is_usual(name: str, value: float | None, u: float | None) -> bool:
    """Whether the ± kept with a size is the one that is taken where none was typed."""
    return u is not None and is_same(u, u_of(name, value, None))


def is_same(one: float | None, other: float | None) -> bool:
    """Whether two figures are the same to the reach of what a box writes and reads back."""
    if one is None or other is None:
        return one is other
    return isclose(one, other, rel_tol=SAME)


def plain(name: str, value: float | None) -> str:
    """A figure with its unit, so that any box reads it back alike, whoever opens the page."""
    if value is None:
        return ""
    if name == "taper":
        return f"1:{1 / value:.12g}" if value else ""
    scale, unit = next((pair for ending, pair in _PLAIN.items() if name.endswith(ending)), (1.0, ""))
    return f"{value * scale:.12g} {unit}".strip()


_PLAIN: Mapping[str, tuple[float, str]] = {
    "_m": (1e3, "mm"),
    "_w": (1e-3, "kW"),
    "_rps": (60.0, "rpm"),
    "_kg": (1.0, "kg"),
    "_m2": (1.0, "m²"),
    "_rad": (1.0, "rad"),
}


def rising(pairs: Any, name: str) -> list[list[float]] | None:
    """The pairs as they are kept, the first of each rising; None where there are none.

    Raises
    ------
    Refused
        There is one alone, or too many, or one is not above zero, or they do not rise.
    """
    rows = [[float(first), float(power)] for first, power in pairs or ()]
    if not rows:
        return None
    if len(rows) < 2:
        raise Refused("Two pairs of speed and power at least, or none.", name)
    if len(rows) > MOST_PAIRS:
        raise Refused(f"{MOST_PAIRS} pairs at most.", name)
    if any(first <= 0 or power <= 0 for first, power in rows):
        raise Refused("Speeds and powers must be above zero.", name)
    if any(later[0] <= earlier[0] for earlier, later in pairwise(rows)):
        raise Refused("The speeds must rise from each line to the next.", name)
    return rows
