"""Bearings of a shaft: how far apart for the sake of whirl, and how much play before they are renewed."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, hold_above_zero
from yardapp.formulas.tables import figure, table


def first_critical_speed(
    diameter_m: ArrayLike, span_m: ArrayLike, modulus_pa: ArrayLike, density_kgpm3: ArrayLike
) -> NDArray[np.float64]:
    """First whirling speed of a solid shaft between two bearings: pi d / (8 L^2) sqrt(E / rho).

    Both ends count as hinged; fixity raises the speed, a propeller overhung beyond the bearing lowers it.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the shaft, m.
    span_m : array_like, shape S
        Distance between the bearings, m.
    modulus_pa : array_like, shape S
        Young's modulus, Pa.
    density_kgpm3 : array_like, shape S
        Density of the shaft, kg/m3.

    Returns
    -------
    critical_speed_rps : ndarray, shape S
        Turns a second, 1/s; 0.7 to 0.8 of it is ordinary practice (secondary). NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Euler-Bernoulli beam, hinged at both ends; any text on vibration.

    Examples
    --------
    >>> float(first_critical_speed(0.0254, 1.040, 110.3e9, 8415.0)) * 60
    2003.3
    """
    diameter_m, span_m, modulus_pa, density_kgpm3 = hold_above_zero(
        diameter_m=diameter_m, span_m=span_m, modulus_pa=modulus_pa, density_kgpm3=density_kgpm3
    )
    return np.pi * diameter_m / (8 * span_m**2) * np.sqrt(modulus_pa / density_kgpm3)


def bearing_span(
    diameter_m: ArrayLike, shaft_speed_rps: ArrayLike, modulus_pa: ArrayLike, density_kgpm3: ArrayLike
) -> NDArray[np.float64]:
    """Span whose first critical speed equals the shaft's speed: no margin is in it.

    The usual spacing formula is this one. Beside it stands a rule of thumb of 20 to 40 shaft diameters.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the shaft, m.
    shaft_speed_rps : array_like, shape S
        Turns of the propeller shaft a second, 1/s; divide by 0.7 to 0.8 for the margin of ordinary practice.
    modulus_pa : array_like, shape S
        Young's modulus, Pa.
    density_kgpm3 : array_like, shape S
        Density of the shaft, kg/m3.

    Returns
    -------
    span_m : ndarray, shape S
        Distance between the bearings, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    D. Gerr and ABYC P-6 (secondary); the same as `first_critical_speed` solved for the span.

    Examples
    --------
    >>> float(bearing_span(0.0254, 2000 / 60, 110.3e9, 8415.0))
    1.04
    """
    diameter_m, shaft_speed_rps, modulus_pa, density_kgpm3 = hold_above_zero(
        diameter_m=diameter_m, shaft_speed_rps=shaft_speed_rps, modulus_pa=modulus_pa, density_kgpm3=density_kgpm3
    )
    return np.sqrt(np.pi * diameter_m / (8 * shaft_speed_rps) * np.sqrt(modulus_pa / density_kgpm3))


def bearing_wear_limit(shaft_diameter_m: ArrayLike, policy: str) -> NDArray[np.float64]:
    """Play, on diameter, at which a policy renews the bearing.

    Sources disagree strongly: the yard chooses, and the screen shows which.

    Parameters
    ----------
    shaft_diameter_m : array_like, shape S
        Diameter of the shaft in the bearing, m.
    policy : str
        A name in `tables/bearing_wear.csv`: "3 % due", "6 % limit", "1/32 in" or "1/16 in".

    Returns
    -------
    play_m : ndarray, shape S
        On diameter, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero; the policy is not one of them.

    Source
    ------
    Marine engineering notes, a practising engineer and a general repair note (all secondary).

    Examples
    --------
    >>> float(bearing_wear_limit(0.0254, "3 % due")) / 0.0254
    0.030
    """
    (shaft_diameter_m,) = hold_above_zero(shaft_diameter_m=shaft_diameter_m)
    for row in table("bearing_wear"):
        if row["policy"] == policy:
            return figure(row, "share_ratio") * shaft_diameter_m + figure(row, "flat_m") + 0 * shaft_diameter_m
    known = ", ".join(row["policy"] for row in table("bearing_wear"))
    raise OutsideRange("policy", f"must be one of: {known}.", policy)
