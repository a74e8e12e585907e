"""Two marks on one hub read together: a maker's code and a later shop stamp, where they agree and where not."""

import math
from dataclasses import dataclass

from yardapp.stamps.tables.rank import DIFFERS, DOUBTED_BEYOND, LEAST_U
from yardapp.stamps.tables.reading import Reading, Readings
from yardapp.stamps.tables.told import Value

MOST_EACH = 40
MOST_TOGETHER = 60
LATER_CHANGE = -1.0  # a conflict that a later stamp explains: re-pitched, cut down or bored since; a judgement
COMPARED = ("diameter_m", "pitch_m", "bore_m", "area_ratio", "hand", "blades")
NEVER_CHANGED = ("hand", "blades")  # no shop turns one hand into the other

Which = str | None  # "first", "second" or None


@dataclass(frozen=True)
class Conflict:
    """One figure that the two marks tell differently, and which of them is newer if that is known."""

    figure: str
    first: Value
    second: Value
    newer: Which
    said: str


@dataclass(frozen=True)
class Together:
    """One reading of each mark; `figures` are what holds now, the newer mark's word where the two differ."""

    first: Reading
    second: Reading
    score: float
    figures: dict[str, Value]
    conflicts: tuple[Conflict, ...]


def combine(first: Readings, second: Readings, newer: Which = None) -> tuple[Together, ...]:
    """Every pair of readings, best first; `newer` is which mark was struck later, where the hub shows it."""
    pairs = [_pair(one, other, newer) for one in first.found[:MOST_EACH] for other in second.found[:MOST_EACH]]
    return tuple(sorted(pairs, key=lambda pair: -pair.score)[:MOST_TOGETHER])


def _pair(one: Reading, other: Reading, newer: Which) -> Together:
    known, since = _newer(one, other, newer)
    said, also_said = one.figures, other.figures
    both = [name for name in COMPARED if name in said and name in also_said]
    conflicts = tuple(
        _conflict(name, said[name], also_said[name], known, since) for name in both if _apart(one, other, name)[0]
    )
    agreement = sum(_worth(one, other, name, known) for name in both)
    figures = said | also_said if known == "second" else also_said | said
    unsure = {conflict.figure for conflict in conflicts} if known is None else set()
    figures = {name: value for name, value in figures.items() if name not in unsure}
    return Together(one, other, one.score + other.score + agreement, figures, conflicts)


def _newer(one: Reading, other: Reading, newer: Which) -> tuple[Which, str]:
    """Which mark is newer, and how that is known."""
    if newer:
        return newer, "as the hub shows"
    struck = (one.table.struck, other.table.struck)
    if struck[0] != struck[1]:
        return ("first" if struck[0] == "later" else "second"), "a shop's stamp is later than the maker's"
    years = (one.figures.get("year"), other.figures.get("year"))
    if isinstance(years[0], int) and isinstance(years[1], int) and years[0] != years[1]:
        return ("first" if years[0] > years[1] else "second"), f"{max(years[0], years[1])} is on it"
    return None, ""


def _apart(one: Reading, other: Reading, name: str) -> tuple[bool, float]:
    """Whether the two differ by more than their rounding allows, and the log-likelihood that both hold."""
    first, second = one.figures[name], other.figures[name]
    if name not in LEAST_U:
        return first != second, (0.0 if first == second else DIFFERS)
    u = max(math.hypot(one.u.get(name, 0.0), other.u.get(name, 0.0)), LEAST_U[name])
    z = abs(float(first or 0) - float(second or 0)) / u
    return z > DOUBTED_BEYOND, max(-z * z / 2, DIFFERS)


def _worth(one: Reading, other: Reading, name: str, newer: Which) -> float:
    differs, agreement = _apart(one, other, name)
    if differs and newer and name not in NEVER_CHANGED:
        return LATER_CHANGE
    return agreement


def _conflict(name: str, first: Value, second: Value, newer: Which, since: str) -> Conflict:
    called = name.removesuffix("_m").replace("_", " ")
    said = f"the first mark says the {called} is {_shown(name, first)}, the second {_shown(name, second)}; "
    said += f"the {newer} is newer: {since}" if newer else "which is newer is not known"
    return Conflict(name, first, second, newer, said)


def _shown(name: str, value: Value) -> str:
    return f"{value * 1000:.6g} mm" if name.endswith("_m") and isinstance(value, float) else f"{value}"
