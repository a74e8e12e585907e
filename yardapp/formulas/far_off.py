"""Which of several figures that should be alike stands far off from the others."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold

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
    others = _others(figure_m)
    middle = _median(others)
    scatter = TO_DEVIATION * _median(np.abs(others - middle[:, None]))
    reach = K * np.hypot(np.nan_to_num(u_m), np.nan_to_num(_others(u_m)).max(axis=1))
    limit = np.maximum(np.maximum(TIMES * scatter, reach), least_ratio * np.abs(middle))
    enough = (~np.isnan(others)).sum(axis=1) > 1
    return as_given(enough & (np.abs(figure_m - middle) > limit))


def _others(figures: NDArray[np.float64]) -> NDArray[np.float64]:
    """For each figure along the first axis all but itself, along a new second one."""
    count = len(figures)
    places = np.array([[other for other in range(count) if other != place] for place in range(count)])
    return np.asarray(figures[places])


def _median(figures: NDArray[np.float64]) -> NDArray[np.float64]:
    """Median along the second axis of what is known; NaN of nothing. Far quicker than numpy's own on small arrays."""
    ordered = np.sort(figures, axis=1)  # what is not known goes last
    count = (~np.isnan(figures)).sum(axis=1)
    low, high = (np.expand_dims(np.maximum(place, 0), 1) for place in ((count - 1) // 2, count // 2))
    high = np.minimum(high, figures.shape[1] - 1)
    middle = (np.take_along_axis(ordered, low, 1) + np.take_along_axis(ordered, high, 1)) / 2
    return np.where(count > 0, middle[:, 0], np.nan)
