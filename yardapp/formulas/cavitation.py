"""Whether the blades are large enough for their load: four criteria that do not always agree."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.area import projected_area_ratio
from yardapp.formulas.cavitation_pressure import blade_pressure, blade_pressure_limit, tip_speed, tip_speed_band
from yardapp.formulas.imperial import STANDARD_GRAVITY_MPS2
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero, hold_whole
from yardapp.formulas.tables import Row, figure, table

__all__ = [
    "BladeLoad",
    "blade_load",
    "blade_pressure",
    "blade_pressure_limit",
    "burrill_limit",
    "keller_area_ratio",
    "tip_speed",
    "tip_speed_band",
]

Array = NDArray[np.float64]

# Atmosphere less vapour of sea water at 15 C, as Holtrop & Mennen 1982 print it.
AIR_LESS_VAPOUR_PA = 99_047.0
QUARTIC = (-0.086514, 0.33891, -0.51222, 0.5111, 0.018006)


class BladeLoad(NamedTuple):
    """Cavitation number and thrust loading at 0.7 R, and what they are made of."""

    cavitation_number: Array
    thrust_loading_ratio: Array
    blade_speed_mps: Array
    projected_m2: Array


def keller_area_ratio(
    thrust_n: ArrayLike,
    diameter_m: ArrayLike,
    blades: ArrayLike,
    shaft_depth_m: ArrayLike,
    allowance_ratio: ArrayLike = 0.2,
    pressure_pa: ArrayLike = AIR_LESS_VAPOUR_PA,
    density_kgpm3: ArrayLike = 1025.0,
) -> Array:
    """Least expanded area ratio: K + (1.3 + 0.3 Z) T / (D^2 (p0 - pv + rho g h)).

    Parameters
    ----------
    thrust_n : array_like, shape S
        Thrust of one propeller, N.
    diameter_m : array_like, shape S
        Diameter, m.
    blades : array_like, shape S
        Number of blades, 2 to 7.
    shaft_depth_m : array_like, shape S
        Shaft's centre below the water, m.
    allowance_ratio : array_like, shape S
        K: 0.2 for a single screw, 0 to 0.1 for twin screws.
    pressure_pa : array_like, shape S
        Atmosphere less vapour pressure, Pa; as it stands sea water at 15 C.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    area_ratio : ndarray, shape S
        AE/A0, 1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero (the depth and K may be zero); the blades are not a whole number from 2 to 7.

    Validity
    --------
    2 to 7 blades, K 0 to 0.2.

    Source
    ------
    J. auf'm Keller 1966, as given in Holtrop & Mennen, Int. Shipb. Progress 29(335), 1982.

    Examples
    --------
    >>> float(keller_area_ratio(2_172_750.0, 8.0, 4, 5.8))
    0.739
    """
    alike(**locals())
    thrust, diameter, pressure, density = hold_above_zero(
        thrust_n=thrust_n, diameter_m=diameter_m, pressure_pa=pressure_pa, density_kgpm3=density_kgpm3
    )
    count = hold_whole("blades", blades, "must be a whole number from 2 to 7.", at_least=2, at_most=7)
    depth = hold("shaft_depth_m", shaft_depth_m, "must be zero or more.", at_least=0)
    allowance = hold("allowance_ratio", allowance_ratio, "must lie from 0 to 0.2.", at_least=0, at_most=0.2)
    there = pressure + density * STANDARD_GRAVITY_MPS2 * depth
    return as_given(allowance + (1.3 + 0.3 * count) * thrust / (diameter**2 * there))


def blade_load(
    thrust_n: ArrayLike,
    shaft_speed_rps: ArrayLike,
    advance_speed_mps: ArrayLike,
    diameter_m: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    shaft_depth_m: ArrayLike,
    pressure_pa: ArrayLike = AIR_LESS_VAPOUR_PA,
    density_kgpm3: ArrayLike = 1025.0,
) -> BladeLoad:
    """Burrill's two figures: sigma = (p0 - pv + rho g h) / (rho VR^2 / 2) and tau = T / (AP rho VR^2 / 2) at 0.7 R.

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
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, 1; taken for the developed area too.
    shaft_depth_m : array_like, shape S
        Shaft's centre below the water, m.
    pressure_pa : array_like, shape S
        Atmosphere less vapour pressure, Pa; as it stands sea water at 15 C.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    load : BladeLoad
        cavitation_number, thrust_loading_ratio, blade_speed_mps and projected_m2, each of shape S; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero (speed of advance and depth may be zero); P/D lies outside 0.6 to 1.4.

    Validity
    --------
    P/D 0.6 to 1.4, where Taylor's line gives the projected area.

    Source
    ------
    L. C. Burrill & A. Emerson, Trans. NECIES 60 (1943) and 79 (1963); projected area by Taylor's line.

    Examples
    --------
    >>> load = blade_load(12384.0, 20.0, 7.202, 0.6641, 0.8105, 0.70, 0.80, 99621.0)
    >>> print(f"{load.cavitation_number:.3f} {load.thrust_loading_ratio:.3f}")
    0.232 0.125
    """
    alike(**locals())
    thrust, turns, diameter, area, pressure, density = hold_above_zero(
        thrust_n=thrust_n,
        shaft_speed_rps=shaft_speed_rps,
        diameter_m=diameter_m,
        area_ratio=area_ratio,
        pressure_pa=pressure_pa,
        density_kgpm3=density_kgpm3,
    )
    speed = hold("advance_speed_mps", advance_speed_mps, "must be zero or more.", at_least=0)
    depth = hold("shaft_depth_m", shaft_depth_m, "must be zero or more.", at_least=0)
    blade_speed = np.hypot(speed, 0.7 * np.pi * turns * diameter)
    dynamic = 0.5 * density * blade_speed**2
    projected = area * np.pi / 4 * diameter**2 * projected_area_ratio(pitch_ratio)
    sigma = (pressure + density * STANDARD_GRAVITY_MPS2 * depth) / dynamic
    return BladeLoad(sigma, thrust / (dynamic * projected), blade_speed, projected)


def burrill_limit(cavitation_number: ArrayLike, line: str) -> Array:
    """Greatest thrust loading at a cavitation number, by one of the fits to Burrill's chart.

    Parameters
    ----------
    cavitation_number : array_like, shape S
        Sigma at 0.7 R, 1.
    line : str
        "heavily_loaded", "merchant", "fast", "merchant_quartic" or "flat_faced". Authors differ in what percentage a
        line stands for: show which was used.

    Returns
    -------
    thrust_loading_ratio : ndarray, shape S
        tau_c, 1; NaN where the number is not known.

    Raises
    ------
    OutsideRange
        There is no such line, or the number lies outside the line's range.

    Validity
    --------
    Sigma 0.06-1.5; flat_faced about 0.1-0.6; merchant_quartic from 0 on: flat below 0.124 and above 1.5.

    Source
    ------
    `tables/burrill.csv`, most of it from memory.

    Examples
    --------
    >>> float(burrill_limit(0.5, "merchant"))
    0.182
    """
    row = _line(line)
    if line == "merchant_quartic":
        sigma = hold("cavitation_number", cavitation_number, "must be above zero.", above=0)
        flat_above = np.where(sigma > 1.5, 0.338, np.polyval(QUARTIC, np.minimum(sigma, 1.5)))
        return as_given(np.where(sigma < figure(row, "low"), 0.075, flat_above))
    low, high = figure(row, "low"), figure(row, "high")
    said = f"must lie from {low:g} to {high:g} for the line {line}."
    sigma = hold("cavitation_number", cavitation_number, said, at_least=low, at_most=high)
    return as_given(figure(row, "factor") * (sigma - figure(row, "shift")) ** figure(row, "power"))


def _line(line: str) -> Row:
    lines = {row["line"]: row for row in table("burrill")}
    if line not in lines:
        raise OutsideRange("line", f"must be one of {', '.join(lines)}.", line)
    return lines[line]
