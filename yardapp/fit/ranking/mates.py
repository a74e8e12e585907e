"""Pairs in a stock: to each right-hand propeller the left-hand one that is most like it."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from yardapp.fit.ranking.columns import LEFT, RIGHT, Array, Columns

NEIGHBOURS = 40  # nearest in diameter, on either side, among which the pitch decides
MOST_APART = 0.05  # of the sizes, taken together: beyond it nobody would call them a pair


class Mates(NamedTuple):
    """Row numbers of one pair, and how far apart they are: the parts of diameter, pitch and bore, added."""

    right: int
    left: int
    apart: float


def mates(columns: Columns, blades: Array) -> list[Mates]:
    """Pairs of opposite hands and as many blades, the most alike first; each propeller stands in one pair."""
    found: list[Mates] = []
    for count in np.unique(blades[~np.isnan(blades)]):
        right, left = (_rows(columns, blades == count, hand) for hand in (RIGHT, LEFT))
        if right.size and left.size:
            found += _nearest(columns, right, left)
    return _each_once(sorted(found, key=lambda one: one.apart))


def _rows(columns: Columns, is_bladed: NDArray[np.bool_], hand: int) -> NDArray[np.int64]:
    sizes = columns.values["diameter_m"] + columns.values["pitch_m"]
    return np.flatnonzero(is_bladed & (columns.hand == hand) & ~np.isnan(sizes))


def _nearest(columns: Columns, right: NDArray[np.int64], left: NDArray[np.int64]) -> list[Mates]:
    diameter = columns.values["diameter_m"]
    left = left[np.argsort(diameter[left], kind="stable")]
    at = np.searchsorted(diameter[left], diameter[right])
    beside = np.clip(at[:, None] + np.arange(-NEIGHBOURS, NEIGHBOURS), 0, left.size - 1)
    apart = sum(_part(columns, name, right, left[beside]) for name in ("diameter_m", "pitch_m", "bore_large_m"))
    apart = np.asarray(apart)
    best = np.argmin(apart, axis=1)
    rows = np.arange(right.size)
    chosen = zip(right.tolist(), left[beside[rows, best]].tolist(), apart[rows, best].tolist(), strict=True)
    return [Mates(*one) for one in chosen if one[2] <= MOST_APART]


def _part(columns: Columns, name: str, right: NDArray[np.int64], left: NDArray[np.int64]) -> Array:
    """How far apart two are in one size, as a part of it; a bore that nobody measured counts for nothing."""
    sizes = columns.values[name]
    return np.nan_to_num(np.abs(sizes[left] / sizes[right][:, None] - 1), nan=0.0)


def _each_once(found: list[Mates]) -> list[Mates]:
    taken: set[int] = set()
    kept = []
    for one in found:
        if one.right not in taken and one.left not in taken:
            kept.append(one)
            taken |= {one.right, one.left}
    return kept
