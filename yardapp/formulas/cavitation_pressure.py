"""Handbook limits on the load and the speed of small craft's blades."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.imperial import FOOT_M, HORSEPOWER_W, INCH_M, KNOT_MPS, PSI_PA
from yardapp.formulas.ranges import hold, hold_above_zero

Array = NDArray[np.float64]


def blade_pressure_limit(advance_speed_mps: ArrayLike, shaft_depth_m: ArrayLike) -> Array:
    """Allowable mean pressure on the blades: psi = 1.9 Va^0.5 Ft^0.08; knots at the propeller, feet of depth.

    Parameters
    ----------
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    shaft_depth_m : array_like, shape S
        Shaft's centre below the water, m.

    Returns
    -------
    pressure_pa : ndarray, shape S
        Pa; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Validity
    --------
    Small craft; the most lenient of the criteria here.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 5-6 (from memory, high confidence).

    Examples
    --------
    >>> print(f"{blade_pressure_limit(14 * KNOT_MPS, 0.80) / PSI_PA:.2f} psi")
    7.68 psi
    """
    speed, depth = hold_above_zero(advance_speed_mps=advance_speed_mps, shaft_depth_m=shaft_depth_m)
    return 1.9 * np.sqrt(speed / KNOT_MPS) * (depth / FOOT_M) ** 0.08 * PSI_PA


def blade_pressure(
    power_w: ArrayLike, efficiency_ratio: ArrayLike, advance_speed_mps: ArrayLike, developed_m2: ArrayLike
) -> Array:
    """Mean pressure on the blades: psi = 326 SHP eta / (Va Ad); knots, square inches.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the propeller, W.
    efficiency_ratio : array_like, shape S
        Open-water efficiency, 1.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    developed_m2 : array_like, shape S
        Developed area of all blades, m2.

    Returns
    -------
    pressure_pa : ndarray, shape S
        Pa; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero, or the efficiency is above 1.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 5-7 (from memory, high confidence).

    Examples
    --------
    >>> print(f"{blade_pressure(150e3, 0.59464, 14 * KNOT_MPS, 0.2425) / PSI_PA:.2f} psi")
    7.41 psi
    """
    power, efficiency, speed, area = hold_above_zero(
        power_w=power_w,
        efficiency_ratio=efficiency_ratio,
        advance_speed_mps=advance_speed_mps,
        developed_m2=developed_m2,
    )
    hold("efficiency_ratio", efficiency, "must be above zero and at most 1.", at_most=1)
    return 326 * (power / HORSEPOWER_W) * efficiency / (speed / KNOT_MPS * area / INCH_M**2) * PSI_PA


def tip_speed(shaft_speed_rps: ArrayLike, diameter_m: ArrayLike) -> Array:
    """Speed of the blade tips round the shaft: pi n D.

    Parameters
    ----------
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    diameter_m : array_like, shape S
        Diameter, m.

    Returns
    -------
    tip_speed_mps : ndarray, shape S
        m/s; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(tip_speed(20.0, 0.6641))
    41.7
    """
    turns, diameter = hold_above_zero(shaft_speed_rps=shaft_speed_rps, diameter_m=diameter_m)
    return np.pi * turns * diameter


def tip_speed_band(tip_speed_mps: float) -> str:
    """What a tip speed means in practice: a warning, never a limit.

    Parameters
    ----------
    tip_speed_mps : float
        m/s.

    Returns
    -------
    band : str
        "little trouble" to 30 m/s, "enough area needed" to 45, "expect cavitation" above; "not known" for NaN.

    Raises
    ------
    OutsideRange
        The speed is not above zero.

    Validity
    --------
    The borders are soft: little trouble below about 25-30, cavitation to be expected above about 45-50 m/s.

    Source
    ------
    Common practice, from memory, low confidence; there is no standard.

    Examples
    --------
    >>> tip_speed_band(41.7)
    'enough area needed'
    """
    speed = float(hold("tip_speed_mps", tip_speed_mps, "must be above zero.", above=0))
    if np.isnan(speed):
        return "not known"
    if speed <= 30:
        return "little trouble"
    return "enough area needed" if speed <= 45 else "expect cavitation"
