"""Many propellers, or one in many guises, put to one engine and hull in a single call."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from yardapp.fit.loading.parts import Array, Premises
from yardapp.formulas.b_series_range import GREATEST_PITCH_RATIO, LEAST_PITCH_RATIO
from yardapp.formulas.sizing import Drive, HullCurve, Meeting, Propellers, meeting_point

LEAST_AREA, MOST_AREA = 0.30, 1.05
LEAST_BLADES, MOST_BLADES = 2, 7
WATER = ("wake_ratio", "deduction_ratio")
LEAST_WATER, MOST_WATER = 0.5, 0.8


def meet(
    premises: Premises, diameter_m: ArrayLike, pitch_m: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike
) -> Meeting:
    """What each propeller reaches, the governor holding; NaN for one that lies outside the series."""
    return meeting_point(premises.engine, premises.hull, _of_series(diameter_m, pitch_m, area_ratio, blades))


def free_meet(
    premises: Premises,
    diameter_m: ArrayLike,
    pitch_m: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    **spread: ArrayLike,
) -> Meeting:
    """What each would reach were there no governor; `spread` takes the place of the premises' own, by their names."""
    said: dict[str, Any] = {one.name: one.value for one in premises.unsure} | spread
    given = {name: _above_zero(figure) for name, figure in said.items() if name not in WATER}
    given |= {name: _within(np.asarray(said[name], float), -LEAST_WATER, MOST_WATER) for name in WATER}
    torque = given["power_factor"] / (given["speed_factor"] * given["series_factor"])
    engine = Drive(
        curve=premises.free.curve,
        gear_ratio=given["gear_ratio"],
        kept_ratio=np.minimum(given["kept_ratio"], 1.0),
        torque_factor=torque,
    )
    hull = HullCurve(
        speed_mps=premises.hull.speed_mps,
        resistance_n=premises.hull.resistance_n,
        wake_ratio=given["wake_ratio"],
        deduction_ratio=given["deduction_ratio"],
        screw_count=premises.hull.screw_count,
        resistance_factor=given["resistance_factor"],
    )
    return meeting_point(engine, hull, _of_series(diameter_m, pitch_m, area_ratio, blades))


def propped(premises: Premises, free: Meeting, speed_factor: ArrayLike = 1.0) -> Array:
    """Free speed over the rated: below 1 the propeller holds the engine down."""
    return np.asarray(free.engine_speed_rps / (premises.rated_speed_rps * np.asarray(speed_factor)))


def _of_series(diameter_m: ArrayLike, pitch_m: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike) -> Propellers:
    diameter = _above_zero(diameter_m)
    pitch = np.asarray(pitch_m, float) / diameter
    count = np.asarray(blades, float)
    return Propellers(
        diameter_m=diameter,
        pitch_ratio=_within(pitch, LEAST_PITCH_RATIO, GREATEST_PITCH_RATIO),
        area_ratio=_within(np.asarray(area_ratio, float), LEAST_AREA, MOST_AREA),
        blades=_within(np.where(count == np.round(count), count, np.nan), LEAST_BLADES, MOST_BLADES),
    )


def _above_zero(figure: ArrayLike) -> Array:
    """NaN where a spread as wide as the figure itself would make it nothing."""
    figure = np.asarray(figure, float)
    return np.where(figure > 0, figure, np.nan)


def _within(figures: Array, low: float, high: float) -> Array:
    return np.where((figures >= low) & (figures <= high), figures, np.nan)
