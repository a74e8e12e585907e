"""Propellers of the register as columns: one lean query, and what is doubted read only where something is."""

import gc
import json
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

import numpy as np
from sqlalchemy import ColumnElement, Select, Text, and_, case, cast, null, or_, select
from sqlalchemy.orm import Session

from yardapp.bench.services.looked_over import barred
from yardapp.fit.ranking.columns import BORE_CODES, HAND_CODES, PROPELLER_FIGURES, Columns, Marks
from yardapp.fit.ranking.loads import Wheel
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

ITEM = gear.Item.__table__.c  # columns, not the mapped class: at 100,000 rows the mapping costs more than the sums
FIGURES = (*PROPELLER_FIGURES, "pitch_m")
SIZES = 2 * len(FIGURES)
HAND, SEEN, KIND, BARRED, BLADES, GUESSES, ODDS = range(SIZES, SIZES + 7)
NUMBERS = BLADES + 1
GONE = ("sold", "scrapped", "lost", "stolen", "merged")  # as the moves leave it: no stock of this yard
# Beyond these a bore was made for another shaft: a larger one needs a bush, a smaller one leaves a thin hub.
LARGEST_BORE, SMALLEST_BORE = 1.15, 0.5


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a list of propellers is narrowed down by."""

    place: str = ""
    boat: str = ""
    blades: int | None = None
    is_aboard_too: bool = False
    is_for_sale: bool = False
    is_any_bore: bool = False
    rule: str = "15 %"
    first: int = 0


def propeller_rows(session: Session, who: Who, asked: Asked, *narrowed: ColumnElement[bool]) -> Sequence[Any]:
    """Numbers first, as `columns_of` takes them, then what a list shows of a row; nothing more."""
    known, odds = cast(ITEM.known, Text), cast(ITEM.odds, Text)
    chosen = select(
        *(column for name in FIGURES for column in (ITEM[name], ITEM[f"u_{name}"])),
        _coded(ITEM.hand, HAND_CODES),
        case((_is_hand_seen(), 1), else_=0),
        _coded(ITEM.bore_kind, BORE_CODES),
        case((barred(ITEM.id), 1), else_=0),
        ITEM.blades,
        case((known.like('%"guessed"%'), known)),
        case((odds != "[]", odds)),
        ITEM.tag,
        ITEM.hand,
        ITEM.material,
        ITEM.area_ratio,
        ITEM.blade_kind,
        ITEM.place,
        ITEM.is_for_sale,
        ITEM.aboard_id,
    )
    chosen = chosen.where(ITEM.kind == "propeller", gear.seen_by(who), *_asked_for(session, asked), *narrowed)
    # Straight from the connection: a session would look each row over for mapped things.
    with _unswept():
        return session.connection().execute(_with_boats(chosen) if asked.is_aboard_too else _ashore(chosen)).all()


@contextmanager
def _unswept() -> Iterator[None]:
    """No sweep for garbage while many rows are made: it would go over all of them again and again, for nothing."""
    was_sweeping = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_sweeping:
            gc.enable()


def _coded(column: ColumnElement[Any], of: dict[str, int]) -> ColumnElement[int]:
    return case(*((column == word, code) for word, code in of.items()), else_=0)


def _is_hand_seen() -> ColumnElement[bool]:
    return cast(ITEM.known, Text).like('%"hand": "measured"%')


def _with_boats(chosen: Select[Any]) -> Select[Any]:
    on = vessels.drive_names().subquery("aboard")
    return chosen.add_columns(on.c.vessel, on.c.position).outerjoin(on, on.c.drive_id == ITEM.aboard_id)


def _ashore(chosen: Select[Any]) -> Select[Any]:
    return chosen.add_columns(null().label("vessel"), null().label("position")).where(ITEM.aboard_id.is_(None))


def _asked_for(session: Session, asked: Asked) -> list[ColumnElement[bool]]:
    clauses: list[ColumnElement[bool]] = [ITEM.standing.not_in(GONE)]
    if asked.place:
        clauses.append(ITEM.place.icontains(asked.place, autoescape=True))
    if asked.is_for_sale:
        clauses.append(ITEM.is_for_sale)
    if asked.blades is not None:
        clauses.append(ITEM.blades == asked.blades)
    if asked.boat:
        drives = vessels.drives_of_words(session, asked.boat)
        clauses.append(or_(ITEM.came_off_id.in_(drives), ITEM.aboard_id.in_(drives)))
    return clauses


def of_hand(hand: str | None) -> list[ColumnElement[bool]]:
    """Leave out those of the other hand, seen and uncontradicted: no work changes a hand."""
    if hand is None:
        return []
    is_other = and_(ITEM.hand != hand, _is_hand_seen(), cast(ITEM.odds, Text) == "[]")
    return [or_(ITEM.hand.is_(None), ~is_other)]


def near_bore(shaft_m: float | None) -> list[ColumnElement[bool]]:
    """Leave out bores that were made for quite another shaft; a pilot may be as small as it likes."""
    if shaft_m is None:
        return []
    bore = ITEM.bore_large_m
    is_pilot_or_near = or_(bore >= SMALLEST_BORE * shaft_m, ITEM.bore_kind == "pilot")
    return [or_(bore.is_(None), and_(bore <= LARGEST_BORE * shaft_m, is_pilot_or_near))]


def columns_of(rows: Sequence[Any]) -> Columns:
    """The rows as columns, as `propeller_figures` reads each of them."""
    with _unswept():
        numbers = np.array([row[:NUMBERS] for row in rows], float).reshape(len(rows), NUMBERS).T
    hand, seen = numbers[HAND].astype(np.int8), numbers[SEEN].astype(np.int8)
    doubts = _doubts(rows)
    is_odd = doubts.pop("hand", np.zeros(len(rows), bool))
    # A hand known from a stamp alone was not seen; one that was seen, and contradicted, is stamped the other.
    stamped = np.where(seen == 0, hand, np.where(is_odd & (hand > 0), 3 - hand, 0))
    return Columns(
        values=dict(zip(FIGURES, numbers[0:SIZES:2], strict=True)),
        u=dict(zip(FIGURES, numbers[1:SIZES:2], strict=True)),
        hand=hand * seen,
        hand_stamped=stamped.astype(np.int8),
        bore_kind=numbers[KIND].astype(np.int8),
        blades=numbers[BLADES],
        barred=numbers[BARRED] > 0,
        doubts=doubts,
    )


def wheels_of(rows: Sequence[Any]) -> Callable[[int], Wheel]:
    """What is known of a row's blades, made when it is asked for: of 100,000 rows few are."""
    return lambda number: Wheel(rows[number].blades, rows[number].area_ratio, rows[number].blade_kind)


def _doubts(rows: Sequence[Any]) -> dict[str, Marks]:
    """Where a figure is only guessed, or its evidence surely contradicts itself."""
    marked: dict[str, Marks] = {}
    for number in [number for number, row in enumerate(rows) if row[GUESSES] is not None or row[ODDS] is not None]:
        known, odds = (json.loads(text) if text else [] for text in (rows[number][GUESSES], rows[number][ODDS]))
        guessed = {name for name in FIGURES if known and known.get(name) == "guessed"}
        for name in guessed | {str(one["what"]) for one in odds if one["sure"]}:
            marked.setdefault(name, np.zeros(len(rows), bool))[number] = True
    return marked
