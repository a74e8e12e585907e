"""Resistance and trim of a prismatic planing hull: Savitsky 1964."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_range import hold_proportion
from yardapp.formulas.imperial import STANDARD_GRAVITY_MPS2
from yardapp.formulas.ranges import alike, hold, hold_above_zero
from yardapp.formulas.roots import root_between

Array = NDArray[np.float64]

VISCOSITY_M2PS = 1.18831e-6
ROUGHNESS_ALLOWANCE = 0.0004
# How much of the dynamic pressure is left under the hull, at least, while the trim is searched for.
LEAST_SLOWING = 0.01
LEAST_TRIM_RAD, GREATEST_TRIM_RAD = np.radians(2.0), np.radians(15.0)


class Planing(NamedTuple):
    """A planing hull at a trim: mean wetted length over beam, drag and what is left over of the moments."""

    trim_rad: Array
    wetted_ratio: Array
    centre_ratio: Array
    mean_speed_mps: Array
    friction_factor: Array
    friction_n: Array
    resistance_n: Array
    moment_nm: Array
    power_w: Array


class _Boat(NamedTuple):
    speed: Array
    weight: Array
    lcg: Array
    vcg: Array
    beam: Array
    deadrise: Array
    arm: Array
    shaft: Array
    density: Array
    viscosity: float


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
    viscosity_m2ps: float = VISCOSITY_M2PS,
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
    viscosity_m2ps : float
        Kinematic viscosity, m2/s; as it stands sea water at 15 C.

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
    return _known(_at_trim(root_between(lambda trim: _at_trim(trim, boat).moment_nm, low, high), boat), boat)


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
    viscosity_m2ps: float = VISCOSITY_M2PS,
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
    viscosity_m2ps : float
        Kinematic viscosity, m2/s.

    Returns
    -------
    planing : Planing
        Each figure of shape S; moment_nm above zero lifts the bow. NaN where not known or where more than 4 beams are
        wetted.

    Raises
    ------
    OutsideRange
        As `savitsky`; or the trim lies outside 2 to 15 degrees.

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
    alike(speed_mps=sum(boat[:-1]), trim_rad=trim_rad)
    words = "must lie from 2 to 15 degrees (0.0349 to 0.2618 rad)."
    trim = hold("trim_rad", trim_rad, words, at_least=LEAST_TRIM_RAD, at_most=GREATEST_TRIM_RAD)
    return _known(_at_trim(trim, boat), boat)


def _hold_boat(said: dict[str, ArrayLike]) -> _Boat:
    viscosity = float(np.asarray(said.pop("viscosity_m2ps")))
    alike(**said)
    names = ("speed_mps", "mass_kg", "lcg_m", "vcg_m", "beam_m", "density_kgpm3")
    speed, mass, lcg, vcg, beam, density = hold_above_zero(**{name: said[name] for name in names})
    right = "must be at least zero and less than 50 degrees (0.8727 rad)."
    deadrise = hold("deadrise_rad", said["deadrise_rad"], right, at_least=0, below=np.radians(50))
    shaft = hold(
        "shaft_angle_rad", said["shaft_angle_rad"], "must lie within 30 degrees.", at_least=-0.53, at_most=0.53
    )
    arm = hold("thrust_arm_m", said["thrust_arm_m"], "must be finite.")
    coefficient = speed / np.sqrt(STANDARD_GRAVITY_MPS2 * beam)
    hold_proportion("speed_mps", "the speed coefficient, for Savitsky,", coefficient, 1.0, 13.0)
    return _Boat(speed, mass * STANDARD_GRAVITY_MPS2, lcg, vcg, beam, deadrise, arm, shaft, density, viscosity)


def _known(planing: Planing, boat: _Boat) -> Planing:
    """Nothing is known of a hull with more than 4 beams wetted, or so few that the water under it would stand still."""
    outside = (planing.wetted_ratio > 4) | (planing.mean_speed_mps**2 <= 1.01 * LEAST_SLOWING * boat.speed**2)
    return Planing(*(np.where(outside, np.nan, each) for each in planing))


def _at_trim(trim: Array, boat: _Boat) -> Planing:
    degrees = np.degrees(trim)
    coefficient = boat.speed / np.sqrt(STANDARD_GRAVITY_MPS2 * boat.beam)
    wetted = _wetted_ratio(_flat_lift(boat) / degrees**1.1, coefficient)
    centre = 0.75 - 1 / (5.21 * coefficient**2 / wetted**2 + 2.39)
    flat = 0.0120 * np.sqrt(wetted) * degrees**1.1
    dynamic = flat - 0.0065 * np.degrees(boat.deadrise) * flat**0.6
    mean_speed = boat.speed * np.sqrt(np.maximum(1 - dynamic / (wetted * np.cos(trim)), LEAST_SLOWING))
    friction_factor = _schoenherr(mean_speed * wetted * boat.beam / boat.viscosity)
    surface = wetted * boat.beam**2 / np.cos(boat.deadrise)
    friction = 0.5 * boat.density * mean_speed**2 * surface * (friction_factor + ROUGHNESS_ALLOWANCE)
    drag = boat.weight * np.tan(trim) + friction / np.cos(trim)
    moment = _moment(trim, centre * wetted * boat.beam, friction, boat)
    power = np.asarray(drag * boat.speed)
    return Planing(trim, wetted, centre, mean_speed, friction_factor, friction, drag, moment, power)


def _moment(trim: Array, pressure_arm: Array, friction: Array, boat: _Boat) -> Array:
    """About the centre of gravity; with no thrust arm said, all forces but the pressure go through it."""
    arm = np.nan_to_num(boat.arm)
    lever = boat.lcg - pressure_arm
    rise = (1 - np.sin(trim) * np.sin(trim + boat.shaft)) * lever / np.cos(trim) - arm * np.sin(trim)
    full = boat.weight * rise + friction * (boat.vcg - boat.beam / 4 * np.tan(boat.deadrise) - arm)
    return np.where(np.isnan(boat.arm), boat.weight * lever, full)


def _flat_lift(boat: _Boat) -> Array:
    """Lift coefficient of the flat plate that lifts as much: CLb = CL0 - 0.0065 beta CL0^0.6, by Newton from above."""
    needed = boat.weight / (0.5 * boat.density * boat.speed**2 * boat.beam**2)
    loss = 0.0065 * np.degrees(boat.deadrise)
    lift: Array = 2 * needed + (2 * loss) ** 2.5
    for _ in range(25):
        lift = lift - (lift - loss * lift**0.6 - needed) / (1 - 0.6 * loss * lift**-0.4)
    return lift


def _wetted_ratio(lift: Array, coefficient: Array) -> Array:
    """Root of 0.0120 x + 0.0055 x^5 / Cv^2 = lift, x the square root of the ratio, by Newton from above."""
    curve = 0.0055 / coefficient**2
    x: Array = np.minimum(lift / 0.0120, (lift / curve) ** 0.2)
    for _ in range(12):
        x = x - (0.0120 * x + curve * x**5 - lift) / (0.0120 + 5 * curve * x**4)
    return np.asarray(x**2)


def _schoenherr(reynolds: Array) -> Array:
    """0.242 / sqrt(CF) = log10(Rn CF), by Newton in 1/sqrt(CF); below 1e4, where it means nothing, as there."""
    reynolds = np.maximum(reynolds, 1e4)
    y: Array = np.full(np.shape(reynolds), 22.0)
    for _ in range(12):
        y = y - (0.242 * y + 2 * np.log10(y) - np.log10(reynolds)) / (0.242 + 2 / (y * np.log(10)))
    return np.asarray(y**-2.0)
