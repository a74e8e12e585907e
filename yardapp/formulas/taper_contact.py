"""Where a tapered hub bears on its shaft, and the gap that is left."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero, hold_whole

# Where two tapers part by less than this over the hub's length, no bluing tells them apart.
SAME_M = 1e-6


@dataclass(frozen=True, kw_only=True)
class ContactGap:
    """A hub pushed up until it bears: the gap on diameter along its bore, and where it bears.

    `touches` is "large end", "small end", "whole length", or "" where a figure is not known.
    """

    stations_m: NDArray[np.float64]
    gap_m: NDArray[np.float64]
    set_up_m: NDArray[np.float64]
    touches: NDArray[np.str_]


def contact_gap(
    bore_large_m: ArrayLike,
    bore_taper: ArrayLike,
    shaft_large_m: ArrayLike,
    shaft_taper: ArrayLike,
    length_m: ArrayLike,
    stations: int = 11,
) -> ContactGap:
    """Gap between bore and shaft once the hub is up; a slower hub bears at its large end, a faster one at its small.

    Ahead of its taper the shaft is taken as parallel; behind, the taper is taken to go on past the hub's small end.

    Parameters
    ----------
    bore_large_m : array_like, shape S
        Diameter of the bore at its large end, m.
    bore_taper : array_like, shape S
        Taper of the bore, change of diameter over length, 1.
    shaft_large_m : array_like, shape S
        Diameter of the shaft at the large end of its taper, m.
    shaft_taper : array_like, shape S
        Taper of the shaft, change of diameter over length, 1.
    length_m : array_like, shape S
        Length of the tapered bore, m.
    stations : int
        At how many places the gap is wanted, both ends included.

    Returns
    -------
    contact : ContactGap
        stations_m from the bore's large end and gap_m on diameter, shape S + (stations,); set_up_m as in `set_up`
        and touches, shape S; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; a bore closes within its length; it is so large that the hub slides past the taper.

    Source
    ------
    Geometry of two cones on one axis; stiff, without friction or draw-up by force.

    Examples
    --------
    >>> contact = contact_gap(0.030, 1 / 16, 0.030, 1 / 12, 0.100, stations=2)
    >>> str(contact.touches), (contact.gap_m * 1000).round(2)
    ('large end', array([0.  , 2.08]))
    """
    given = alike(
        bore_large_m=bore_large_m,
        bore_taper=bore_taper,
        shaft_large_m=shaft_large_m,
        shaft_taper=shaft_taper,
        length_m=length_m,
    )
    bore, shaft, length = hold_above_zero(bore_large_m=bore_large_m, shaft_large_m=shaft_large_m, length_m=length_m)
    slope, shaft_slope = _hold_taper("bore_taper", bore_taper), _hold_taper("shaft_taper", shaft_taper)
    hold("bore_taper", slope, "must leave a bore at the small end.", below=bore / length)
    hold("bore_large_m", bore, "must be small enough to stop on the taper.", below=shaft + slope * length)
    hold_whole("stations", stations, "must be a whole number from 2 to 10000.", at_least=2, at_most=10_000)
    up = np.broadcast_to(_stop(bore, slope, shaft, shaft_slope, length), given)
    along = np.broadcast_to(length, given)[..., None] * np.linspace(0, 1, int(stations))
    on_shaft = np.maximum(along - up[..., None], 0)
    gap = bore[..., None] - slope[..., None] * along - (shaft[..., None] - shaft_slope[..., None] * on_shaft)
    return ContactGap(
        stations_m=along,
        gap_m=np.maximum(gap, 0),
        set_up_m=as_given(up),
        touches=_touches(slope, shaft_slope, up, length),
    )


def _stop(
    bore: NDArray[np.float64],
    slope: NDArray[np.float64],
    shaft: NDArray[np.float64],
    shaft_slope: NDArray[np.float64],
    length: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Set-up at which the first point touches."""
    at_large = (bore - shaft) / np.where(bore > shaft, slope, shaft_slope)
    at_small = (bore - shaft + (shaft_slope - slope) * length) / shaft_slope
    return as_given(np.where(slope < shaft_slope, at_large, at_small))


def _touches(
    slope: NDArray[np.float64], shaft_slope: NDArray[np.float64], up: NDArray[np.float64], length: NDArray[np.float64]
) -> NDArray[np.str_]:
    parting = (shaft_slope - slope) * length + 0 * up
    words = np.where(parting > 0, "large end", "small end")
    words = np.where(np.abs(parting) < SAME_M, "whole length", words)
    return as_given(np.where(np.isnan(parting), "", words))


def _hold_taper(argument: str, taper: ArrayLike) -> NDArray[np.float64]:
    return hold(argument, taper, "must be above zero and less than 1.", above=0, below=1)
