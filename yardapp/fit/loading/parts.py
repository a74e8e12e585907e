"""What is said of engine, hull and propeller together: premises, what they lack, and what comes out."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from yardapp.fit.checks.check import Need
from yardapp.fit.figures import Figure
from yardapp.formulas.sizing import Drive, HullCurve

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Assumed:
    """What the sums take for granted, with its spread; `says` tells where it comes from."""

    label: str
    value: float | str
    low: float | None = None
    high: float | None = None
    kind: str = "words"
    says: str = ""


@dataclass(frozen=True, kw_only=True)
class Unsure:
    """One figure of the premises and its spread: a standard uncertainty, or two ends between which any is as likely.

    `path` is the reading that would narrow it, or a label where a trial alone does.
    """

    name: str
    value: float
    u: float
    path: str
    is_between: bool = False


@dataclass(frozen=True, kw_only=True)
class Lacking:
    """Why nothing can be said, and what would let it be said."""

    says: str
    needs: tuple[Need, ...]


@dataclass(frozen=True, kw_only=True)
class Premises:
    """Engine and hull of one drive, ready for any number of propellers. `free` is the engine without its governor."""

    engine: Drive
    free: Drive
    hull: HullCurve
    rated_speed_rps: float
    aim_ratio: float
    unsure: tuple[Unsure, ...]
    assumed: tuple[Assumed, ...]
    hull_method: str
    hull_why: str
    passed_over: Mapping[str, str]
    rests_on: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Step:
    """What a change of pitch does to this engine in this boat."""

    pitch_change_m: float
    engine_speed_change_rps: float


@dataclass(frozen=True, kw_only=True)
class Loading:
    """Where engine, hull and propeller agree at full throttle, how well that is known, and what would mend it.

    `propped_ratio` is above zero where the propeller holds the engine below its rating, below zero where the engine
    would run past it. The band `low_rps` to `high_rps` is at k = 2 and stops at the governor.
    """

    engine_speed_rps: Figure
    low_rps: float
    high_rps: float
    free_speed_rps: Figure
    rated_speed_rps: float
    is_governed: bool
    shaft_speed_rps: Figure
    speed_mps: Figure
    power_w: Figure
    available_w: float
    thrust_n: Figure
    efficiency: float
    advance_speed_mps: float
    propped_ratio: Figure
    steps: tuple[Step, ...]
    right_pitch_m: float | None
    repitch_limit_m: float | None
    right_diameter_m: float | None
    is_area_assumed: bool
    area_ratio: float
    shares: tuple[tuple[str, float], ...]
    premises: Premises
