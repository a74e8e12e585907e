"""Where on the map of sizes the blades are too small for their load, by the criterion that the yard goes by."""

import numpy as np
from numpy.typing import NDArray

from yardapp.fit.checks.blades import SINGLE_K, TWIN_K
from yardapp.fit.figures import Limits
from yardapp.formulas.cavitation import blade_load, burrill_limit, keller_area_ratio
from yardapp.formulas.cavitation_pressure import blade_pressure, blade_pressure_limit
from yardapp.formulas.sizing import Meeting
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]
LEAST_TAYLOR, MOST_TAYLOR = 0.6, 1.4  # pitch ratios between which the projected area is known


def share_taken(
    met: Meeting,
    sizes: tuple[Array, Array],
    blades: int,
    area_ratio: float,
    *,
    depth_m: float,
    wake_ratio: float,
    is_twin: bool | None,
    limits: Limits,
) -> Array:
    """How much of what the criterion allows the load takes: above 1 the area falls short, NaN where it has no answer.

    `sizes` are diameters and pitches, m.
    """
    diameter, pitch = sizes
    thrust = np.where(met.thrust_n > 0, met.thrust_n, np.nan)
    advance = met.speed_mps * (1 - wake_ratio)
    if limits.area_criterion == "Keller":
        allowance = TWIN_K if is_twin else SINGLE_K
        return np.asarray(keller_area_ratio(thrust, diameter, blades, depth_m, allowance) / area_ratio)
    if limits.area_criterion == "Burrill":
        ratio = pitch / diameter
        known = np.where((ratio >= LEAST_TAYLOR) & (ratio <= MOST_TAYLOR), ratio, np.nan)
        turns = np.where(np.isnan(thrust), np.nan, met.shaft_speed_rps)
        load = blade_load(thrust, turns, advance, diameter, known, area_ratio, depth_m)
        return np.asarray(load.thrust_loading_ratio / _burrill(load.cavitation_number, limits.burrill_line))
    developed = area_ratio * np.pi / 4 * diameter**2
    power, efficiency = (np.where(np.isnan(thrust), np.nan, one) for one in (met.power_w, met.efficiency))
    pressure = blade_pressure(power, efficiency, np.where(np.isnan(thrust), np.nan, advance), developed)
    return np.asarray(pressure / blade_pressure_limit(np.where(np.isnan(thrust), np.nan, advance), depth_m))


def _burrill(sigma: Array, line: str) -> Array:
    """The line's limit; beyond its ends the limit at its end, which is on the safe side above it."""
    row = next(one for one in table("burrill") if one["line"] == line)
    return np.asarray(burrill_limit(np.clip(sigma, figure(row, "low"), figure(row, "high")), line))
