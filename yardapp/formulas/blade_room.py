"""How much of the shaft blades and hub take up, and what is left ahead of them and behind."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero

# Width of a B-series blade at 0.7 R times blades over diameter times area ratio.
WIDTH_AT_07 = 2.144


def blade_depth(
    diameter_m: ArrayLike, pitch_m: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike
) -> NDArray[np.float64]:
    """Length along the shaft that a blade takes up at 0.7 R: width times sin(atan(P / (0.7 pi D))).

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter, m.
    pitch_m : array_like, shape S
        Pitch, m.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.

    Returns
    -------
    depth_m : ndarray, shape S
        Without rake, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Blade widths of the B-series with four and more blades: M. W. C. Oosterveld & P. van Oossanen, Int. Shipb. Progress
    22(251), 1975, table 2 (from memory, high); three blades come within 4 % of it. The rest is geometry of a helix.

    Examples
    --------
    >>> print(f"{blade_depth(0.56, 0.40, 0.55, 3):.3f} m")
    0.068 m
    """
    diameter, pitch, area, count = hold_above_zero(
        diameter_m=diameter_m, pitch_m=pitch_m, area_ratio=area_ratio, blades=blades
    )
    width = WIDTH_AT_07 * diameter * area / count
    return as_given(width * np.sin(np.arctan(pitch / (0.7 * np.pi * diameter))))


def room_aft(
    rudder_distance_m: ArrayLike, hub_length_m: ArrayLike, set_up_m: ArrayLike, blade_depth_m: ArrayLike
) -> NDArray[np.float64]:
    """Gap behind the blades at 0.7 R, the blades standing in the middle of the hub.

    Parameters
    ----------
    rudder_distance_m : array_like, shape S
        From the taper's large end aft to the rudder, m.
    hub_length_m : array_like, shape S
        Length of the hub, m.
    set_up_m : array_like, shape S
        How far the hub's large end passes the taper's, m; below zero where it stays short.
    blade_depth_m : array_like, shape S
        As `blade_depth` gives it, m.

    Returns
    -------
    gap_m : ndarray, shape S
        m; below zero the blades would strike. NaN where not known.

    Raises
    ------
    OutsideRange
        A length is not above zero; the set-up is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(room_aft(0.200, 0.100, 0.0, 0.060))
    0.12
    """
    alike(**locals())
    rudder, hub, depth = hold_above_zero(
        rudder_distance_m=rudder_distance_m, hub_length_m=hub_length_m, blade_depth_m=blade_depth_m
    )
    return as_given(rudder - hub / 2 + hold("set_up_m", set_up_m, "must be a length.") - depth / 2)


def room_ahead(
    ahead_distance_m: ArrayLike, hub_length_m: ArrayLike, set_up_m: ArrayLike, blade_depth_m: ArrayLike
) -> NDArray[np.float64]:
    """Gap ahead of the blades at 0.7 R, the blades standing in the middle of the hub.

    Parameters
    ----------
    ahead_distance_m : array_like, shape S
        From the taper's large end forward to deadwood or strut, m.
    hub_length_m : array_like, shape S
        Length of the hub, m.
    set_up_m : array_like, shape S
        How far the hub's large end passes the taper's, m; below zero where it stays short.
    blade_depth_m : array_like, shape S
        As `blade_depth` gives it, m.

    Returns
    -------
    gap_m : ndarray, shape S
        m; below zero the blades would strike. NaN where not known.

    Raises
    ------
    OutsideRange
        A length is not above zero; the set-up is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(room_ahead(0.060, 0.100, 0.0, 0.060))
    0.08
    """
    alike(**locals())
    ahead, hub, depth = hold_above_zero(
        ahead_distance_m=ahead_distance_m, hub_length_m=hub_length_m, blade_depth_m=blade_depth_m
    )
    return as_given(ahead + hub / 2 - hold("set_up_m", set_up_m, "must be a length.") - depth / 2)


def aperture_left(
    aperture_length_m: ArrayLike, hub_length_m: ArrayLike, nut_length_m: ArrayLike
) -> NDArray[np.float64]:
    """What an aperture's length leaves over once hub and nuts stand in it: length - hub - nuts.

    Parameters
    ----------
    aperture_length_m : array_like, shape S
        Fore and aft at the shaft, m.
    hub_length_m : array_like, shape S
        Length of the hub, m.
    nut_length_m : array_like, shape S
        Nuts and lock, face to face, m.

    Returns
    -------
    left_m : ndarray, shape S
        m; below zero they don't go in. NaN where not known.

    Raises
    ------
    OutsideRange
        A length is not above zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(aperture_left(0.30, 0.12, 0.04))
    0.14
    """
    aperture, hub, nuts = hold_above_zero(
        aperture_length_m=aperture_length_m, hub_length_m=hub_length_m, nut_length_m=nut_length_m
    )
    return as_given(aperture - hub - nuts)


def tip_depth(shaft_depth_m: ArrayLike, diameter_m: ArrayLike) -> NDArray[np.float64]:
    """How deep the upper tip stands under water: depth of the shaft - diameter / 2.

    Parameters
    ----------
    shaft_depth_m : array_like, shape S
        Waterline to the shaft's centre at the propeller, m.
    diameter_m : array_like, shape S
        Diameter, m.

    Returns
    -------
    depth_m : ndarray, shape S
        m; below zero the tips break the surface. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(tip_depth(0.50, 0.56))
    0.22
    """
    depth, diameter = hold_above_zero(shaft_depth_m=shaft_depth_m, diameter_m=diameter_m)
    return as_given(depth - diameter / 2)
