"""Gather what the other rooms know about the lines of one boat's sheet."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session, aliased

from yardapp.bench import services as bench
from yardapp.coating import services as coating
from yardapp.fit import services as fit
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.relaunch import evidence
from yardapp.relaunch.evidence import DriveNow, PartOn
from yardapp.relaunch.lines import Line
from yardapp.relaunch.models import LaunchAct
from yardapp.relaunch.services.fault_rows import FaultNow
from yardapp.relaunch.settling import Found, standing
from yardapp.vessels import services as vessels

LONGEST = timedelta(days=365)  # a sheet or verdict from before that says nothing about this launch


@dataclass(frozen=True, kw_only=True)
class Aboard:
    """The tagged things on the boat's drives, their newest sheets, and where scanned things are said to be."""

    drives: tuple[DriveNow, ...]
    sheets: Sequence[tuple[Any, str, int]]
    elsewhere: Mapping[str, str]

    def drive(self, drive_id: int | None) -> DriveNow | None:
        """The drive of that number."""
        return next((drive for drive in self.drives if drive.id == drive_id), None)


def aboard(session: Session, who: Who, page: vessels.VesselPage, acts: Sequence[LaunchAct]) -> Aboard:
    """What is on a boat, in one query."""
    drives = {drive.id: drive for drive in page.drives if drive.is_in_use}
    rows = _rows(session, who, list(drives), {act.tag for act in acts if act.tag})
    on = {row.Item.aboard_id: row.Item for row in rows if row.Item.kind == "propeller" and row.Item.aboard_id in drives}
    sheets = {row.Sheet.id: (row.Sheet, row.Item.tag, row.Item.aboard_id) for row in rows if row.Sheet is not None}
    return Aboard(
        drives=tuple(_drive(drive, on.get(drive.id), _parts(rows, drive.id)) for drive in drives.values()),
        sheets=[sheets[one] for one in sorted(sheets, reverse=True) if sheets[one][2] in drives],
        elsewhere={row.Item.tag: _where(row) for row in rows},
    )


def _rows(session: Session, who: Who, drive_ids: list[int], tags: set[str]) -> Sequence[Any]:
    later, names = aliased(bench.Sheet), vessels.drive_names().subquery()
    replaced = select(later.id).where(later.replaces_id == bench.Sheet.id).exists()
    chosen = (
        select(gear.Item, bench.Sheet, names.c.vessel, names.c.position)
        .select_from(gear.Item)
        .outerjoin(bench.Sheet, (bench.Sheet.item_id == gear.Item.id) & ~replaced)
        .outerjoin(names, names.c.drive_id == gear.Item.aboard_id)
        .where(or_(gear.Item.aboard_id.in_(drive_ids), gear.Item.tag.in_(tags)), gear.seen_by(who))
    )
    return session.execute(chosen).all()


def _parts(rows: Sequence[Any], drive_id: int) -> tuple[PartOn, ...]:
    """Whatever else is on a drive, by kind and tag."""
    items = {row.Item.id: row.Item for row in rows if row.Item.aboard_id == drive_id and row.Item.kind != "propeller"}
    parts = (PartOn(kind=item.kind, tag=item.tag) for item in items.values())
    return tuple(sorted(parts, key=lambda part: (part.kind, part.tag)))


def _drive(drive: Any, item: Any, parts: tuple[PartOn, ...]) -> DriveNow:
    return DriveNow(
        parts=parts,
        id=drive.id,
        label=drive.position,
        hand=drive.hand,
        tag=item.tag if item is not None else "",
        propeller_hand=item.hand if item is not None else None,
    )


def _where(row: Any) -> str:
    return vessels.label_of(row.vessel, row.position) if row.position else row.Item.place


@dataclass(frozen=True, kw_only=True)
class Asked:
    """For which launch evidence is gathered: lines, acts, the moment, since when it counts, the policies."""

    lines: Sequence[Line]
    acts: Sequence[LaunchAct]
    at: datetime
    since: datetime
    policies: Mapping[str, str]


def found(session: Session, who: Who, asked: Asked, there: Aboard, faults: Sequence[FaultNow]) -> list[Found]:
    """Everything that the register says about the lines."""
    by = {name: [line for line in asked.lines if line.by == name] for name in {line.by for line in asked.lines}}
    told = [one for line in by.get("scan", ()) for one in _scans(line, asked.acts, there)]
    told += _verdicts(session, who, by.get("verdict", ()), asked, there)
    told += _pairs(session, who, by.get("pair", ()), there)
    told += _coatings(session, who, by.get("coating", ()), asked, there)
    told += _sheets(by.get("sheet", ()), asked, there)
    on = asked.at.astimezone().date()
    stops = [fault for fault in faults if fault.stops(on)]
    return told + [evidence.faults_say(line, stops) for line in by.get("faults", ())]


def _scans(line: Line, acts: Sequence[LaunchAct], there: Aboard) -> list[Found]:
    """What is wrong with the newest scan of each drive."""
    newest = {act.drive_id: act for act in standing(acts) if act.kind == "scanned" and act.line == line.key}
    judged = [
        evidence.scan_says(line, drive, act, there.elsewhere)
        for drive_id, act in newest.items()
        if (drive := there.drive(drive_id)) is not None
    ]
    return [one for one in judged if one is not None]


def _verdicts(session: Session, who: Who, lines: Sequence[Line], asked: Asked, there: Aboard) -> list[Found]:
    """The newest verdict that was kept of the propeller now on each drive."""
    told = []
    for drive in there.drives if lines else ():
        kept = fit.kept_of_drive(session, who, drive.id)[1] if drive.tag else []
        newest = next((one for one in kept if one.item.tag == drive.tag and one.kept.at >= asked.since), None)
        told += [evidence.verdict_says(line, drive.id, newest) for line in lines if newest is not None]
    return told


def _pairs(session: Session, who: Who, lines: Sequence[Line], there: Aboard) -> list[Found]:
    """The propellers of a boat with two drives, held against each other."""
    tags = [drive.tag for drive in there.drives if drive.tag]
    if not lines or len(there.drives) != 2 or len(tags) != 2:
        return []
    verdict = fit.pair(session, who, tags[0], tags[1])[2]
    return [evidence.pair_says(line, tags, verdict) for line in lines]


def _coatings(session: Session, who: Who, lines: Sequence[Line], asked: Asked, there: Aboard) -> list[Found]:
    return [
        evidence.coating_says(line, drive.id, told, asked.at)
        for drive in (there.drives if lines else ())
        for told in coating.before_launch(session, who, drive.id, asked.at)
        for line in lines
    ]


def _sheets(lines: Sequence[Line], asked: Asked, there: Aboard) -> list[Found]:
    """The newest sheet of the kind that each line asks for, of what is on each drive."""
    policy = asked.policies.get("bearing wear", "")
    told: dict[tuple[str, int], Found] = {}
    for sheet, tag, drive_id in there.sheets:
        for line in lines:
            if sheet.method == line.sheet and sheet.at >= asked.since and (line.key, drive_id) not in told:
                told[line.key, drive_id] = evidence.sheet_says(line, drive_id, sheet, tag, policy)
    return list(told.values())
