"""Where a resistance regression holds: proportions that its models had."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import SLACK, OutsideRange, hold


def hold_proportion(
    argument: str, figure: ArrayLike, what: str, proportion_ratio: ArrayLike, low: float, high: float
) -> None:
    """Refuse a proportion that none of a method's models had, by the argument that would mend it.

    Parameters
    ----------
    argument : str
        The argument to name.
    figure : array_like
        Its own figure, in its own unit; of a shape that goes with the proportion's.
    what : str
        The method and the proportion, in words.
    proportion_ratio : array_like
        The proportion's figure, 1; NaN passes.
    low : float
        The method's lower bound.
    high : float
        The method's upper bound.

    Returns
    -------
    None
        Where it holds.

    Raises
    ------
    OutsideRange
        The proportion lies outside the bounds.

    Source
    ------
    Each method's own.

    Examples
    --------
    >>> hold_proportion("beam_m", 2.5, "length over beam, for the Delft series,", 4.0, 2.73, 5.0)
    """
    proportion = np.asarray(proportion_ratio, float)
    outside = (proportion < low - SLACK * abs(low)) | (proportion > high + SLACK * abs(high))
    if outside.any():
        first, given = (np.broadcast_to(one, outside.shape)[outside][0] for one in (proportion, figure))
        said = f"does not suit: {what} must lie from {low:g} to {high:g} and is {first:.6g}."
        raise OutsideRange(argument, said, f"{given:.6g}")


def hold_deadrise(deadrise_rad: ArrayLike) -> NDArray[np.float64]:
    """Return deadrise as floats; refuse what no prism has.

    Parameters
    ----------
    deadrise_rad : array_like, shape S
        rad.

    Returns
    -------
    deadrise_rad : ndarray, shape S
        As given; NaN where not known.

    Raises
    ------
    OutsideRange
        A deadrise is below zero, or 50 degrees or more.

    Source
    ------
    The bound is ours; the paper has models of 0 to 30 degrees (from memory).

    Examples
    --------
    >>> float(hold_deadrise(0.1745))
    0.1745
    """
    said = "must be at least zero and less than 50 degrees (0.8727 rad)."
    return hold("deadrise_rad", deadrise_rad, said, at_least=0, below=np.radians(50))
