"""Diameter of a propeller from where its tips are."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, hold, hold_whole


def diameter_from_tip_radius(tip_radius_m: ArrayLike) -> NDArray[np.float64]:
    """Diameter from the distance between the shaft's centre and the furthest tip: 2 x radius.

    Parameters
    ----------
    tip_radius_m : array_like, shape S
        From the centre of the bore to the tip, square to the shaft, m.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle that the tip sweeps, m; NaN where not known.

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
        Diameter of the circle through the tips, m; NaN where not known.

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
    return across_m + 0 * blades


def diameter_from_tip_chord(chord_m: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Diameter of an odd-bladed propeller from the two tips furthest apart: chord / cos(90 deg / blades).

    Parameters
    ----------
    chord_m : array_like, shape S
        Straight distance between the two tips furthest apart, m.
    blades : array_like, shape S
        Number of blades, odd, 3 to 9.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle through the tips, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A chord is not above zero; the blades are not 3, 5, 7 or 9. (With even blades tip to tip is the diameter.)

    Source
    ------
    Geometry of the regular polygon.

    Examples
    --------
    >>> float(diameter_from_tip_chord(0.500, 3))
    0.577
    """
    said = "must be 3, 5, 7 or 9; with an even number of blades measure straight across."
    alike(chord_m=chord_m, blades=blades)
    chord_m = hold("chord_m", chord_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, said, at_least=3, at_most=9)
    if np.any(blades % 2 == 0):
        raise OutsideRange("blades", said, f"{blades[blades % 2 == 0][0]:.0f}")
    return chord_m / np.cos(np.pi / 2 / blades)


def diameter_from_next_tip(chord_m: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Diameter from the tips of two neighbouring blades: chord / sin(180 deg / blades).

    Parameters
    ----------
    chord_m : array_like, shape S
        Straight distance between the tips of two neighbouring blades, m.
    blades : array_like, shape S
        Number of blades, 2 to 9.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle through the tips, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A chord is not above zero; the blades are not a whole number from 2 to 9.

    Source
    ------
    Geometry of the regular polygon.

    Examples
    --------
    >>> float(diameter_from_next_tip(0.588, 5))
    1.00
    """
    alike(chord_m=chord_m, blades=blades)
    chord_m = hold("chord_m", chord_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, "must be a whole number from 2 to 9.", at_least=2, at_most=9)
    return chord_m / np.sin(np.pi / blades)


def diameter_from_string(string_m: ArrayLike, blades: ArrayLike) -> NDArray[np.float64]:
    """Diameter from a string pulled taut round every tip: length / (Z sin(pi / Z)).

    Parameters
    ----------
    string_m : array_like, shape S
        Length of string that goes once round, straight from each tip to the next, m.
    blades : array_like, shape S
        Number of blades, 3 to 9.

    Returns
    -------
    diameter_m : ndarray, shape S
        Diameter of the circle through the tips, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A length is not above zero; the blades are not a whole number from 3 to 9.

    Validity
    --------
    Tips equally long and evenly spaced. Among all polygons on one circle the regular one is the longest round, so that
    uneven spacing always reads a little too small.

    Source
    ------
    Geometry of the regular polygon.

    Examples
    --------
    >>> float(diameter_from_string(2.598, 3))  # a triangle on a circle of 1 m: 3 sin 60 degrees
    1.00
    """
    alike(string_m=string_m, blades=blades)
    string_m = hold("string_m", string_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, "must be a whole number from 3 to 9.", at_least=3, at_most=9)
    return string_m / (blades * np.sin(np.pi / blades))


def tip_wear(tip_radius_m: ArrayLike, shortest_m: ArrayLike) -> NDArray[np.float64]:
    """How much shorter the shortest blade is than the longest: longest radius less shortest.

    Parameters
    ----------
    tip_radius_m : array_like, shape S
        From the centre of the bore to the furthest tip, m.
    shortest_m : array_like, shape S
        From the centre of the bore to the nearest tip, m.

    Returns
    -------
    wear_m : ndarray, shape S
        m; NaN where not known.

    Raises
    ------
    OutsideRange
        A radius is not above zero; the shortest is more than the longest.

    Source
    ------
    Arithmetic. That a worn propeller goes by its longest blade is common practice, no source.

    Examples
    --------
    >>> float(tip_wear(0.2795, 0.2765))
    0.003
    """
    alike(tip_radius_m=tip_radius_m, shortest_m=shortest_m)
    tip_radius_m = hold("tip_radius_m", tip_radius_m, "must be above zero.", above=0)
    said = "must be above zero and at most the longest tip's."
    return tip_radius_m - hold("shortest_m", shortest_m, said, above=0, at_most=tip_radius_m)
