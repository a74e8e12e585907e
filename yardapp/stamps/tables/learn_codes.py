"""What one code goes with: the sizes or words that were found where it is stamped."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from yardapp.stamps.tables.meanings import Lookup, Run
from yardapp.stamps.tables.rank import LEAST_U, RULED_OUT_BEYOND, Measured
from yardapp.stamps.tables.things import GOOD_TO, IN_SI
from yardapp.stamps.tables.told import ROOT_12, Teller, Told


@dataclass(frozen=True)
class CodeSeen:
    """One code on one propeller, and what was measured there."""

    told: Told
    known: Measured | str | int
    of: str = ""


@dataclass(frozen=True)
class Found:
    """What a code goes with: in the table's unit, or a word; None where the evidence does not agree."""

    value: float | str | None
    words: str


def sizes_of(teller: Teller, seen: Sequence[CodeSeen]) -> list[tuple[float, float]]:
    """Each measured size and its u in the place's unit."""
    scale = IN_SI[unit_of(teller)]
    least = LEAST_U.get(teller.thing.figure, 1e-9)
    sizes = [one.known for one in seen if isinstance(one.known, Measured)]
    return [(size.value / scale, max(size.u, least) / scale) for size in sizes]


def unit_of(teller: Teller) -> str:
    """The unit of the place's meaning; of its thing where the meaning has none."""
    meaning = teller.place.meaning
    own = meaning.unit if isinstance(meaning, Lookup | Run) else ""
    return own or (teller.thing.units[0] if teller.thing.units else "")


def found(teller: Teller, seen: Sequence[CodeSeen]) -> Found:
    """What the code goes with."""
    if teller.thing.is_number and not teller.thing.is_whole:
        return _size(teller, sizes_of(teller, seen))
    said = sorted({str(one.known) for one in seen})
    value = seen[0].known if len(said) == 1 else None
    named = teller.thing.tells.replace("_", " ")
    words = f"with {said[0]} {named}" if teller.thing.is_whole else f"with a {said[0]} {named}"
    if value is None or isinstance(value, Measured):
        return Found(None, f"with {' and '.join(said)}, so it does not tell the {named}")
    return Found(float(value) if isinstance(value, int) else value, words)


def _size(teller: Teller, sizes: list[tuple[float, float]]) -> Found:
    unit = unit_of(teller)
    weights = [u**-2 for _, u in sizes]
    mean = math.fsum(w * size for w, (size, _) in zip(weights, sizes, strict=True)) / math.fsum(weights)
    low, high = (pick(size for size, _ in sizes) for pick in (min, max))
    named = unit if unit in GOOD_TO else ""
    ranged = f"{low:.4g}-{high:.4g}" if f"{low:.4g}" != f"{high:.4g}" else f"{low:.4g}"
    words = f"with a {teller.thing.tells.replace('_', ' ')} of {ranged} {named}".strip()
    value = next((step for step in _round(teller, mean) if _fits(teller, step, sizes)), None)
    if value is None:
        return Found(None, f"{words}, too far apart to be one size")
    return Found(value, f"{words}; {value:g} {named}".strip() + " fits them")


def _round(teller: Teller, mean: float) -> list[float]:
    """The mean on the list's own steps, and on what such lists are good to."""
    good_to = GOOD_TO.get(unit_of(teller), 0.01)
    return [round(mean / step) * step for step in (_steps(teller, good_to), good_to) if step]


def _steps(teller: Teller, good_to: float) -> float:
    """The largest step on which all of a list's values lie; none with fewer than three."""
    values = [entry.value for entries in teller.entries.values() for entry in entries]
    counts = [Fraction(value).limit_denominator(1000) for value in values if isinstance(value, int | float)]
    if len(set(counts)) < 3:
        return 0.0
    denominator = math.lcm(*(count.denominator for count in counts))
    step = math.gcd(*(int(count * denominator) for count in counts)) / denominator
    return step if step >= good_to else 0.0


def _fits(teller: Teller, value: float, sizes: list[tuple[float, float]]) -> bool:
    rounding = GOOD_TO.get(unit_of(teller), 0.0) / ROOT_12
    return all(abs(size - value) <= RULED_OUT_BEYOND * math.hypot(u, rounding) for size, u in sizes)


def contradicts(teller: Teller, seen: Sequence[CodeSeen]) -> bool:
    """Whether every one of them lies beyond what the table says the code means."""
    told = seen[0].told
    if told.value is None:
        return False
    if teller.thing.is_number and not teller.thing.is_whole:
        scale = IN_SI[unit_of(teller)]
        value, rounding = float(told.value) / scale, told.u / scale
        return all(abs(size - value) > RULED_OUT_BEYOND * math.hypot(u, rounding) for size, u in sizes_of(teller, seen))
    return all(one.known != told.value for one in seen)
