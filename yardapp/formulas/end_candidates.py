"""The standard shaft ends that readings come nearest to, with what each standard allows."""

from dataclasses import dataclass

import numpy as np

from yardapp.formulas.ranges import hold, hold_whole
from yardapp.formulas.shaft_ends import FLOORS, StandardEnd, standard_ends


@dataclass(frozen=True, kw_only=True)
class HeldAgainst:
    """One figure of a standard end beside the reading, SI; NaN bounds where the standard gives one figure alone."""

    what: str
    read: float
    standard: float
    low: float
    high: float
    off: float
    is_within: bool


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One standard end; `worst` is how many times its allowance the reading furthest off lies off: 1 is the edge."""

    end: StandardEnd
    held: tuple[HeldAgainst, ...]
    worst: float


def end_candidates(
    large_m: float = np.nan,
    small_m: float = np.nan,
    length_m: float = np.nan,
    taper: float = np.nan,
    *,
    u_large_m: float = 0.0,
    u_small_m: float = 0.0,
    u_length_m: float = 0.0,
    u_taper: float = 0.0,
    count: int = 3,
) -> tuple[Candidate, ...]:
    """Standard shaft ends in the order in which readings come near them, each figure held against its tolerance.

    A reading is within when it lies between the standard's bounds, widened by 2 u; where the standard gives one figure
    alone, within 2 u or 0.25 mm on diameter, 3 mm on length, 0.0005 on taper.

    Parameters
    ----------
    large_m : float
        Diameter at the large end, m; NaN where not known, as in all that follow.
    small_m : float
        Diameter at the small end, m.
    length_m : float
        Length of the taper, m.
    taper : float
        Change of diameter over length, 1.
    u_large_m : float
        Standard uncertainty of the large end, k = 1, m.
    u_small_m : float
        The same of the small end, m.
    u_length_m : float
        The same of the length, m.
    u_taper : float
        The same of the taper, 1.
    count : int
        How many candidates at most, 1 to 100.

    Returns
    -------
    candidates : tuple of Candidate
        Nearest first; empty when nothing that they know was read.

    Raises
    ------
    OutsideRange
        A figure is not above zero, an uncertainty is below zero, or the count is not a whole number from 1 to 100.

    Source
    ------
    SAE J755; ISO 4566:1992; bounds of the small end as the tables of `shaft_ends` have them. The widening is ours.

    Examples
    --------
    >>> [one.end.name for one in end_candidates(0.0318, 0.0262, count=2)]
    ['SAE J755 1-1/4 in', 'SAE J755 1-3/8 in']
    """
    read = {"large_m": large_m, "small_m": small_m, "length_m": length_m, "taper": taper}
    reach = {"large_m": u_large_m, "small_m": u_small_m, "length_m": u_length_m, "taper": u_taper}
    for name, reading in read.items():
        hold(name, reading, "must be above zero.", above=0)
        hold(f"u_{name}", reach[name], "must be zero or more.", at_least=0)
    hold_whole("count", count, "must be a whole number from 1 to 100.", at_least=1, at_most=100)
    found = [_candidate(end, read, reach) for end in standard_ends()]
    return tuple(sorted((one for one in found if one.held), key=lambda one: one.worst)[:count])


def _candidate(end: StandardEnd, read: dict[str, float], reach: dict[str, float]) -> Candidate:
    """A series is told by its taper; without one read it has nothing to say."""
    if end.large_to_m > end.large_m and np.isnan(read["taper"]):
        return Candidate(end=end, held=(), worst=np.inf)
    rows = [
        _held("large_m", read["large_m"], end.large_m, (end.large_m, end.large_to_m), reach["large_m"]),
        _held("small_m", read["small_m"], end.small_m, (end.small_min_m, end.small_max_m), reach["small_m"]),
        _held("length_m", read["length_m"], end.length_m, (np.nan, np.nan), reach["length_m"]),
        _held("taper", read["taper"], end.taper, (np.nan, np.nan), reach["taper"]),
    ]
    scored = [row for row in rows if row is not None]
    return Candidate(
        end=end, held=tuple(row for row, _ in scored), worst=max((score for _, score in scored), default=np.inf)
    )


def _held(
    what: str, reading: float, standard: float, bounds: tuple[float, float], u: float
) -> tuple[HeldAgainst, float] | None:
    if np.isnan(reading) or np.isnan(standard):
        return None
    low, high = bounds
    is_one = np.isnan(low) or np.isnan(high) or low == high
    allowed = max(2 * u, FLOORS[what])
    nearest = standard if is_one else float(np.clip(reading, low, high))
    off = reading - (standard if is_one else nearest)
    is_within = abs(off) <= (allowed if is_one else 2 * u) + 1e-12
    row = HeldAgainst(
        what=what, read=reading, standard=standard, low=low, high=high, off=reading - standard, is_within=is_within
    )
    return row, abs(off) / allowed
