"""Pitch for a load, and the pitch that another diameter needs for the same load."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_curves import open_water_cubic
from yardapp.formulas.b_series_range import GREATEST_ADVANCE_RATIO, GREATEST_PITCH_RATIO, LEAST_PITCH_RATIO
from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero
from yardapp.formulas.roots import root_between
from yardapp.formulas.sizing_load import working_point

Array = NDArray[np.float64]


def pitch_for_power(
    power_w: ArrayLike,
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    diameter_m: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
) -> Array:
    """Pitch ratio at which a propeller of given diameter takes a power at a shaft speed.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the propeller, W.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    diameter_m : array_like, shape S
        Diameter, m.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    pitch_ratio : ndarray, shape S
        P/D, 1; NaN where an argument is not known or no pitch of the series takes the power.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or lies outside the B-series.

    Validity
    --------
    The B-series' own, as in `b_series.kt`.

    Source
    ------
    The B-series as in `b_series.kt`, solved for P/D.

    Examples
    --------
    >>> print(f"{pitch_for_power(50e3, 1000 / 60, 7 * 1852 / 3600, 0.6418, 0.55, 3):.2f}")
    0.62
    """
    alike(**locals())
    power, turns, speed, diameter, density = hold_above_zero(
        power_w=power_w,
        shaft_speed_rps=shaft_speed_rps,
        advance_speed_mps=advance_speed_mps,
        diameter_m=diameter_m,
        density_kgpm3=density_kgpm3,
    )
    wanted = power / (2 * np.pi * density * turns**3 * diameter**5)
    return _pitch_at(1, wanted, speed, turns, diameter, area_ratio, blades)


def pitch_for_thrust(
    thrust_n: ArrayLike,
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    diameter_m: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
) -> Array:
    """Pitch ratio at which a propeller of given diameter gives a thrust at a shaft speed.

    Parameters
    ----------
    thrust_n : array_like, shape S
        Thrust of one propeller, N.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    diameter_m : array_like, shape S
        Diameter, m.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    pitch_ratio : ndarray, shape S
        P/D, 1; NaN where an argument is not known or no pitch of the series gives the thrust.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or lies outside the B-series.

    Validity
    --------
    The B-series' own, as in `b_series.kt`.

    Source
    ------
    The B-series as in `b_series.kt`, solved for P/D.

    Examples
    --------
    >>> print(f"{pitch_for_thrust(2_172_750.0, 1.6594, 9.5377, 8.0, 0.7393, 4):.2f}")
    1.04
    """
    alike(**locals())
    thrust, turns, speed, diameter, density = hold_above_zero(
        thrust_n=thrust_n,
        shaft_speed_rps=shaft_speed_rps,
        advance_speed_mps=advance_speed_mps,
        diameter_m=diameter_m,
        density_kgpm3=density_kgpm3,
    )
    return _pitch_at(0, thrust / (density * turns**2 * diameter**4), speed, turns, diameter, area_ratio, blades)


def equal_load_pitch(
    diameter_m: ArrayLike,
    pitch_m: ArrayLike,
    new_diameter_m: ArrayLike,
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
) -> Array:
    """Pitch at another diameter that holds the engine to the same speed: the torque stays as it is.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter as it is, m.
    pitch_m : array_like, shape S
        Pitch as it is, m.
    new_diameter_m : array_like, shape S
        The other diameter, m.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    area_ratio : array_like, shape S
        AE/A0 of both, 1.
    blades : array_like, shape S
        Number of blades of both.

    Returns
    -------
    pitch_m : ndarray, shape S
        m; NaN where an argument is not known or no pitch of the series does it.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or lies outside the B-series.

    Validity
    --------
    At one speed of the boat. The handbook's rule, an inch of diameter for 2 to 3 of pitch, gives more than this, which
    gives 1.2 to 1.5: treat any cut-down as a new selection.

    Source
    ------
    The B-series as in `b_series.kt`.

    Examples
    --------
    >>> print(f"{equal_load_pitch(0.508, 0.4064, 0.4826, 20.0, 3.601, 0.50, 3) / 0.0254:.0f} in")
    17 in
    """
    alike(**locals())
    diameter, pitch, other = hold_above_zero(diameter_m=diameter_m, pitch_m=pitch_m, new_diameter_m=new_diameter_m)
    point = working_point(shaft_speed_rps, advance_speed_mps, diameter, pitch / diameter, area_ratio, blades)
    return other * pitch_for_power(point.power_w, shaft_speed_rps, advance_speed_mps, other, area_ratio, blades)


def _pitch_at(
    which: int, wanted: Array, speed: Array, turns: Array, diameter: Array, area_ratio: ArrayLike, blades: ArrayLike
) -> Array:
    """P/D at which KT (0) or KQ (1) is as wanted."""
    j = speed / (turns * diameter)
    said = f"must be at least Va / ({GREATEST_ADVANCE_RATIO} D) for the B-series."
    hold("shaft_speed_rps", turns, said, at_least=speed / (GREATEST_ADVANCE_RATIO * diameter))
    shape = np.broadcast_shapes(wanted.shape, j.shape, np.shape(area_ratio), np.shape(blades))
    powers = np.stack([np.broadcast_to(j, shape) ** power for power in range(4)])

    def over(pitch_ratio: Array) -> Array:
        total: Array = (open_water_cubic(pitch_ratio, area_ratio, blades)[which] * powers).sum(axis=0)
        return total - wanted

    return as_given(root_between(over, np.full(shape, LEAST_PITCH_RATIO), np.full(shape, GREATEST_PITCH_RATIO)))
