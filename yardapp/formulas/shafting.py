"""Shafts: torque, strength and the key; bearings and materials lie beside and are reached from here."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero
from yardapp.formulas.shaft_bearings import bearing_span, bearing_wear_limit, first_critical_speed
from yardapp.formulas.shaft_materials import ShaftMaterial, shaft_materials

__all__ = [
    "KeyStress",
    "ShaftMaterial",
    "bearing_span",
    "bearing_wear_limit",
    "first_critical_speed",
    "key_stress",
    "shaft_diameter_class",
    "shaft_diameter_required",
    "shaft_materials",
    "torque",
]


def torque(power_w: ArrayLike, shaft_speed_rps: ArrayLike) -> NDArray[np.float64]:
    """Torque that carries a power at a speed of rotation: P / (2 pi n).

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the shaft, after the gearbox, W.
    shaft_speed_rps : array_like, shape S
        Turns of the propeller shaft a second, 1/s.

    Returns
    -------
    torque_nm : ndarray, shape S
        N m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Mechanics.

    Examples
    --------
    >>> float(torque(30000.0, 20.0))
    238.7
    """
    power_w, shaft_speed_rps = hold_above_zero(power_w=power_w, shaft_speed_rps=shaft_speed_rps)
    return power_w / (2 * np.pi * shaft_speed_rps)


def shaft_diameter_required(
    power_w: ArrayLike, shaft_speed_rps: ArrayLike, torsional_yield_pa: ArrayLike, safety_factor: ArrayLike
) -> NDArray[np.float64]:
    """Solid round shaft in torsion: (16 T SF / (pi St)) ^ (1/3).

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the shaft, W.
    shaft_speed_rps : array_like, shape S
        Turns of the propeller shaft (not the engine) a second, 1/s.
    torsional_yield_pa : array_like, shape S
        Yield in torsional shear, not in tension, Pa.
    safety_factor : array_like, shape S
        2 for a light petrol yacht, 3 for an average one, 5 to 6 for pilot and patrol boats, 1.

    Returns
    -------
    diameter_m : ndarray, shape S
        Least diameter, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the safety factor is below 1.

    Source
    ------
    D. Gerr, Boat Mechanical Systems Handbook, Formula 1-2; Westlawn Masthead 18, p. 15.

    Examples
    --------
    >>> float(shaft_diameter_required(300e3, 1050 / 60, 482e6, 3))
    0.0442
    """
    alike(
        power_w=power_w,
        shaft_speed_rps=shaft_speed_rps,
        torsional_yield_pa=torsional_yield_pa,
        safety_factor=safety_factor,
    )
    safety_factor = hold("safety_factor", safety_factor, "must be 1 or more.", at_least=1)
    (torsional_yield_pa,) = hold_above_zero(torsional_yield_pa=torsional_yield_pa)
    return np.cbrt(16 * torque(power_w, shaft_speed_rps) * safety_factor / (np.pi * torsional_yield_pa))


def shaft_diameter_class(
    power_w: ArrayLike,
    shaft_speed_rps: ArrayLike,
    tensile_strength_pa: ArrayLike,
    drive_factor: ArrayLike = 100.0,
    shaft_factor: ArrayLike = 1.26,
) -> NDArray[np.float64]:
    """Ship-class solid shaft: d(mm) = F k (P(kW) / n(rpm) 560 / (Rm + 160)) ^ (1/3).

    A cross-check only: the rule leaves out unprotected shafts in sea water.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the shaft, W.
    shaft_speed_rps : array_like, shape S
        Turns of the propeller shaft a second, 1/s.
    tensile_strength_pa : array_like, shape S
        Tensile strength Rm, Pa; above 600 MPa it counts as 600 MPa.
    drive_factor : array_like, shape S
        F: 100 for diesel drive, 1.
    shaft_factor : array_like, shape S
        k: 1.26 for a keyed propeller shaft, 1.

    Returns
    -------
    diameter_m : ndarray, shape S
        Least diameter, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    IACS UR M68 and Bureau Veritas' 2013 worked example (secondary); the cap of 600 MPa: GL/BKI main shafting rules.

    Examples
    --------
    >>> float(shaft_diameter_class(1324e3, 412.8 / 60, 600e6))
    0.1678
    """
    power_w, shaft_speed_rps, tensile_strength_pa, drive_factor, shaft_factor = hold_above_zero(
        power_w=power_w,
        shaft_speed_rps=shaft_speed_rps,
        tensile_strength_pa=tensile_strength_pa,
        drive_factor=drive_factor,
        shaft_factor=shaft_factor,
    )
    strength_mpa = np.minimum(tensile_strength_pa / 1e6, 600.0)
    kw_per_rpm = power_w / 1000 / (60 * shaft_speed_rps)
    return as_given(drive_factor * shaft_factor * np.cbrt(kw_per_rpm * 560 / (strength_mpa + 160)) / 1000)


@dataclass(frozen=True, kw_only=True)
class KeyStress:
    """Mean stresses in a key, Pa, if it carried all of the torque; on a taper the cone carries most."""

    shear_pa: NDArray[np.float64]
    bearing_pa: NDArray[np.float64]


def key_stress(
    torque_nm: ArrayLike,
    shaft_diameter_m: ArrayLike,
    width_m: ArrayLike,
    height_m: ArrayLike,
    length_m: ArrayLike,
) -> KeyStress:
    """Stresses in a key: F / (b L) in shear and F / (h/2 L) in bearing, with F = 2 T / d.

    Parameters
    ----------
    torque_nm : array_like, shape S
        Torque, N m.
    shaft_diameter_m : array_like, shape S
        Diameter of the shaft at the key, m.
    width_m : array_like, shape S
        Width of the key, m.
    height_m : array_like, shape S
        Height of the key, m.
    length_m : array_like, shape S
        Length that bears, m.

    Returns
    -------
    stress : KeyStress
        shear_pa and bearing_pa, shape S, Pa; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Mechanics; half of the height bears in the shaft and half in the hub.

    Examples
    --------
    >>> float(key_stress(238.7, 0.030, 0.008, 0.007, 0.060).shear_pa) / 1e6
    33.2
    """
    torque_nm, shaft_diameter_m, width_m, height_m, length_m = hold_above_zero(
        torque_nm=torque_nm, shaft_diameter_m=shaft_diameter_m, width_m=width_m, height_m=height_m, length_m=length_m
    )
    force_n = 2 * torque_nm / shaft_diameter_m
    return KeyStress(shear_pa=force_n / (width_m * length_m), bearing_pa=force_n / (height_m / 2 * length_m))
