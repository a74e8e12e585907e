"""Slip: what a propeller loses against a screw in a solid."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, hold, hold_above_zero


def apparent_slip(speed_mps: ArrayLike, pitch_m: ArrayLike, shaft_speed_rps: ArrayLike) -> NDArray[np.float64]:
    """Apparent slip, by the boat's speed: 1 - V / (n P).

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed of the boat through the water, m/s; zero at the mooring.
    pitch_m : array_like, shape S
        Pitch of the propeller, m.
    shaft_speed_rps : array_like, shape S
        Turns of the propeller shaft a second, 1/s.

    Returns
    -------
    slip_ratio : ndarray, shape S
        1 at the mooring; below zero where a wake follows a slippery hull, or a figure is wrong. NaN where not known.

    Raises
    ------
    OutsideRange
        A pitch or shaft speed is not above zero; a speed is below zero.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(apparent_slip(3.6, 0.40, 12.0))
    0.25
    """
    alike(speed_mps=speed_mps, pitch_m=pitch_m, shaft_speed_rps=shaft_speed_rps)
    pitch_m, shaft_speed_rps = hold_above_zero(pitch_m=pitch_m, shaft_speed_rps=shaft_speed_rps)
    return 1 - hold("speed_mps", speed_mps, "must be zero or more.", at_least=0) / (pitch_m * shaft_speed_rps)


def real_slip(
    speed_mps: ArrayLike, pitch_m: ArrayLike, shaft_speed_rps: ArrayLike, wake_ratio: ArrayLike
) -> NDArray[np.float64]:
    """Real slip, by the speed of the water at the propeller: 1 - V (1 - w) / (n P).

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed of the boat through the water, m/s.
    pitch_m : array_like, shape S
        Pitch of the propeller, m.
    shaft_speed_rps : array_like, shape S
        Turns of the propeller shaft a second, 1/s.
    wake_ratio : array_like, shape S
        Taylor's wake fraction w, 1.

    Returns
    -------
    slip_ratio : ndarray, shape S
        1 at the mooring; NaN where not known.

    Raises
    ------
    OutsideRange
        As for `apparent_slip`; a wake fraction lies outside -0.5 to 1.

    Validity
    --------
    w from -0.5 to below 1.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(real_slip(3.6, 0.40, 12.0, 0.20))
    0.40
    """
    alike(speed_mps=speed_mps, pitch_m=pitch_m, shaft_speed_rps=shaft_speed_rps, wake_ratio=wake_ratio)
    wake_ratio = hold("wake_ratio", wake_ratio, "must lie from -0.5 to below 1.", at_least=-0.5, below=1)
    return wake_ratio + (1 - wake_ratio) * apparent_slip(speed_mps, pitch_m, shaft_speed_rps)
