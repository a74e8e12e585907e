"""Wake fractions by one line each."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.imperial import KNOT_MPS
from yardapp.formulas.ranges import as_given, hold
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]


def taylor_single_wake(block_ratio: ArrayLike) -> Array:
    """Single screw: w = 0.50 CB - 0.05.

    Parameters
    ----------
    block_ratio : array_like, shape S
        Block coefficient CB, 1.

    Returns
    -------
    wake_ratio : ndarray, shape S
        w, 1; NaN where the argument is not known.

    Raises
    ------
    OutsideRange
        The coefficient lies outside 0.2 to 0.9 (our bounds; the source gives none).

    Validity
    --------
    CB 0.2 to 0.9 (our bounds). A first guess.

    Source
    ------
    D. W. Taylor, The Speed and Power of Ships, 1943.

    Examples
    --------
    >>> float(taylor_single_wake(0.45))
    0.175
    """
    block = hold("block_ratio", block_ratio, "must lie from 0.2 to 0.9.", at_least=0.2, at_most=0.9)
    return 0.50 * block - 0.05


def taylor_twin_wake(block_ratio: ArrayLike) -> Array:
    """Twin screws: w = 0.55 CB - 0.20.

    Parameters
    ----------
    block_ratio : array_like, shape S
        Block coefficient CB, 1.

    Returns
    -------
    wake_ratio : ndarray, shape S
        w, 1; NaN where the argument is not known.

    Raises
    ------
    OutsideRange
        The coefficient lies outside 0.2 to 0.9 (our bounds; the source gives none).

    Validity
    --------
    CB 0.2 to 0.9 (our bounds). A first guess.

    Source
    ------
    D. W. Taylor, The Speed and Power of Ships, 1943; A. F. Molland et al. 2011 (from memory, high confidence).

    Examples
    --------
    >>> float(taylor_twin_wake(0.45))
    0.048
    """
    block = hold("block_ratio", block_ratio, "must lie from 0.2 to 0.9.", at_least=0.2, at_most=0.9)
    return 0.55 * block - 0.20


def handbook_single_wake(block_ratio: ArrayLike) -> Array:
    """Small craft, single screw: 1 - w = 1.11 - 0.6 CB.

    Parameters
    ----------
    block_ratio : array_like, shape S
        Block coefficient CB, 1.

    Returns
    -------
    wake_ratio : ndarray, shape S
        w, 1; NaN where the argument is not known.

    Raises
    ------
    OutsideRange
        The coefficient lies outside 0.2 to 0.9 (our bounds; the source gives none).

    Validity
    --------
    CB 0.2 to 0.9 (our bounds). A first guess.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 6-4 (from memory, high confidence).

    Examples
    --------
    >>> float(handbook_single_wake(0.45))
    0.160
    """
    block = hold("block_ratio", block_ratio, "must lie from 0.2 to 0.9.", at_least=0.2, at_most=0.9)
    return 0.6 * block - 0.11


def handbook_twin_wake(block_ratio: ArrayLike) -> Array:
    """Small craft, twin screws: 1 - w = 1.06 - 0.4 CB.

    Parameters
    ----------
    block_ratio : array_like, shape S
        Block coefficient CB, 1.

    Returns
    -------
    wake_ratio : ndarray, shape S
        w, 1; NaN where the argument is not known.

    Raises
    ------
    OutsideRange
        The coefficient lies outside 0.2 to 0.9 (our bounds; the source gives none).

    Validity
    --------
    CB 0.2 to 0.9 (our bounds). A first guess.

    Source
    ------
    D. Gerr, Propeller Handbook, formula 6-4 (from memory, high confidence).

    Examples
    --------
    >>> float(handbook_twin_wake(0.45))
    0.120
    """
    block = hold("block_ratio", block_ratio, "must lie from 0.2 to 0.9.", at_least=0.2, at_most=0.9)
    return 0.4 * block - 0.06


def planing_wake(speed_mps: ArrayLike) -> Array:
    """Planing craft: 1 - w = 0.83 V^0.047, V in knots.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.

    Returns
    -------
    wake_ratio : ndarray, shape S
        w, 1; NaN where the argument is not known.

    Raises
    ------
    OutsideRange
        The speed is not above zero.

    Validity
    --------
    Boats that plane; the handbook gives no bounds. From 53 knots up it gives a little less than no wake.

    Source
    ------
    D. Gerr, Propeller Handbook, ch. 6 (from memory, medium confidence).

    Examples
    --------
    >>> float(planing_wake(30 * KNOT_MPS))
    0.026
    """
    speed = hold("speed_mps", speed_mps, "must be above zero.", above=0)
    return as_given(1 - 0.83 * (speed / KNOT_MPS) ** 0.047)


def twin_hard_chine_wake(volume_froude_number: ArrayLike) -> Array:
    """Twin-screw hard-chine planing craft: a table of 1 - w against the volume Froude number, linear between.

    Parameters
    ----------
    volume_froude_number : array_like, shape S
        V / sqrt(g volume^(1/3)), 1.

    Returns
    -------
    wake_ratio : ndarray, shape S
        w, 1; NaN where the argument is not known.

    Raises
    ------
    OutsideRange
        The number lies outside 0.5 to 4.

    Validity
    --------
    Volume Froude number 0.5 to 4.

    Source
    ------
    D. L. Blount & D. L. Fox, Marine Technology 13(1), 1976, 14-45 (figures from memory, low to medium confidence).

    Examples
    --------
    >>> float(twin_hard_chine_wake(2.0))
    0.01
    """
    said = "must lie from 0.5 to 4."
    number = hold("volume_froude_number", volume_froude_number, said, at_least=0.5, at_most=4)
    rows = table("planing_wake")
    nodes = [figure(row, "volume_froude") for row in rows]
    return as_given(1 - np.interp(number, nodes, [figure(row, "one_less_wake") for row in rows]))
