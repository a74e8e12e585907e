"""Pitch of several blades at one radius, each from a sheet of its own, held against each other. No register here."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum, hypot, isclose
from typing import Any

import numpy as np

from yardapp import quantities
from yardapp.bench.sums import Input, Outcome, Sum, source_of
from yardapp.bench.survey.words import place_of
from yardapp.formulas.far_off import far_off
from yardapp.formulas.pitch_survey import mean_of_known

SAME_MARK = 0.02  # of the radius: nobody sets a mark better by chalk and rule
MEAN = "blades_pitch_m"


@dataclass(frozen=True, kw_only=True)
class BladePitch:
    """One blade's pitch at its mark, k = 1; `u_common_m` is the part that the tools get wrong on every blade alike."""

    blade: int
    pitch_m: float
    radius_m: float | None = None
    u_m: float | None = None
    u_common_m: float = 0.0
    sheet_id: int | None = None

    @property
    def u_separate_m(self) -> float | None:
        """The part of its uncertainty that is this blade's own."""
        return None if self.u_m is None else max(self.u_m**2 - self.u_common_m**2, 0.0) ** 0.5


def at_one_mark(radius_m: float | None, others: Sequence[BladePitch]) -> list[BladePitch]:
    """Those that were read at this radius; where nobody said a radius, those without one."""
    return [one for one in others if _same(radius_m, one.radius_m)]


def _same(first_m: float | None, second_m: float | None) -> bool:
    if first_m is None or second_m is None:
        return first_m is second_m
    return isclose(first_m, second_m, rel_tol=SAME_MARK)


def newest_of_each(newest_first: Sequence[BladePitch]) -> list[BladePitch]:
    """One of each blade, in their order."""
    found: dict[int, BladePitch] = {}
    for one in newest_first:
        found.setdefault(one.blade, one)
    return sorted(found.values(), key=lambda one: one.blade)


def beside(outcome: Outcome, here: BladePitch, others: Sequence[BladePitch], diameter_m: float | None) -> Outcome:
    """One blade's outcome with the others beside it, newest first: their mean, and which of all stands far off."""
    blades = newest_of_each([here, *at_one_mark(here.radius_m, others)])
    if len(blades) < 2:
        return outcome
    kept = {"blades": [vars(one) for one in blades], "radius_m": here.radius_m}
    return replace(
        outcome,
        sums=(*outcome.sums, mean(blades)),
        remarks=(*_far(blades, diameter_m), *outcome.remarks),
        more=outcome.more | {"beside": kept},
    )


def mean(blades: Sequence[BladePitch]) -> Sum:
    """Their mean: what tools share does not average out over the blades, the rest does."""
    return Sum(
        what=MEAN,
        value=float(mean_of_known([one.pitch_m for one in blades])),
        u=_u_of_mean(blades),
        formula=f"{mean_of_known.__module__}.{mean_of_known.__qualname__}",
        source=source_of(mean_of_known),
        inputs=tuple(Input(name=f"pitch_{one.blade}_m", value=one.pitch_m, u=one.u_m) for one in blades),
    )


def _u_of_mean(blades: Sequence[BladePitch]) -> float | None:
    separate = [one.u_separate_m for one in blades]
    if any(u is None for u in separate):
        return None
    common = fsum(one.u_common_m for one in blades) / len(blades)
    return hypot(common, *(u / len(blades) for u in separate if u))


def _far(blades: Sequence[BladePitch], diameter_m: float | None) -> list[str]:
    """`Check blade 2, 0.6 R: 312 mm, the others 287 mm to 291 mm.`"""
    figures = [one.pitch_m for one in blades]
    is_far = far_off(figures, np.array([one.u_separate_m or 0.0 for one in blades]))
    return [_said(blades, int(place), diameter_m) for place in np.flatnonzero(is_far)]


def _said(blades: Sequence[BladePitch], place: int, diameter_m: float | None) -> str:
    one, others = blades[place], [other.pitch_m for other in (*blades[:place], *blades[place + 1 :])]
    ratio = round(2 * one.radius_m / diameter_m, 2) if one.radius_m and diameter_m else None
    low, high = _said_of(min(others)), _said_of(max(others))
    span = low if low == high else f"{low} to {high}"
    return f"Check {place_of(one.blade, ratio)}: {_said_of(one.pitch_m)}, the others {span}."


def _said_of(pitch_m: Any) -> str:
    return quantities.both(pitch_m, "length")
