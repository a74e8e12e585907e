"""One figure read several times over: its mean, and how well the mean is known."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, hold


@dataclass(frozen=True, kw_only=True)
class Repeated:
    """Mean and its uncertainties, k = 1, in the readings' own unit.

    `u_scatter` is separate: it shrinks as readings are added. `u_tool` is common to them all: it stays. `u` is both.
    """

    mean: float
    spread: float
    u_scatter: float
    u_tool: float
    u: float
    count: int


def repeated(readings: Sequence[float] | NDArray[np.float64], u_tool: float = 0.0) -> Repeated:
    """Mean of repeated readings, its u = sqrt((s / sqrt n)^2 + u_tool^2): scatter averages out, a tool's own does not.

    Parameters
    ----------
    readings : array_like, shape (n,)
        The same figure read n times, in any one unit; one reading has no scatter to show.
    u_tool : float
        Standard uncertainty of the tool's own offset, k = 1, in the same unit.

    Returns
    -------
    repeated : Repeated
        mean, spread s (of n - 1 degrees of freedom; 0 for one reading), u_scatter = s / sqrt n, u_tool, u, count.

    Raises
    ------
    OutsideRange
        There is no reading, one is not finite, or the tool's uncertainty is below zero.

    Source
    ------
    JCGM 100:2008 (GUM), 4.2.1 to 4.2.3 for the scatter, 5.1.2 for the two together.

    Examples
    --------
    >>> found = repeated([74.0, 74.5, 73.8])
    >>> round(found.mean, 1), round(found.spread, 4), round(found.u_scatter, 4)
    (74.1, 0.3606, 0.2082)
    """
    values = hold("readings", readings, "must be finite.").ravel()
    if values.size == 0 or np.any(np.isnan(values)):
        raise OutsideRange("readings", "must be one reading or more, each known.", values.tolist())
    hold("u_tool", u_tool, "must be zero or more.", at_least=0)
    spread = float(np.std(values, ddof=1)) if values.size > 1 else 0.0
    u_scatter = spread / float(np.sqrt(values.size))
    return Repeated(
        mean=float(np.mean(values)),
        spread=spread,
        u_scatter=u_scatter,
        u_tool=float(u_tool),
        u=float(np.hypot(u_scatter, u_tool)),
        count=values.size,
    )


def how_well_scatter_is_known(reading_count: ArrayLike) -> NDArray[np.float64]:
    """Relative standard uncertainty of a spread that was worked out from n readings: 1 / sqrt(2 (n - 1)), first order.

    Parameters
    ----------
    reading_count : array_like, shape S
        Number of readings, 2 or more.

    Returns
    -------
    share : ndarray, shape S
        u(s) / s, 1; NaN where not known.

    Raises
    ------
    OutsideRange
        There are fewer than two readings.

    Source
    ------
    JCGM 100:2008 (GUM), E.4.3: about 1 / sqrt(2 v), v = n - 1; its table E.1 gives 52 % for three readings.

    Examples
    --------
    >>> float(how_well_scatter_is_known(3))
    0.5
    """
    return 1 / np.sqrt(2 * (hold("reading_count", reading_count, "must be two or more.", at_least=2) - 1))


def stray(readings: Sequence[float] | NDArray[np.float64], share_ratio: float = 0.2) -> int | None:
    """Which of several readings of like things lies off the others by more than a share of their middle.

    Parameters
    ----------
    readings : array_like, shape (n,)
        Three readings or more, in any one unit; NaN where one was not taken.
    share_ratio : float
        How far off the median of the others, over that median, counts as astray, 1.

    Returns
    -------
    number : int or None
        Place of the reading that lies furthest off, from 0; None where none does, or fewer than three are known.

    Raises
    ------
    OutsideRange
        A reading is infinite; the share is not above zero.

    Source
    ------
    Common practice, no source: a reading 20 % off its fellows is misread, or that blade is bent.

    Examples
    --------
    >>> stray([289.0, 312.0, 287.0, 291.0], 0.05)
    1
    """
    values = hold("readings", readings, "must be finite.").ravel()
    hold("share_ratio", share_ratio, "must be above zero.", above=0)
    places = np.flatnonzero(~np.isnan(values))
    if places.size < 3:
        return None
    off = {}
    for place in places:
        middle = np.median(values[places[places != place]])
        off[int(place)] = abs(values[place] - middle) / abs(middle) if middle else 0.0
    furthest = max(off, key=lambda place: off[place])
    return furthest if off[furthest] > share_ratio else None
