"""Boats with a launch date: what is open, who has it, how long is left; and what is due afterwards. Two queries."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import and_, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.people.services import Who
from yardapp.relaunch.lines import FOLLOW_UP, RELEASES
from yardapp.relaunch.models import Launch, LaunchAct
from yardapp.relaunch.services.acting import refresh
from yardapp.relaunch.services.fault_rows import FaultNow, fault_rows, today
from yardapp.relaunch.settling import released
from yardapp.vessels import services as vessels

MOST = 200
PAGE = 50


@dataclass(frozen=True, kw_only=True)
class StillOpen:
    """One line that is not settled, as it stood when the launch was last looked over."""

    title: str
    part: str
    has: str
    verdict: str
    is_stop: bool
    by: str
    due: datetime | None
    late: datetime | None


@dataclass(frozen=True, kw_only=True)
class BoardRow:
    """One boat on the board."""

    launch_id: int
    vessel_id: int
    boat: str
    owner: str
    planned: datetime
    looked: datetime
    releases: tuple[str, ...]
    overridden: tuple[str, ...]
    open: tuple[StillOpen, ...]
    follow_ups: tuple[StillOpen, ...]
    stops: tuple[FaultNow, ...]

    @property
    def next_release(self) -> str | None:
        """The release that comes next; None when all are given."""
        return next((name for name in RELEASES if name not in self.releases), None)

    @property
    def in_the_way(self) -> list[StillOpen]:
        """What of it keeps her from the next release."""
        return [one for one in self.open if one.is_stop]

    @property
    def who_has_it(self) -> dict[str, int]:
        """How many of the open lines each has."""
        counted: dict[str, int] = {}
        for one in self.open:
            counted[one.has] = counted.get(one.has, 0) + 1
        return counted

    @property
    def days_left(self) -> int:
        """Whole days until she is to go in; below zero, the days since."""
        there: date = self.planned.astimezone().date()
        return (there - today()).days


def board(session: Session, who: Who) -> list[BoardRow]:
    """Every launch that is not over, the soonest first; an owner sees their own boats."""
    return whole_board(session, who)[0]


def whole_board(session: Session, who: Who) -> tuple[list[BoardRow], list[FaultNow]]:
    """The same, and every fault of the yard that was accepted until a day that has come."""
    acts = and_(LaunchAct.launch_id == Launch.id, LaunchAct.kind.in_(("released", "overridden", "taken back")))
    names = ("id", "kind", "release", "takes_back_id", "at", "said_by")
    columns = [getattr(LaunchAct, name).label(name) for name in names]
    rows = session.execute(
        select(Launch, vessels.Vessel.name.label("boat"), vessels.Vessel.owner, *columns)
        .join(vessels.Vessel, vessels.Vessel.id == Launch.vessel_id)
        .outerjoin(LaunchAct, acts)
        .where(~Launch.is_over, vessels.may_see_vessel(who))
        .order_by(Launch.planned, Launch.id, LaunchAct.id)
    ).all()
    boats = {row.Launch.id: row for row in rows}
    vessel_ids = [row.Launch.vessel_id for row in boats.values()]
    faults = fault_rows(session, who, vessel_ids=vessel_ids, or_back_by=today())
    told = [_row(boats[one], [row for row in rows if row.Launch.id == one and row.id], faults) for one in boats]
    return told[:MOST], [fault for fault in faults if fault.is_back(today())]


def _row(row: Any, acts: Sequence[Any], faults: Sequence[FaultNow]) -> BoardRow:
    launch, given = row.Launch, released(acts)
    still = [_still(one) for one in launch.still]
    coming = next((name for name in RELEASES if name not in given), "")
    on = max(launch.planned, now()).astimezone().date()
    return BoardRow(
        launch_id=launch.id,
        vessel_id=launch.vessel_id,
        boat=row.boat,
        owner=row.owner,
        planned=launch.planned,
        looked=launch.looked,
        releases=tuple(name for name in RELEASES if name in given),
        overridden=tuple(name for name, act in given.items() if act.kind == "overridden"),
        open=tuple(sorted((one for one in still if one.part == coming), key=lambda one: not one.is_stop)),
        follow_ups=tuple(_due_first([one for one in still if one.part == FOLLOW_UP and one.due])),
        stops=tuple(fault for fault in faults if fault.vessel_id == launch.vessel_id and fault.stops(on)),
    )


def _due_first(lines: list[StillOpen]) -> list[StillOpen]:
    return sorted(lines, key=lambda one: one.due or now())


def _still(one: dict[str, Any]) -> StillOpen:
    names = ("title", "part", "has", "verdict", "is_stop", "by")
    return StillOpen(**{name: one[name] for name in names}, due=_moment(one["due"]), late=_moment(one["late"]))


def _moment(text: str) -> datetime | None:
    return datetime.fromisoformat(text) if text else None


def look_over(session: Session, who: Who) -> int:
    """Work every open launch out afresh for the board: what was measured and coated since then counts. How many."""
    who.must("record")
    launches = session.scalars(select(Launch).where(~Launch.is_over).order_by(Launch.id).with_for_update()).all()
    for launch in launches:
        refresh(session, who, launch)
    return len(launches)


@dataclass(frozen=True, kw_only=True)
class PastLaunch:
    """One launch that is over, or was called off."""

    launch_id: int
    boat: str
    planned: datetime


def past(session: Session, who: Who, *, before: int | None = None, limit: int = PAGE) -> list[PastLaunch]:
    """Launches that are over, newest first, from before number `before`."""
    chosen = select(Launch, vessels.Vessel.name).join(vessels.Vessel, vessels.Vessel.id == Launch.vessel_id)
    chosen = chosen.where(Launch.is_over, vessels.may_see_vessel(who))
    if before is not None:
        chosen = chosen.where(Launch.id < before)
    rows = session.execute(chosen.order_by(Launch.id.desc()).limit(limit))
    return [PastLaunch(launch_id=launch.id, boat=name, planned=launch.planned) for launch, name in rows]


def launch_of(session: Session, who: Who, vessel_id: int) -> int | None:
    """The number of a boat's launch that is not over."""
    chosen = select(Launch.id).join(vessels.Vessel, vessels.Vessel.id == Launch.vessel_id)
    chosen = chosen.where(Launch.vessel_id == vessel_id, ~Launch.is_over, vessels.may_see_vessel(who))
    return session.scalar(chosen.limit(1))
