"""Jobs: kept from a plan, listed."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.hours import to_json
from yardapp.coating.models import CoatingSystem, Job, Piece, SystemVersion
from yardapp.coating.services.asking import Asked, Found
from yardapp.coating.services.looking import Looked, look
from yardapp.db import now
from yardapp.errors import Refused
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

PAGE = 40


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
        hours=to_json(asked.hours),
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
