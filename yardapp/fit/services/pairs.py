"""Pairs in stock: for the two shafts of one boat."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.fit.ranking.columns import figure_at, propeller_at
from yardapp.fit.ranking.mates import mates
from yardapp.fit.services.condition import states_of, with_state
from yardapp.fit.services.in_columns import Asked, columns_of, near_bore, propeller_rows
from yardapp.fit.services.pairing import propeller_figures
from yardapp.fit.verdict import BADNESS, Verdict, judge_pair, plain
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

PAGE = 20


@dataclass(frozen=True, kw_only=True)
class StockPair:
    """A right-hand and a left-hand propeller that are alike, looked at by the judge."""

    right: str
    left: str
    diameter_m: float | None
    pitch_m: float | None
    blades: int | None
    where: tuple[str, str]
    verdict: Verdict


@dataclass(frozen=True, kw_only=True)
class Pairs:
    """A page of the pairs in stock; `drive` names the shaft that their bores are near to."""

    drive: str
    rows: tuple[StockPair, ...]
    further: int | None


def pairs_in_stock(session: Session, who: Who, asked: Asked, *, drive_id: int | None = None, say: Any = plain) -> Pairs:
    """Pairs of opposite hands, the most alike first; for a drive, those whose bores are near its shaft.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    label, near = "", []
    if drive_id is not None:
        drive, vessel = vessels.drive_by_id(session, who, drive_id)
        label, near = vessels.label_of(vessel.name, drive.position), near_bore(drive.shaft_diameter_m)
    rows = propeller_rows(session, who, asked, *near)
    columns = columns_of(rows)
    found = mates(columns, np.array([np.nan if row.blades is None else row.blades for row in rows], float))

    def propeller(number: int) -> Any:
        pitch = figure_at(columns, "pitch_m", number)
        return propeller_at(columns, number, tag=rows[number].tag, blades=rows[number].blades, pitch_m=pitch)

    shown = [
        _pair(rows[one.right], rows[one.left], judge_pair(propeller(one.right), propeller(one.left), say=say))
        for one in found[asked.first : asked.first + PAGE]
    ]
    return Pairs(
        drive=label,
        rows=tuple(sorted(shown, key=lambda one: BADNESS.index(one.verdict.verdict))),
        further=asked.first + PAGE if asked.first + PAGE < len(found) else None,
    )


def pair(session: Session, who: Who, right: str, left: str, *, say: Any = plain) -> tuple[str, str, Verdict]:
    """Two propellers of the register put side by side for the two shafts of one boat: their tags, and the verdict.

    Raises
    ------
    NotFound
        No propeller carries one of the tags, or this person may not know of it.
    """
    tags = [tag.strip().upper() for tag in (right, left)]
    chosen = select(gear.Item).where(gear.Item.tag.in_(tags), gear.Item.kind == "propeller", gear.seen_by(who))
    found = {item.tag: item for item in session.scalars(chosen)}
    items = [found.get(tag) or gear.item_by_tag(session, who, tag, kind="propeller") for tag in tags]
    states = states_of(session, [item.id for item in items])
    one, other = (with_state(propeller_figures(item), states[item.id]) for item in items)
    return items[0].tag, items[1].tag, judge_pair(one, other, say=say)


def _pair(right: Any, left: Any, verdict: Verdict) -> StockPair:
    places = [vessels.label_of(row.vessel, row.position) if row.position else row.place for row in (right, left)]
    return StockPair(
        right=right.tag,
        left=left.tag,
        diameter_m=right.diameter_m,
        pitch_m=right.pitch_m,
        blades=right.blades,
        where=(places[0], places[1]),
        verdict=verdict,
    )
