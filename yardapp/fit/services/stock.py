"""What goes on this drive: the register's propellers, ranked."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from sqlalchemy.orm import Session

from yardapp.errors import Refused
from yardapp.fit.checks.tip_room import BANDS
from yardapp.fit.ranking.columns import drive_at, drive_columns, propeller_at
from yardapp.fit.ranking.order import counted, in_order
from yardapp.fit.ranking.prejudge import prejudge
from yardapp.fit.services.in_columns import Asked, columns_of, near_bore, of_hand, propeller_rows
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


@dataclass(frozen=True, kw_only=True)
class Stock:
    """A page of the ranked stock for one drive; `counts` are of all that was ranked."""

    drive_id: int
    drive: str
    hand: str | None
    rows: tuple[RankedPropeller, ...]
    counts: dict[str, int]
    further: int | None


def stock_for(session: Session, who: Who, drive_id: int, asked: Asked, *, say: Any = plain) -> Stock:
    """The propellers of the register in the order in which one would take them to this drive.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    Refused
        The list can't be ranked by that rule.
    """
    if asked.rule not in BANDS:
        raise Refused(f"A list is ranked by one of {', '.join(BANDS)}.", "rule")
    drive, vessel = vessels.drive_by_id(session, who, drive_id)
    near = [] if asked.is_any_bore else near_bore(drive.shaft_diameter_m)
    rows = propeller_rows(session, who, asked, *of_hand(drive.hand), *near)
    sides, columns = drive_columns([drive_figures(drive, vessel)]), columns_of(rows)
    found = prejudge(columns, sides, rule=asked.rule)
    # Of those that are alike in all this, the nearest in bore; then the larger, which a slow boat likes better.
    apart = np.abs(columns.values["bore_large_m"] - sides.values["shaft_diameter_m"])
    order = in_order(found, apart, -columns.values["diameter_m"])[asked.first : asked.first + PAGE]
    room = drive_at(sides, 0)
    ranked = []
    for number in order.tolist():
        propeller = propeller_at(columns, number, blades=rows[number].blades)
        ranked.append(_ranked(rows[number], judge_figures(propeller, room, rule=asked.rule, say=say)))
    return Stock(
        drive_id=drive.id,
        drive=vessels.label_of(vessel.name, drive.position),
        hand=drive.hand,
        rows=tuple(sorted(ranked, key=lambda one: BADNESS.index(one.verdict.verdict))),
        counts=dict(zip(BADNESS, counted(found), strict=True)),
        further=asked.first + PAGE if asked.first + PAGE < len(rows) else None,
    )


def _ranked(row: Any, verdict: Verdict) -> RankedPropeller:
    return RankedPropeller(
        tag=row.tag,
        diameter_m=row.diameter_m,
        pitch_m=row.pitch_m,
        blades=row.blades,
        hand=row.hand,
        where=vessels.label_of(row.vessel, row.position) if row.position else row.place,
        verdict=verdict,
    )
