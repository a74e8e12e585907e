"""Where the Wageningen B-series holds."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, hold, hold_whole

Array = NDArray[np.float64]

LEAST_PITCH_RATIO, GREATEST_PITCH_RATIO = 0.5, 1.4
GREATEST_ADVANCE_RATIO = 1.6


def hold_design(pitch_ratio: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike) -> tuple[Array, Array, Array]:
    """Return a design's figures as floats; refuse a propeller that is not of the series.

    Parameters
    ----------
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.

    Returns
    -------
    pitch_ratio, area_ratio, blades : ndarray
        As given, each of its own shape; NaN where not known.

    Raises
    ------
    OutsideRange
        P/D lies outside 0.5 to 1.4, AE/A0 outside 0.30 to 1.05, or the blades are not a whole number from 2 to 7.

    Validity
    --------
    P/D 0.5 to 1.4, AE/A0 0.30 to 1.05, 2 to 7 blades.

    Source
    ------
    M. M. Bernitsas, D. Ray & P. Kinley, Univ. of Michigan Report 237, 1981.

    Examples
    --------
    >>> [float(each) for each in hold_design(1.0, 0.55, 4)]
    [1.0, 0.55, 4.0]
    """
    alike(pitch_ratio=pitch_ratio, area_ratio=area_ratio, blades=blades)
    low, high = LEAST_PITCH_RATIO, GREATEST_PITCH_RATIO
    return (
        hold("pitch_ratio", pitch_ratio, "must lie from 0.5 to 1.4 for the B-series.", at_least=low, at_most=high),
        hold("area_ratio", area_ratio, "must lie from 0.30 to 1.05 for the B-series.", at_least=0.30, at_most=1.05),
        hold_whole("blades", blades, "must be a whole number from 2 to 7 for the B-series.", at_least=2, at_most=7),
    )


def hold_series(
    advance_ratio: ArrayLike, pitch_ratio: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike
) -> tuple[Array, Array, Array, Array]:
    """Return a working point's figures as floats; refuse one that is not of the series.

    Parameters
    ----------
    advance_ratio : array_like, shape S
        J = Va / (n D), 1.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.

    Returns
    -------
    advance_ratio, pitch_ratio, area_ratio, blades : ndarray
        As given, each of its own shape; NaN where not known.

    Raises
    ------
    OutsideRange
        As `hold_design`, or J lies outside 0 to 1.6; even the steepest pitch gives no thrust there.

    Validity
    --------
    As `hold_design`; J 0 to 1.6.

    Source
    ------
    As for `hold_design`; the bound on J is ours.

    Examples
    --------
    >>> [float(each) for each in hold_series(0.5, 1.0, 0.55, 4)]
    [0.5, 1.0, 0.55, 4.0]
    """
    alike(advance_ratio=advance_ratio, pitch_ratio=pitch_ratio, area_ratio=area_ratio, blades=blades)
    said = "must lie from 0 to 1.6 for the B-series."
    j = hold("advance_ratio", advance_ratio, said, at_least=0, at_most=GREATEST_ADVANCE_RATIO)
    return j, *hold_design(pitch_ratio, area_ratio, blades)
