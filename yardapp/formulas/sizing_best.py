"""The propeller of greatest open-water efficiency for a power or for a thrust."""

from collections.abc import Callable
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_curves import OpenWaterCubic, open_water_cubic
from yardapp.formulas.b_series_range import GREATEST_PITCH_RATIO, LEAST_PITCH_RATIO
from yardapp.formulas.b_series_scale import scale_correction
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold_above_zero
from yardapp.formulas.roots import root_between
from yardapp.formulas.sizing_load import advance_at_load, at_advance

Array = NDArray[np.float64]

# Points of the first look over all pitches, and of each closer look about the best of the last.
FIRST_LOOK, CLOSER_LOOK, CLOSER_LOOKS = 37, 13, 4


class Selection(NamedTuple):
    """The propeller of greatest open-water efficiency, and what it does there."""

    diameter_m: Array
    pitch_ratio: Array
    pitch_m: Array
    shaft_speed_rps: Array
    advance_ratio: Array
    kt: Array
    kq: Array
    efficiency: Array
    thrust_n: Array
    power_w: Array
    is_at_bound: NDArray[np.bool_]


def best_diameter(
    power_w: ArrayLike,
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
) -> Selection:
    """Diameter and pitch of greatest efficiency that take a power at a shaft speed.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the propeller, W.
    shaft_speed_rps : array_like, shape S
        Turns of the shaft a second, 1/s.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades; [3, 4] sizes both at once.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    selection : Selection
        Each figure of shape S; is_at_bound where the best pitch is the series' least or greatest. NaN where an argument
        is not known or no pitch in the series takes the power.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or lies outside the B-series.

    Validity
    --------
    No cavitation, no limit on the diameter, no correction for scale. The optimum is flat: 1 % of diameter costs some
    0.0002 of efficiency, 5 % some 0.005.

    Source
    ------
    The B-series as in `b_series.kt`, searched over P/D 0.5 to 1.4; several maxima are possible (S. Helma, J. Marine
    Sci. Eng. 8(3):211, 2020), so all pitches are looked at first.

    Examples
    --------
    >>> found = best_diameter(50e3, 1000 / 60, 7 * 1852 / 3600, 0.55, [3, 4])
    >>> found.diameter_m.round(2), found.efficiency.round(3)
    (array([0.64, 0.62]), array([0.477, 0.478]))
    """
    shape = alike(**locals())
    power, turns, speed, area, count, density = _held_apart(
        shape,
        power_w=power_w,
        shaft_speed_rps=shaft_speed_rps,
        advance_speed_mps=advance_speed_mps,
        area_ratio=area_ratio,
        blades=blades,
        density_kgpm3=density_kgpm3,
    )
    # KQ = load J^5 is free of the diameter.
    load = power * turns**2 / (2 * np.pi * density * speed**5)

    def at_pitch(pitch_ratio: Array) -> tuple[OpenWaterCubic, Array]:
        cubic = open_water_cubic(pitch_ratio, area, count)
        most = advance_at_load(cubic.kt, np.zeros(pitch_ratio.shape))
        return cubic, root_between(lambda j: load * j**5 - at_advance(cubic.kq, j), np.full_like(most, 1e-3), most)

    pitch_ratio, is_at_bound = _best(at_pitch, shape)
    cubic, j = at_pitch(pitch_ratio)
    return _selection(pitch_ratio, cubic, j, speed / (turns * j), turns, density, is_at_bound)


def best_pitch(
    thrust_n: ArrayLike,
    diameter_m: ArrayLike,
    advance_speed_mps: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
    scale: Literal["none", "thrust", "both"] = "none",
) -> Selection:
    """Pitch and shaft speed of greatest efficiency that give a thrust at a diameter.

    Parameters
    ----------
    thrust_n : array_like, shape S
        Thrust of one propeller, N.
    diameter_m : array_like, shape S
        Diameter, m.
    advance_speed_mps : array_like, shape S
        Speed of the water into the propeller, m/s.
    area_ratio : array_like, shape S
        AE/A0, 1.
    blades : array_like, shape S
        Number of blades.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.
    scale : str
        Whether `b_series.scale_correction` is added: to neither coefficient, to the thrust's as Holtrop & Mennen's
        example has it, or to both.

    Returns
    -------
    selection : Selection
        As in `best_diameter`; kt and kq with the correction that was asked for. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or lies outside the B-series.

    Validity
    --------
    As `best_diameter`.

    Source
    ------
    As for `best_diameter`.

    Examples
    --------
    >>> found = best_pitch(2_172_750.0, 8.0, 9.5377, 0.7393, 4, scale="thrust")
    >>> print(f"P/D {found.pitch_ratio:.2f}, {found.shaft_speed_rps:.2f} turns a second, {found.efficiency:.3f}")
    P/D 1.05, 1.65 turns a second, 0.645
    """
    if scale not in ("none", "thrust", "both"):
        raise OutsideRange("scale", "must be none, thrust or both.", scale)
    said = {name: given for name, given in locals().items() if name != "scale"}
    thrust, diameter, speed, area, count, density = _held_apart(shape := alike(**said), **said)
    load = thrust / (density * speed**2 * diameter**2)

    def at_pitch(pitch_ratio: Array) -> tuple[OpenWaterCubic, Array]:
        cubic = open_water_cubic(pitch_ratio, area, count)
        added = scale_correction(pitch_ratio, area, count, diameter)
        cubic.kt[0] += added.kt if scale != "none" else 0.0
        cubic.kq[0] += added.kq if scale == "both" else 0.0
        return cubic, advance_at_load(cubic.kt, np.broadcast_to(load, pitch_ratio.shape))

    pitch_ratio, is_at_bound = _best(at_pitch, shape)
    cubic, j = at_pitch(pitch_ratio)
    return _selection(pitch_ratio, cubic, j, diameter, speed / (j * diameter), density, is_at_bound)


def _held_apart(shape: tuple[int, ...], **figures: ArrayLike) -> tuple[Array, ...]:
    """The figures above zero and of one shape, so that pitches may come as a first axis before it."""
    return tuple(np.broadcast_to(each, shape) for each in hold_above_zero(**figures))


def _best(
    at_pitch: Callable[[Array], tuple[OpenWaterCubic, Array]], shape: tuple[int, ...]
) -> tuple[Array, NDArray[np.bool_]]:
    """P/D of greatest efficiency: one look over all pitches, then closer ones about the best."""
    low, high = np.full(shape, LEAST_PITCH_RATIO), np.full(shape, GREATEST_PITCH_RATIO)
    for points in (FIRST_LOOK, *(CLOSER_LOOK,) * CLOSER_LOOKS):
        pitch_ratio = np.linspace(low, high, points)
        cubic, j = at_pitch(pitch_ratio)
        efficiency = j * at_advance(cubic.kt, j) / (2 * np.pi * at_advance(cubic.kq, j))
        at = np.argmax(np.nan_to_num(efficiency, nan=-1.0), axis=0)[None]
        best = np.take_along_axis(pitch_ratio, at, 0)[0]
        known = ~np.isnan(np.take_along_axis(efficiency, at, 0)[0])
        step = (high - low) / (points - 1)
        low, high = np.maximum(best - step, low), np.minimum(best + step, high)
    edge = 2 * step
    is_at_bound = known & ((best < LEAST_PITCH_RATIO + edge) | (best > GREATEST_PITCH_RATIO - edge))
    return np.where(known, best, np.nan), is_at_bound


def _selection(
    pitch_ratio: Array,
    cubic: OpenWaterCubic,
    j: Array,
    diameter: Array,
    turns: Array,
    density: Array,
    is_at_bound: NDArray[np.bool_],
) -> Selection:
    thrust, torque = at_advance(cubic.kt, j), at_advance(cubic.kq, j)
    return Selection(
        diameter_m=diameter + 0 * j,
        pitch_ratio=as_given(pitch_ratio),
        pitch_m=pitch_ratio * diameter,
        shaft_speed_rps=turns + 0 * j,
        advance_ratio=as_given(j),
        kt=thrust,
        kq=torque,
        efficiency=as_given(j * thrust / (2 * np.pi * torque)),
        thrust_n=as_given(thrust * density * turns**2 * diameter**4),
        power_w=as_given(2 * np.pi * torque * density * turns**3 * diameter**5),
        is_at_bound=as_given(is_at_bound),
    )
