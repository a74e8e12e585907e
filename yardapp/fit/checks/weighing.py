"""Where a figure with a ± lies against a bound: clearly one side, clearly the other, or too close to call."""

from typing import Any

import numpy as np

# A sum of figures that meet a bound exactly may miss it by the float's own rounding.
ROUNDING = 1e-9
COVERAGE = 2.0


def spread(figure: Any) -> float:
    """Two standard uncertainties of a figure."""
    return COVERAGE * float(figure.s)


def at_least(figure: Any, bound: float) -> bool | None:
    """Tell whether the figure is at or above the bound; None where its ± straddles it."""
    value, half = figure.n, spread(figure)
    low, high = value - half, value + half
    if low >= bound - ROUNDING:
        return True
    return False if high < bound - ROUNDING else None


def at_most(figure: Any, bound: float) -> bool | None:
    """Tell whether the figure is at or below the bound; None where its ± straddles it."""
    return at_least(-figure, -bound)


def all_told(*answers: bool | None) -> bool | None:
    """True if all are, False if one is surely not, None where it hangs on one that cannot be told."""
    if False in answers:
        return False
    return None if None in answers else True


def is_sane(value: float, least: float, most: float) -> bool:
    """Tell whether a figure is a number that such a thing can have."""
    return bool(np.isfinite(value)) and least <= value <= most
