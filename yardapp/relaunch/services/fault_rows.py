"""Faults of the whole yard as one list: the room's own, and those that the bench marked on a propeller. One query."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Float, Integer, and_, case, cast, false, func, literal, null, or_, select, union_all
from sqlalchemy.orm import Session

from yardapp.bench import services as bench
from yardapp.db import now
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.relaunch.models import FaultAct, YardFault
from yardapp.vessels import services as vessels

SEVERITIES = {"stop": "Stop: she may not go in", "watch": "Watch it", "note": "Note only"}
WORST_FIRST = {severity: place for place, severity in enumerate(SEVERITIES)}
MOST_LISTED = 400


@dataclass(frozen=True, kw_only=True)
class Decision:
    """Something decided of a fault: who decides, that it is accepted (by whom, until when), how it was closed."""

    kind: str
    name: str
    note: str
    until: date | None
    at: datetime
    said_by: str


@dataclass(frozen=True, kw_only=True)
class FaultNow:
    """One fault as it stands. `key` is its name for every page and the API: `y12`, or `b7` where the bench has it."""

    key: str
    severity: str
    what: str
    place: str
    evidence: str
    found: str
    photo_sha256: str
    at: datetime
    said_by: str
    tag: str
    kind: str
    drive_id: int | None
    position: str
    vessel_id: int | None
    vessel: str
    decisions: tuple[Decision, ...] = ()

    @property
    def on(self) -> str:
        """The thing that it is on: a tag, a drive, a boat."""
        if self.tag:
            return self.tag
        return vessels.label_of(self.vessel, self.position) if self.drive_id is not None else self.vessel

    @property
    def aboard(self) -> str:
        """Where that is: the drive that a tagged thing is on; nothing for what lies ashore."""
        return vessels.label_of(self.vessel, self.position) if self.drive_id is not None else self.vessel

    @property
    def decides(self) -> str:
        """Who decides; nothing where nobody was named."""
        return next((one.name for one in reversed(self.decisions) if one.kind == "decides"), "")

    @property
    def acceptance(self) -> Decision | None:
        """The acceptance that was given last, if it was not ended."""
        last = next((one for one in reversed(self.decisions) if one.kind in ("accepted", "acceptance ended")), None)
        return last if last is not None and last.kind == "accepted" else None

    @property
    def closing(self) -> Decision | None:
        """How it was closed."""
        return next((one for one in self.decisions if one.kind == "closed"), None)

    def is_accepted(self, on: date) -> bool:
        """Whether it is accepted on that day; on the day to look again it is back."""
        given = self.acceptance
        return given is not None and given.until is not None and on < given.until

    def is_back(self, on: date) -> bool:
        """Whether its day to look again has come."""
        return self.closing is None and self.acceptance is not None and not self.is_accepted(on)

    def stops(self, on: date) -> bool:
        """Whether it keeps a boat ashore on that day."""
        return self.severity == "stop" and self.closing is None and not self.is_accepted(on)


def fault_rows(
    session: Session,
    who: Who,
    *,
    vessel_ids: Collection[int] | None = None,
    or_back_by: date | None = None,
    tag: str = "",
    key: str = "",
    with_closed: bool = False,
    limit: int = MOST_LISTED,
) -> list[FaultNow]:
    """Faults that this person may know of, worst first: all that stand, those of some boats, or one by its key.

    `or_back_by` adds to those of some boats every one of the yard whose acceptance ran until that day.
    """
    chosen = union_all(_own(who), _of_the_bench(who)).subquery()
    narrowed = select(chosen)
    if vessel_ids is not None:
        narrowed = narrowed.where(or_(chosen.c.vessel_id.in_(vessel_ids), _is_back_by(chosen.c, or_back_by)))
    if tag:
        narrowed = narrowed.where(chosen.c.tag == tag.strip().upper())
    if key:
        narrowed = narrowed.where(chosen.c.source == key[:1], chosen.c.id == _number(key))
    if not with_closed and not key:
        narrowed = narrowed.where(chosen.c.closed_at.is_(None))
    rank = case(WORST_FIRST, value=chosen.c.severity)
    rows = narrowed.order_by(rank, chosen.c.at.desc(), chosen.c.source, chosen.c.id).limit(limit).subquery()
    with_acts = select(rows, FaultAct).select_from(rows).outerjoin(FaultAct, _acts_of(rows.c))
    found = session.execute(with_acts.order_by(FaultAct.id)).all()
    return sorted(_folded(found), key=lambda fault: (WORST_FIRST[fault.severity], -fault.at.timestamp()))


def _is_back_by(rows: Any, on: date | None) -> Any:
    if on is None:
        return false()
    given = select(FaultAct.id).where(_acts_of(rows), FaultAct.kind == "accepted", FaultAct.until <= on)
    return given.exists()


def _acts_of(rows: Any) -> Any:
    """The clause "what was decided of this fault"."""
    own, theirs = FaultAct.fault_id == rows.id, FaultAct.bench_fault_id == rows.id
    return or_(and_(rows.source == "y", own), and_(rows.source == "b", theirs))


def _number(key: str) -> int:
    digits = key[1:]
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) < 10 else 0


def _columns(named: dict[str, Any]) -> list[Any]:
    return [column.label(name) for name, column in named.items()]


def _seen(who: Who, drive_id: Any) -> Any:
    if who.may("see"):
        return literal(1) == 1
    return or_(vessels.Vessel.owner_id == who.person_id, drive_id.in_(vessels.drives_of_owner(who)))


def _own(who: Who) -> Any:
    drive_id = func.coalesce(YardFault.drive_id, gear.Item.aboard_id)
    closed = select(FaultAct.at).where(FaultAct.fault_id == YardFault.id, FaultAct.kind == "closed")
    columns = {
        "source": literal("y"),
        "id": YardFault.id,
        "severity": YardFault.severity,
        "what": YardFault.what,
        "place": YardFault.place,
        "evidence": YardFault.evidence,
        "found": YardFault.found,
        "photo_sha256": YardFault.photo_sha256,
        "at": YardFault.at,
        "said_by": YardFault.said_by,
        "closed_at": closed.scalar_subquery(),
        "closed_by": literal(""),
        "closed_how": literal(""),
        **_where_it_is(drive_id, func.coalesce(YardFault.vessel_id, vessels.Drive.vessel_id)),
        **_no_blade(),
    }
    return (
        select(*_columns(columns))
        .select_from(YardFault)
        .outerjoin(gear.Item, gear.Item.id == YardFault.item_id)
        .outerjoin(vessels.Drive, vessels.Drive.id == drive_id)
        .outerjoin(vessels.Vessel, vessels.Vessel.id == func.coalesce(YardFault.vessel_id, vessels.Drive.vessel_id))
        .where(_seen(who, drive_id))
    )


def _of_the_bench(who: Who) -> Any:
    fault, closing = bench.Fault, bench.FaultClosing
    columns = {
        "source": literal("b"),
        "id": fault.id,
        "severity": fault.severity,
        "what": fault.kind,
        "place": fault.side,
        "evidence": fault.note,
        "found": literal("bench"),
        "photo_sha256": fault.photo_sha256,
        "at": fault.at,
        "said_by": fault.said_by,
        "closed_at": closing.at,
        "closed_by": closing.said_by,
        "closed_how": closing.how,
        **_where_it_is(gear.Item.aboard_id, vessels.Drive.vessel_id),
        "blade": fault.blade,
        "radius_ratio": fault.radius_ratio,
    }
    return (
        select(*_columns(columns))
        .select_from(fault)
        .join(gear.Item, gear.Item.id == fault.item_id)
        .outerjoin(closing, closing.fault_id == fault.id)
        .outerjoin(vessels.Drive, vessels.Drive.id == gear.Item.aboard_id)
        .outerjoin(vessels.Vessel, vessels.Vessel.id == vessels.Drive.vessel_id)
        .where(_seen(who, gear.Item.aboard_id))
    )


def _where_it_is(drive_id: Any, vessel_id: Any) -> dict[str, Any]:
    return {
        "tag": func.coalesce(gear.Item.tag, ""),
        "kind": func.coalesce(gear.Item.kind, ""),
        "drive_id": drive_id,
        "position": func.coalesce(vessels.Drive.position, ""),
        "vessel_id": vessel_id,
        "vessel": func.coalesce(vessels.Vessel.name, ""),
    }


def _no_blade() -> dict[str, Any]:
    return {"blade": cast(null(), Integer), "radius_ratio": cast(null(), Float(53))}


def _folded(found: Sequence[Any]) -> list[FaultNow]:
    """One fault a row, with all that was decided of it, oldest first."""
    acts: dict[str, list[Decision]] = {}
    rows: dict[str, Any] = {}
    for row in found:
        key = f"{row.source}{row.id}"
        rows.setdefault(key, row)
        if row.FaultAct is not None:
            acts.setdefault(key, []).append(_decision(row.FaultAct))
    return [_fault(key, row, acts.get(key, [])) for key, row in rows.items()]


def _decision(act: FaultAct) -> Decision:
    return Decision(kind=act.kind, name=act.name, note=act.note, until=act.until, at=act.at, said_by=act.said_by)


def _fault(key: str, row: Any, decisions: list[Decision]) -> FaultNow:
    is_bench = row.source == "b"
    if is_bench and row.closed_at is not None:
        closed = Decision(
            kind="closed", name="", note=row.closed_how, until=None, at=row.closed_at, said_by=row.closed_by
        )
        decisions = [*decisions, closed]
    names = ("severity", "evidence", "found", "photo_sha256", "at", "said_by", "tag", "kind")
    there = {name: getattr(row, name) for name in (*names, "drive_id", "position", "vessel_id", "vessel")}
    return FaultNow(
        key=key,
        what=row.what.capitalize() if is_bench else row.what,
        place=_blade(row) if is_bench else row.place,
        decisions=tuple(decisions),
        **there,
    )


def _blade(row: Any) -> str:
    if row.blade is None:
        return str(row.place)
    return f"blade {row.blade}, at {row.radius_ratio:g} R, {row.place}"


def today() -> date:
    """The day that the yard's own clock shows."""
    return now().astimezone().date()


__all__ = ["SEVERITIES", "Decision", "FaultNow", "fault_rows", "today"]
