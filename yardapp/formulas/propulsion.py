"""Between hull and propeller: thrust for a resistance, water at the screw, power that moves the boat."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero, hold_whole


def thrust_needed(
    resistance_n: ArrayLike, deduction_ratio: ArrayLike, screw_count: ArrayLike = 1
) -> NDArray[np.float64]:
    """Thrust that each propeller must give to overcome a resistance: R / (N (1 - t)).

    Parameters
    ----------
    resistance_n : array_like, shape S
        Resistance of the whole boat, N.
    deduction_ratio : array_like, shape S
        Thrust deduction t, 1.
    screw_count : array_like, shape S
        Number of propellers, 1 to 4.

    Returns
    -------
    thrust_n : ndarray, shape S
        Of one propeller, N; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A resistance is not above zero; t lies outside -0.5 to 1; the screws are not a whole number from 1 to 4.

    Validity
    --------
    t from -0.5 to below 1; 1 to 4 screws.

    Source
    ------
    Definition of thrust deduction; ITTC dictionary.

    Examples
    --------
    >>> float(thrust_needed(1_793_260.0, 0.1747)) / 1000
    2173.
    """
    alike(resistance_n=resistance_n, deduction_ratio=deduction_ratio, screw_count=screw_count)
    (resistance_n,) = hold_above_zero(resistance_n=resistance_n)
    screws = hold_whole("screw_count", screw_count, "must be a whole number from 1 to 4.", at_least=1, at_most=4)
    return as_given(resistance_n / (screws * (1 - _hold_fraction("deduction_ratio", deduction_ratio))))


def effective_power(thrust_n: ArrayLike, deduction_ratio: ArrayLike, speed_mps: ArrayLike) -> NDArray[np.float64]:
    """Power that moves the boat: T (1 - t) V.

    Parameters
    ----------
    thrust_n : array_like, shape S
        Thrust of all propellers together, N.
    deduction_ratio : array_like, shape S
        Thrust deduction t, 1.
    speed_mps : array_like, shape S
        Speed of the boat through the water, m/s; zero at the mooring.

    Returns
    -------
    power_w : ndarray, shape S
        PE, W; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A thrust is not above zero; a speed is below zero; t lies outside -0.5 to 1.

    Validity
    --------
    t from -0.5 to below 1.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(effective_power(118_056.0, 0.12, 10.29)) / 1000
    1069.
    """
    alike(thrust_n=thrust_n, deduction_ratio=deduction_ratio, speed_mps=speed_mps)
    (thrust_n,) = hold_above_zero(thrust_n=thrust_n)
    speed = hold("speed_mps", speed_mps, "must be zero or more.", at_least=0)
    return as_given(thrust_n * (1 - _hold_fraction("deduction_ratio", deduction_ratio)) * speed)


def advance_speed(speed_mps: ArrayLike, wake_ratio: ArrayLike) -> NDArray[np.float64]:
    """Speed of the water into the propeller: V (1 - w).

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed of the boat through the water, m/s; zero at the mooring.
    wake_ratio : array_like, shape S
        Taylor's wake fraction w, 1.

    Returns
    -------
    advance_speed_mps : ndarray, shape S
        Va, m/s; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A speed is below zero; w lies outside -0.5 to 1.

    Validity
    --------
    w from -0.5 to below 1.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(advance_speed(10.29, 0.18))
    8.44
    """
    alike(speed_mps=speed_mps, wake_ratio=wake_ratio)
    speed = hold("speed_mps", speed_mps, "must be zero or more.", at_least=0)
    return as_given(speed * (1 - _hold_fraction("wake_ratio", wake_ratio)))


def _hold_fraction(argument: str, fraction_ratio: ArrayLike) -> NDArray[np.float64]:
    return hold(argument, fraction_ratio, "must lie from -0.5 to below 1.", at_least=-0.5, below=1)
