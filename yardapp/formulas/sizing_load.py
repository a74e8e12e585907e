"""At which advance ratio a propeller carries a load: the step under every sizing."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_curves import open_water, open_water_cubic
from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero

Array = NDArray[np.float64]

NEWTON_STEPS = 12


class WorkingPoint(NamedTuple):
    """A propeller at a speed of rotation and of advance."""

    advance_ratio: Array
    kt: Array
    kq: Array
    efficiency: Array
    thrust_n: Array
    torque_nm: Array
    power_w: Array


def advance_at_load(coefficients: Array, load_ratio: Array) -> Array:
    """Least J above zero at which K(J) = load J^2: K/J^2 is free of the speed of rotation, for thrust and torque both.

    Parameters
    ----------
    coefficients : ndarray, shape (4, *S)
        Of J^0 to J^3 in KT or in KQ, as `open_water_cubic` returns them.
    load_ratio : ndarray, shape S
        T / (rho Va^2 D^2) for KT, Q / (rho Va^2 D^3) for KQ; zero asks for the J of zero thrust or torque.

    Returns
    -------
    advance_ratio : ndarray, shape S
        J, 1; NaN where an argument is not known or no J carries the load.

    Raises
    ------
    ValueError
        The shapes do not go together.

    Source
    ------
    Definitions of KT, KQ and J; the cubic in 1/J by Newton's rule from above its greatest root (Fujiwara's bound),
    where each step comes nearer and none oversteps.

    Examples
    --------
    >>> from yardapp.formulas.b_series_curves import open_water_cubic
    >>> float(advance_at_load(open_water_cubic(1.0, 0.50, 3).kt, np.asarray(0.0)))
    1.09
    """
    first, second, third = coefficients[1:] / coefficients[0]
    second = second - load_ratio / coefficients[0]
    sizes = (np.abs(first), np.sqrt(np.abs(second)), np.cbrt(np.abs(third)))
    y = 2 * np.maximum(np.maximum(*sizes[:2]), sizes[2])
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        for _ in range(NEWTON_STEPS):
            slope = (3 * y + 2 * first) * y + second
            step = (((y + first) * y + second) * y + third) / slope
            y = y - step
            if not np.any(np.abs(step) > 1e-9 * y):
                break
        # The last step but one was that small, and each squares the error; a root that is none does not settle.
        settled = (np.abs(step) <= 1e-6 * y) & (y > 0) & (coefficients[0] > 0)
        return np.where(settled, 1 / y, np.nan)


def at_advance(coefficients: Array, advance_ratio: Array) -> Array:
    """A coefficient at an advance ratio, from its cubic by Horner's rule.

    Parameters
    ----------
    coefficients : ndarray, shape (4, *S)
        Of J^0 to J^3, as `open_water_cubic` returns them.
    advance_ratio : ndarray, shape S
        J, 1.

    Returns
    -------
    coefficient : ndarray, shape S
        KT or KQ, 1; NaN where not known.

    Raises
    ------
    ValueError
        The shapes do not go together.

    Source
    ------
    Algebra.

    Examples
    --------
    >>> float(at_advance(np.array([1.0, 2.0, 0.0, 1.0]), np.asarray(2.0)))
    13.0
    """
    c0, c1, c2, c3 = coefficients
    value: Array = ((c3 * advance_ratio + c2) * advance_ratio + c1) * advance_ratio + c0
    return value


def working_point(
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    diameter_m: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
) -> WorkingPoint:
    """Thrust, torque and power of a B-series propeller: T = KT rho n^2 D^4, Q = KQ rho n^2 D^5, P = 2 pi n Q.

    Parameters
    ----------
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    diameter_m : array_like, shape S
        Diameter, m.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    point : WorkingPoint
        Each figure of shape S; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is impossible, or lies outside the B-series.

    Validity
    --------
    The B-series' own, as in `b_series.kt`.

    Source
    ------
    Definitions; the B-series as in `b_series.kt`.

    Examples
    --------
    >>> point = working_point(200 / 60, 8.437, 3.048, 1.0, 0.90, 5, 1025.9)
    >>> print(f"{point.thrust_n / 1000:.0f} kN, {point.power_w / 1000:.0f} kW")
    115 kN, 1450 kW
    """
    alike(**locals())
    turns, diameter, density = hold_above_zero(
        shaft_speed_rps=shaft_speed_rps, diameter_m=diameter_m, density_kgpm3=density_kgpm3
    )
    speed = hold("advance_speed_mps", advance_speed_mps, "must be zero or more.", at_least=0)
    j = speed / (turns * diameter)
    curves = open_water(j, pitch_ratio, area_ratio, blades)
    thrust = curves.kt * density * turns**2 * diameter**4
    torque = curves.kq * density * turns**2 * diameter**5
    return WorkingPoint(j, *curves, thrust, torque, 2 * np.pi * turns * torque)


def shaft_speed_at_torque(
    torque_nm: ArrayLike,
    advance_speed_mps: ArrayLike,
    diameter_m: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
) -> Array:
    """Speed of the shaft at which a propeller takes a torque.

    Parameters
    ----------
    torque_nm : array_like, shape S
        Torque at the propeller, N m.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    diameter_m : array_like, shape S
        Diameter, m.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    shaft_speed_rps : ndarray, shape S
        1/s; NaN where an argument is not known or the series has no such point.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or lies outside the B-series.

    Validity
    --------
    The B-series' own, as in `b_series.kt`.

    Source
    ------
    The B-series as in `b_series.kt`: KQ/J^2 = Q / (rho Va^2 D^3).

    Examples
    --------
    >>> print(f"{shaft_speed_at_torque(69_100.0, 8.437, 3.048, 1.0, 0.90, 5) * 60:.0f} rpm")
    200 rpm
    """
    alike(**locals())
    torque, speed, diameter, density = hold_above_zero(
        torque_nm=torque_nm,
        advance_speed_mps=advance_speed_mps,
        diameter_m=diameter_m,
        density_kgpm3=density_kgpm3,
    )
    cubic = open_water_cubic(pitch_ratio, area_ratio, blades)
    return as_given(speed / (diameter * advance_at_load(cubic.kq, torque / (density * speed**2 * diameter**3))))
