"""In which order a list shows what was judged: the verdict, the work it takes, what is still to be read."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from yardapp.fit.checks.check import BADNESS
from yardapp.fit.effort import MIDDLE
from yardapp.fit.ranking.case import BITS, WORK
from yardapp.fit.ranking.columns import Array, Bits
from yardapp.fit.ranking.prejudge import Prejudged

ANOTHER_IS_WORSE = 100.0  # hours: a list puts "another propeller" behind every work


def hours(works: Bits) -> Array:
    """Middle of the hours that each row's works take."""
    total = np.where(works & BITS["another propeller"], ANOTHER_IS_WORSE, 0.0)
    for bit, middle in MIDDLE.items():
        total = total + np.where(works & bit, middle, 0.0)
    return total


def in_order(found: Prejudged, *nearer: Array) -> NDArray[np.int64]:
    """Row numbers: best verdict first, then least work, fewest gaps, then each of `nearer`, the smaller the better."""
    work = np.where(found.verdict == WORK, hours(found.works), 0.0)
    further: list[Any] = [np.nan_to_num(one, nan=np.inf) for one in reversed(nearer)]
    return np.asarray(np.lexsort([*further, found.gaps, work, found.verdict]), np.int64)


def works_at(works: Bits, row: int) -> tuple[str, ...]:
    """The works of one row, cheapest first."""
    return tuple(work for work, bit in BITS.items() if int(works[row]) & bit)


def counted(found: Prejudged) -> list[int]:
    """How many rows there are of each verdict, from `goes on` to `does not go on`."""
    return [int(count) for count in np.bincount(found.verdict, minlength=len(BADNESS))]
