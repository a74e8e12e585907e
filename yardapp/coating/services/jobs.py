"""Jobs: looked at before they begin, kept, listed."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.amounts import Need, needed
from yardapp.coating.models import CoatingSystem, Job, Piece, SystemVersion, Tin
from yardapp.coating.pieces import Unit, units_of
from yardapp.coating.planning import Plan, Would, latest_start_s, plan, would_do
from yardapp.coating.services.asking import Asked, Found, find_pieces
from yardapp.coating.services.systems import VersionRow, system_page
from yardapp.coating.services.tins import tins
from yardapp.coating.stock import Draw, draw
from yardapp.coating.stock import Tin as StockTin
from yardapp.db import now
from yardapp.errors import OutsideRange, Refused
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

PAGE = 40


@dataclass(frozen=True, kw_only=True)
class Share:
    """One product's part, against what stands in stock."""

    product: str
    part: str
    volume_m3: float
    draw: Draw


@dataclass(frozen=True, kw_only=True)
class Looked:
    """A plan as it would be: its pieces, whether it can be done, what would help, what is needed."""

    version: VersionRow
    found: Sequence[Found]
    units: tuple[Unit, ...]
    plan: Plan | None
    plan_said: str
    would: tuple[Would, ...]
    needs: tuple[Need, ...]
    shares: Sequence[Share]
    tins: Sequence[Tin]
    latest_start_s: float | None

    @property
    def area_m2(self) -> float:
        """Everything that is to be coated."""
        return sum(one.planned.area_m2 for one in self.found)


def look(session: Session, who: Who, asked: Asked) -> Looked:
    """What a plan says; nothing is kept.

    Raises
    ------
    NotFound
        There is no such system.
    Refused
        A piece is never coated, or nobody knows its area.
    """
    who.must("see")
    version = system_page(session, who, asked.system_id).newest
    found = find_pieces(session, who, asked.pieces, version.system)
    units = units_of([one.planned for one in found], asked.blade_s)
    planned, said = _planned(version, units, asked)
    needs = needed(version.system, sum(one.planned.area_m2 for one in found), asked.loss_ratio)
    stock = tins(session, who)
    return Looked(
        version=version,
        found=found,
        units=units,
        plan=planned,
        plan_said=said,
        would=_would(version, units, found, asked) if planned is not None and planned.feasible is False else (),
        needs=needs,
        shares=_shares(needs, stock),
        tins=stock,
        latest_start_s=_latest(planned, asked),
    )


def _planned(version: VersionRow, units: tuple[Unit, ...], asked: Asked) -> tuple[Plan | None, str]:
    start_s = (asked.starts or now()).timestamp()
    try:
        found = plan(version.system, units, people=asked.people, metal_c=asked.metal_c, start_s=start_s)
    except OutsideRange as refusal:
        return None, f"Metal at {asked.metal_c:g} °C {refusal.said}"
    return found, ""


def _would(version: VersionRow, units: tuple[Unit, ...], found: Sequence[Found], asked: Asked) -> tuple[Would, ...]:
    """A roller is only spoken of by somebody who coats by brush and said how long it takes."""
    other_s = asked.other_blade_s if asked.way == "brush" else None
    rolled = units_of([one.planned for one in found], other_s) if other_s else ()
    return would_do(
        version.system,
        units,
        people=asked.people,
        metal_c=asked.metal_c,
        start_s=(asked.starts or now()).timestamp(),
        roller_s={unit.key: unit.work_s for unit in rolled} or None,
    )


def _latest(planned: Plan | None, asked: Asked) -> float | None:
    if planned is None or asked.launches is None:
        return None
    return latest_start_s(planned, asked.launches.timestamp())


def _shares(needs: Sequence[Need], stock: Sequence[Tin]) -> list[Share]:
    """Each part that is needed, and the tins that it would come from."""
    tins_ = [as_stock(tin) for tin in stock]
    return [
        Share(
            product=need.product,
            part=part.part,
            volume_m3=part.volume_m3,
            draw=draw(tins_, need.product, part.part, part.volume_m3, now().timestamp()),
        )
        for need in needs
        for part in need.parts
        if part.volume_m3 is not None
    ]


def as_stock(tin: Tin) -> StockTin:
    """A tin as the stock's arithmetic takes it."""
    until = tin.expires_on
    return StockTin(
        key=str(tin.id),
        product=tin.product,
        part=tin.part or tin.product,
        volume_m3=tin.volume_m3,
        batch=tin.batch,
        opened=tin.opened_on is not None,
        expires_s=None
        if until is None
        else datetime(until.year, until.month, until.day, 23, 59).astimezone().timestamp(),
    )


def plan_job(session: Session, who: Who, asked: Asked) -> Job:
    """Keep a plan as a job on the newest version of its system, which the job keeps from here on.

    Raises
    ------
    NotFound
        There is no such system or drive.
    Refused
        A piece is never coated, waits for its maker's word, or the sheet has no row for this metal.
    """
    who.must("record")
    looked = look(session, who, asked)
    _may_begin(looked)
    if asked.drive_id is not None:
        vessels.drive_label(session, asked.drive_id, who)
    job = Job(
        system_version_id=looked.version.id,
        title=" ".join(asked.title.split())[:120] or _title(looked),
        drive_id=asked.drive_id,
        people=asked.people,
        way=asked.way,
        blade_s=asked.blade_s,
        metal_c=asked.metal_c,
        loss_ratio=asked.loss_ratio,
        starts=asked.starts,
        launches=asked.launches,
        note=asked.note.strip(),
        planned=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(job)
    session.flush()
    session.add_all(_piece(job, one, looked.version.system.foul_release) for one in looked.found)
    session.flush()
    people.note(session, who, "planned", "coating job", job.id, title=job.title)
    return job


def _may_begin(looked: Looked) -> None:
    for one in looked.found:
        if one.verdict.verdict == "waits":
            raise Refused(one.verdict.why, f"pieces-{one.asked.row}-allowed_by")
    if looked.plan is None:
        raise Refused(looked.plan_said, "metal_c")


def _title(looked: Looked) -> str:
    return ", ".join(one.planned.label for one in looked.found)[:120]


def _piece(job: Job, one: Found, foul_release: bool) -> Piece:
    return Piece(
        job_id=job.id,
        number=int(one.planned.key),
        kind=one.planned.kind,
        label=one.planned.label,
        item_id=one.item.id if one.item else None,
        blades=one.planned.blades,
        area_m2=one.planned.area_m2,
        area_m2_typed=one.asked.area_m2_typed[:40],
        allowed_by=one.planned.allowed_by,
        allowed_on=one.asked.allowed_on,
        foul_release=foul_release,
    )


@dataclass(frozen=True, kw_only=True)
class JobRow:
    """One job as the list shows it."""

    id: int
    title: str
    is_open: bool
    starts: datetime | None
    planned: datetime
    launches: datetime | None
    said_by: str
    system: str
    version: int


def jobs(session: Session, who: Who, *, is_open: bool, before: int | None = None, limit: int = PAGE) -> list[JobRow]:
    """Jobs that run or ran, newest first."""
    who.must("see")
    chosen = _listed().where(Job.is_open.is_(is_open)).order_by(Job.id.desc()).limit(limit)
    return [JobRow(**row) for row in session.execute(chosen.where(Job.id < before) if before else chosen).mappings()]


def _listed() -> Any:
    return (
        select(
            Job.id,
            Job.title,
            Job.is_open,
            Job.starts,
            Job.planned,
            Job.launches,
            Job.said_by,
            CoatingSystem.name.label("system"),
            SystemVersion.number.label("version"),
        )
        .join(SystemVersion, SystemVersion.id == Job.system_version_id)
        .join(CoatingSystem, CoatingSystem.id == SystemVersion.system_id)
    )
