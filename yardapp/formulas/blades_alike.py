"""Whether the blades of a propeller are alike: track, rake, spacing, and which one is the odd one out."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero

Figures = Sequence[float] | NDArray[np.float64]
FULL_RAD = 2 * np.pi
K = 2


def off_the_others(readings: Figures) -> NDArray[np.float64]:
    """How far each blade's reading lies from the mean of the others': x - mean of the rest.

    Parameters
    ----------
    readings : array_like, shape (blades,)
        One reading of each blade, two or more, in any one unit.

    Returns
    -------
    off : ndarray, shape (blades,)
        In the readings' unit; a blade bent by d stands off by d, and each of the others by -d / (blades - 1).

    Raises
    ------
    OutsideRange
        There are fewer than two readings, or one is infinite.

    Source
    ------
    Arithmetic.

    Examples
    --------
    >>> [float(one) for one in off_the_others([0.100, 0.106, 0.100])]
    [-0.003, 0.006, -0.003]
    """
    values = _hold_blades("readings", readings)
    return as_given(values - (np.sum(values) - values) / (values.size - 1))


def _hold_blades(argument: str, readings: Figures) -> NDArray[np.float64]:
    values = hold(argument, readings, "must be finite.")
    if values.ndim != 1 or values.size < 2:
        raise OutsideRange(argument, "must be two or more, one of each blade.", values.tolist())
    return values


def spread(readings: Figures) -> NDArray[np.float64]:
    """How far the highest blade's reading lies from the lowest's: max - min.

    Parameters
    ----------
    readings : array_like, shape (blades,)
        One reading of each blade, two or more, in any one unit.

    Returns
    -------
    spread : ndarray, shape ()
        In the readings' unit.

    Raises
    ------
    OutsideRange
        There are fewer than two readings, or one is infinite.

    Source
    ------
    Arithmetic; of the tips' heights it is what the trade calls track.

    Examples
    --------
    >>> round(float(spread([0.100, 0.106, 0.101])), 4)
    0.006
    """
    values = _hold_blades("readings", readings)
    return as_given(np.max(values) - np.min(values))


def spacing_closing(spacings_rad: Figures) -> NDArray[np.float64]:
    """By how much the angles from each blade to the next miss a full turn: their sum - 2 pi.

    Parameters
    ----------
    spacings_rad : array_like, shape (blades,)
        Angle from each blade to the next, all the way round, rad.

    Returns
    -------
    closing_rad : ndarray, shape ()
        Zero but for what the readings allow, rad.

    Raises
    ------
    OutsideRange
        There are fewer than two angles, one is not above zero, or one is a full turn or more.

    Source
    ------
    Geometry: the angles round a point add up to a full turn.

    Examples
    --------
    >>> round(float(np.degrees(spacing_closing(np.radians([119.0, 121.0, 121.0])))), 6)
    1.0
    """
    return as_given(np.sum(_hold_spacings(spacings_rad)) - FULL_RAD)


def spacing_off(spacings_rad: Figures) -> NDArray[np.float64]:
    """How far the angle from each blade to the next is off an even share: angle - mean, which spreads the closing out.

    Parameters
    ----------
    spacings_rad : array_like, shape (blades,)
        Angle from each blade to the next, all the way round, rad.

    Returns
    -------
    off_rad : ndarray, shape (blades,)
        rad; they add up to zero.

    Raises
    ------
    OutsideRange
        There are fewer than two angles, one is not above zero, or one is a full turn or more.

    Source
    ------
    Geometry; each angle takes an even share of what the readings miss a full turn by.

    Examples
    --------
    >>> [round(float(one), 6) for one in np.degrees(spacing_off(np.radians([119.0, 121.0, 120.0])))]
    [-1.0, 1.0, 0.0]
    """
    spacings = _hold_spacings(spacings_rad)
    return as_given(spacings - np.mean(spacings))


def place_off(spacings_rad: Figures) -> NDArray[np.float64]:
    """How far each blade stands from its even place, by the others' places: above zero toward the next blade.

    Parameters
    ----------
    spacings_rad : array_like, shape (blades,)
        Angle from each blade to the next, all the way round, rad.

    Returns
    -------
    off_rad : ndarray, shape (blades,)
        rad; one blade bent round by d stands off by d.

    Raises
    ------
    OutsideRange
        There are fewer than two angles, one is not above zero, or one is a full turn or more.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> [round(float(one), 6) for one in np.degrees(place_off(np.radians([122.0, 118.0, 120.0])))]
    [-1.0, 2.0, -1.0]
    """
    off = spacing_off(spacings_rad)
    return off_the_others(np.concatenate([[0.0], np.cumsum(off)[:-1]]))


def _hold_spacings(spacings_rad: Figures) -> NDArray[np.float64]:
    said = "must be above zero and less than a full turn."
    return hold("spacings_rad", _hold_blades("spacings_rad", spacings_rad), said, above=0, below=FULL_RAD)


def rake(root_height_m: ArrayLike, tip_height_m: ArrayLike) -> NDArray[np.float64]:
    """How far aft of its root mark a tip stands, the propeller lying face down: root height - tip height.

    Parameters
    ----------
    root_height_m : array_like, shape S
        Height of a mark near the root above the table, m.
    tip_height_m : array_like, shape S
        Height of the tip above the table, at the same place across the blade, m.

    Returns
    -------
    rake_m : ndarray, shape S
        Along the shaft, m; below zero where the tip stands forward. NaN where not known.

    Raises
    ------
    OutsideRange
        A height is infinite.

    Source
    ------
    Definition; ITTC dictionary: rake is positive aft. Face down, forward is up.

    Examples
    --------
    >>> round(float(rake(0.120, 0.095)), 6)
    0.025
    """
    alike(root_height_m=root_height_m, tip_height_m=tip_height_m)
    said = "must be a height above the table."
    return as_given(hold("root_height_m", root_height_m, said) - hold("tip_height_m", tip_height_m, said))


def rake_angle(rake_m: ArrayLike, root_radius_m: ArrayLike, tip_radius_m: ArrayLike) -> NDArray[np.float64]:
    """Angle of a blade's line to the plane of the disc: atan(rake / (tip radius - root radius)).

    Parameters
    ----------
    rake_m : array_like, shape S
        How far aft of its root mark the tip stands, m.
    root_radius_m : array_like, shape S
        Radius of the root mark, m.
    tip_radius_m : array_like, shape S
        Radius of the tip, m.

    Returns
    -------
    angle_rad : ndarray, shape S
        rad; below zero forward. NaN where not known.

    Raises
    ------
    OutsideRange
        A radius is not above zero, or the root's is not below the tip's; the rake is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> round(float(np.degrees(rake_angle(0.025, 0.06, 0.26))), 2)
    7.13
    """
    alike(rake_m=rake_m, root_radius_m=root_radius_m, tip_radius_m=tip_radius_m)
    root, tip = hold_above_zero(root_radius_m=root_radius_m, tip_radius_m=tip_radius_m)
    hold("root_radius_m", root, "must be less than the tip's.", below=tip)
    return as_given(np.arctan2(hold("rake_m", rake_m, "must be a length."), tip - root))


@dataclass(frozen=True, kw_only=True)
class OddOne:
    """The blade that differs. `place` counts from 0; None with `is_odd` where one differs but nobody can say which.

    `others_agree` tells whether the rest are alike without it.
    """

    is_odd: bool
    place: int | None = None
    off: float = 0.0
    u: float = 0.0
    others_agree: bool = True


def odd_one_out(readings: Figures, u_reading: float = 0.0) -> OddOne:
    """Which blade differs from the others by more than the readings allow, and by how much.

    Of two blades nobody can say which is bent; nor of more, where the two that stand furthest off do so alike.

    Parameters
    ----------
    readings : array_like, shape (blades,)
        One reading of each blade, two or more, in any one unit.
    u_reading : float
        Standard uncertainty of each, k = 1, in the same unit, each with an error of its own.

    Returns
    -------
    odd : OddOne
        Which, how far it lies off the mean of the others, and the standard uncertainty of that.

    Raises
    ------
    OutsideRange
        There are fewer than two readings, one is infinite; the uncertainty is below zero.

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2: u of a reading less the mean of n others is u sqrt(1 + 1/n); k = 2.

    Examples
    --------
    >>> odd = odd_one_out([0.100, 0.1061, 0.100, 0.1002], 0.0003)
    >>> odd.place, round(odd.off, 5), odd.others_agree
    (1, 0.00603, True)
    """
    hold("u_reading", u_reading, "must be zero or more.", at_least=0)
    values = _hold_blades("readings", readings)
    off, u_off = off_the_others(values), u_reading * float(np.sqrt(1 + 1 / (values.size - 1)))
    far = np.argsort(-np.abs(off), kind="stable")
    first, second = int(far[0]), int(far[1])
    worst = abs(float(off[first]))
    if worst <= K * u_off + 1e-12 * float(np.max(np.abs(values))):
        return OddOne(is_odd=False, off=float(off[first]), u=u_off)
    gap = worst - abs(float(off[second]))
    rest = np.delete(values, first)
    others_agree = rest.size < 2 or float(spread(rest)) <= K * u_reading * float(np.sqrt(2)) + 1e-12
    is_plain = gap > K * u_off and gap > 1e-9 * worst
    return OddOne(
        is_odd=True, place=first if is_plain else None, off=float(off[first]), u=u_off, others_agree=others_agree
    )
