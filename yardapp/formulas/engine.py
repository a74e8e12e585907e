"""What an engine gives at full throttle at each of its speeds."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.engine_demand import Shortfall, demand_power, kept_ratio, rated_shortfall
from yardapp.formulas.ranges import OutsideRange, as_given, hold, hold_above_zero

__all__ = [
    "PowerCurve",
    "Shortfall",
    "demand_power",
    "engine_power",
    "engine_torque",
    "kept_ratio",
    "power_curve",
    "power_curve_from_rating",
    "rated_shortfall",
]

Array = NDArray[np.float64]

# Where the curve of a rating begins, as a part of the rated speed; below it nobody knows.
LEAST_OF_RATED = 0.25


@dataclass(frozen=True, kw_only=True)
class PowerCurve:
    """Full-throttle power at rising engine speeds; the last is where the governor takes over."""

    engine_speed_rps: Array
    power_w: Array

    @property
    def torque_nm(self) -> Array:
        """Torque at each speed of the table."""
        return self.power_w / (2 * np.pi * self.engine_speed_rps)


def power_curve(engine_speed_rps: ArrayLike, power_w: ArrayLike) -> PowerCurve:
    """A power curve from a maker's table.

    Parameters
    ----------
    engine_speed_rps : array_like, shape (N,)
        Speeds of the engine, rising, at least two, 1/s.
    power_w : array_like, shape (N,)
        Power at full throttle at each, W.

    Returns
    -------
    curve : PowerCurve
        The same, held.

    Raises
    ------
    OutsideRange
        A figure is not known or not above zero; the speeds do not rise; the two are not of one length.

    Source
    ------
    The maker's.

    Examples
    --------
    >>> power_curve([20.0, 30.0, 40.0], [20e3, 32e3, 38e3]).torque_nm.round()
    array([159., 170., 151.])
    """
    speeds, powers = hold_above_zero(engine_speed_rps=engine_speed_rps, power_w=power_w)
    if speeds.ndim != 1 or speeds.size < 2 or speeds.shape != powers.shape:
        said = "must have a power for each of two speeds or more."
        raise OutsideRange("power_w", said, f"of shape {powers.shape}")
    if np.any(np.isnan(powers)):
        raise OutsideRange("power_w", "must be known at each speed.", "not known")
    if not np.all(np.diff(speeds) > 0):
        raise OutsideRange("engine_speed_rps", "must rise from each row to the next.", speeds.tolist())
    return PowerCurve(engine_speed_rps=speeds, power_w=powers)


def power_curve_from_rating(power_w: float, engine_speed_rps: float) -> PowerCurve:
    """A power curve from one rated point: the torque at the rating, held from a quarter of the rated speed up.

    Parameters
    ----------
    power_w : float
        Rated power, W.
    engine_speed_rps : float
        Rated speed, 1/s.

    Returns
    -------
    curve : PowerCurve
        Two points.

    Raises
    ------
    OutsideRange
        A figure is not known or not above zero.

    Validity
    --------
    Good near the rating. Most engines pull more than this in the middle of their range and less near idling.

    Source
    ------
    Common practice, no source.

    Examples
    --------
    >>> power_curve_from_rating(28e3, 50.0).power_w
    array([ 7000., 28000.])
    """
    parts = np.array([LEAST_OF_RATED, 1.0])
    return power_curve(parts * engine_speed_rps, parts * power_w)


def engine_torque(curve: PowerCurve, engine_speed_rps: ArrayLike) -> Array:
    """Full-throttle torque at a speed: linear between the points of the curve.

    Parameters
    ----------
    curve : PowerCurve
        The engine's.
    engine_speed_rps : array_like, shape S
        Speed of the engine, 1/s.

    Returns
    -------
    torque_nm : ndarray, shape S
        At the crankshaft, N m; NaN where the speed is not known.

    Raises
    ------
    OutsideRange
        The speed lies outside the curve.

    Validity
    --------
    From the first to the last speed of the curve.

    Source
    ------
    Interpolation; ours.

    Examples
    --------
    >>> float(engine_torque(power_curve_from_rating(28e3, 50.0), 40.0))
    89.1
    """
    low, high = curve.engine_speed_rps[0], curve.engine_speed_rps[-1]
    said = f"must lie on the power curve, from {low:.4g} to {high:.4g} turns a second."
    speed = hold("engine_speed_rps", engine_speed_rps, said, at_least=low, at_most=high)
    return as_given(np.interp(speed, curve.engine_speed_rps, curve.torque_nm))


def engine_power(curve: PowerCurve, engine_speed_rps: ArrayLike) -> Array:
    """Full-throttle power at a speed: 2 pi n times the torque between the points of the curve.

    Parameters
    ----------
    curve : PowerCurve
        The engine's.
    engine_speed_rps : array_like, shape S
        Speed of the engine, 1/s.

    Returns
    -------
    power_w : ndarray, shape S
        At the crankshaft, W; NaN where the speed is not known.

    Raises
    ------
    OutsideRange
        The speed lies outside the curve.

    Validity
    --------
    From the first to the last speed of the curve.

    Source
    ------
    Definition of power.

    Examples
    --------
    >>> float(engine_power(power_curve_from_rating(28e3, 50.0), 40.0))
    22400.0
    """
    return 2 * np.pi * np.asarray(engine_speed_rps, float) * engine_torque(curve, engine_speed_rps)
