"""Where engine, hull and propeller agree: the speed of shaft and boat at full throttle."""

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_curves import OpenWaterCubic, open_water_cubic
from yardapp.formulas.engine import PowerCurve
from yardapp.formulas.ranges import OutsideRange, alike, hold, hold_above_zero
from yardapp.formulas.roots import root_between
from yardapp.formulas.sizing_load import advance_at_load, at_advance

Array = NDArray[np.float64]

# Propellers at a time: what one block needs stays in the processor's cache.
BLOCK = 4096
# Speeds of the boat that are looked at, from the slowest known up, before the crossing is closed in on.
LOOKS = 25


@dataclass(frozen=True, kw_only=True)
class Drive:
    """One engine and its line to one propeller: turns of the engine a turn of the shaft, part of the power kept."""

    curve: PowerCurve
    gear_ratio: float
    kept_ratio: float = 1.0


@dataclass(frozen=True, kw_only=True)
class HullCurve:
    """Resistance of the whole boat at rising speeds, and how its propellers meet the water.

    Rows that are not known (NaN) are left out, so what `hull.resistance` returns can be handed on.
    """

    speed_mps: ArrayLike
    resistance_n: ArrayLike
    wake_ratio: float = 0.0
    deduction_ratio: float = 0.0
    screw_count: int = 1


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
    _hold_drive(engine)
    hold_above_zero(density_kgpm3=density_kgpm3)
    load = _Load(engine, *_hold_hull(hull), density_kgpm3, hull.wake_ratio)
    given = (propeller.diameter_m, propeller.pitch_ratio, propeller.area_ratio, propeller.blades)
    shape = alike(**dict(zip(("diameter_m", "pitch_ratio", "area_ratio", "blades"), given, strict=True)))
    diameter, pitch, area, count = (np.broadcast_to(np.asarray(each, float), shape).ravel() for each in given)
    hold("diameter_m", diameter, "must be above zero.", above=0)
    cubic = open_water_cubic(pitch, area, count)
    columns = np.empty((8, diameter.size))
    governed = np.empty(diameter.size, bool)
    for start in range(0, diameter.size, BLOCK):
        block = slice(start, start + BLOCK)
        part = _Part(load, diameter[block], OpenWaterCubic(cubic.kt[:, block], cubic.kq[:, block]))
        columns[:, block], governed[block] = part.meet()
    return Meeting._make((*columns.reshape(8, *shape), governed.reshape(shape)))


def _hold_drive(engine: Drive) -> None:
    hold_above_zero(gear_ratio=engine.gear_ratio)
    hold("kept_ratio", engine.kept_ratio, "must be above zero and at most 1.", above=0, at_most=1)


def _hold_hull(hull: HullCurve) -> tuple[Array, Array]:
    """Speeds, and at each T / (rho Va^2 D^2) before density and diameter: R / ((1-t) screws (1-w)^2 V^2)."""
    speed, resistance = hold_above_zero(speed_mps=hull.speed_mps, resistance_n=hull.resistance_n)
    wake = hold("wake_ratio", hull.wake_ratio, "must be known and below 1.", below=1)
    deduction = hold("deduction_ratio", hull.deduction_ratio, "must be known and below 1.", below=1)
    screws = hold("screw_count", hull.screw_count, "must be 1 or more.", at_least=1)
    if speed.ndim != 1 or speed.size < 2 or speed.shape != resistance.shape:
        raise OutsideRange("resistance_n", "must have a figure for each of two speeds or more.")
    known = ~np.isnan(speed + resistance)
    speed, resistance = speed[known], resistance[known]
    if speed.size < 2 or not np.all(np.diff(speed) > 0):
        raise OutsideRange("speed_mps", "must rise from each row to the next, with two rows or more that are known.")
    return speed, resistance / ((1 - deduction) * screws * (1 - wake) ** 2 * speed**2)


class _Load(NamedTuple):
    """What is the same for every propeller."""

    engine: Drive
    speeds: Array
    pulls: Array
    density: float
    wake: float

    def torque(self, turns: Array) -> Array:
        """What the engine can bring to the shaft; below its curve as at the first point."""
        curve, gear = self.engine.curve, self.engine.gear_ratio
        torque = np.interp(turns * gear, curve.engine_speed_rps, curve.torque_nm)
        return np.asarray(torque * gear * self.engine.kept_ratio)


class _Part(NamedTuple):
    """One block of propellers."""

    load: _Load
    diameter: Array
    cubic: OpenWaterCubic

    def turning(self, speed: Array) -> tuple[Array, Array, Array]:
        """J, turns of the shaft and torque at which the thrust carries the hull at a speed."""
        pull = np.interp(speed, self.load.speeds, self.load.pulls)
        j = advance_at_load(self.cubic.kt, pull / (self.load.density * self.diameter**2))
        turns = speed * (1 - self.load.wake) / (j * self.diameter)
        return j, turns, at_advance(self.cubic.kq, j) * self.load.density * turns**2 * self.diameter**5

    def margins(self, speed: Array) -> tuple[Array, Array]:
        """How much torque and how many turns are left over, each as a part of the most there is."""
        _, turns, torque = self.turning(speed)
        given = self.load.torque(turns)
        most = self.load.engine.curve.engine_speed_rps[-1] / self.load.engine.gear_ratio
        return 1 - torque / given, 1 - turns / most

    def left_over(self, speed: Array) -> Array:
        """Above zero while the boat still gathers speed."""
        return np.asarray(np.minimum(*self.margins(speed)))

    def meet(self) -> tuple[Array, NDArray[np.bool_]]:
        """The columns of Meeting for this block."""
        speed = root_between(self.left_over, *self.bracket())
        j, turns, torque = self.turning(speed)
        engine_speed = turns * self.load.engine.gear_ratio
        low = self.load.engine.curve.engine_speed_rps[0]
        speed = np.where(engine_speed < low, np.nan, speed)
        by_torque, by_turns = self.margins(speed)
        known = 0 * speed
        thrust_factor = at_advance(self.cubic.kt, j)
        thrust = thrust_factor * self.load.density * turns**2 * self.diameter**4
        efficiency = j * thrust_factor / (2 * np.pi * at_advance(self.cubic.kq, j))
        power = 2 * np.pi * turns * torque
        columns = np.stack([turns, engine_speed, speed, j, efficiency, thrust, torque, power]) + known
        return columns, by_turns < by_torque

    def bracket(self) -> tuple[Array, Array]:
        """The first two neighbouring speeds between which nothing is left over; NaN where there are none."""
        low = np.full(self.diameter.shape, np.nan)
        high = low.copy()
        looks = np.linspace(self.load.speeds[0], self.load.speeds[-1], LOOKS)
        gathers = self.left_over(np.broadcast_to(looks[0], low.shape)) > 0
        for slow, fast in pairwise(looks):
            left = self.left_over(np.broadcast_to(fast, low.shape))
            stops = gathers & (left <= 0)
            low[stops], high[stops] = slow, fast
            gathers &= left > 0
            if not gathers.any():
                break
        return low, high
