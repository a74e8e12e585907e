"""Coating: systems, jobs before and while they run, what is on each thing."""

from datetime import UTC, datetime, time
from typing import Any

from yardapp.api.bodies import coating as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.coating import services
from yardapp.coating.exchange import from_json, to_json
from yardapp.coating.hours import Hours, hours_of
from yardapp.coating.standing import standing
from yardapp.db import now
from yardapp.errors import NotFound, Refused

FIGURES = ("air_c", "metal_c", "relative_humidity", "wet_bulb_c", "product", "batch", "volume_m3", "fate", "people")


def _at(at_s: float | None) -> datetime | None:
    return None if at_s is None else datetime.fromtimestamp(at_s, UTC)


@reads("/coating/systems", reply=bodies.Systems, errors=(403,))
def systems(act: Act) -> bodies.Systems:
    """Every coating system of the yard in its newest version."""
    return bodies.Systems(systems=[_system(row) for row in services.systems(act.session, act.who)])


def _system(row: services.SystemRow) -> bodies.SystemShown:
    return bodies.SystemShown(
        id=row.id,
        name=row.name,
        version=row.number,
        is_used=row.is_used,
        at=row.at,
        said_by=row.said_by,
        sheet=to_json(row.system),
    )


def _added(act: Act, key: str) -> bodies.SystemShown:
    return next(_system(row) for row in services.systems(act.session, act.who) if row.id == int(key))


@creates("/coating/systems", body=bodies.NewSystem, reply=bodies.SystemShown, at="/coating/systems", shows=_added)
def add_system(act: Act, said: bodies.NewSystem) -> str:
    """Write a new system from its data sheet."""
    act.who.must("change")
    try:
        system = from_json(said.sheet)
    except ValueError as refusal:  # everything that can't be right about a sheet, in words
        raise Refused(str(refusal), "sheet") from refusal
    return str(services.add_system(act.session, act.who, system, why=said.why))


@reads("/coating/jobs", query=bodies.JobsAsked, reply=bodies.Jobs, errors=(403,))
def jobs(act: Act, asked: bodies.JobsAsked) -> bodies.Jobs:
    """Jobs that run, or that are over, newest first."""
    rows = services.jobs(act.session, act.who, is_open=asked.show == "running", before=asked.before, limit=asked.limit)
    return bodies.Jobs(jobs=[bodies.JobListed.model_validate(row, from_attributes=True) for row in rows])


@reads("/coating/jobs/{job_id}", reply=bodies.JobNow, errors=(403,))
def job(act: Act, job_id: int) -> bodies.JobNow:
    """A job as it stands: what to do now, on which blade, how long is left, what comes next."""
    story = services.story_of(act.session, act.who, job_id)
    there = standing(story.run, now().timestamp())
    return bodies.JobNow(
        id=story.job.id,
        title=story.job.title,
        is_open=story.job.is_open,
        version=story.job.version,
        at=datetime.fromtimestamp(there.now_s, UTC),
        now=_to_do(there.now),
        then=_to_do(there.then),
        units=[_unit(one) for one in there.units],
        weather=there.gate.verdict,
        weather_why=list(there.gate.why),
        faults=[_fault(one) for one in there.faults],
        warnings=list(there.warnings),
        water_from=_at(there.immersion_s),
        changes_at=_at(there.changes_at_s),
        acts=_acts(story),
    )


def _to_do(one: Any) -> bodies.ToDo | None:
    if one is None:
        return None
    return bodies.ToDo(
        act=one.act,
        name=one.name,
        said=one.said,
        unit=one.unit,
        label=one.label,
        step=one.step,
        from_at=datetime.fromtimestamp(one.from_s, UTC),
        by=_at(one.by_s),
    )


def _unit(one: Any) -> bodies.UnitNow:
    return bodies.UnitNow(
        key=one.key,
        label=one.label,
        phase=one.phase,
        step=one.step,
        name=one.name,
        coats=one.coats,
        opens=_at(one.opens_s),
        shuts=_at(one.shuts_s),
        test=_at(one.test_s),
    )


def _fault(one: Any) -> bodies.FaultNow:
    return bodies.FaultNow(
        kind=one.kind,
        unit=one.unit,
        step=one.step,
        at=datetime.fromtimestamp(one.at_s, UTC),
        said=one.said,
        remedy=one.remedy,
        is_remedied=one.remedied,
    )


def _acts(story: services.Story) -> list[bodies.ActKept]:
    standing_ids = {one.id for one in story.standing_acts}
    names = ("id", "kind", "unit", "step", "at", "noted", "is_late", "said_by", "figures", "note")
    return [
        bodies.ActKept(**{name: getattr(one, name) for name in names}, is_standing=one.id in standing_ids)
        for one in story.acts
    ]


def _hours(said: bodies.WorkingHours | None) -> Hours | None:
    if said is None:
        return None
    breaks = [(time.fromisoformat(one.begins), time.fromisoformat(one.ends)) for one in said.breaks]
    begins, ends = time.fromisoformat(said.begins), time.fromisoformat(said.ends)
    try:
        return hours_of(begins, ends, breaks, weekends=said.weekends)
    except Refused as refusal:
        raise Refused(refusal.said, "hours") from None


def _planned(act: Act, key: str) -> bodies.JobNow:
    return job(act, int(key))


@creates("/coating/jobs", body=bodies.NewJob, reply=bodies.JobNow, at="/coating/jobs/{key}", shows=_planned)
def plan_job(act: Act, said: bodies.NewJob) -> str:
    """Plan a job; it keeps the version of its system from here on."""
    pieces = tuple(
        services.AskedPiece(**one.model_dump(exclude={"allowed_by"}), allowed_by=one.allowed_by or "", row=row)
        for row, one in enumerate(said.pieces)
    )
    asked = services.Asked(**said.model_dump(exclude={"pieces", "hours"}), pieces=pieces, hours=_hours(said.hours))
    # A system or a drive that is not there is a wrong field, not a wrong address.
    try:
        services.system_page(act.session, act.who, said.system_id)
    except NotFound as refusal:
        raise Refused(str(refusal), "system_id") from None
    try:
        return str(services.plan_job(act.session, act.who, asked).id)
    except NotFound as refusal:
        raise Refused(str(refusal), "drive_id") from None


def _acted(act: Act, key: str, job_id: int) -> bodies.JobNow:
    return job(act, job_id)


@creates(
    "/coating/jobs/{job_id}/acts",
    body=bodies.NewAct,
    reply=bodies.JobNow,
    at="/coating/jobs/{job_id}",
    shows=_acted,
)
def tell_act(act: Act, said: bodies.NewAct, job_id: int) -> str:
    """Tell of one act beside the boat; the answer is the job as it stands then."""
    figures = {name: getattr(said, name) for name in FIGURES if getattr(said, name) not in (None, "")}
    tap = services.Tap(kind=said.kind, unit=said.unit, step=said.step, at=said.at, figures=figures, note=said.note)
    return str(services.act(act.session, act.who, job_id, tap).id)


@reads("/items/{tag}/coatings", reply=bodies.Coatings)
def coatings(act: Act, tag: str) -> bodies.Coatings:
    """Everything that was coated onto one thing, and how it looked since."""
    found = services.history_of(act.session, act.who, tag)
    return bodies.Coatings(tag=found.tag, is_slippery=found.is_slippery, coatings=[_coating(row) for row in found.rows])


def _coating(row: services.CoatRow) -> bodies.Coating:
    piece = row.piece
    return bodies.Coating(
        job_id=row.job_id,
        piece_id=piece.id,
        system=row.system_name,
        version=row.version,
        way=row.way,
        foul_release=piece.foul_release,
        finished=piece.finished,
        immersed=piece.immersed,
        ended=row.ended,
        metal_low_c=piece.metal_low_c,
        metal_high_c=piece.metal_high_c,
        windows_met=piece.windows_met,
        ratings=[bodies.RatingKept.model_validate(one, from_attributes=True) for one in row.ratings],
        perhaps_of=row.perhaps_of,
    )
