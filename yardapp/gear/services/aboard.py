"""What was on which drive at a moment, out of the moves of each thing, as `whereabouts.around` has it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import ColumnElement, and_, bindparam, exists, false, func, literal_column, or_, select
from sqlalchemy.orm import Session, aliased

from yardapp.db import UtcTime
from yardapp.gear.models import Event, Item
from yardapp.gear.services.search import ItemRow, listed, row_of
from yardapp.gear.whereabouts import MOVES
from yardapp.people.services import Who
from yardapp.vessels import services as vessels
from yardapp.vessels.services.stays import Stay, standing_at, stays_in

# Written into the query itself: a list of parameters would be put together anew each time that it is asked.
SAY_WHERE: list[Any] = [literal_column(f"'{kind}'") for kind in ("logged", *MOVES)]


@dataclass(frozen=True, kw_only=True)
class OnThatDay:
    """One thing that was on a drive, from when to when; None: it still is."""

    row: ItemRow
    since: datetime
    until: datetime | None


def aboard_on(
    session: Session, who: Who, vessel_id: int, at: datetime
) -> tuple[vessels.Vessel, list[tuple[Stay, list[OnThatDay]]]]:
    """What was on each line of a boat at a moment, however long ago: her drives of that day. Two queries.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    vessel, stays = stays_in(session, who, vessel_id)
    there = standing_at(stays, at)
    found: dict[int, list[OnThatDay]] = {stay.drive_id: [] for stay in there}
    for row in session.execute(_on_them(), {"drives": list(found), "then": at}) if found else ():
        found[row.on_drive_id].append(OnThatDay(row=row_of(row), since=row.since, until=row.until))
    return vessel, [(stay, found[stay.drive_id]) for stay in there]


@lru_cache(maxsize=1)
def _on_them() -> Any:
    """Of all that was ever on these drives, what was on them then: one seek for each thing's last move. Built once."""
    drives: Any = bindparam("drives", expanding=True)
    at: Any = bindparam("then", type_=UtcTime())
    move, later = aliased(Event), aliased(Event)
    until = select(func.min(later.at)).where(*_moves(later, move.item_id), _is_not_first(later), later.at > at)
    return (
        listed()
        .add_columns(move.drive_id.label("on_drive_id"), move.at.label("since"))
        .add_columns(until.scalar_subquery().label("until"))
        .join(move, move.id == _last_move(Item.id, at))
        .where(Item.id.in_(ever_on(drives)), move.drive_id.in_(drives), _puts_on(move))
        .order_by(Item.kind.desc(), Item.tag)
    )


def ever_on(drive_ids: Any) -> Any:
    """Numbers of the things that were ever on these drives, or worked on there."""
    return select(Event.item_id).where(Event.drive_id.in_(drive_ids)).distinct()


def was_on(on: Sequence[Callable[[Any, Any], ColumnElement[bool]]], item_id: Any, at: Any) -> ColumnElement[bool]:
    """Whether a thing was on a drive at a moment; each of `on` says of a drive and that moment whether it is meant."""
    move = aliased(Event)
    is_one = or_(false(), *(one(move.drive_id, at) for one in on))
    return exists().where(move.id == _last_move(item_id, at), is_one, _puts_on(move))


def _puts_on(move: Any) -> ColumnElement[bool]:
    return or_(move.standing == "aboard", and_(move.standing.is_(None), move.kind == "went on"))


def _last_move(item_id: Any, at: Any) -> Any:
    """The number of a thing's last move up to a moment, along the index of its days."""
    move, begin = aliased(Event), aliased(Event)
    of_its_own = _newest(move, item_id, at).where(_is_not_first(move))
    return func.coalesce(of_its_own.scalar_subquery(), _newest(begin, item_id, at).scalar_subquery())


def _newest(move: Any, item_id: Any, at: Any) -> Any:
    rows = select(move.id).where(*_moves(move, item_id), move.at <= at)
    return rows.order_by(move.at.desc(), move.id.desc()).limit(1).correlate_except(move)


def _moves(line: Any, item_id: Any) -> tuple[ColumnElement[bool], ...]:
    """The lines of a thing that say where it is; a move that was undone later never was."""
    undoing = aliased(Event)
    says_where = or_(line.standing.is_not(None), line.kind.in_(SAY_WHERE))
    return line.item_id == item_id, says_where, ~exists().where(undoing.undoes_id == line.id)


def _is_not_first(line: Any) -> ColumnElement[bool]:
    """The first line written is where the register begins, whatever its day: all other moves come after it."""
    earlier = aliased(Event)
    return exists().where(earlier.item_id == line.item_id, earlier.id < line.id)
