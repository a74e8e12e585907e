"""Speed and power of a boat from its weight and length alone: handbook lines with their limits."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.imperial import FOOT_M, HORSEPOWER_W, KNOT_MPS, LONG_TON_KG, POUND_KG
from yardapp.formulas.ranges import OutsideRange, as_given, hold_above_zero
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]

LEAST_RATIO = 1.34
PLANING_RATIO = 2.5


class DisplacementSpeed(NamedTuple):
    """What the formula gives, how fast the formula's own hull limit lets it go, and whether it is beyond that."""

    speed_mps: Array
    limit_mps: Array
    is_beyond: NDArray[np.bool_]


def displacement_limit(mass_kg: ArrayLike, waterline_m: ArrayLike) -> Array:
    """Greatest speed before planing: V/sqrt(L) = 8.26 / DL^0.311, not below 1.34; knots, feet, DL in long tons.

    Parameters
    ----------
    mass_kg : array_like, shape S
        Displacement, kg.
    waterline_m : array_like, shape S
        Length of the waterline, m.

    Returns
    -------
    speed_mps : ndarray, shape S
        m/s; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Validity
    --------
    The article that gives it has boats of DL 79 to 334; heavier ones get 1.34.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 2-3, and his later articles.

    Examples
    --------
    >>> print(f"{displacement_limit(9752.2, 10.3632) / KNOT_MPS:.2f} kn")
    8.71 kn
    """
    mass, waterline = hold_above_zero(mass_kg=mass_kg, waterline_m=waterline_m)
    feet = waterline / FOOT_M
    weight_length = mass / LONG_TON_KG / (0.01 * feet) ** 3
    return np.maximum(8.26 / weight_length**0.311, LEAST_RATIO) * np.sqrt(feet) * KNOT_MPS


def displacement_speed(power_w: ArrayLike, mass_kg: ArrayLike, waterline_m: ArrayLike) -> DisplacementSpeed:
    """Speed of a displacement or semi-displacement boat: V/sqrt(L) = 10.665 / (LB/SHP)^(1/3); knots, feet, pounds.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the propeller, W.
    mass_kg : array_like, shape S
        Displacement, kg.
    waterline_m : array_like, shape S
        Length of the waterline, m.

    Returns
    -------
    speed : DisplacementSpeed
        speed_mps, limit_mps (of `displacement_limit`) and is_beyond, each of shape S; NaN where not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Validity
    --------
    Up to limit_mps; where is_beyond the figure is not to be believed. An average propulsive efficiency is in it.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 2-1 (from memory, high confidence).

    Examples
    --------
    >>> found = displacement_speed(74570.0, 9752.2, 10.3632)
    >>> print(f"{found.speed_mps / KNOT_MPS:.1f} kn, beyond the limit: {found.is_beyond}")
    10.4 kn, beyond the limit: True
    """
    power, mass, waterline = hold_above_zero(power_w=power_w, mass_kg=mass_kg, waterline_m=waterline_m)
    pounds_a_horsepower = (mass / POUND_KG) / (power / HORSEPOWER_W)
    speed = 10.665 / np.cbrt(pounds_a_horsepower) * np.sqrt(waterline / FOOT_M) * KNOT_MPS
    limit = displacement_limit(mass, waterline)
    return DisplacementSpeed(speed, limit, as_given(speed > limit))


def displacement_power(speed_mps: ArrayLike, mass_kg: ArrayLike, waterline_m: ArrayLike) -> Array:
    """Power that a displacement boat needs at a speed: the line of `displacement_speed`, turned round.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    mass_kg : array_like, shape S
        Displacement, kg.
    waterline_m : array_like, shape S
        Length of the waterline, m.

    Returns
    -------
    power_w : ndarray, shape S
        At the propeller, W; NaN past the limit of `displacement_limit`, where the formula says nothing.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 2-1 (from memory, high confidence).

    Examples
    --------
    >>> print(f"{displacement_power(8.0 * KNOT_MPS, 9752.2, 10.3632) / 1000:.0f} kW")
    34 kW
    """
    speed, mass, waterline = hold_above_zero(speed_mps=speed_mps, mass_kg=mass_kg, waterline_m=waterline_m)
    ratio = speed / KNOT_MPS / np.sqrt(waterline / FOOT_M)
    power = mass / POUND_KG * (ratio / 10.665) ** 3 * HORSEPOWER_W
    return as_given(np.where(speed > displacement_limit(mass, waterline), np.nan, power))


def crouch_speed(power_w: ArrayLike, mass_kg: ArrayLike, kind: str) -> Array:
    """Speed of a boat that planes: V = C / sqrt(LB/SHP); knots, pounds, C by the kind of boat.

    Parameters
    ----------
    power_w : array_like, shape S
        Power at the propeller, W.
    mass_kg : array_like, shape S
        Displacement, kg.
    kind : str
        "average" (C = 150), "fast" (190), "race" (210), "stepped" (220) or "catamaran" (230).

    Returns
    -------
    speed_mps : ndarray, shape S
        m/s; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or there is no such kind.

    Validity
    --------
    Only a boat that planes, above about 2.5 knots per root foot of waterline; on a displacement hull it means nothing.

    Source
    ------
    G. Crouch, as given by D. Gerr, Propeller Handbook, formula 2-4 (from memory, high confidence).

    Examples
    --------
    >>> print(f"{crouch_speed(300 * HORSEPOWER_W, 8000 * POUND_KG, 'average') / KNOT_MPS:.0f} kn")
    29 kn
    """
    power, mass = hold_above_zero(power_w=power_w, mass_kg=mass_kg)
    return crouch_constant(kind) / np.sqrt((mass / POUND_KG) / (power / HORSEPOWER_W)) * KNOT_MPS


def crouch_power(speed_mps: ArrayLike, mass_kg: ArrayLike, kind: str) -> Array:
    """Power that a planing boat needs at a speed: the line of `crouch_speed`, turned round.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    mass_kg : array_like, shape S
        Displacement, kg.
    kind : str
        As in `crouch_speed`.

    Returns
    -------
    power_w : ndarray, shape S
        At the propeller, W; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or there is no such kind.

    Source
    ------
    As for `crouch_speed`.

    Examples
    --------
    >>> print(f"{crouch_power(29.05 * KNOT_MPS, 8000 * POUND_KG, 'average') / HORSEPOWER_W:.0f} hp")
    300 hp
    """
    speed, mass = hold_above_zero(speed_mps=speed_mps, mass_kg=mass_kg)
    return (speed / KNOT_MPS / crouch_constant(kind)) ** 2 * (mass / POUND_KG) * HORSEPOWER_W


def crouch_constant(kind: str) -> float:
    """Crouch's C for a kind of boat; knots, pounds, horsepower.

    Parameters
    ----------
    kind : str
        As in `crouch_speed`.

    Returns
    -------
    constant : float
        C.

    Raises
    ------
    OutsideRange
        There is no such kind.

    Source
    ------
    `tables/crouch.csv`.

    Examples
    --------
    >>> crouch_constant("race")
    210.0
    """
    constants = {row["kind"]: figure(row, "constant") for row in table("crouch")}
    if kind not in constants:
        raise OutsideRange("kind", f"must be one of {', '.join(constants)}.", kind)
    return constants[kind]
