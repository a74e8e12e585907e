"""The map of sizes for one drive: what the engine turns over diameter and pitch, and where a propeller may not be."""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from yardapp.fit.checks.check import Need
from yardapp.fit.checks.tip_room import room_share
from yardapp.fit.figures import DriveFigures, Limits, PropellerFigures
from yardapp.fit.loading import Lacking, Premises, free_meet, meet, premises, propped
from yardapp.fit.loading.loading import ALLOYS, AREA_ASSUMED
from yardapp.fit.map_area import share_taken
from yardapp.formulas.seat import largest_diameter
from yardapp.formulas.sizing import repitch_limit

Array = NDArray[np.float64]
ACROSS, UP = 49, 61  # points of the grid
TOLERATED_RPS = 100 / 60  # short of the rating: usually accepted
NO_SIZE = "No size of these blades lets the engine turn with room at the tips and area enough: more blades, or wider."
LEAST_RATIO, MOST_RATIO = 0.5, 1.4  # pitch over diameter, of the series

NO_CLASS_RULE = (
    "By the class rule nothing can be shaded: it goes by her length, block coefficient, power, number of screws, and 3 "
    "to 6 blades, and not all of them are known."
)


@dataclass(frozen=True, kw_only=True)
class Size:
    """One propeller on the map."""

    diameter_m: float
    pitch_m: float
    engine_speed_rps: float | None = None
    speed_mps: float | None = None


@dataclass(frozen=True, kw_only=True)
class SizeMap:
    """Everything that the map shows; arrays of the grid have one row a pitch and one column a diameter.

    `free_rps` is the engine's speed at full throttle were there no governor; NaN where the series or the hull ends.
    """

    diameter_m: Array
    pitch_m: Array
    blades: int
    area_ratio: float
    is_area_assumed: bool
    rule: str
    area_by: str = ""  # the criterion of blade area
    largest_m: float | None = None  # under the rule for room at the tips
    strikes_m: float | None = None  # from here on the tips reach the hull
    rated_rps: float | None = None
    free_rps: Array | None = None
    lacks_area: NDArray[np.bool_] | None = None
    best: Size | None = None
    says: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    assumed: tuple[str, ...] = ()


def size_map(
    drive: DriveFigures,
    *,
    blades: int = 3,
    area_ratio: float | None = None,
    rule: str = "15 %",
    span_m: tuple[float, float] | None = None,
    limits: Limits | None = None,
) -> SizeMap:
    """The map for one drive and blades of one kind; `span_m` is the least and greatest diameter to be shown.

    Without engine or hull only the room at the tips is known, and it says what is missing.
    """
    room = None if drive.hull_clearance_m is None else drive.hull_clearance_m.value
    share = room_share(drive, rule, blades)
    largest = None if room is None or share is None else float(largest_diameter(room, share))
    diameter = np.linspace(*(span_m or _span(largest)), ACROSS)
    pitch = np.linspace(0.45 * diameter[0], 1.25 * diameter[-1], UP)
    found = premises(drive, limits)
    bare = SizeMap(
        diameter_m=diameter,
        pitch_m=pitch,
        blades=blades,
        area_ratio=AREA_ASSUMED if area_ratio is None else area_ratio,
        is_area_assumed=area_ratio is None,
        rule=rule,
        largest_m=largest,
        strikes_m=None if room is None else 2 * room,
    )
    if room is not None and share is None:
        bare = replace(bare, says=(NO_CLASS_RULE,))
    if isinstance(found, Lacking):
        return _without_engine(bare, found, room)
    return _with_engine(bare, found, drive, limits or Limits())


def _span(largest_m: float | None) -> tuple[float, float]:
    """Round the largest that the room allows; without it, what small craft carry."""
    return (0.3, 0.9) if largest_m is None else (0.6 * largest_m, 1.15 * largest_m)


def _without_engine(bare: SizeMap, found: Lacking, room: float | None) -> SizeMap:
    says = (f"No line of the engine's speed can be drawn: {found.says}", *_room_says(room))
    return replace(bare, says=(*bare.says, *says), needs=found.needs)


def _room_says(room: float | None) -> tuple[str, ...]:
    return () if room is not None else ("Where the tips lack room is not known: the way from shaft to hull is not.",)


def _with_engine(bare: SizeMap, found: Premises, drive: DriveFigures, limits: Limits) -> SizeMap:
    across, up = np.meshgrid(bare.diameter_m, bare.pitch_m)
    shape = across.shape
    figures = (across.ravel(), up.ravel(), np.full(across.size, bare.area_ratio), np.full(across.size, bare.blades))
    free = free_meet(found, *figures)
    ratio = propped(found, free).reshape(shape)
    held = meet(found, *figures)
    depth = None if drive.shaft_depth_m is None else drive.shaft_depth_m.value
    taken = None
    if depth is not None:
        given: dict[str, Any] = {"depth_m": depth, "wake_ratio": found.hull.wake_ratio, "limits": limits}
        taken = share_taken(held, figures[:2], bare.blades, bare.area_ratio, is_twin=drive.is_twin, **given)
        taken = taken.reshape(shape)
    says = (*bare.says, *_room_says(bare.strikes_m))
    best = _best(bare, found, ratio, taken)
    if best is None:
        says += (NO_SIZE,)
    if depth is None:
        says += ("Where the blades lack area is not shown: how deep the shaft lies is not known.",)
    return replace(
        bare,
        rated_rps=found.rated_speed_rps,
        free_rps=ratio * found.rated_speed_rps,
        lacks_area=None if taken is None else taken > 1,
        area_by="" if taken is None else limits.area_criterion,
        best=best,
        says=says,
        needs=drive_depth_needs(depth),
        assumed=tuple(one.says or one.label for one in found.assumed),
    )


def drive_depth_needs(depth: float | None) -> tuple[Need, ...]:
    """What would let the blades' area be judged."""
    return () if depth is not None else (Need(figure="drive.shaft_depth_m", says="Measure how deep the shaft lies."),)


def _best(bare: SizeMap, found: Premises, ratio: Array, taken: Array | None) -> Size | None:
    """The fastest of those that let the engine come to its speed, within the room, with blades enough."""
    pitch = np.array([_pitch_at(bare.pitch_m, column, found.aim_ratio) for column in ratio.T])
    fits = np.ones(pitch.shape, bool) if bare.largest_m is None else bare.diameter_m <= bare.largest_m
    figures = (np.full(pitch.size, bare.area_ratio), np.full(pitch.size, bare.blades))
    met = meet(found, bare.diameter_m, pitch, *figures)
    if taken is not None:  # where the criterion has no answer, nothing is best
        row = np.clip(np.searchsorted(bare.pitch_m, pitch), 0, UP - 1)
        fits = fits & (taken[row, np.arange(ACROSS)] <= 1)
    speed = np.where(fits, met.speed_mps, np.nan)
    if np.isnan(speed).all():
        return None
    chosen = int(np.nanargmax(speed))
    turns = float(met.engine_speed_rps[chosen])
    return Size(
        diameter_m=float(bare.diameter_m[chosen]),
        pitch_m=float(pitch[chosen]),
        engine_speed_rps=turns,
        speed_mps=float(speed[chosen]),
    )


def _pitch_at(pitch_m: Array, column: Array, level: float) -> float:
    """The pitch at which a column of the grid comes to a level; NaN where it does not."""
    known = ~np.isnan(column)
    falling, pitches = column[known], pitch_m[known]
    if falling.size < 2 or not falling[-1] <= level <= falling[0]:
        return float("nan")
    return float(np.interp(-level, -falling, pitches))


def contour(found: SizeMap, engine_speed_rps: float) -> list[tuple[float, float]]:
    """The sizes with which the engine would come to a speed: diameter and pitch, NaN where none does."""
    assert found.free_rps is not None
    pitches = [_pitch_at(found.pitch_m, column, engine_speed_rps) for column in found.free_rps.T]
    return list(zip(found.diameter_m.tolist(), pitches, strict=True))


def levels(found: SizeMap) -> list[float]:
    """Speeds worth a line: the rated one, and steps of 200 or 500 rpm round it that the map crosses."""
    if found.free_rps is None or found.rated_rps is None or np.isnan(found.free_rps).all():
        return []
    step = (200 if found.rated_rps * 60 < 3000 else 500) / 60
    near = [found.rated_rps + number * step for number in (-2, -1, 0, 1)]
    low, high = float(np.nanmin(found.free_rps)), float(np.nanmax(found.free_rps))
    return [one for one in near if low < one < high]


def overloaded(found: SizeMap) -> list[tuple[float, float, float]]:
    """Where the engine is held further under its rating than is accepted: at each diameter from pitch to pitch."""
    assert found.free_rps is not None
    assert found.rated_rps is not None
    least = found.rated_rps - TOLERATED_RPS
    course = []
    for diameter, column in zip(found.diameter_m.tolist(), found.free_rps.T, strict=True):
        known = np.flatnonzero(~np.isnan(column))
        if known.size == 0 or column[known[-1]] >= least:
            course.append((diameter, float("nan"), float("nan")))
            continue
        first = _pitch_at(found.pitch_m, column, least)
        low = LEAST_RATIO * diameter if np.isnan(first) else first
        course.append((diameter, low, MOST_RATIO * diameter))
    return course


def edges(found: SizeMap, mask: NDArray[np.bool_]) -> list[tuple[float, float, float]]:
    """A part of the grid as a course: at each diameter from one pitch to another, NaN where there is none."""
    half = (found.pitch_m[1] - found.pitch_m[0]) / 2
    course = []
    for diameter, column in zip(found.diameter_m.tolist(), mask.T, strict=True):
        rows = np.flatnonzero(column)
        if rows.size == 0:
            course.append((diameter, float("nan"), float("nan")))
            continue
        low, high = float(found.pitch_m[rows[0]]) - half, float(found.pitch_m[rows[-1]]) + half
        course.append((diameter, max(low, LEAST_RATIO * diameter), min(high, MOST_RATIO * diameter)))
    return course


def within_reach(propeller: PropellerFigures, limits: Limits | None = None) -> dict[str, list[tuple[float, float]]]:
    """Where work moves a propeller on the map: up and down by re-pitching within practice, leftward by cutting down."""
    if propeller.diameter_m is None or propeller.pitch_m is None:
        return {}
    diameter, pitch = propeller.diameter_m.value, propeller.pitch_m.value
    most_cut = (limits or Limits()).most_cut_ratio
    reach = {"cut down": [(diameter * (1 - most_cut), pitch), (diameter, pitch)]}
    alloy = ALLOYS.get((propeller.material or "").strip().lower())
    if alloy is not None:
        limit = repitch_limit(alloy)
        reach["re-pitch"] = [(diameter, pitch - limit), (diameter, pitch + limit)]
    return reach
