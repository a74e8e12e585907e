"""How the water meets the propeller behind this hull: wake and thrust deduction, with what the methods differ by."""

from math import sqrt
from typing import NamedTuple

import numpy as np

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import Need
from yardapp.fit.checks.readings import BLOCK, TWIN
from yardapp.fit.checks.readings_of_boat import HULL_KIND
from yardapp.fit.loading.parts import Assumed, Lacking, Unsure
from yardapp.formulas.tables import table
from yardapp.formulas.wake import RUDDERS, TWIN_LINES, Estimate, thrust_deduction, wake_fraction

HULL_KINDS = tuple(row["hull"] for row in table("wake_thrust"))
# Two formulas that happen to agree don't make a wake known: no source, ours.
LEAST_HALF_WIDTH = 0.02
LEAST_BLOCK, MOST_BLOCK = 0.2, 0.9
# What may stand behind one screw, and beside two.
BEHIND = {False: tuple(RUDDERS), True: tuple(TWIN_LINES)}
ASK_KIND = Need(
    figure=HULL_KIND,
    says="Say what hull she has: sailing yacht with fin or long keel, displacement, semi-displacement or planing, with "
    "one screw or two.",
)
ASK_TWIN = Need(figure=TWIN, says="Say whether the vessel has one screw or two.")
SOURCE = "Taylor, Gerr, Blount & Fox, Schoenherr; the usual ranges of each kind of hull, low confidence."


class Water(NamedTuple):
    """Number of screws, and what is unsure about the water at each."""

    screws: int
    unsure: tuple[Unsure, ...]
    assumed: tuple[Assumed, ...]


def water(case: Case) -> Water | Lacking:
    """Wake and thrust deduction by the kind of hull, or what is not known of it."""
    kind, twin = case.drive.hull_kind, case.drive.is_twin
    if kind not in HULL_KINDS:
        return Lacking(
            says="What kind of hull she has is not known: how the water meets her propeller hangs on it.",
            needs=(ASK_KIND,) + (ASK_TWIN,) * (twin is None),
        )
    if twin is None:
        return Lacking(says="Whether she has one screw or two is not known.", needs=(ASK_TWIN,))
    if kind.endswith(("single", "twin")) and kind.endswith("twin") != twin:
        says = "Her hull is put down with one screw and her drive as one of two, or the other way round."
        return Lacking(says=says, needs=(ASK_KIND, ASK_TWIN))
    wake = _half_width(wake_fraction(kind, _block(case)))
    behind = case.drive.behind if case.drive.behind in BEHIND[kind.endswith("twin")] else ""
    deduction = _half_width(thrust_deduction(kind, wake[0], behind or ""))
    return Water(
        2 if twin else 1,
        (_unsure("wake_ratio", wake), _unsure("deduction_ratio", deduction)),
        (_assumed("Wake", wake), _assumed("Thrust deduction", deduction)),
    )


def _block(case: Case) -> float:
    block = case.known(BLOCK)
    return float(block.n) if block is not None and LEAST_BLOCK <= block.n <= MOST_BLOCK else np.nan


def _half_width(found: Estimate) -> tuple[float, float]:
    low, high = float(found.low), float(found.high)
    return (low + high) / 2, max((high - low) / 2, LEAST_HALF_WIDTH)


def _unsure(name: str, middle: tuple[float, float]) -> Unsure:
    value, half = middle
    label = "the wake" if name == "wake_ratio" else "the thrust deduction"
    return Unsure(name=name, value=value, u=half / sqrt(3), path=label, is_between=True)


def _assumed(label: str, middle: tuple[float, float]) -> Assumed:
    value, half = middle
    return Assumed(label=label, value=value, low=value - half, high=value + half, kind="ratio", says=SOURCE)
