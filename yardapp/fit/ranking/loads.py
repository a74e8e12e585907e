"""How well many propellers load one engine in one hull: a list's view of it, without the band."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from yardapp.fit.loading import Premises, free_meet, propped
from yardapp.fit.loading.loading import AREA_ASSUMED, FIXED
from yardapp.fit.ranking.columns import Array, Columns


class Wheel(NamedTuple):
    """What a list knows of the blades of one row."""

    blades: int | None
    area_ratio: float | None = None
    kind: str | None = None


MOST = 4000  # that many are met in a few hundredths of a second; a list shows twenty


def load_ratios(premises: Premises, columns: Columns, wheel_of: Callable[[int], Wheel], rows: Sequence[int]) -> Array:
    """Free speed of the engine over its rated one for some of the rows, NaN for the rest and where a figure lacks.

    Where nobody measured the blades' area it is taken as usual, as the judge takes it, who says so on the pair's page.
    The sums are those of fixed blades: for others they are left out.
    """
    ratios = np.full(columns.count, np.nan)
    fixed = {row: wheel for row in rows[:MOST] if (wheel := wheel_of(row)).kind in FIXED}
    if fixed:
        chosen = list(fixed)
        diameter, pitch = (columns.values[name][chosen] for name in ("diameter_m", "pitch_m"))
        area = np.array([wheel.area_ratio or AREA_ASSUMED for wheel in fixed.values()])
        count = np.array([wheel.blades or np.nan for wheel in fixed.values()], float)
        ratios[chosen] = propped(premises, free_meet(premises, diameter, pitch, area, count))
    return ratios
