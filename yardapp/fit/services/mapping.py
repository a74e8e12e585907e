"""The map of sizes for one drive, with every propeller of the register that goes on its shaft."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.fit.checks.tip_room import RULES
from yardapp.fit.figures import DriveFigures
from yardapp.fit.loading import Premises, premises
from yardapp.fit.ranking.case import WORK
from yardapp.fit.ranking.columns import Array, Columns, drive_columns, figure_at, propeller_at
from yardapp.fit.ranking.loads import load_ratios
from yardapp.fit.ranking.prejudge import Prejudged, prejudge
from yardapp.fit.services.in_columns import Asked, columns_of, near_bore, of_hand, propeller_rows, wheels_of
from yardapp.fit.services.pairing import drive_figures
from yardapp.fit.size_map import SizeMap, size_map, within_reach
from yardapp.fit.verdict import BADNESS
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

MOST_DOTS = 60


@dataclass(frozen=True, kw_only=True)
class Spot:
    """One propeller on the map; its engine speed is that without the governor, None where it can't be told."""

    tag: str
    diameter_m: float
    pitch_m: float
    blades: int | None
    where: str
    verdict: str
    is_aboard: bool
    engine_speed_rps: float | None


@dataclass(frozen=True, kw_only=True)
class DriveMap:
    """The map, who stands on it, and where work would move the one that was chosen."""

    drive_id: int
    drive: str
    sizes: SizeMap
    spots: tuple[Spot, ...]
    left_out: int
    chosen: Spot | None
    reach: dict[str, list[tuple[float, float]]]


def map_of(
    session: Session, who: Who, drive_id: int, *, tag: str = "", blades: int | None = None, rule: str = "15 %"
) -> DriveMap:
    """The map for one drive. Blades are those asked for, else those of the chosen propeller, else three.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    Refused
        There is no such rule for room at the tips.
    """
    if rule not in RULES:
        raise Refused(f"A map is drawn by one of {', '.join(RULES)}.", "rule")
    drive, vessel = vessels.drive_by_id(session, who, drive_id)
    room = drive_figures(drive, vessel)
    near = (*of_hand(drive.hand), *near_bore(drive.shaft_diameter_m))
    rows = propeller_rows(session, who, Asked(is_aboard_too=True), *near)
    columns = columns_of(rows)
    found = prejudge(columns, drive_columns([room]), rule=rule)
    shown = _that_go_on(found, columns)
    at = _chosen(rows, shown, tag, drive.id)
    blades = blades or (rows[at].blades if at is not None else None) or 3
    area = None if at is None or blades != rows[at].blades else rows[at].area_ratio
    sizes = size_map(room, blades=blades, area_ratio=area, rule=rule, span_m=_span(columns, shown, room))
    kept = _nearest(columns, shown, sizes, at)
    spots = _spots(rows, columns, found, kept, room, drive.id)
    return DriveMap(
        drive_id=drive.id,
        drive=vessels.label_of(vessel.name, drive.position),
        sizes=sizes,
        spots=spots,
        left_out=len(shown) - len(kept),
        chosen=next((spot for spot in spots if at is not None and spot.tag == rows[at].tag), None),
        reach={} if at is None else _reach(rows, columns, at),
    )


def _that_go_on(found: Prejudged, columns: Columns) -> list[int]:
    """Those that go on the shaft, as they are or after work, and have a place on the map; the room is drawn there."""
    on_shaft = np.max([code for name, code in found.checks.items() if name != "tip room"], axis=0)
    sized = ~np.isnan(columns.values["diameter_m"] + columns.values["pitch_m"])
    return [int(row) for row in np.flatnonzero((on_shaft <= WORK) & sized)]


def _chosen(rows: Sequence[Any], shown: Sequence[int], tag: str, drive_id: int) -> int | None:
    """The propeller that was asked for, else the one that is on the drive now."""
    if tag:
        return next((row for row in shown if rows[row].tag == tag.strip().upper()), None)
    return next((row for row in shown if rows[row].aboard_id == drive_id), None)


def _span(columns: Columns, shown: Sequence[int], room: DriveFigures) -> tuple[float, float] | None:
    """Where the hull's height is not known: round the propellers that go on."""
    if room.hull_clearance_m is not None or not shown:
        return None
    sizes = columns.values["diameter_m"][list(shown)]
    return 0.85 * float(sizes.min()), 1.15 * float(sizes.max())


def _nearest(columns: Columns, shown: Sequence[int], sizes: SizeMap, at: int | None) -> list[int]:
    """As many as can be told apart on the map: those nearest to the best size, the chosen one among them."""
    diameter, pitch = columns.values["diameter_m"], columns.values["pitch_m"]
    best = (sizes.best.diameter_m, sizes.best.pitch_m) if sizes.best else (float(sizes.diameter_m.mean()), None)
    apart = np.abs(diameter / best[0] - 1)
    if best[1] is not None:
        apart = apart + np.abs(pitch / best[1] - 1)
    return sorted(shown, key=lambda row: (row != at, float(apart[row])))[:MOST_DOTS]


def _spots(
    rows: Sequence[Any], columns: Columns, found: Prejudged, kept: Sequence[int], room: DriveFigures, drive_id: int
) -> tuple[Spot, ...]:
    load = premises(room)
    speeds: Array = np.full(columns.count, np.nan)
    if isinstance(load, Premises):
        speeds = load_ratios(load, columns, wheels_of(rows), kept) * load.rated_speed_rps
    return tuple(
        Spot(
            tag=rows[row].tag,
            diameter_m=float(columns.values["diameter_m"][row]),
            pitch_m=float(columns.values["pitch_m"][row]),
            blades=rows[row].blades,
            where=vessels.label_of(rows[row].vessel, rows[row].position) if rows[row].position else rows[row].place,
            verdict=BADNESS[found.verdict[row]],
            is_aboard=rows[row].aboard_id == drive_id,
            engine_speed_rps=None if np.isnan(speeds[row]) else float(speeds[row]),
        )
        for row in kept
    )


def _reach(rows: Sequence[Any], columns: Columns, row: int) -> dict[str, list[tuple[float, float]]]:
    pitch = figure_at(columns, "pitch_m", row)
    return within_reach(propeller_at(columns, row, pitch_m=pitch, material=rows[row].material))
