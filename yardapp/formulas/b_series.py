"""Open-water thrust and torque of the Wageningen B-series, for one propeller or a hundred thousand."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_curves import OpenWater, OpenWaterCubic, open_water, open_water_cubic
from yardapp.formulas.b_series_scale import blade_reynolds_number, reynolds_correction, scale_correction
from yardapp.formulas.ranges import alike, hold

__all__ = [
    "OpenWater",
    "OpenWaterCubic",
    "advance_ratio",
    "blade_reynolds_number",
    "efficiency",
    "kq",
    "kt",
    "open_water",
    "open_water_cubic",
    "reynolds_correction",
    "scale_correction",
]

Array = NDArray[np.float64]


def kt(
    advance_ratio: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    reynolds_number: ArrayLike | None = None,
) -> Array:
    """Thrust coefficient KT = T / (rho n^2 D^4): sum of C J^s (P/D)^t (AE/A0)^u Z^v, 39 terms.

    Parameters
    ----------
    advance_ratio : array_like, shape S
        J = Va / (n D), 1.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, expanded blade area over the disc's, 1.
    blades : array_like, shape S
        Number of blades, Z.
    reynolds_number : array_like, shape S, optional
        At 0.75 of the radius; left out, the series' own 2e6.

    Returns
    -------
    kt : ndarray, shape S
        1; below zero past the J of zero thrust; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument lies outside the range below.

    Validity
    --------
    J 0 to 1.6, P/D 0.5 to 1.4, AE/A0 0.30 to 1.05, 2 to 7 blades, Reynolds number 2e6 to 2e9. At the extremes the fit
    is not fully reliable. Solid blades, no cavitation, axial inflow.

    Source
    ------
    M. W. C. Oosterveld & P. van Oossanen, International Shipbuilding Progress 22(251), 1975, Table 5, as reprinted in
    M. M. Bernitsas, D. Ray & P. Kinley, Univ. of Michigan Report 237, 1981, Table 1.

    Examples
    --------
    >>> float(kt(0.0, 1.0, 0.718, 3))
    0.4566
    """
    return open_water(advance_ratio, pitch_ratio, area_ratio, blades, reynolds_number).kt


def kq(
    advance_ratio: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    reynolds_number: ArrayLike | None = None,
) -> Array:
    """Torque coefficient KQ = Q / (rho n^2 D^5): sum of C J^s (P/D)^t (AE/A0)^u Z^v, 47 terms.

    Parameters
    ----------
    advance_ratio : array_like, shape S
        J = Va / (n D), 1.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, expanded blade area over the disc's, 1.
    blades : array_like, shape S
        Number of blades, Z.
    reynolds_number : array_like, shape S, optional
        At 0.75 of the radius; left out, the series' own 2e6.

    Returns
    -------
    kq : ndarray, shape S
        1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument lies outside the range of `kt`.

    Validity
    --------
    As `kt`.

    Source
    ------
    As for `kt`.

    Examples
    --------
    >>> float(kq(0.0, 1.0, 0.718, 3))
    0.0700
    """
    return open_water(advance_ratio, pitch_ratio, area_ratio, blades, reynolds_number).kq


def efficiency(
    advance_ratio: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    reynolds_number: ArrayLike | None = None,
) -> Array:
    """Open-water efficiency: J KT / (2 pi KQ).

    Parameters
    ----------
    advance_ratio : array_like, shape S
        J = Va / (n D), 1.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, expanded blade area over the disc's, 1.
    blades : array_like, shape S
        Number of blades, Z.
    reynolds_number : array_like, shape S, optional
        At 0.75 of the radius; left out, the series' own 2e6.

    Returns
    -------
    efficiency : ndarray, shape S
        1; NaN where an argument is not known or the propeller no longer pushes.

    Raises
    ------
    OutsideRange
        An argument lies outside the range of `kt`.

    Validity
    --------
    As `kt`; from standstill to the J of zero thrust.

    Source
    ------
    Definition; coefficients as for `kt`.

    Examples
    --------
    >>> float(efficiency(0.87, 1.0, 0.50, 3))
    0.72
    """
    return open_water(advance_ratio, pitch_ratio, area_ratio, blades, reynolds_number).efficiency


def advance_ratio(advance_speed_mps: ArrayLike, shaft_speed_rps: ArrayLike, diameter_m: ArrayLike) -> Array:
    """Advance ratio J = Va / (n D).

    Parameters
    ----------
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    advance_ratio : ndarray, shape S
        J, 1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        The speed is below zero, or another argument is not above it.

    Source
    ------
    Definition; Report 237, as for `kt`.

    Examples
    --------
    >>> float(advance_ratio(8.437, 200 / 60, 3.048))
    0.83
    """
    alike(advance_speed_mps=advance_speed_mps, shaft_speed_rps=shaft_speed_rps, diameter_m=diameter_m)
    speed = hold("advance_speed_mps", advance_speed_mps, "must be zero or more.", at_least=0)
    turns = hold("shaft_speed_rps", shaft_speed_rps, "must be above zero.", above=0)
    return speed / (turns * hold("diameter_m", diameter_m, "must be above zero.", above=0))
