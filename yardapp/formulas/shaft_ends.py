"""Shaft ends as standards print them, and which of them a reading comes nearest to."""

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache

import numpy as np

from yardapp.formulas.imperial import INCH_M
from yardapp.formulas.ranges import hold
from yardapp.formulas.tables import Row, figure, table

MM = 0.001
RATIOS = (10, 12, 16, 20)

# A reading this near counts as the same, however fine its gauge: shafts and bores wear and are lapped.
FLOORS = {"large_m": 0.00025, "small_m": 0.00025, "length_m": 0.003, "taper": 0.0005}


@dataclass(frozen=True, kw_only=True)
class StandardEnd:
    """One shaft end of a standard, SI; NaN where its figure was not to be had. A whole series runs to `large_to_m`.

    `status` is the small end's; where each figure comes from: confirmed, secondary, derived, or from memory.
    """

    standard: str
    size: str
    taper: float
    large_m: float
    large_to_m: float
    small_m: float = np.nan
    small_min_m: float = np.nan
    small_max_m: float = np.nan
    length_m: float = np.nan
    thread: str = ""
    source: str
    status: str
    status_length: str = ""
    status_thread: str = ""
    threads_per_inch: float = np.nan

    @property
    def name(self) -> str:
        return f"{self.standard} {self.size}"


@dataclass(frozen=True, kw_only=True)
class EndMatch:
    """`end` is the standard end that the readings are, or None; `nearest` the closest; `off` reading less standard."""

    end: StandardEnd | None
    nearest: StandardEnd | None
    off: dict[str, float] = field(default_factory=dict)

    @property
    def said(self) -> str:
        return self.end.name if self.end else "none of them"


@cache
def standard_ends() -> tuple[StandardEnd, ...]:
    """Shaft ends of SAE J755, row by row, and ISO 4566 as a series with its taper and range.

    Returns
    -------
    ends : tuple of StandardEnd
        Lengths in m, taper 1; NaN where the figure was not to be had.

    Raises
    ------
    FileNotFoundError
        The tables are not installed.

    Source
    ------
    SAE J755; ISO 4566:1992; `tables/shaft_tapers.csv` and `shaft_taper_series.csv` with a status for each row.

    Examples
    --------
    >>> standard_ends()[0].name, standard_ends()[-1].name
    ('SAE J755 3/4 in', 'ISO 4566 20 to 160 mm')
    """
    return tuple(_row_end(row) for row in table("shaft_tapers")) + tuple(
        _series_end(row) for row in table("shaft_taper_series")
    )


def nearest_taper(taper: float, u_taper: float = 0.0) -> float | None:
    """Nearest of the standard ratios 1:10, 1:12, 1:16 and 1:20.

    Parameters
    ----------
    taper : float
        Change of diameter over length, 1.
    u_taper : float
        Its standard uncertainty, k = 1.

    Returns
    -------
    ratio : float or None
        The standard taper, 1; None when it is more than 2 u (and more than 0.0005) away, or nothing is known.

    Raises
    ------
    OutsideRange
        The taper is not between 0 and 1; the uncertainty is below zero.

    Source
    ------
    Ratios of SAE J755 and ISO 4566, and 1:20; the floor is ours: 0.05 mm in 100 mm.

    Examples
    --------
    >>> nearest_taper(0.0621, 0.001)
    0.0625
    >>> nearest_taper(0.07, 0.001) is None
    True
    """
    hold("taper", taper, "must be above zero and less than 1.", above=0, below=1)
    hold("u_taper", u_taper, "must be zero or more.", at_least=0)
    nearest = min((1 / ratio for ratio in RATIOS), key=lambda standard: abs(standard - taper))
    return nearest if abs(nearest - taper) <= max(2 * u_taper, FLOORS["taper"]) else None


def nearest_end(
    large_m: float,
    small_m: float = np.nan,
    length_m: float = np.nan,
    taper: float = np.nan,
    *,
    u_large_m: float = 0.0,
    u_small_m: float = 0.0,
    u_length_m: float = 0.0,
    u_taper: float = 0.0,
) -> EndMatch:
    """Which standard shaft end the readings are, and how far they lie from the nearest.

    A reading agrees when it lies within 2 u, or within 0.25 mm on diameter, 3 mm on length, 0.0005 on taper;
    a taper worked out from the ends is allowed what the ends are.
    A series is matched by its taper; without one, only rows are.

    Parameters
    ----------
    large_m : float
        Diameter at the large end, m; NaN where not known, as in all that follow.
    small_m : float
        Diameter at the small end, m.
    length_m : float
        Length of the taper, m.
    taper : float
        Change of diameter over length, 1; worked out where both ends and the length are known.
    u_large_m : float
        Standard uncertainty of the large end, k = 1, m.
    u_small_m : float
        The same of the small end, m.
    u_length_m : float
        The same of the length, m.
    u_taper : float
        The same of the taper, 1.

    Returns
    -------
    match : EndMatch
        `end` None ("none of them") when the nearest disagrees with a reading; `nearest` None when nothing is known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; an uncertainty is below zero.

    Source
    ------
    SAE J755; ISO 4566:1992. The allowances are ours, for worn and lapped ends.

    Examples
    --------
    >>> nearest_end(0.0318, 0.0262, u_large_m=0.0001, u_small_m=0.0001).said
    'SAE J755 1-1/4 in'
    >>> nearest_end(0.0340, 0.0262).said
    'none of them'
    """
    read = {"large_m": large_m, "small_m": small_m, "length_m": length_m, "taper": taper}
    for argument, reading in read.items():
        hold(argument, reading, "must be above zero.", above=0)
    known = {"large_m": u_large_m, "small_m": u_small_m, "length_m": u_length_m, "taper": u_taper}
    for name, u in known.items():
        hold(f"u_{name}", u, "must be zero or more.", at_least=0)
    allowed = {name: max(2 * u, FLOORS[name]) for name, u in known.items()}
    if np.isnan(taper) and length_m > 0:
        read["taper"] = (large_m - small_m) / length_m
        allowed_m = np.hypot(allowed["large_m"], allowed["small_m"])
        allowed["taper"] = max(allowed_m / length_m, FLOORS["taper"])
    return _best(read, allowed)


def _best(read: dict[str, float], allowed: dict[str, float]) -> EndMatch:
    offs = [(end, _off(end, read)) for end in standard_ends()]
    scored = [
        (max(abs(figure) / allowed[name] for name, figure in off.items()), number)
        for number, (_, off) in enumerate(offs)
        if off
    ]
    if not scored:
        return EndMatch(end=None, nearest=None)
    score, number = min(scored)
    nearest, off = offs[number]
    return EndMatch(end=nearest if score <= 1 else None, nearest=nearest, off=off)


def _off(end: StandardEnd, read: dict[str, float]) -> dict[str, float]:
    """Reading less standard, for what both know; a series has nothing to say where no taper was read."""
    if end.large_to_m > end.large_m and np.isnan(read["taper"]):
        return {}
    large_m = read["large_m"]
    standard = {
        "large_m": min(max(large_m, end.large_m), end.large_to_m),
        "small_m": end.small_m,
        "length_m": end.length_m,
        "taper": end.taper,
    }
    off = {name: reading - standard[name] for name, reading in read.items()}
    return {name: figure for name, figure in off.items() if not np.isnan(figure)}


def _row_end(row: Row) -> StandardEnd:
    nominal_in, small_in = figure(row, "nominal_in"), figure(row, "small_end_derived_in")
    thread = f"{row['thread_dia_in']} in, {row['threads_per_inch']} to the inch" if row["thread_dia_in"] else ""
    return StandardEnd(
        standard=row["standard"],
        size=f"{_fraction(nominal_in)} in",
        taper=_ratio(row),
        large_m=nominal_in * INCH_M,
        large_to_m=nominal_in * INCH_M,
        small_m=small_in * INCH_M,
        small_min_m=figure(row, "small_end_min_in") * INCH_M,
        small_max_m=figure(row, "small_end_max_in") * INCH_M,
        length_m=figure(row, "taper_length_in") * INCH_M,
        thread=thread,
        source=row["source"],
        status=row["status"],
        status_length=row["status_taper_length"],
        status_thread=row["status_thread"],
        threads_per_inch=figure(row, "threads_per_inch"),
    )


def _series_end(row: Row) -> StandardEnd:
    return StandardEnd(
        standard=row["standard"],
        size=f"{row['shaft_from_mm']} to {row['shaft_to_mm']} mm",
        taper=_ratio(row),
        large_m=figure(row, "shaft_from_mm") * MM,
        large_to_m=figure(row, "shaft_to_mm") * MM,
        source=row["source"],
        status=row["status"],
    )


def _ratio(row: Row) -> float:
    return 1 / float(row["taper_on_diameter"].removeprefix("1:"))


def _fraction(inches: float) -> str:
    whole, part = divmod(Fraction(inches), 1)
    return "-".join(text for text in (str(whole) if whole else "", str(part) if part else "") if text)
