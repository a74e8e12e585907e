"""What size and speed of the blade change in the B-series: Reynolds number, scale and roughness."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_range import hold_series
from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]

SEA_WATER_VISCOSITY_M2PS = 1.18831e-6
NEW_BLADE_ROUGHNESS_M = 30e-6


class Added(NamedTuple):
    """What is added to the thrust and to the torque coefficient."""

    kt: Array
    kq: Array


class ScaleAdded(NamedTuple):
    """What scale adds, and the chord, thickness over chord and rise in drag at 0.75 R that it comes from."""

    kt: Array
    kq: Array
    chord_m: Array
    thickness_ratio: Array
    drag_factor: Array


def blade_reynolds_number(
    area_ratio: ArrayLike,
    blades: ArrayLike,
    diameter_m: ArrayLike,
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    viscosity_m2ps: ArrayLike = SEA_WATER_VISCOSITY_M2PS,
) -> Array:
    """Reynolds number of the blade at 0.75 R: c sqrt(Va^2 + (0.75 pi n D)^2) / nu, with c = 2.073 (AE/A0) D / Z.

    Parameters
    ----------
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades, Z.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    viscosity_m2ps : array_like, shape S
        Kinematic viscosity, m2/s; as it stands sea water at 15 C.

    Returns
    -------
    reynolds_number : ndarray, shape S
        1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        The speed of advance is below zero, or another argument is not above it.

    Source
    ------
    Oosterveld & van Oossanen 1975; the chord of Holtrop & Mennen, Int. Shipb. Progress 29(335), 1982.

    Examples
    --------
    >>> print(f"{blade_reynolds_number(0.5, 3, 0.5, 20.0, 3.6):.2g}")
    3.5e+06
    """
    alike(**locals())
    area, count, diameter, turns, viscosity = hold_above_zero(
        area_ratio=area_ratio,
        blades=blades,
        diameter_m=diameter_m,
        shaft_speed_rps=shaft_speed_rps,
        viscosity_m2ps=viscosity_m2ps,
    )
    speed = hold("advance_speed_mps", advance_speed_mps, "must be zero or more.", at_least=0)
    chord_m = 2.073 * area * diameter / count
    return chord_m * np.hypot(speed, 0.75 * np.pi * turns * diameter) / viscosity


def reynolds_correction(
    advance_ratio: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    reynolds_number: ArrayLike,
) -> Added:
    """What a Reynolds number above the series' own adds: sum of C L^q J^s (P/D)^t (AE/A0)^u Z^v, L = log10 Rn - 0.301.

    Parameters
    ----------
    advance_ratio : array_like, shape S
        J, 1.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades, Z.
    reynolds_number : array_like, shape S
        At 0.75 of the radius: the plain number, 2e6 rather than 2.

    Returns
    -------
    added : Added
        kt and kq, each of shape S, 1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        The Reynolds number lies outside 2e6 to 2e9, or another argument outside the series.

    Validity
    --------
    Reynolds number 2e6 (below it nothing is published) to 2e9 (upper end from memory).

    Source
    ------
    Oosterveld & van Oossanen 1975, Table 6; Report 237, Table 2. Copies differ in one power of L: that which leaves
    nothing at 2e6 is used.

    Examples
    --------
    >>> added = reynolds_correction(0.4, 0.8, 0.55, 4, 1e7)
    >>> print(f"{added.kt:.4f} {added.kq:.4f}")
    0.0003 -0.0006
    """
    said = "must lie from 2e6 to 2e9: outside it there is no published correction."
    series = hold_series(advance_ratio, pitch_ratio, area_ratio, blades)
    reynolds = hold("reynolds_number", reynolds_number, said, at_least=2e6, at_most=2e9)
    alike(advance_ratio=sum(series), reynolds_number=reynolds)
    figures = (np.log10(reynolds) - 0.301, *series)
    return Added(_added("dKT", figures), _added("dKQ", figures))


def _added(target: str, figures: tuple[Array, ...]) -> Array:
    total = np.zeros(np.broadcast_shapes(*(each.shape for each in figures)))
    for row in table("b_series_reynolds"):
        if row["target"] == target:
            term = np.asarray(figure(row, "coefficient"))
            for each, power in zip(figures, "qstuv", strict=True):
                term = term * each ** int(row[power])
            total = total + term
    # NaN to the power of zero is one; a figure that is not known must not pass for known.
    return as_given(total + 0 * sum(figures))


def scale_correction(
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    diameter_m: ArrayLike,
    roughness_m: ArrayLike = NEW_BLADE_ROUGHNESS_M,
) -> ScaleAdded:
    """What full size and roughness add: 0.3 dCD (P/D) c Z/D to KT and -0.25 dCD c Z/D to KQ.

    dCD = (2 + 4 t/c) (0.003605 - (1.89 + 1.62 log10(c/k))^-2.5) at 0.75 R, c = 2.073 (AE/A0) D/Z and
    t/c = (0.0185 - 0.00125 Z) D/c. The other way to correct for scale; never use it with `reynolds_correction`.

    Parameters
    ----------
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades, Z.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.
    roughness_m : array_like, shape S
        Roughness k of the blade, m; as it stands that of a new one.

    Returns
    -------
    added : ScaleAdded
        kt, kq, chord_m, thickness_ratio and drag_factor, each of shape S; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Source
    ------
    J. Holtrop & G. G. J. Mennen, Int. Shipb. Progress 29(335), 1982 (the method of ITTC 1978).

    Examples
    --------
    >>> print(f"{scale_correction(1.036, 0.7393, 4, 8.0).kt:.5f}")
    0.00046
    """
    pitch, area, count, diameter, roughness = hold_above_zero(
        pitch_ratio=pitch_ratio, area_ratio=area_ratio, blades=blades, diameter_m=diameter_m, roughness_m=roughness_m
    )
    chord_m = 2.073 * area * diameter / count
    thickness = (0.0185 - 0.00125 * count) * diameter / chord_m
    drag = (2 + 4 * thickness) * (0.003605 - (1.89 + 1.62 * np.log10(chord_m / roughness)) ** -2.5)
    solidity = chord_m * count / diameter
    return ScaleAdded(0.3 * drag * pitch * solidity, -0.25 * drag * solidity, chord_m, thickness, drag)
