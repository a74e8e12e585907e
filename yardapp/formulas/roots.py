"""Where a function crosses zero, for many cases at once."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

MOST_STEPS = 100
TOLERANCE = 4 * float(np.finfo(float).eps)


def root_between(function: Callable[[Array], Array], low: Array, high: Array) -> Array:
    """Root of `function` between two bounds, element by element: Chandrupatla's bracketing method.

    Parameters
    ----------
    function : callable
        Takes an array and returns its values, each element for itself.
    low : ndarray, shape S
        One bound.
    high : ndarray, shape S
        The other.

    Returns
    -------
    root : ndarray, shape S
        To the last digits; NaN where the function has one sign at both bounds or is not known there.

    Raises
    ------
    ValueError
        The shapes do not go together.

    Source
    ------
    T. R. Chandrupatla, Advances in Engineering Software 28(3), 1997, 145-149.

    Examples
    --------
    >>> root_between(lambda x: x**2 - 2, np.array([0.0, 3.0]), np.array([2.0, 4.0])).round(6)
    array([1.414214,      nan])
    """
    new, old = np.broadcast_arrays(low + 0.0, high + 0.0)
    at_new, at_old = function(new), function(old)
    crosses = np.sign(at_new) * np.sign(at_old) <= 0
    share = np.full(new.shape, 0.5)
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        for _ in range(MOST_STEPS):
            x = new + share * (old - new)
            at_x = function(x)
            same = np.sign(at_x) == np.sign(at_new)
            left, at_left = np.where(same, new, old), np.where(same, at_new, at_old)
            old, at_old = np.where(same, old, new), np.where(same, at_old, at_new)
            new, at_new = x, at_x
            best, at_best = _nearer(new, at_new, old, at_old)
            step = TOLERANCE * np.abs(best) / np.abs(old - new)
            if np.all((step > 0.5) | (at_best == 0) | ~crosses):
                break
            share = np.clip(_share(new, old, left, at_new, at_old, at_left), step, 1 - step)
    return np.where(crosses, best, np.nan)


def _nearer(new: Array, at_new: Array, old: Array, at_old: Array) -> tuple[Array, Array]:
    nearer = np.abs(at_new) < np.abs(at_old)
    return np.where(nearer, new, old), np.where(nearer, at_new, at_old)


def _share(new: Array, old: Array, left: Array, at_new: Array, at_old: Array, at_left: Array) -> Array:
    """How far to go from the newest point to the far one: inverse quadratic where that is safe, else half."""
    xi, phi = (new - old) / (left - old), (at_new - at_old) / (at_left - at_old)
    safe = (phi**2 < xi) & ((1 - phi) ** 2 < 1 - xi)
    curved = at_new / (at_old - at_new) * at_left / (at_old - at_left)
    curved += (left - new) / (old - new) * at_new / (at_left - at_new) * at_old / (at_left - at_old)
    return np.where(safe, curved, 0.5)
