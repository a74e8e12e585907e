"""What a reading at the bench means before any formula of the trade: a radius is half, a rise is a difference."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, hold, hold_above_zero, hold_whole


def diameter_from_tip_radius(tip_radius_m: ArrayLike) -> NDArray[np.float64]:
    """Diameter from the distance between the shaft's centre and the furthest tip: 2 x radius.

    Parameters
    ----------
    tip_radius_m : array_like, shape S
        From the centre of the bore to the tip, square to the shaft, m.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle that the tip sweeps, m.

    Raises
    ------
    OutsideRange
        A radius is not above zero.

    Source
    ------
    Geometry of the circle.

    Examples
    --------
    >>> float(diameter_from_tip_radius(0.2795))
    0.559
    """
    return 2 * hold("tip_radius_m", tip_radius_m, "must be above zero.", above=0)


def diameter_across(across_m: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Diameter straight across from tip to tip: the reading itself, where a tip has another opposite.

    Parameters
    ----------
    across_m : array_like, shape S
        From one tip over the shaft's centre to the tip opposite, m.
    blades : array_like, shape S
        Number of blades, even.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle through the tips, m.

    Raises
    ------
    OutsideRange
        A reading is not above zero; the blades are not an even number from 2 to 8.

    Source
    ------
    Geometry of the circle.

    Examples
    --------
    >>> float(diameter_across(0.610, 4))
    0.610
    """
    said = "must be even: on an odd number no tip stands opposite another."
    alike(across_m=across_m, blades=blades)
    across_m = hold("across_m", across_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, said, at_least=2, at_most=8)
    if np.any(blades % 2 == 1):
        raise OutsideRange("blades", said, f"{blades[blades % 2 == 1][0]:.0f}")
    return across_m * np.ones(blades.shape)


def rise_from_edges(leading_m: ArrayLike, trailing_m: ArrayLike) -> NDArray[np.float64]:
    """Rise of a blade's face between its edges, lying face down: leading edge less trailing edge.

    Parameters
    ----------
    leading_m : array_like, shape S
        Height of the face at the leading edge above the table, m.
    trailing_m : array_like, shape S
        Height of the face at the trailing edge above the table, m.

    Returns
    -------
    rise_m : ndarray, shape S
        Along the shaft, m; below zero when the edges are swapped or the propeller lies the other way up.

    Raises
    ------
    OutsideRange
        A height is infinite.

    Source
    ------
    Geometry: going ahead the leading edge is the forward one, on either hand.

    Examples
    --------
    >>> float(rise_from_edges(0.1433, 0.1100))
    0.0333
    """
    alike(leading_m=leading_m, trailing_m=trailing_m)
    said = "must be a height above the table."
    return hold("leading_m", leading_m, said) - hold("trailing_m", trailing_m, said)


def mark_radius(diameter_m: ArrayLike) -> NDArray[np.float64]:
    """The radius at which a blade's pitch is read by custom: 0.7 of the tip radius.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    radius_m : ndarray, shape S
        0.7 R, m.

    Raises
    ------
    OutsideRange
        A diameter is not above zero.

    Source
    ------
    Common practice, no source; loading per unit radius peaks near 0.7 R.

    Examples
    --------
    >>> float(mark_radius(0.450))
    0.1575
    """
    (diameter_m,) = hold_above_zero(diameter_m=diameter_m)
    return 0.7 * diameter_m / 2
