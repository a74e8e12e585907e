"""Tapers on diameter: what readings say and how far a hub goes up; standards and contact are reached from here."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, hold, hold_above_zero
from yardapp.formulas.shaft_ends import EndMatch, StandardEnd, nearest_end, nearest_taper, standard_ends
from yardapp.formulas.shaft_keys import Key, key_for
from yardapp.formulas.taper_contact import ContactGap, contact_gap

__all__ = [
    "ContactGap",
    "EndMatch",
    "Key",
    "StandardEnd",
    "contact_gap",
    "key_for",
    "nearest_end",
    "nearest_taper",
    "set_up",
    "small_end",
    "standard_ends",
    "taper_angle",
    "taper_from_ends",
    "taper_half_angle",
]


def taper_from_ends(large_m: ArrayLike, small_m: ArrayLike, length_m: ArrayLike) -> NDArray[np.float64]:
    """Taper from two diameters and the distance between them: (large - small) / length.

    Parameters
    ----------
    large_m : array_like, shape S
        Diameter at the large end, m.
    small_m : array_like, shape S
        Diameter at the small end, m.
    length_m : array_like, shape S
        Distance between the two along the shaft's axis (not along the surface), m.

    Returns
    -------
    taper : ndarray, shape S
        Change of diameter over length, 1; 1:16 is 0.0625. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; a small end is not below its large end.

    Source
    ------
    Definition of a taper on diameter; SAE J755.

    Examples
    --------
    >>> float(taper_from_ends(0.03175, 0.02619375, 0.0889))
    0.0625
    """
    large_m, small_m, length_m = hold_above_zero(large_m=large_m, small_m=small_m, length_m=length_m)
    hold("small_m", small_m, "must be less than the large end.", below=large_m)
    return (large_m - small_m) / length_m


def small_end(large_m: ArrayLike, length_m: ArrayLike, taper: ArrayLike) -> NDArray[np.float64]:
    """Diameter at the small end: large - taper x length.

    Parameters
    ----------
    large_m : array_like, shape S
        Diameter at the large end, m.
    length_m : array_like, shape S
        Distance between the ends along the axis, m.
    taper : array_like, shape S
        Change of diameter over length, 1.

    Returns
    -------
    small_m : ndarray, shape S
        m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the taper runs to a point within the length.

    Source
    ------
    Definition of a taper on diameter; SAE J755.

    Examples
    --------
    >>> float(small_end(0.03175, 0.0889, 1 / 16)) / 0.0254
    1.03125
    """
    alike(large_m=large_m, length_m=length_m, taper=taper)
    large_m, length_m = hold_above_zero(large_m=large_m, length_m=length_m)
    taper = _hold_taper("taper", taper)
    hold("length_m", length_m, "must end before the taper runs to a point.", below=large_m / taper)
    return large_m - taper * length_m


def taper_half_angle(taper: ArrayLike) -> NDArray[np.float64]:
    """Angle between the cone's side and its axis: atan(taper / 2).

    Parameters
    ----------
    taper : array_like, shape S
        Change of diameter over length, 1.

    Returns
    -------
    half_angle_rad : ndarray, shape S
        As a top slide is set to turn the taper, rad; NaN where not known.

    Raises
    ------
    OutsideRange
        A taper is not above zero.

    Source
    ------
    Geometry of the cone.

    Examples
    --------
    >>> float(np.degrees(taper_half_angle(1 / 16)))
    1.7899
    """
    return np.arctan(_hold_taper("taper", taper) / 2)


def taper_angle(taper: ArrayLike) -> NDArray[np.float64]:
    """Full angle of the cone, side to side: 2 atan(taper / 2).

    Parameters
    ----------
    taper : array_like, shape S
        Change of diameter over length, 1.

    Returns
    -------
    angle_rad : ndarray, shape S
        Twice the half angle, rad; NaN where not known.

    Raises
    ------
    OutsideRange
        A taper is not above zero.

    Source
    ------
    Geometry of the cone.

    Examples
    --------
    >>> float(np.degrees(taper_angle(1 / 16)))
    3.5798
    """
    return 2 * taper_half_angle(taper)


def set_up(bore_large_m: ArrayLike, shaft_large_m: ArrayLike, taper: ArrayLike) -> NDArray[np.float64]:
    """How far a hub goes up its shaft: (bore - shaft) / taper, both at the large end.

    Parameters
    ----------
    bore_large_m : array_like, shape S
        Diameter of the bore at its large end, m.
    shaft_large_m : array_like, shape S
        Diameter of the shaft at the large end of its taper, m.
    taper : array_like, shape S
        Taper of both, change of diameter over length, 1.

    Returns
    -------
    set_up_m : ndarray, shape S
        Above zero the hub's large end passes beyond the shaft's large end; below zero it stays short of it, m.
        NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry of the cone: 0.1 mm on diameter moves a 1:16 hub by 1.6 mm.

    Examples
    --------
    >>> float(set_up(0.0319, 0.0318, 1 / 16))
    0.0016
    """
    alike(bore_large_m=bore_large_m, shaft_large_m=shaft_large_m, taper=taper)
    bore_large_m, shaft_large_m = hold_above_zero(bore_large_m=bore_large_m, shaft_large_m=shaft_large_m)
    return (bore_large_m - shaft_large_m) / _hold_taper("taper", taper)


def _hold_taper(argument: str, taper: ArrayLike) -> NDArray[np.float64]:
    return hold(argument, taper, "must be above zero and less than 1.", above=0, below=1)
