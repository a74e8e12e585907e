"""Which of several figures that should be alike stands far off from the others."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, hold

# Turns the median distance from the median into the standard deviation of a normal scatter.
TO_DEVIATION = 1.4826
TIMES = 3.0
K = 2.0
LEAST = 3


def far_off(figure_m: ArrayLike, u_m: ArrayLike = 0.0, least_ratio: float = 0.03) -> NDArray[np.bool_]:
    """Whether each figure stands far off the median of the others along the first axis.

    Far is more than three robust standard deviations of the others (1.4826 times their median distance from their own
    median), more than what both may be read wrong by at k = 2, and more than `least_ratio` of the median; all three.
    A figure is held against the others alone, so that one bad reading among three does not hide behind itself.

    Parameters
    ----------
    figure_m : array_like, shape (count,) + S
        Figures that should be alike, m; NaN where not known.
    u_m : array_like, shape (count,) + S or ()
        Standard uncertainty of each, k = 1, m.
    least_ratio : float
        What is never called far, as a share of the median, 1.

    Returns
    -------
    is_far : ndarray of bool, shape (count,) + S
        False where the figure or two of its others are not known.

    Raises
    ------
    OutsideRange
        A figure is infinite; an uncertainty or the least share is below zero.

    Validity
    --------
    Three figures or more: of two that differ nobody can say which is wrong.

    Source
    ------
    Median and median distance as robust estimates: P. J. Huber, Robust Statistics. Three deviations and 3 % are common
    practice, no source.

    Examples
    --------
    >>> far_off([0.287, 0.312, 0.291, 0.289], 0.002).tolist()
    [False, True, False, False]
    """
    alike(figure_m=figure_m, u_m=u_m)
    figure_m = hold("figure_m", figure_m, "must be finite.")
    u_m = np.broadcast_to(hold("u_m", u_m, "must be zero or more.", at_least=0), figure_m.shape)
    least_ratio = float(hold("least_ratio", least_ratio, "must be zero or more.", at_least=0))
    if len(figure_m) < LEAST:
        return np.zeros(figure_m.shape, bool)
    return np.array([_is_far(figure_m, u_m, place, least_ratio) for place in range(len(figure_m))], bool)


def _is_far(
    figure_m: NDArray[np.float64], u_m: NDArray[np.float64], place: int, least_ratio: float
) -> NDArray[np.bool_]:
    others = np.delete(figure_m, place, axis=0)
    enough = (~np.isnan(others)).sum(axis=0) > 1
    others = np.where(enough & ~np.isnan(others), others, np.where(enough, np.nan, 0.0))
    middle = np.nanmedian(others, axis=0)
    scatter = TO_DEVIATION * np.nanmedian(np.abs(others - middle), axis=0)
    other_u = np.nan_to_num(np.delete(u_m, place, axis=0)).max(axis=0)
    reach = K * np.hypot(np.nan_to_num(u_m[place]), other_u)
    limit = np.maximum(np.maximum(TIMES * scatter, reach), least_ratio * np.abs(middle))
    return np.asarray(enough & (np.abs(figure_m[place] - middle) > limit))
