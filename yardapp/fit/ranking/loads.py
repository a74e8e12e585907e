"""How well many propellers load one engine in one hull: a list's view of it, without the band."""

from collections.abc import Sequence

import numpy as np

from yardapp.fit.loading import Premises, free_meet, propped
from yardapp.fit.loading.loading import AREA_ASSUMED
from yardapp.fit.ranking.columns import Array

MOST = 4000  # that many are met in a few hundredths of a second; a list shows twenty


def load_ratios(
    premises: Premises, diameter_m: Array, pitch_m: Array, blades: Sequence[int | None], rows: Sequence[int]
) -> Array:
    """Free speed of the engine over its rated one for some of the rows, NaN for the rest and where a figure lacks.

    The blades' area is taken as usual, as the judge takes it where nobody measured it: he says so on the pair's page.
    """
    ratios = np.full(diameter_m.shape, np.nan)
    chosen = np.array(rows[:MOST], int)
    if chosen.size:
        count = np.array([blades[row] or np.nan for row in chosen.tolist()], float)
        met = free_meet(premises, diameter_m[chosen], pitch_m[chosen], np.full(chosen.size, AREA_ASSUMED), count)
        ratios[chosen] = propped(premises, met)
    return ratios
