"""Resistance and trim of a prismatic planing hull: Savitsky 1964."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_range import hold_deadrise, hold_proportion
from yardapp.formulas.hull_savitsky_steps import (
    GREATEST_TRIM_RAD,
    LEAST_SLOWING,
    LEAST_TRIM_RAD,
    Boat,
    Planing,
    at_trim,
)
from yardapp.formulas.imperial import STANDARD_GRAVITY_MPS2
from yardapp.formulas.ranges import alike, hold, hold_above_zero
from yardapp.formulas.roots import root_between

Array = NDArray[np.float64]

VISCOSITY_M2PS = 1.18831e-6


def savitsky(
    speed_mps: ArrayLike,
    mass_kg: ArrayLike,
    lcg_m: ArrayLike,
    vcg_m: ArrayLike,
    beam_m: ArrayLike,
    deadrise_rad: ArrayLike,
    thrust_arm_m: ArrayLike = np.nan,
    shaft_angle_rad: ArrayLike = 0.0,
    density_kgpm3: ArrayLike = 1025.0,
    viscosity_m2ps: ArrayLike = VISCOSITY_M2PS,
    drag_density_kgpm3: ArrayLike | None = None,
) -> Planing:
    """Trim at which the moments balance, and the resistance there.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    mass_kg : array_like, shape S
        Displacement, kg.
    lcg_m : array_like, shape S
        Centre of gravity forward of the transom, m.
    vcg_m : array_like, shape S
        Centre of gravity above the keel, m; not used where all forces go through it.
    beam_m : array_like, shape S
        Beam over the chines, m.
    deadrise_rad : array_like, shape S
        Deadrise angle, rad.
    thrust_arm_m : array_like, shape S
        Distance from the shaft's line to the centre of gravity, m; NaN: all forces go through the centre of gravity.
    shaft_angle_rad : array_like, shape S
        Shaft against the keel, rad.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.
    viscosity_m2ps : array_like, shape S
        Kinematic viscosity, m2/s; as it stands sea water at 15 C.
    drag_density_kgpm3 : array_like, shape S, optional
        Density that friction is reckoned with, kg/m3; left out, that of the lift. The paper's own example has two.

    Returns
    -------
    planing : Planing
        Each figure of shape S; NaN where not known or where no trim of 2 to 15 degrees balances the boat.

    Raises
    ------
    OutsideRange
        A figure is impossible, or the speed coefficient V/sqrt(g b) lies outside 1 to 13.

    Validity
    --------
    Speed coefficient 1 to 13, trim 2 to 15 degrees, mean wetted length up to 4 beams. A bare prism: no air, no
    appendages, no spray rails. Says nothing of porpoising.

    Source
    ------
    D. Savitsky, Hydrodynamic design of planing hulls, Marine Technology 1(1), 1964, 71-95; Schoenherr friction and
    0.0004.

    Examples
    --------
    >>> boat = dict(mass_kg=27215.5, lcg_m=8.839, vcg_m=0.610, beam_m=4.267, deadrise_rad=np.radians(10))
    >>> found = savitsky(20.574, **boat)
    >>> print(f"{np.degrees(found.trim_rad):.1f} deg, {found.resistance_n / 1000:.0f} kN")
    2.2 deg, 41 kN
    """
    said = locals().copy()
    boat = _hold_boat(said)
    shape = np.broadcast_shapes(*(np.shape(each) for each in boat))
    low, high = np.full(shape, LEAST_TRIM_RAD), np.full(shape, GREATEST_TRIM_RAD)
    return _known(at_trim(root_between(lambda trim: at_trim(trim, boat).moment_nm, low, high), boat), boat)


def savitsky_at_trim(
    trim_rad: ArrayLike,
    speed_mps: ArrayLike,
    mass_kg: ArrayLike,
    lcg_m: ArrayLike,
    vcg_m: ArrayLike,
    beam_m: ArrayLike,
    deadrise_rad: ArrayLike,
    thrust_arm_m: ArrayLike = np.nan,
    shaft_angle_rad: ArrayLike = 0.0,
    density_kgpm3: ArrayLike = 1025.0,
    viscosity_m2ps: ArrayLike = VISCOSITY_M2PS,
    drag_density_kgpm3: ArrayLike | None = None,
) -> Planing:
    """Wetted length, drag and unbalanced moment of a planing hull held at a trim: one column of the paper's Table 1.

    Parameters
    ----------
    trim_rad : array_like, shape S
        Keel against the water, rad.
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    mass_kg : array_like, shape S
        Displacement, kg.
    lcg_m : array_like, shape S
        Centre of gravity forward of the transom, m.
    vcg_m : array_like, shape S
        Centre of gravity above the keel, m.
    beam_m : array_like, shape S
        Beam over the chines, m.
    deadrise_rad : array_like, shape S
        Deadrise angle, rad.
    thrust_arm_m : array_like, shape S
        Distance from the shaft's line to the centre of gravity, m; NaN: all forces go through the centre of gravity.
    shaft_angle_rad : array_like, shape S
        Shaft against the keel, rad.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.
    viscosity_m2ps : array_like, shape S
        Kinematic viscosity, m2/s.
    drag_density_kgpm3 : array_like, shape S, optional
        As in `savitsky`, kg/m3.

    Returns
    -------
    planing : Planing
        Each figure of shape S; moment_nm above zero lifts the bow. NaN where not known or where more than 4 beams are
        wetted.

    Raises
    ------
    OutsideRange
        As `savitsky`; or the trim lies outside 2 to 15 degrees.

    Validity
    --------
    As `savitsky`.

    Source
    ------
    As for `savitsky`.

    Examples
    --------
    >>> boat = dict(mass_kg=27215.5, lcg_m=8.839, vcg_m=0.610, beam_m=4.267, deadrise_rad=np.radians(10))
    >>> print(f"{savitsky_at_trim(np.radians(3), 20.574, **boat).wetted_ratio:.1f}")
    2.5
    """
    said = locals().copy()
    boat = _hold_boat({name: figure for name, figure in said.items() if name != "trim_rad"})
    alike(**{name: figure for name, figure in said.items() if figure is not None})
    words = "must lie from 2 to 15 degrees (0.0349 to 0.2618 rad)."
    trim = hold("trim_rad", trim_rad, words, at_least=LEAST_TRIM_RAD, at_most=GREATEST_TRIM_RAD)
    return _known(at_trim(trim, boat), boat)


def _hold_boat(said: dict[str, ArrayLike]) -> Boat:
    if said["drag_density_kgpm3"] is None:
        said = said | {"drag_density_kgpm3": said["density_kgpm3"]}
    alike(**said)
    speed, mass, lcg, vcg, beam = hold_above_zero(
        **{name: said[name] for name in ("speed_mps", "mass_kg", "lcg_m", "vcg_m", "beam_m")}
    )
    density, viscosity, drag_density = hold_above_zero(
        **{name: said[name] for name in ("density_kgpm3", "viscosity_m2ps", "drag_density_kgpm3")}
    )
    deadrise = hold_deadrise(said["deadrise_rad"])
    words = "must lie within 30 degrees (0.5236 rad) either way."
    shaft = hold("shaft_angle_rad", said["shaft_angle_rad"], words, at_least=-np.pi / 6, at_most=np.pi / 6)
    arm = hold("thrust_arm_m", said["thrust_arm_m"], "must be finite.")
    coefficient = speed / np.sqrt(STANDARD_GRAVITY_MPS2 * beam)
    hold_proportion("speed_mps", speed, "the speed coefficient, for Savitsky,", coefficient, 1.0, 13.0)
    weight = mass * STANDARD_GRAVITY_MPS2
    return Boat(speed, weight, lcg, vcg, beam, deadrise, arm, shaft, density, viscosity, drag_density)


def _known(planing: Planing, boat: Boat) -> Planing:
    """Nothing is known of a hull with more than 4 beams wetted, or so few that the water under it would stand still."""
    outside = (planing.wetted_ratio > 4) | (planing.mean_speed_mps**2 <= 1.01 * LEAST_SLOWING * boat.speed**2)
    known = np.where(outside, np.nan, 0.0) + 0 * planing.moment_nm + 0 * planing.resistance_n
    return Planing(*(each + known for each in planing))
