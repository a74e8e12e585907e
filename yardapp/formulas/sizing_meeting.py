"""Where engine, hull and propeller agree: the speed of shaft and boat at full throttle."""

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_curves import OpenWaterCubic, open_water_cubic
from yardapp.formulas.engine import PowerCurve
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero, hold_whole
from yardapp.formulas.roots import root_between
from yardapp.formulas.sizing_load import advance_at_load, at_advance

Array = NDArray[np.float64]

# Propellers at a time: what one block needs stays in the processor's cache.
BLOCK = 4096
# Speeds of the boat that are looked at, from the slowest known up, before the crossing is closed in on.
LOOKS = 25


@dataclass(frozen=True, kw_only=True)
class Drive:
    """One engine and its line to one propeller: turns of the engine a turn of the shaft, part of the power kept.

    `torque_factor` is what the engine gives over what its curve says. Ratios and factor may be arrays that go with the
    propellers: a band is then one call.
    """

    curve: PowerCurve
    gear_ratio: ArrayLike
    kept_ratio: ArrayLike = 1.0
    torque_factor: ArrayLike = 1.0


@dataclass(frozen=True, kw_only=True)
class HullCurve:
    """Resistance of the whole boat at rising speeds, and how its propellers meet the water.

    Rows that are not known (NaN) are left out, so what `hull.resistance` returns can be handed on. The hull resists
    `resistance_factor` times its rows; that, wake and deduction may be arrays that go with the propellers.
    """

    speed_mps: ArrayLike
    resistance_n: ArrayLike
    wake_ratio: ArrayLike = 0.0
    deduction_ratio: ArrayLike = 0.0
    screw_count: int = 1
    resistance_factor: ArrayLike = 1.0


@dataclass(frozen=True, kw_only=True)
class Propellers:
    """One propeller or many: figures of shapes that go together."""

    diameter_m: ArrayLike
    pitch_ratio: ArrayLike
    area_ratio: ArrayLike
    blades: ArrayLike


class Meeting(NamedTuple):
    """What each propeller reaches; thrust, torque and power are one propeller's. NaN where nothing is reached."""

    shaft_speed_rps: Array
    engine_speed_rps: Array
    speed_mps: Array
    advance_ratio: Array
    efficiency: Array
    thrust_n: Array
    torque_nm: Array
    power_w: Array
    is_governed: NDArray[np.bool_]


def meeting_point(engine: Drive, hull: HullCurve, propeller: Propellers, density_kgpm3: float = 1025.0) -> Meeting:
    """Speeds at which thrust carries the hull and the engine at full throttle turns the propeller.

    The boat gathers speed from the slowest that is known of it until thrust or torque no longer suffices, or the
    governor holds the engine at the last speed of its curve. Between the points of the curves R/V^2 and torque are
    linear.

    Parameters
    ----------
    engine : Drive
        Engine and line, of each propeller alike.
    hull : HullCurve
        Resistance against speed; wake, thrust deduction, number of propellers.
    propeller : Propellers
        Diameters in m, pitch and area ratios, blades; of shape S together.
    density_kgpm3 : float
        Of the water, kg/m3.

    Returns
    -------
    meeting : Meeting
        Each figure of shape S. is_governed where the propeller is too small to hold the engine. NaN where an argument
        is not known, where the boat does not reach the slowest speed of its curve or goes past the fastest, or where
        the engine is held below the first speed of its curve.

    Raises
    ------
    OutsideRange
        A figure is impossible, or a propeller lies outside the B-series.

    Validity
    --------
    No cavitation. A hump that is crossed twice within 1/24 of the hull's known speeds is not seen.

    Source
    ------
    Balance of forces; the B-series as in `b_series.kt`.

    Examples
    --------
    >>> from yardapp.formulas.engine import power_curve_from_rating
    >>> speeds = np.linspace(1.0, 6.0, 26)
    >>> hull = HullCurve(speed_mps=speeds, resistance_n=120 * speeds**2, wake_ratio=0.1, deduction_ratio=0.1)
    >>> drive = Drive(curve=power_curve_from_rating(28e3, 50.0), gear_ratio=2.5, kept_ratio=0.94)
    >>> found = meeting_point(drive, hull, Propellers(diameter_m=0.5, pitch_ratio=0.7, area_ratio=0.55, blades=3))
    >>> print(f"{found.engine_speed_rps * 60:.0f} rpm, {found.speed_mps:.1f} m/s")
    2977 rpm, 5.0 m/s
    """
    given = _hold_drive(engine) | _hold_hull(hull)
    given |= {name: np.asarray(getattr(propeller, name), float) for name in PROPELLER}
    shape = alike(**given)
    spread = {name: np.broadcast_to(figures, shape).ravel() for name, figures in given.items()}
    hold("diameter_m", spread["diameter_m"], "must be above zero.", above=0)
    hold_above_zero(density_kgpm3=density_kgpm3)
    cubic = open_water_cubic(*(spread[name] for name in PROPELLER[1:]))
    speeds, pulls = _pulls(hull)
    columns = np.empty((8, spread["diameter_m"].size))
    governed = np.empty(spread["diameter_m"].size, bool)
    for start in range(0, governed.size, BLOCK):
        block = slice(start, start + BLOCK)
        part = _Part(
            engine.curve,
            speeds,
            pulls,
            density_kgpm3,
            OpenWaterCubic(cubic.kt[:, block], cubic.kq[:, block]),
            *(spread[name][block] for name in BY_PROPELLER),
        )
        columns[:, block], governed[block] = part.meet()
    return Meeting._make(as_given(each.reshape(shape)) for each in (*columns, governed))


PROPELLER = ("diameter_m", "pitch_ratio", "area_ratio", "blades")
BY_PROPELLER = (
    "diameter_m",
    "gear_ratio",
    "kept_ratio",
    "torque_factor",
    "wake_ratio",
    "deduction_ratio",
    "resistance_factor",
)


def _hold_drive(engine: Drive) -> dict[str, Array]:
    gear, factor = hold_above_zero(gear_ratio=engine.gear_ratio, torque_factor=engine.torque_factor)
    kept = hold("kept_ratio", engine.kept_ratio, "must be above zero and at most 1.", above=0, at_most=1)
    return {"gear_ratio": gear, "kept_ratio": kept, "torque_factor": factor}


def _hold_hull(hull: HullCurve) -> dict[str, Array]:
    (factor,) = hold_above_zero(resistance_factor=hull.resistance_factor)
    said = "must lie from -0.5 to below 1."
    wake = hold("wake_ratio", hull.wake_ratio, said, at_least=-0.5, below=1)
    deduction = hold("deduction_ratio", hull.deduction_ratio, said, at_least=-0.5, below=1)
    return {"wake_ratio": wake, "deduction_ratio": deduction, "resistance_factor": factor}


def _pulls(hull: HullCurve) -> tuple[Array, Array]:
    """Speeds, and at each the resistance that one propeller is to overcome over V^2."""
    speed, resistance = hold_above_zero(speed_mps=hull.speed_mps, resistance_n=hull.resistance_n)
    said = "must be a whole number from 1 to 4."
    screws = hold_whole("screw_count", hull.screw_count, said, at_least=1, at_most=4)
    if speed.ndim != 1 or speed.size < 2 or speed.shape != resistance.shape:
        said = "must have a figure for each of two speeds or more."
        raise OutsideRange("resistance_n", said, f"of shape {resistance.shape}")
    known = ~np.isnan(speed + resistance)
    speed, resistance = speed[known], resistance[known]
    if speed.size < 2 or not np.all(np.diff(speed) > 0):
        said = "must rise from each row to the next, with two rows or more that are known."
        raise OutsideRange("speed_mps", said, speed.tolist())
    return speed, resistance / (screws * speed**2)


class _Part(NamedTuple):
    """One block of propellers."""

    curve: PowerCurve
    speeds: Array
    pulls: Array
    density: float
    cubic: OpenWaterCubic
    diameter: Array
    gear: Array
    kept: Array
    factor: Array
    wake: Array
    deduction: Array
    resists: Array

    def brought(self, turns: Array) -> Array:
        """Torque that the engine can bring to the shaft; below its curve as at the first point."""
        torque = np.interp(turns * self.gear, self.curve.engine_speed_rps, self.curve.torque_nm)
        return as_given(torque * self.factor * self.gear * self.kept)

    def turning(self, speed: Array) -> tuple[Array, Array, Array]:
        """J, turns of the shaft and torque at which the thrust carries the hull at a speed."""
        pull = np.interp(speed, self.speeds, self.pulls) * self.resists / ((1 - self.deduction) * (1 - self.wake) ** 2)
        j = advance_at_load(self.cubic.kt, pull / (self.density * self.diameter**2))
        turns = speed * (1 - self.wake) / (j * self.diameter)
        return j, turns, at_advance(self.cubic.kq, j) * self.density * turns**2 * self.diameter**5

    def margins(self, speed: Array) -> tuple[Array, Array]:
        """How much torque and how many turns are left over, each as a part of the most there is."""
        _, turns, torque = self.turning(speed)
        most = self.curve.engine_speed_rps[-1] / self.gear
        return 1 - torque / self.brought(turns), 1 - turns / most

    def left_over(self, speed: Array) -> Array:
        """Above zero while the boat still gathers speed."""
        return as_given(np.minimum(*self.margins(speed)))

    def meet(self) -> tuple[Array, NDArray[np.bool_]]:
        """The columns of Meeting for this block."""
        speed = root_between(self.left_over, *self.bracket())
        j, turns, torque = self.turning(speed)
        engine_speed = turns * self.gear
        speed = np.where(engine_speed < self.curve.engine_speed_rps[0], np.nan, speed)
        by_torque, by_turns = self.margins(speed)
        known = 0 * speed
        thrust_factor = at_advance(self.cubic.kt, j)
        thrust = thrust_factor * self.density * turns**2 * self.diameter**4
        efficiency = j * thrust_factor / (2 * np.pi * at_advance(self.cubic.kq, j))
        power = 2 * np.pi * turns * torque
        columns = np.stack([turns, engine_speed, speed, j, efficiency, thrust, torque, power]) + known
        return columns, by_turns < by_torque

    def bracket(self) -> tuple[Array, Array]:
        """The first two neighbouring speeds between which nothing is left over; NaN where there are none."""
        looks = np.linspace(self.speeds[0], self.speeds[-1], LOOKS)
        if self.diameter.size * LOOKS <= BLOCK:
            return self._bracket_at_once(looks)
        low = np.full(self.diameter.shape, np.nan)
        high = low.copy()
        gathers = self.left_over(np.broadcast_to(looks[0], low.shape)) > 0
        for slow, fast in pairwise(looks):
            left = self.left_over(np.broadcast_to(fast, low.shape))
            stops = gathers & (left <= 0)
            low[stops], high[stops] = slow, fast
            gathers &= left > 0
            if not gathers.any():
                break
        return low, high

    def _bracket_at_once(self, looks: Array) -> tuple[Array, Array]:
        """All the speeds in one sweep, which is quicker for a few propellers."""
        left = self.left_over(np.broadcast_to(looks[:, None], (LOOKS, self.diameter.size)))
        gathers = np.logical_and.accumulate(left > 0, axis=0)
        stops = gathers[:-1] & (left[1:] <= 0)
        at, found = np.argmax(stops, axis=0), stops.any(axis=0)
        return np.where(found, looks[at], np.nan), np.where(found, looks[at + 1], np.nan)
