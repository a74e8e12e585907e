"""The Wageningen B-series' curves: both coefficients together, or each design as a cubic in J."""

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.b_series_range import hold_design, hold_series
from yardapp.formulas.b_series_scale import reynolds_correction
from yardapp.formulas.ranges import as_given
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]

BLADES = range(2, 8)
# The powers that occur; `_monomials` builds them by products.
PITCH_POWERS = (0, 1, 2, 3, 6)
AREA_POWERS = (0, 1, 2)
# Propellers at a time: what one block needs stays in the processor's cache.
BLOCK = 4096


class OpenWater(NamedTuple):
    """Thrust and torque coefficients and open-water efficiency."""

    kt: Array
    kq: Array
    efficiency: Array


class OpenWaterCubic(NamedTuple):
    """Coefficients of J^0, J^1, J^2 and J^3 in KT and in KQ: arrays of shape (4, *S)."""

    kt: Array
    kq: Array


def open_water(
    advance_ratio: ArrayLike,
    pitch_ratio: ArrayLike,
    area_ratio: ArrayLike,
    blades: ArrayLike,
    reynolds_number: ArrayLike | None = None,
) -> OpenWater:
    """KT, KQ and efficiency together, for the price of one.

    Parameters
    ----------
    advance_ratio : array_like, shape S
        J = Va / (n D), 1.
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, expanded blade area over the disc's, 1.
    blades : array_like, shape S
        Number of blades, Z.
    reynolds_number : array_like, shape S, optional
        At 0.75 of the radius; left out, the series' own 2e6.

    Returns
    -------
    open_water : OpenWater
        kt, kq and efficiency, each of shape S, 1; as `kt`, `kq` and `efficiency` return them. NaN where not known.

    Raises
    ------
    OutsideRange
        An argument lies outside the range of `kt`.

    Validity
    --------
    As `kt`.

    Source
    ------
    As for `kt`.

    Examples
    --------
    >>> print("{:.3f} {:.4f} {:.2f}".format(*open_water(0.7185, 1.036, 0.7393, 4)))
    0.187 0.0332 0.64
    """
    thrust, torque = _evaluate(advance_ratio, pitch_ratio, area_ratio, blades)
    if reynolds_number is not None:
        added = reynolds_correction(advance_ratio, pitch_ratio, area_ratio, blades, reynolds_number)
        thrust, torque = thrust + added.kt, torque + added.kq
    return OpenWater(thrust, torque, _efficiency(np.asarray(advance_ratio, float), thrust, torque))


def open_water_cubic(pitch_ratio: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike) -> OpenWaterCubic:
    """The series at one design, collapsed to a cubic in J each for KT and KQ, for fast repeated use.

    Parameters
    ----------
    pitch_ratio : array_like, shape S
        P/D, 1.
    area_ratio : array_like, shape S
        AE/A0, expanded blade area over the disc's, 1.
    blades : array_like, shape S
        Number of blades, Z.

    Returns
    -------
    cubic : OpenWaterCubic
        kt and kq, each of shape (4, *S): coefficients of J^0 to J^3; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument lies outside the range of `kt`.

    Validity
    --------
    As `kt`.

    Source
    ------
    As for `kt`; rearranged.

    Examples
    --------
    >>> float(open_water_cubic(1.0, 0.718, 3).kt[0])
    0.4566
    """
    held = hold_design(pitch_ratio, area_ratio, blades)
    shape = np.broadcast_shapes(*(each.shape for each in held))
    design = (np.broadcast_to(each, shape).ravel() for each in held)
    return OpenWaterCubic(*_cubic(*design).reshape(2, 4, *shape))


@cache
def _terms(blades: int) -> Array:
    """The series at one number of blades: shape (KT and KQ, powers of J, products of `_monomials`)."""
    terms = np.zeros((2, 4, len(AREA_POWERS), len(PITCH_POWERS)))
    for which, name in enumerate(("b_series_kt", "b_series_kq")):
        for row in table(name):
            s, t, u, v = (int(row[power]) for power in "stuv")
            terms[which, s, AREA_POWERS.index(u), PITCH_POWERS.index(t)] += figure(row, "coefficient") * blades**v
    return terms.reshape(2, 4, -1)


def _monomials(pitch_ratio: Array, area_ratio: Array) -> Array:
    """Each power of AE/A0 times each power of P/D, for N propellers: shape (15, N)."""
    many = len(PITCH_POWERS)
    monomials = np.empty((len(AREA_POWERS) * many, pitch_ratio.size))
    monomials[0], monomials[1] = 1.0, pitch_ratio
    np.multiply(pitch_ratio, pitch_ratio, out=monomials[2])
    np.multiply(monomials[2], pitch_ratio, out=monomials[3])
    np.multiply(monomials[3], monomials[3], out=monomials[4])
    np.multiply(monomials[:many], area_ratio, out=monomials[many : 2 * many])
    np.multiply(monomials[many : 2 * many], area_ratio, out=monomials[2 * many :])
    return monomials


def _blocks(blades: Array) -> Iterator[tuple[int, slice | NDArray[np.intp]]]:
    """Propellers of one number of blades, a block at a time; those of an unknown number are left out."""
    for count in BLADES:
        here = np.flatnonzero(blades == count)
        for start in range(0, here.size, BLOCK):
            block = here[start : start + BLOCK]
            first, last = int(block[0]), int(block[-1])
            yield count, slice(first, last + 1) if last - first + 1 == block.size else block


def _cubic(pitch_ratio: Array, area_ratio: Array, blades: Array) -> Array:
    """Coefficients of shape (2, 4, N) from three arrays of shape (N,)."""
    cubic = np.full((2, 4, blades.size), np.nan)
    for count, block in _blocks(blades):
        cubic[..., block] = _terms(count) @ _monomials(pitch_ratio[block], area_ratio[block])
    return cubic


def _along(cubic: Array, advance_ratio: Array) -> Array:
    """Horner's rule over the second axis of coefficients (2, 4, N)."""
    total: Array = cubic[:, 3] * advance_ratio
    for power in (2, 1):
        total += cubic[:, power]
        total *= advance_ratio
    return total + cubic[:, 0]


def _evaluate(advance: ArrayLike, pitch_ratio: ArrayLike, area_ratio: ArrayLike, blades: ArrayLike) -> Array:
    """KT and KQ, shape (2, *S), block by block; one design at many J is a single cubic."""
    figures = hold_series(advance, pitch_ratio, area_ratio, blades)
    shape = np.broadcast_shapes(*(each.shape for each in figures))
    j, *design = figures
    if all(each.size == 1 for each in design):
        return _along(_cubic(*(each.ravel() for each in design)), j.ravel()).reshape(2, *shape)
    j, pitch, area, count_of = (np.broadcast_to(each, shape).ravel() for each in figures)
    both = np.full((2, j.size), np.nan)
    for count, block in _blocks(count_of):
        both[:, block] = _along(_terms(count) @ _monomials(pitch[block], area[block]), j[block])
    return both.reshape(2, *shape)


def _efficiency(advance_ratio: Array, thrust: Array, torque: Array) -> Array:
    pushes = (thrust >= 0) & (torque > 0)
    unknown: Array = np.full(thrust.shape, np.nan)
    return as_given(np.divide(advance_ratio * thrust, 2 * np.pi * torque, where=pushes, out=unknown))
