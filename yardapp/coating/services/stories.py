"""A job with its system, its pieces and its acts, as the pure half of the room takes them: two queries."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any
from weakref import WeakKeyDictionary

from sqlalchemy import Engine, bindparam, select
from sqlalchemy.orm import Session

from yardapp.coating.acts import UNDO, standing_acts
from yardapp.coating.acts import Act as ToldAct
from yardapp.coating.acts import Job as LiveJob
from yardapp.coating.exchange import from_json
from yardapp.coating.hours import from_json as hours_from_json
from yardapp.coating.models import CoatingAct, Job, Piece, SystemVersion
from yardapp.coating.pieces import Piece as PlannedPiece
from yardapp.coating.pieces import Unit, units_of
from yardapp.coating.running import Run, run
from yardapp.coating.system import System
from yardapp.coating.weather import Reading
from yardapp.db import Glance, Register
from yardapp.errors import NotFound
from yardapp.people.services import Who

OURS = frozenset({"launched", "note", "photo"})  # told by nobody's clock: the fold does not know them
MOST_KEPT = 256


@dataclass(frozen=True, kw_only=True)
class Story:
    """One job and everything that was done in it. `standing_acts` are those that no correction took away."""

    job: Job
    system: System
    system_id: int
    pieces: Sequence[Piece]
    acts: Sequence[CoatingAct]
    units: tuple[Unit, ...]
    run: Run

    @property
    def standing_acts(self) -> list[CoatingAct]:
        """What still stands, in the order in which it was done."""
        return standing_of(self.acts)

    def unit(self, key: str) -> Unit | None:
        """The blade or piece of that key."""
        return next((unit for unit in self.units if unit.key == key), None)

    def piece_of(self, key: str) -> Piece | None:
        """The piece to which a unit belongs."""
        unit = self.unit(key)
        return next((piece for piece in self.pieces if unit and str(piece.number) == unit.piece), None)


def standing_of(acts: Sequence[CoatingAct]) -> list[CoatingAct]:
    """The acts that no correction and no undoing took away, in the order in which they were done."""
    by_number = {act.id: act for act in acts}
    return [by_number[told.number] for told in standing_acts([as_told(act) for act in acts]) if told.kind != UNDO]


def story_of(session: Session, who: Who, job_id: int) -> Story:
    """One job with all that was done in it.

    Raises
    ------
    NotFound
        There is no such job.
    """
    found = stories_of(session, who, Job.id == job_id)
    if not found:
        raise NotFound("There is no such coating job.")
    return found[0]


def stories_of(session: Session, who: Who, chosen: Any) -> list[Story]:
    """Every job that is chosen, newest first: two queries, however many they are."""
    who.must("see")
    rows = session.execute(
        select(Job, SystemVersion, Piece)
        .join(SystemVersion, SystemVersion.id == Job.system_version_id)
        .join(Piece, Piece.job_id == Job.id)
        .where(chosen)
        .order_by(Job.id.desc(), Piece.number)
    ).all()
    if not rows:
        return []
    by_job = {row[0].id: (row[0], row[1]) for row in rows}
    acts: dict[int, list[CoatingAct]] = {}
    for act in session.scalars(select(CoatingAct).where(CoatingAct.job_id.in_(by_job)).order_by(CoatingAct.id)):
        acts.setdefault(act.job_id, []).append(act)
    return [
        told(job, version, [row[2] for row in rows if row[0].id == job.id], acts.get(job.id, []))
        for job, version in by_job.values()
    ]


def told(job: Job, version: SystemVersion, pieces: Sequence[Piece], acts: Sequence[CoatingAct]) -> Story:
    """The story that these rows tell."""
    system = _system(json.dumps(version.sheet))
    units = units_in(pieces, job.blade_s)
    fold = _folded(job, system, units, acts)
    return Story(job=job, system=system, system_id=version.system_id, pieces=pieces, acts=acts, units=units, run=fold)


def with_act(story: Story, act: CoatingAct) -> Story:
    """The same story with one act more, without asking the register again."""
    acts = [*story.acts, act]
    return replace(story, acts=acts, run=_folded(story.job, story.system, story.units, acts))


def _folded(job: Job, system: System, units: tuple[Unit, ...], acts: Sequence[CoatingAct]) -> Run:
    launch_s = job.launches.timestamp() if job.launches else None
    live = LiveJob(system=system, units=units, people=job.people, launch_s=launch_s, hours=hours_from_json(job.hours))
    return run(live, tuple(as_told(act) for act in acts if act.kind not in OURS))


# A version of a sheet never changes: what it says is put together once.
@lru_cache(maxsize=64)
def _system(sheet: str) -> System:
    return from_json(json.loads(sheet))


def units_in(pieces: Sequence[Piece], blade_s: float) -> tuple[Unit, ...]:
    """Every blade and every small piece that has a clock of its own."""
    return units_of([as_planned(piece) for piece in pieces], blade_s)


def as_planned(piece: Piece) -> PlannedPiece:
    """A piece as the planner takes it."""
    return PlannedPiece(
        key=str(piece.number),
        label=piece.label,
        kind=piece.kind,
        area_m2=piece.area_m2,
        blades=piece.blades,
        allowed_by=piece.allowed_by,
        allowed_on=piece.allowed_on.isoformat() if piece.allowed_on else "",
    )


def as_told(act: CoatingAct) -> ToldAct:
    """An act as the fold takes it."""
    figures = act.figures
    return ToldAct(
        number=act.id,
        kind=act.kind,
        at_s=act.at.timestamp(),
        who=act.said_by,
        unit=act.unit,
        step=act.step,
        product=figures.get("product", ""),
        batch=figures.get("batch", ""),
        volume_m3=figures.get("volume_m3"),
        reading=_reading(act) if act.kind == "weather" else None,
        people=figures.get("people"),
        undoes=act.replaces_id or act.undoes_id,
        said=act.note,
        offline=act.is_late,
    )


def _reading(act: CoatingAct) -> Reading | None:
    names = ("air_c", "metal_c", "relative_humidity", "wet_bulb_c")
    read: dict[str, Any] = {name: act.figures[name] for name in names if act.figures.get(name) is not None}
    return Reading(at_s=act.at.timestamp(), who=act.said_by, **read) if read else None


# What was told once of a job is kept as long as its version stands: 200 phones ask, the register answers with a number.
_kept: WeakKeyDictionary[Engine, dict[int, tuple[int, Story]]] = WeakKeyDictionary()


def kept_story(session: Session, who: Who, job_id: int, version: int) -> Story:
    """The story of a job at that version; read from the register only when it is not known here yet.

    Only for a session that reads: what a save has not kept yet must not be remembered.
    """
    who.must("see")
    assert Register.engine is not None
    known = _kept.setdefault(Register.engine, {})
    found = known.get(job_id)
    if found is None or found[0] != version:
        if len(known) >= MOST_KEPT:
            known.clear()
        found = known[job_id] = (version, story_of(session, who, job_id))
    return found[1]


_VERSION = Glance(select(Job.__table__.c.version).where(Job.__table__.c.id == bindparam("job_id")))


def version_now(job_id: int) -> int:
    """The number that rises with every act, as phones ask for it a hundred times a second.

    Raises
    ------
    NotFound
        There is no such job.
    """
    found = _VERSION.row(job_id=job_id)
    if found is None:
        raise NotFound("There is no such coating job.")
    return int(found[0])


def version_of(session: Session, job_id: int) -> int:
    """The same, at the moment that `session` reads.

    Raises
    ------
    NotFound
        There is no such job.
    """
    version: int | None = session.scalar(select(Job.version).where(Job.id == job_id))
    if version is None:
        raise NotFound("There is no such coating job.")
    return version


def story_of_act(session: Session, who: Who, act_id: int) -> Story:
    """The story in which an act stands.

    Raises
    ------
    NotFound
        There is no such act.
    """
    job_id = session.scalar(select(CoatingAct.job_id).where(CoatingAct.id == act_id))
    if job_id is None:
        raise NotFound("There is no such act.")
    return story_of(session, who, job_id)
