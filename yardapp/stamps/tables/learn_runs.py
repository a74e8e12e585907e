"""A straight line through letters: first value, step, and which letters are left out, by weighted least squares."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from yardapp.stamps.tables.meanings import LETTERS

FEWEST_LETTERS = 3
LEFT_OUT = ("", "IO", "I", "O", "Q", "IOQ", "IOZ", "J")
JUST_AS_GOOD = 4.0  # in chi-square: 2 standard uncertainties, so letters left out can't be told apart


@dataclass(frozen=True)
class Letter:
    """One letter on one propeller, and the size that was measured there, in the table's unit."""

    letter: str
    value: float
    u: float


@dataclass(frozen=True)
class RunFit:
    """The run that fits best, in the table's unit; `residual` is what the sizes scatter about it."""

    first: str
    last: str
    value: float
    step: float
    without: str
    u_step: float
    residual: float
    count: int
    chi_square: float
    also_fits: tuple[str, ...] = ()


def fit_run(seen: list[Letter], without: Iterable[str] = LEFT_OUT) -> RunFit | None:
    """The best run through the letters, or None with fewer than three of them."""
    if len({one.letter for one in seen}) < FEWEST_LETTERS:
        return None
    shown = {one.letter for one in seen}
    tried = [fit for left_out in dict.fromkeys(without) if not shown & set(left_out) if (fit := _fit(seen, left_out))]
    if not tried:
        return None
    best = min(tried, key=lambda fit: fit.chi_square)
    also = tuple(fit.without for fit in tried if fit is not best and _as_good(fit, best))
    return replace(best, also_fits=also)


def _as_good(fit: RunFit, best: RunFit) -> bool:
    return fit.chi_square - best.chi_square < JUST_AS_GOOD and _numbers(fit) != _numbers(best)


def _numbers(fit: RunFit) -> list[str]:
    """The letters that the run uses between its ends."""
    used = LETTERS[LETTERS.index(fit.first) : LETTERS.index(fit.last) + 1]
    return [letter for letter in used if letter not in fit.without]


def _fit(seen: list[Letter], without: str) -> RunFit | None:
    used = [letter for letter in LETTERS if letter not in without]
    first, last = (pick(seen, key=lambda one: one.letter).letter for pick in (min, max))
    at = [used.index(one.letter) - used.index(first) for one in seen]
    weights = [1 / one.u**2 for one in seen]
    total = math.fsum(weights)
    mean_at = math.fsum(w * x for w, x in zip(weights, at, strict=True)) / total
    mean = math.fsum(w * one.value for w, one in zip(weights, seen, strict=True)) / total
    spread = math.fsum(w * (x - mean_at) ** 2 for w, x in zip(weights, at, strict=True))
    products = (w * (x - mean_at) * (one.value - mean) for w, x, one in zip(weights, at, seen, strict=True))
    step = math.fsum(products) / spread
    value = mean - step * mean_at
    off = [one.value - value - step * x for x, one in zip(at, seen, strict=True)]
    residual = math.sqrt(math.fsum(r * r for r in off) / max(len(off) - 2, 1))
    chi_square = math.fsum(w * r * r for w, r in zip(weights, off, strict=True))
    return RunFit(first, last, value, step, without, spread**-0.5, residual, len(seen), chi_square)
