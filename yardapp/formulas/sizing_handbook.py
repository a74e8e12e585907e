"""Handbook lines for a first guess at slip, diameter and pitch."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.imperial import HORSEPOWER_W, INCH_M, KNOT_MPS
from yardapp.formulas.ranges import OutsideRange, as_given, hold, hold_above_zero
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]


class PitchRatios(NamedTuple):
    """Least, average and greatest pitch ratio of the handbook's boats at a speed."""

    least: Array
    average: Array
    greatest: Array


def handbook_slip(speed_mps: ArrayLike) -> Array:
    """Apparent slip of the average boat: 1.4 / V^0.57, V in knots.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.

    Returns
    -------
    slip_ratio : ndarray, shape S
        1; NaN where the speed is not known.

    Raises
    ------
    OutsideRange
        The speed is below 2 knots, where the line gives nearly all slip.

    Validity
    --------
    About 7 to 40 knots.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 5-2 (from memory, high confidence).

    Examples
    --------
    >>> handbook_slip(np.array([7, 10, 15, 20, 30, 40]) * KNOT_MPS).round(2)
    array([0.46, 0.38, 0.3 , 0.25, 0.2 , 0.17])
    """
    speed = hold("speed_mps", speed_mps, "must be at least 2 knots (1.03 m/s).", at_least=2 * KNOT_MPS)
    return as_given(1.4 / (speed / KNOT_MPS) ** 0.57)


def handbook_diameter(power_w: ArrayLike, shaft_speed_rps: ArrayLike) -> Array:
    """Diameter of a three-bladed propeller: D = 632.7 SHP^0.2 / N^0.6; inches, horsepower, rpm.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the propeller, W.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.

    Returns
    -------
    diameter_m : ndarray, shape S
        m; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 5-3 (from memory, high confidence).

    Examples
    --------
    >>> print(f"{handbook_diameter(100 * HORSEPOWER_W, 20.0) / INCH_M:.1f} in")
    22.6 in
    """
    power, turns = hold_above_zero(power_w=power_w, shaft_speed_rps=shaft_speed_rps)
    return as_given(632.7 * (power / HORSEPOWER_W) ** 0.2 / (turns * 60) ** 0.6 * INCH_M)


def handbook_pitch_ratio(speed_mps: ArrayLike) -> PitchRatios:
    """Pitch ratio by speed: 0.46 V^0.26 on average, from 0.39 V^0.23 to 0.52 V^0.28; knots.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.

    Returns
    -------
    ratios : PitchRatios
        least, average and greatest, each of shape S, 1; NaN where the speed is not known.

    Raises
    ------
    OutsideRange
        The speed is not above zero.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 5-4 (from memory, medium confidence).

    Examples
    --------
    >>> print("{:.2f} {:.2f} {:.2f}".format(*handbook_pitch_ratio(10 * KNOT_MPS)))
    0.66 0.84 0.99
    """
    (speed,) = hold_above_zero(speed_mps=speed_mps)
    knots = speed / KNOT_MPS
    return PitchRatios(*(as_given(c * knots**power) for c, power in ((0.39, 0.23), (0.46, 0.26), (0.52, 0.28))))


def usual_slip(kind: str) -> float:
    """Apparent slip that is usual for a kind of craft.

    Parameters
    ----------
    kind : str
        "sail" (auxiliaries and barges under 9 knots), "heavy" (powerboats and workboats, 9 to 15), "light" (powerboats
        and cruisers, 15 to 30), "planing" (30 to 45), "race" (45 to 90) or "stepped" (over 90 knots).

    Returns
    -------
    slip_ratio : float
        1.

    Raises
    ------
    OutsideRange
        There is no such kind.

    Source
    ------
    D. Gerr, Propeller Handbook, slip table (from memory, medium confidence).

    Examples
    --------
    >>> usual_slip("heavy")
    0.26
    """
    return _one("usual slip", "kind", kind)


def repitch_limit(material: str) -> float:
    """How far a propeller may be re-pitched either way; better not above an inch. More means heat and thin blades.

    Parameters
    ----------
    material : str
        "bronze", "aluminium" or "stainless".

    Returns
    -------
    limit_m : float
        m of pitch.

    Raises
    ------
    OutsideRange
        Nothing is known of the material.

    Source
    ------
    Repair-trade guidance, one source; there is no standard.

    Examples
    --------
    >>> repitch_limit("bronze")
    0.0508
    """
    return _one("re-pitch limit", "material", material) * INCH_M


def _one(item: str, argument: str, case: str) -> float:
    cases = {row["case"]: figure(row, "figure") for row in table("engine_match") if row["item"] == item}
    if case not in cases:
        raise OutsideRange(argument, f"must be one of {', '.join(cases)}.", case)
    return cases[case]
