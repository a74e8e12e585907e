"""Every pair in question at once: readings as columns that go together, and where each lies against a bound."""

from collections.abc import Callable
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from yardapp.fit.checks.case import MOST_U_SHARE
from yardapp.fit.checks.check import AFTER_WORK, BADNESS, CANNOT_TELL, GOES_ON, NO, WORKS
from yardapp.fit.checks.readings import (
    ASSUMED_LEAST_M,
    ASSUMED_OTHER_SHARE,
    ASSUMED_SHARE,
    BORE_LENGTH,
    HUB_TAPER,
    LARGE,
    READINGS,
    SHAFT,
    SHAFT_TAPER,
    SMALL,
)
from yardapp.fit.checks.weighing import COVERAGE, ROUNDING
from yardapp.fit.figures import Limits
from yardapp.fit.ranking.columns import Array, Codes, Columns, Marks

# Codes of a verdict: the worse, the greater. ABSENT is a check that does not apply.
ABSENT, YES, WORK, ASK, REFUSED = -1, *(BADNESS.index(one) for one in (GOES_ON, AFTER_WORK, CANNOT_TELL, NO))
# An answer: surely, surely not, cannot tell; the least of several is all of them told together.
SURELY, UNTOLD, SURELY_NOT = 1, 0, -1
BITS = {work: 1 << number for number, work in enumerate(WORKS)}
_Once = TypeVar("_Once")


class Pairs:
    """Propellers against drives, row by row; one of the sides may be a single row."""

    def __init__(self, propellers: Columns, drives: Columns, limits: Limits) -> None:
        self.sides = {"propeller": propellers, "drive": drives}
        self.limits = limits
        self._kept: dict[str, tuple[Array, Array]] = {}
        self._worked: dict[str, Any] = {}

    @property
    def count(self) -> int:
        """How many pairs there are."""
        counts = [side.count for side in self.sides.values()]
        return max(counts) if all(counts) else 0

    def _read(self, path: str) -> tuple[Array, Array]:
        if path not in self._kept:
            owner, name = path.split(".")
            side = self.sides[owner]
            self._kept[path] = _sane(path, side.values[name], side.u[name])
        return self._kept[path]

    def once(self, name: str, work: Callable[["Pairs"], _Once]) -> _Once:
        """What several checks ask for, worked out at the first asking."""
        if name not in self._worked:
            self._worked[name] = work(self)
        found: _Once = self._worked[name]
        return found

    def value(self, path: str) -> Array:
        """The figure; NaN where it is not known or can't be right."""
        return self._read(path)[0]

    def u(self, path: str) -> Array:
        """Its standard uncertainty, assumed where nobody said it."""
        return self._read(path)[1]

    def known(self, *paths: str) -> Marks:
        """Where all of the figures are known."""
        every: Marks = np.logical_and.reduce(np.broadcast_arrays(*(~np.isnan(self.value(path)) for path in paths)))
        return every

    def has_none(self, path: str) -> Marks:
        """Where somebody looked for this keyway and found none."""
        owner, name = path.split(".")
        return np.asarray(self.sides[owner].values[name] == 0)

    def doubt(self, *paths: str) -> Marks:
        """Where one of the figures settles nothing."""
        marks: Marks = np.zeros(1, bool)
        for path in paths:
            owner, name = path.split(".")
            marks = marks | self.sides[owner].doubt(name)
        return marks

    @cached_property
    def is_from_ends(self) -> Marks:
        """Where both ends of the bore give a taper, whether or not one was read."""
        large, small, length = (self.value(path) for path in (LARGE, SMALL, BORE_LENGTH))
        reading = READINGS[HUB_TAPER]
        taper = (large - small) / length
        return np.asarray((taper >= reading.least) & (taper <= reading.most))

    @cached_property
    def taper_from_ends(self) -> tuple[Array, Array]:
        """That taper and its standard uncertainty."""
        large, small, length = (self.value(path) for path in (LARGE, SMALL, BORE_LENGTH))
        taper = np.where(self.is_from_ends, (large - small) / length, np.nan)
        return taper, root(self.u(LARGE) / length, self.u(SMALL) / length, taper * self.u(BORE_LENGTH) / length)

    @cached_property
    def by_ends(self) -> Marks:
        """Where the hub's taper is known from its ends alone."""
        return np.asarray(~self.known(HUB_TAPER) & self.is_from_ends)

    @cached_property
    def hub_taper(self) -> tuple[Array, Array]:
        """The hub's taper as read, else out of its ends."""
        (read, u_read), (worked, u_worked) = self._read(HUB_TAPER), self.taper_from_ends
        return np.where(self.by_ends, worked, read), np.where(self.by_ends, u_worked, u_read)

    @cached_property
    def set_up(self) -> Array:
        """How far the hub's large end passes the taper's, if both are on one taper."""
        return (self.value(LARGE) - self.value(SHAFT)) / self.value(SHAFT_TAPER)

    @cached_property
    def u_set_up_but_shaft(self) -> Array:
        """What bore and taper add to its uncertainty; the shaft's own part is `u(SHAFT) / taper`."""
        taper = self.value(SHAFT_TAPER)
        return root(self.u(LARGE) / taper, self.set_up * self.u(SHAFT_TAPER) / taper)

    @cached_property
    def u_set_up(self) -> Array:
        """Standard uncertainty of the set-up."""
        return root(self.u_set_up_but_shaft, self.u(SHAFT) / self.value(SHAFT_TAPER))


def _sane(path: str, value: Array, u: Array) -> tuple[Array, Array]:
    """As `Case` weighs a figure: NaN beyond what such a thing can have, its ± assumed where none was given."""
    reading = READINGS[path]
    value = np.where((value >= reading.least) & (value <= reading.most), value, np.nan)
    assumed = ASSUMED_SHARE.get(reading.kind, ASSUMED_OTHER_SHARE) * value
    if reading.kind == "length":
        assumed = np.fmax(assumed, ASSUMED_LEAST_M)
    is_said = (u >= 0) & np.isfinite(u)
    return value, np.where(is_said, np.fmin(u, MOST_U_SHARE * value), assumed)


def root(*parts: Array) -> Array:
    """The root of the sum of squares."""
    total = parts[0] * parts[0]
    for part in parts[1:]:
        total = total + part * part
    return np.sqrt(total)


def at_least(value: Array, u: Array, bound: float = 0.0) -> Codes:
    """Where a figure surely is at or above a bound, surely is not, or its ± straddles it; NaN can't be told."""
    spread = COVERAGE * u
    yes = value - spread >= bound - ROUNDING
    no = value + spread < bound - ROUNDING
    return yes.astype(np.int8) - no.astype(np.int8)


def at_most(value: Array, u: Array, bound: float = 0.0) -> Codes:
    """Where a figure surely is at or below a bound."""
    return at_least(-value, u, -bound)


def told(*answers: Codes) -> Codes:
    """All of the answers together: surely not if one is, surely if all are."""
    least = answers[0]
    for answer in answers[1:]:
        least = np.minimum(least, answer)
    return least


def verdict_of(answer: Codes, yes: int = YES, no: int = REFUSED) -> Codes:
    """An answer as a verdict's code."""
    return np.select([answer == SURELY, answer == SURELY_NOT], [yes, no], ASK).astype(np.int8)
