"""What goes on this drive: the register's propellers, ranked."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.fit.checks.groups import NOT_LISTED, asked_in_lists
from yardapp.fit.checks.tip_room import RULES
from yardapp.fit.figures import DriveFigures
from yardapp.fit.loading import Lacking, Premises, premises
from yardapp.fit.ranking.columns import Array, Columns, drive_at, drive_columns, propeller_at
from yardapp.fit.ranking.loads import Wheel, load_ratios
from yardapp.fit.ranking.order import counted, in_order
from yardapp.fit.ranking.prejudge import Prejudged, prejudge
from yardapp.fit.services.in_columns import Asked, columns_of, near_bore, of_hand, propeller_rows, wheels_of
from yardapp.fit.services.pairing import drive_figures
from yardapp.fit.verdict import BADNESS, Verdict, plain
from yardapp.fit.verdict import judge as judge_figures
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

PAGE = 20


@dataclass(frozen=True, kw_only=True)
class RankedPropeller:
    """One propeller of the list, looked at by the judge."""

    tag: str
    diameter_m: float | None
    pitch_m: float | None
    blades: int | None
    hand: str | None
    where: str
    verdict: Verdict
    is_for_sale: bool
    # Speed of the engine at full throttle, were there no governor, over its rated one; None where it can't be told.
    load_ratio: float | None = None


@dataclass(frozen=True, kw_only=True)
class Stock:
    """A page of the ranked stock for one drive; `counts` are of all that was ranked."""

    drive_id: int
    drive: str
    hand: str | None
    rows: tuple[RankedPropeller, ...]
    counts: dict[str, int]
    further: int | None
    rated_speed_rps: float | None
    lacks: str = ""


def stock_for(session: Session, who: Who, drive_id: int, asked: Asked, *, say: Any = plain) -> Stock:
    """The propellers of the register in the order in which one would take them to this drive.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    Refused
        There is no such rule for room at the tips.
    """
    if asked.rule not in RULES:
        raise Refused(f"A list is ranked by one of {', '.join(RULES)}.", "rule")
    drive, vessel = vessels.drive_by_id(session, who, drive_id)
    near = [] if asked.is_any_bore else near_bore(drive.shaft_diameter_m)
    rows = propeller_rows(session, who, asked, *of_hand(drive.hand), *near)
    room = drive_figures(drive, vessel)
    sides, columns, load = drive_columns([room]), columns_of(rows), premises(room)
    found = prejudge(columns, sides, rule=asked.rule)
    apart = np.abs(columns.values["bore_large_m"] - sides.values["shaft_diameter_m"])
    order, ratios = _in_order(found, columns, apart, load, wheels_of(rows))
    shown = order[asked.first : asked.first + PAGE].tolist()
    end = drive_at(sides, 0)
    ranked = [
        _ranked(rows[number], ratios[number], _judged(columns, rows, number, end, asked.rule, say)) for number in shown
    ]
    return Stock(
        drive_id=drive.id,
        drive=vessels.label_of(vessel.name, drive.position),
        hand=drive.hand,
        rows=tuple(sorted(ranked, key=lambda one: BADNESS.index(one.verdict.verdict))),
        counts=dict(zip(BADNESS, counted(found), strict=True)),
        further=asked.first + PAGE if asked.first + PAGE < len(rows) else None,
        rated_speed_rps=load.rated_speed_rps if isinstance(load, Premises) else None,
        lacks=load.says if isinstance(load, Lacking) else "",
    )


def _in_order(
    found: Prejudged, columns: Columns, apart: Array, load: Premises | Lacking, wheel_of: Callable[[int], Wheel]
) -> tuple[NDArray[np.int64], Array]:
    """By verdict and work; then how well it loads the engine; then nearest in bore, and of those the larger."""
    larger = -columns.values["diameter_m"]
    order = in_order(found, apart, larger)
    if isinstance(load, Lacking):
        return order, np.full(columns.count, np.nan)
    ratios = load_ratios(load, columns, wheel_of, order.tolist())
    return in_order(found, np.abs(ratios - load.aim_ratio), apart, larger), ratios


def _judged(columns: Columns, rows: Sequence[Any], number: int, end: DriveFigures, rule: str, say: Any) -> Verdict:
    """Shaft, water, and a fault that bars it, as the list is ranked by; the pair's own page asks for more."""
    propeller = propeller_at(columns, number, blades=rows[number].blades)
    return judge_figures(propeller, end, rule=rule, say=say, ask=asked_in_lists(propeller), skip=NOT_LISTED)


def _ranked(row: Any, load_ratio: float, verdict: Verdict) -> RankedPropeller:
    return RankedPropeller(
        tag=row.tag,
        diameter_m=row.diameter_m,
        pitch_m=row.pitch_m,
        blades=row.blades,
        hand=row.hand,
        where=vessels.label_of(row.vessel, row.position) if row.position else row.place,
        verdict=verdict,
        is_for_sale=row.is_for_sale,
        load_ratio=None if np.isnan(load_ratio) else float(load_ratio),
    )
