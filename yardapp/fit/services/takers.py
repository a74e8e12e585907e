"""On which drives does this propeller go: the yard's drives, ranked, and whose they are."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from sqlalchemy import case, select
from sqlalchemy.orm import Session

from yardapp.bench.services.looked_over import barred
from yardapp.errors import Refused
from yardapp.fit.checks.groups import NOT_LISTED, asked_in_lists
from yardapp.fit.checks.tip_room import RULES
from yardapp.fit.ranking.columns import (
    A_FAULT,
    DRIVE_FIGURES,
    HAND_CODES,
    SCREW_CODES,
    Columns,
    codes,
    drive_at,
    propeller_columns,
)
from yardapp.fit.ranking.order import counted, in_order
from yardapp.fit.ranking.prejudge import Prejudged, prejudge
from yardapp.fit.services.pairing import propeller_figures
from yardapp.fit.verdict import BADNESS, Verdict, plain
from yardapp.fit.verdict import judge as judge_figures
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.vessels import services as vessels
from yardapp.vessels.services.in_use import drive_rows

PAGE = 20


@dataclass(frozen=True, kw_only=True)
class RankedDrive:
    """One drive of the list, looked at by the judge."""

    drive_id: int
    drive: str
    vessel_id: int
    owner: str
    shaft_diameter_m: float | None
    taper: float | None
    hand: str | None
    came_off: bool
    verdict: Verdict


@dataclass(frozen=True, kw_only=True)
class Takers:
    """A page of the ranked drives for one propeller; `counts` are of all that was ranked."""

    tag: str
    rows: tuple[RankedDrive, ...]
    counts: dict[str, int]
    further: int | None


def drives_for(
    session: Session, who: Who, tag: str, *, words: str = "", rule: str = "15 %", first: int = 0, say: Any = plain
) -> Takers:
    """The yard's drives in use in the order in which one would try this propeller on them.

    Raises
    ------
    NotFound
        No propeller carries the tag, or this person may not know of it.
    Refused
        There is no such rule for room at the tips.
    """
    if rule not in RULES:
        raise Refused(f"A list is ranked by one of {', '.join(RULES)}.", "rule")
    item, is_barred = _item(session, who, tag)
    rows = drive_rows(session, who, words=words)
    propeller, columns = propeller_figures(item), drive_columns_of(rows)
    if is_barred:
        propeller = replace(propeller, open_faults=(A_FAULT,))
    found = prejudge(propeller_columns([propeller]), columns, rule=rule)
    asked: dict[str, Any] = {"rule": rule, "say": say, "ask": asked_in_lists(propeller), "skip": NOT_LISTED}
    ranked = [
        _ranked(rows[number], item, judge_figures(propeller, drive_at(columns, number), **asked))
        for number in _in_order(found, rows, columns, item)[first : first + PAGE].tolist()
    ]
    return Takers(
        tag=item.tag,
        rows=tuple(sorted(ranked, key=lambda one: (not one.came_off, BADNESS.index(one.verdict.verdict)))),
        counts=dict(zip(BADNESS, counted(found), strict=True)),
        further=first + PAGE if first + PAGE < len(rows) else None,
    )


def _item(session: Session, who: Who, tag: str) -> tuple[gear.Item, bool]:
    """The propeller, and whether an open fault bars it."""
    chosen = select(gear.Item, case((barred(gear.Item.id), 1), else_=0))
    chosen = chosen.where(gear.Item.tag == tag.strip().upper(), gear.Item.kind == "propeller", gear.seen_by(who))
    found = session.execute(chosen).first()
    return (found[0], bool(found[1])) if found else (gear.item_by_tag(session, who, tag, kind="propeller"), False)


def _in_order(found: Prejudged, rows: Sequence[Any], columns: Columns, item: gear.Item) -> Any:
    """By verdict and work, then how near the shaft is to the bore; the drive that it came off before all."""
    apart = np.abs(columns.values["shaft_diameter_m"] - (item.bore_large_m or np.nan))
    order = in_order(found, apart)
    is_elsewhere = np.array([rows[number].drive_id != item.came_off_id for number in order.tolist()], bool)
    return order[np.argsort(is_elsewhere, kind="stable")]


def drive_columns_of(rows: Sequence[Any]) -> Columns:
    """The rows as columns, as `drive_figures` reads each of them: the way to the hull is from the shaft's centre."""
    names = [name for figure in DRIVE_FIGURES for name in (figure, f"u_{figure}")]
    lines = [[getattr(row, name, None) for name in names] for row in rows]  # what is off a plate has no ± of its own
    numbers = np.array(lines, float).reshape(len(rows), len(names))
    read = dict(zip(names, numbers.T, strict=True))
    is_off = np.array([row.hull_clearance_from != "centre" for row in rows], bool)
    room, u_room = read["hull_clearance_m"], read["u_hull_clearance_m"]
    u_half = np.nan_to_num(read["u_shaft_diameter_m"]) / 2
    read["hull_clearance_m"] = np.where(is_off, room + read["shaft_diameter_m"] / 2, room)
    read["u_hull_clearance_m"] = np.where(is_off, np.hypot(u_room, u_half), u_room)
    nothing = np.full(len(rows), 0, np.int8)
    return Columns(
        values={name: read[name] for name in DRIVE_FIGURES},
        u={name: read[f"u_{name}"] for name in DRIVE_FIGURES},
        hand=codes([row.hand for row in rows], HAND_CODES),
        hand_stamped=nothing,
        bore_kind=nothing,
        screws=np.array([SCREW_CODES[row.position != "centre"] for row in rows], np.int8),
    )


def _ranked(row: Any, item: gear.Item, verdict: Verdict) -> RankedDrive:
    return RankedDrive(
        drive_id=row.drive_id,
        drive=vessels.label_of(row.vessel, row.position),
        vessel_id=row.vessel_id,
        owner=row.owner,
        shaft_diameter_m=row.shaft_diameter_m,
        taper=row.taper,
        hand=row.hand,
        came_off=row.drive_id == item.came_off_id,
        verdict=verdict,
    )
