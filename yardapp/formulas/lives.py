"""How long things last, told from those that have ended and those that still go on."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, as_given, hold


def share_alive(lives_s: ArrayLike, has_ended: ArrayLike, at_s: ArrayLike) -> NDArray[np.float64]:
    """Share that lives longer than a time, by Kaplan and Meier: the product of (1 - ended / at risk).

    What still goes on counts as alive for as long as it has been seen, and no longer: leaving it out would make
    lives look too short, counting it as ended too.

    Parameters
    ----------
    lives_s : array_like, shape (things,)
        How long each lasted, or has lasted so far, s.
    has_ended : array_like, shape (things,)
        Whether it has ended: 1 for yes, 0 for "still on".
    at_s : array_like, shape S
        Times at which the share is wanted, s.

    Returns
    -------
    share : ndarray, shape S
        1; of what lived beyond the longest life seen it says no more than the last step. NaN where a time is not known.

    Raises
    ------
    OutsideRange
        A life is below zero or not known; there is none; a state is neither 0 nor 1 or not one for each life; a time is
        below zero.

    Source
    ------
    E. L. Kaplan and P. Meier, Nonparametric estimation from incomplete observations, J. Am. Stat. Assoc. 53 (1958).

    Examples
    --------
    >>> float(share_alive([1, 2, 3, 4], [1, 0, 1, 0], 3))
    0.375
    """
    lives_s, ended = _hold_lives(lives_s, has_ended)
    times_s = np.unique(lives_s[ended])
    at_risk = np.array([np.sum(lives_s >= time_s) for time_s in times_s])
    ends = np.array([np.sum(ended & (lives_s == time_s)) for time_s in times_s])
    steps = np.cumprod(1 - ends / np.maximum(at_risk, 1))
    at_s = hold("at_s", at_s, "must be zero or more.", at_least=0)
    place = np.searchsorted(times_s, at_s, side="right")
    return as_given(np.where(np.isnan(at_s), np.nan, np.concatenate([[1.0], steps])[place]))


def median_life(lives_s: ArrayLike, has_ended: ArrayLike) -> float:
    """The first time at which no more than half still live, by `share_alive`; NaN while more than half do.

    Parameters
    ----------
    lives_s : array_like, shape (things,)
        How long each lasted, or has lasted so far, s.
    has_ended : array_like, shape (things,)
        Whether it has ended: 1 for yes, 0 for "still on".

    Returns
    -------
    life_s : float
        s; NaN: not known yet.

    Raises
    ------
    OutsideRange
        As `share_alive`.

    Source
    ------
    E. L. Kaplan and P. Meier, Nonparametric estimation from incomplete observations, J. Am. Stat. Assoc. 53 (1958).

    Examples
    --------
    >>> median_life([1, 2, 3, 4], [1, 0, 1, 0])
    3.0
    """
    lives_s, ended = _hold_lives(lives_s, has_ended)
    times_s = np.unique(lives_s[ended])
    below = times_s[share_alive(lives_s, ended, times_s) <= 0.5 + 1e-12]
    return float(below[0]) if below.size else float("nan")


def _hold_lives(lives_s: ArrayLike, has_ended: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    lives_s = hold("lives_s", lives_s, "must be zero or more.", at_least=0)
    if lives_s.ndim != 1 or not lives_s.size or np.any(np.isnan(lives_s)):
        raise OutsideRange("lives_s", "must be one row of known lives, one or more.", lives_s.tolist())
    ended = np.asarray(has_ended, float)
    if ended.shape != lives_s.shape or not np.all((ended == 0) | (ended == 1)):
        raise OutsideRange("has_ended", "must hold 0 or 1 for each life.", ended.tolist())
    return lives_s, ended.astype(bool)
