"""The steps of Savitsky 1964, each under a name of its own and beside it the paper's."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_range import hold_deadrise
from yardapp.formulas.imperial import STANDARD_GRAVITY_MPS2
from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero

Array = NDArray[np.float64]

ROUGHNESS_ALLOWANCE = 0.0004
# How much of the dynamic pressure is left under the hull, at least, while the trim is searched for.
LEAST_SLOWING = 0.01
LEAST_TRIM_RAD, GREATEST_TRIM_RAD = np.radians(2.0), np.radians(15.0)


class Planing(NamedTuple):
    """A planing hull at a trim, step by step; the paper's symbols, with its trim in degrees.

    Cv speed_coefficient, CLb lift_factor, CL0 flat_lift_factor, tau^1.1 trim_factor, lambda wetted_ratio (mean wetted
    length over beam), Cp centre_ratio, Vm mean_speed_mps, Re reynolds_number, Cf friction_factor, Df friction_n,
    Delta tan tau pressure_drag_n, D resistance_n; moment_nm is what is left over of the moments, power_w D V; keel_m
    the wetted length of the keel and draught_m that of the transom's keel.
    """

    trim_rad: Array
    speed_coefficient: Array
    lift_factor: Array
    flat_lift_factor: Array
    trim_factor: Array
    wetted_ratio: Array
    centre_ratio: Array
    mean_speed_mps: Array
    reynolds_number: Array
    friction_factor: Array
    friction_n: Array
    pressure_drag_n: Array
    resistance_n: Array
    moment_nm: Array
    power_w: Array
    keel_m: Array
    draught_m: Array

    @property
    def plate_ratio(self) -> Array:
        """CL0 / tau^1.1, by which the paper enters its chart of lift."""
        return self.flat_lift_factor / self.trim_factor

    @property
    def pressure_ratio(self) -> Array:
        """Centre of pressure ahead of the transom over beam: lp / b."""
        return self.centre_ratio * self.wetted_ratio

    @property
    def porpoising_ratio(self) -> Array:
        """Square root of CLb / 2, by which the paper enters its chart of porpoising; the chart itself is not here."""
        return np.sqrt(self.lift_factor / 2)


class Boat(NamedTuple):
    """What `savitsky` was told, held, with weight for mass; the density of the drag beside that of the lift."""

    speed: Array
    weight: Array
    lcg: Array
    vcg: Array
    beam: Array
    deadrise: Array
    arm: Array
    shaft: Array
    density: Array
    viscosity: Array
    drag_density: Array


def keel_wetted_length(
    wetted_ratio: ArrayLike, trim_rad: ArrayLike, beam_m: ArrayLike, deadrise_rad: ArrayLike
) -> Array:
    """Wetted length of a planing hull's keel: lambda b + b tan(beta) / (2 pi tan(tau)).

    Parameters
    ----------
    wetted_ratio : array_like, shape S
        Mean wetted length over beam, lambda, 1.
    trim_rad : array_like, shape S
        Keel against the water, tau, rad.
    beam_m : array_like, shape S
        Beam over the chines, b, m.
    deadrise_rad : array_like, shape S
        Deadrise angle, beta, rad.

    Returns
    -------
    keel_m : ndarray, shape S
        m; times the sine of the trim it is the draught of the keel at the transom. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero (deadrise may be zero); trim is above 15 or deadrise 50 degrees or more.

    Source
    ------
    D. Savitsky, Hydrodynamic design of planing hulls, Marine Technology 1(1), 1964, 71-95.

    Examples
    --------
    >>> keel_m = keel_wetted_length(3.29, np.radians(2.3), 14 * 0.3048, np.radians(10))
    >>> print(f"{keel_m / 0.3048:.0f} ft")
    56 ft
    """
    alike(wetted_ratio=wetted_ratio, trim_rad=trim_rad, beam_m=beam_m, deadrise_rad=deadrise_rad)
    wetted, trim, beam = hold_above_zero(wetted_ratio=wetted_ratio, trim_rad=trim_rad, beam_m=beam_m)
    hold("trim_rad", trim, "must be above zero and at most 15 degrees (0.2618 rad).", at_most=GREATEST_TRIM_RAD)
    return _keel(wetted, trim, beam, hold_deadrise(deadrise_rad))


def at_trim(trim: Array, boat: Boat) -> Planing:
    """The hull held at a trim.

    Parameters
    ----------
    trim : ndarray, shape S
        Keel against the water, rad.
    boat : Boat
        The hull.

    Returns
    -------
    planing : Planing
        Every step, of whatever shape it comes to.

    Raises
    ------
    ValueError
        The shapes do not go together.

    Source
    ------
    As for `savitsky`.

    Examples
    --------
    >>> told = (9.0, 2e4, 3.0, 0.5, 2.0, 0.2, 0.0, 0.0, 1025.0, 1e-6, 1025.0)
    >>> boat = Boat(*(np.asarray(figure) for figure in told))
    >>> float(at_trim(np.asarray(0.07), boat).trim_factor.round(1))
    4.6
    """
    trim_factor = np.degrees(trim) ** 1.1
    coefficient = np.asarray(boat.speed / np.sqrt(STANDARD_GRAVITY_MPS2 * boat.beam))
    lift = np.asarray(boat.weight / (0.5 * boat.density * boat.speed**2 * boat.beam**2))
    flat_lift = _flat_lift(lift, np.degrees(boat.deadrise))
    wetted = _wetted_ratio(flat_lift / trim_factor, coefficient)
    mean_speed = _mean_speed(trim, wetted, boat)
    reynolds = mean_speed * wetted * boat.beam / boat.viscosity
    friction_factor = _schoenherr(reynolds)
    surface = wetted * boat.beam**2 / np.cos(boat.deadrise)
    friction = 0.5 * boat.drag_density * mean_speed**2 * surface * (friction_factor + ROUGHNESS_ALLOWANCE)
    pressure_drag = np.asarray(boat.weight * np.tan(trim))
    drag = np.asarray(pressure_drag + friction / np.cos(trim))
    centre = 0.75 - 1 / (5.21 * coefficient**2 / wetted**2 + 2.39)
    keel = _keel(wetted, trim, boat.beam, boat.deadrise)
    return Planing(
        trim_rad=trim,
        speed_coefficient=coefficient,
        lift_factor=lift,
        flat_lift_factor=flat_lift,
        trim_factor=trim_factor,
        wetted_ratio=wetted,
        centre_ratio=centre,
        mean_speed_mps=mean_speed,
        reynolds_number=reynolds,
        friction_factor=friction_factor,
        friction_n=friction,
        pressure_drag_n=pressure_drag,
        resistance_n=drag,
        moment_nm=_moment(trim, centre * wetted * boat.beam, friction, boat),
        power_w=np.asarray(drag * boat.speed),
        keel_m=keel,
        draught_m=np.asarray(keel * np.sin(trim)),
    )


def _keel(wetted: Array, trim: Array, beam: Array, deadrise: Array) -> Array:
    return as_given(wetted * beam + beam * np.tan(deadrise) / (2 * np.pi * np.tan(trim)))


def _mean_speed(trim: Array, wetted: Array, boat: Boat) -> Array:
    """Speed of the water along the bottom, slowed by the pressure under it."""
    flat = 0.0120 * np.sqrt(wetted) * np.degrees(trim) ** 1.1
    dynamic = flat - 0.0065 * np.degrees(boat.deadrise) * flat**0.6
    return np.asarray(boat.speed * np.sqrt(np.maximum(1 - dynamic / (wetted * np.cos(trim)), LEAST_SLOWING)))


def _moment(trim: Array, pressure_arm: Array, friction: Array, boat: Boat) -> Array:
    """About the centre of gravity; with no thrust arm said, all forces but the pressure go through it."""
    arm = np.nan_to_num(boat.arm)
    lever = boat.lcg - pressure_arm
    rise = (1 - np.sin(trim) * np.sin(trim + boat.shaft)) * lever / np.cos(trim) - arm * np.sin(trim)
    full = boat.weight * rise + friction * (boat.vcg - boat.beam / 4 * np.tan(boat.deadrise) - arm)
    return np.where(np.isnan(boat.arm), boat.weight * lever, full)


def _flat_lift(needed: Array, deadrise_deg: Array) -> Array:
    """Lift coefficient of the flat plate that lifts as much: CLb = CL0 - 0.0065 beta CL0^0.6, by Newton from above."""
    loss = 0.0065 * deadrise_deg
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
