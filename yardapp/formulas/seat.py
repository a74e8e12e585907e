"""How a hub sits on its shaft end: metal to bore, wall left, room ahead of it, nut behind it, key within it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero


def parting(hub_taper: ArrayLike, shaft_taper: ArrayLike, length_m: ArrayLike) -> NDArray[np.float64]:
    """How far two tapers part on diameter over a length: (shaft - hub) * length.

    Parameters
    ----------
    hub_taper : array_like, shape S
        Taper of the bore, change of diameter over length, 1.
    shaft_taper : array_like, shape S
        Taper of the shaft, 1.
    length_m : array_like, shape S
        Length over which they lie on each other, m.

    Returns
    -------
    parting_m : ndarray, shape S
        Gap on diameter at the end that does not bear, m: above zero at the nut end, below zero at the large end.
        NaN where not known.

    Raises
    ------
    OutsideRange
        A taper or the length is not above zero.

    Source
    ------
    Geometry of the cone: 1:12 and 1:16 part by 2.08 mm in 100 mm.

    Examples
    --------
    >>> float(parting(1 / 16, 1 / 12, 0.100))
    0.00208
    """
    hub_taper, shaft_taper, length_m = hold_above_zero(hub_taper=hub_taper, shaft_taper=shaft_taper, length_m=length_m)
    return (shaft_taper - hub_taper) * length_m


def metal_to_bore(
    bore_large_m: ArrayLike,
    bore_taper: ArrayLike,
    shaft_large_m: ArrayLike,
    shaft_taper: ArrayLike,
    station_m: ArrayLike,
) -> NDArray[np.float64]:
    """Metal on diameter between the bore as it is and the bore that the shaft needs, at one place along the hub.

    (shaft - shaft_taper * station) - (bore - bore_taper * station), the hub standing with its large end at the shaft's.

    Parameters
    ----------
    bore_large_m : array_like, shape S
        Diameter of the bore at its large end, or of a parallel bore, m.
    bore_taper : array_like, shape S
        Taper of the bore as it is, change of diameter over length, 1; zero for a parallel bore.
    shaft_large_m : array_like, shape S
        Diameter of the shaft at the large end of its taper, m.
    shaft_taper : array_like, shape S
        Taper of the shaft, 1.
    station_m : array_like, shape S
        Distance from the large end toward the nut, m.

    Returns
    -------
    metal_m : ndarray, shape S
        To be bored away there, on diameter, m; below zero the bore is too big already and will not clean up.
        NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter or the shaft's taper is not above zero; another figure is below zero.

    Source
    ------
    Geometry of two cones on one axis.

    Examples
    --------
    >>> float(metal_to_bore(0.040, 1 / 16, 0.040, 1 / 12, 0.100))  # 1:16 is already too big at the small end
    -0.00208
    """
    alike(
        bore_large_m=bore_large_m,
        bore_taper=bore_taper,
        shaft_large_m=shaft_large_m,
        shaft_taper=shaft_taper,
        station_m=station_m,
    )
    bore, shaft, slope = hold_above_zero(
        bore_large_m=bore_large_m, shaft_large_m=shaft_large_m, shaft_taper=shaft_taper
    )
    bore_taper = hold("bore_taper", bore_taper, "must be zero or more.", at_least=0)
    station = hold("station_m", station_m, "must be zero or more.", at_least=0)
    return (shaft - slope * station) - (bore - bore_taper * station)


def wall_left(hub_diameter_m: ArrayLike, bore_m: ArrayLike, keyway_depth_m: ArrayLike = 0.0) -> NDArray[np.float64]:
    """Metal of the hub outside a bore: (hub - bore) / 2 - keyway depth.

    Parameters
    ----------
    hub_diameter_m : array_like, shape S
        Outside diameter of the hub, m.
    bore_m : array_like, shape S
        Diameter of the bore, m.
    keyway_depth_m : array_like, shape S
        Depth of the keyway in the hub, m; zero for the wall away from it.

    Returns
    -------
    wall_m : ndarray, shape S
        Thickness left, m; below zero there is none. NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero; the depth is below zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(wall_left(0.080, 0.040, 0.005))
    0.015
    """
    alike(hub_diameter_m=hub_diameter_m, bore_m=bore_m, keyway_depth_m=keyway_depth_m)
    hub_diameter_m, bore_m = hold_above_zero(hub_diameter_m=hub_diameter_m, bore_m=bore_m)
    keyway_depth_m = hold("keyway_depth_m", keyway_depth_m, "must be zero or more.", at_least=0)
    return (hub_diameter_m - bore_m) / 2 - keyway_depth_m


def bearing_gap(hub_space_m: ArrayLike, set_up_m: ArrayLike) -> NDArray[np.float64]:
    """Gap between hub and bearing: room ahead of the taper less what the hub goes past it.

    Parameters
    ----------
    hub_space_m : array_like, shape S
        From the bearing's aft face to the taper's large end, m.
    set_up_m : array_like, shape S
        How far the hub's large end passes beyond the taper's, m; below zero where it stays short.

    Returns
    -------
    gap_m : ndarray, shape S
        Room left, m; below zero the hub is up against the bearing. NaN where not known.

    Raises
    ------
    OutsideRange
        The room is below zero; a figure is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(bearing_gap(0.020, 0.005))
    0.015
    """
    alike(hub_space_m=hub_space_m, set_up_m=set_up_m)
    room = hold("hub_space_m", hub_space_m, "must be zero or more.", at_least=0)
    return as_given(room - hold("set_up_m", set_up_m, "must be a length."))


def seat_left(taper_length_m: ArrayLike, set_up_m: ArrayLike) -> NDArray[np.float64]:
    """Length of the shaft's taper that lies behind the hub's large end: taper length + set-up.

    Parameters
    ----------
    taper_length_m : array_like, shape S
        Length of the shaft's taper along its axis, m.
    set_up_m : array_like, shape S
        How far the hub's large end passes beyond the taper's, m; below zero where it stays short.

    Returns
    -------
    seat_m : ndarray, shape S
        Taper there is for the bore to bear on, m; what lies past the large end bears on nothing. NaN where not known.

    Raises
    ------
    OutsideRange
        The taper's length is not above zero; the set-up is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(seat_left(0.100, -0.010))
    0.09
    """
    alike(taper_length_m=taper_length_m, set_up_m=set_up_m)
    (length,) = hold_above_zero(taper_length_m=taper_length_m)
    return as_given(length + hold("set_up_m", set_up_m, "must be a length."))


def overhang(hub_length_m: ArrayLike, taper_length_m: ArrayLike, set_up_m: ArrayLike) -> NDArray[np.float64]:
    """How far the hub stands past the small end of the taper: hub length - taper length - set-up.

    Parameters
    ----------
    hub_length_m : array_like, shape S
        Length of the hub along the shaft, m.
    taper_length_m : array_like, shape S
        Length of the shaft's taper, m.
    set_up_m : array_like, shape S
        How far the hub's large end passes beyond the taper's, m; below zero where it stays short.

    Returns
    -------
    overhang_m : ndarray, shape S
        Above zero the nut clamps the hub; below, it comes up against the end of the taper first, m.
        NaN where not known.

    Raises
    ------
    OutsideRange
        A length is not above zero; the set-up is infinite.

    Source
    ------
    Geometry; SAE J755 sets hubs out so that they pass the taper by 1/4 in, above 4 in shafts 1/2 in (from memory).

    Examples
    --------
    >>> float(overhang(0.110, 0.100, 0.0))
    0.01
    """
    alike(hub_length_m=hub_length_m, taper_length_m=taper_length_m, set_up_m=set_up_m)
    hub, taper = hold_above_zero(hub_length_m=hub_length_m, taper_length_m=taper_length_m)
    return as_given(hub - taper - hold("set_up_m", set_up_m, "must be a length."))


def clear_on_top(hub_depth_m: ArrayLike, shaft_depth_m: ArrayLike, key_height_m: ArrayLike) -> NDArray[np.float64]:
    """Gap above a key: both keyways' depths less the key's height.

    Parameters
    ----------
    hub_depth_m : array_like, shape S
        Depth of the hub's keyway at its side, m.
    shaft_depth_m : array_like, shape S
        Depth of the shaft's keyway at its side, m.
    key_height_m : array_like, shape S
        Height of the key, m.

    Returns
    -------
    clear_m : ndarray, shape S
        Room on top of the key, m; below zero the hub rides on the key. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry; snug in both keyways and clear on top is common practice.

    Examples
    --------
    >>> float(clear_on_top(0.0042, 0.0040, 0.0080))
    0.0002
    """
    hub, shaft, key = hold_above_zero(hub_depth_m=hub_depth_m, shaft_depth_m=shaft_depth_m, key_height_m=key_height_m)
    return hub + shaft - key


def difference(hub_m: ArrayLike, shaft_m: ArrayLike) -> NDArray[np.float64]:
    """How much wider the hub's figure is than the shaft's: hub - shaft.

    Parameters
    ----------
    hub_m : array_like, shape S
        Width in the hub, m.
    shaft_m : array_like, shape S
        Width in the shaft, m.

    Returns
    -------
    difference_m : ndarray, shape S
        Above zero the hub's is the wider, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A width is not above zero.

    Source
    ------
    Arithmetic.

    Examples
    --------
    >>> float(difference(0.013, 0.012))
    0.001
    """
    hub_m, shaft_m = hold_above_zero(hub_m=hub_m, shaft_m=shaft_m)
    return hub_m - shaft_m


def largest_diameter(hull_clearance_m: ArrayLike, tip_ratio: ArrayLike) -> NDArray[np.float64]:
    """Largest propeller that leaves a share of its own diameter as tip room: clearance / (1/2 + share).

    Parameters
    ----------
    hull_clearance_m : array_like, shape S
        Shaft's centre to the hull, square to the shaft, m.
    tip_ratio : array_like, shape S
        Tip room wanted over diameter, 1.

    Returns
    -------
    diameter_m : ndarray, shape S
        Of that propeller, m; NaN where not known.

    Raises
    ------
    OutsideRange
        The clearance is not above zero; the share is below zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(largest_diameter(0.325, 0.15))
    0.5
    """
    alike(hull_clearance_m=hull_clearance_m, tip_ratio=tip_ratio)
    (hull_clearance_m,) = hold_above_zero(hull_clearance_m=hull_clearance_m)
    return hull_clearance_m / (0.5 + hold("tip_ratio", tip_ratio, "must be zero or more.", at_least=0))
