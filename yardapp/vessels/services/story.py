"""One boat or one drive with all that happened to it: one query each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Integer, Select, cast, literal, null, select, true, union_all
from sqlalchemy.orm import Session

from yardapp.errors import NotFound
from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Happening, Vessel, VesselName
from yardapp.vessels.services.boats import may_see_vessel

OF_OTHER_OWNERS = ("changed hands", "account")  # who had her before is not the present owner's to read
SHOWN = 200  # lines of history on a page; the rest is in the export


@dataclass(frozen=True, kw_only=True)
class VesselPage:
    """Everything that a boat's own page shows of her, apart from the gear aboard."""

    vessel: Vessel
    drives: Sequence[Drive]
    names: Sequence[VesselName]
    happenings: Sequence[Happening]
    positions: Mapping[int, str]


@dataclass(frozen=True, kw_only=True)
class DrivePage:
    """Everything that a drive's own page shows, apart from the gear on it."""

    drive: Drive
    vessel: Vessel
    happenings: Sequence[Happening]


def vessel_page(session: Session, who: Who, vessel_id: int) -> VesselPage:
    """All that her own page shows.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    lines = union_all(_drives(vessel_id), _names(vessel_id), _happenings(who, vessel_id)).subquery()
    rows = session.execute(
        select(Vessel, lines.c.row, Drive, VesselName, Happening)
        .select_from(Vessel)
        .outerjoin(lines, true())
        .outerjoin(Drive, Drive.id == lines.c.drive_id)
        .outerjoin(VesselName, VesselName.id == lines.c.name_id)
        .outerjoin(Happening, Happening.id == lines.c.happening_id)
        .where(Vessel.id == vessel_id, may_see_vessel(who))
    ).all()
    if not rows:
        raise NotFound("There is no such boat here.")
    drives = [row.Drive for row in rows if row.row == "drive"]
    names = [row.VesselName for row in rows if row.VesselName is not None]
    happenings = [row.Happening for row in rows if row.Happening is not None]
    return VesselPage(
        vessel=rows[0].Vessel,
        drives=sorted(drives, key=lambda drive: (not drive.is_in_use, drive.position, drive.id)),
        names=sorted(names, key=lambda name: name.id),
        happenings=sorted(happenings, key=lambda happening: happening.id, reverse=True),
        positions={row.Drive.id: row.Drive.position for row in rows if row.Drive is not None},
    )


def _line(row: str, **numbers: Any) -> Select[Any]:
    """One kind of line: which row it stands for, by number."""
    nothing = cast(null(), Integer)
    columns = [numbers.get(name, nothing).label(name) for name in ("drive_id", "name_id", "happening_id")]
    return select(literal(row).label("row"), *columns)


def _drives(vessel_id: int) -> Select[Any]:
    return _line("drive", drive_id=Drive.id).where(Drive.vessel_id == vessel_id)


def _names(vessel_id: int) -> Select[Any]:
    return _line("name", name_id=VesselName.id).where(VesselName.vessel_id == vessel_id)


def _happenings(who: Who, vessel_id: int) -> Select[Any]:
    newest = _line("happening", drive_id=Happening.drive_id, happening_id=Happening.id)
    if not who.may("see"):
        newest = newest.where(Happening.kind.not_in(OF_OTHER_OWNERS))
    newest = newest.where(Happening.vessel_id == vessel_id).order_by(Happening.id.desc()).limit(SHOWN)
    return select(newest.subquery())


def drive_page(session: Session, who: Who, drive_id: int) -> DrivePage:
    """All that a drive's own page shows; an owner sees what happened to it in the owner's own boat.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    lines = Happening.drive_id == Drive.id
    if not who.may("see"):
        lines &= Happening.vessel_id == Drive.vessel_id
    rows = session.execute(
        select(Drive, Vessel, Happening)
        .join(Vessel, Vessel.id == Drive.vessel_id)
        .outerjoin(Happening, lines)
        .where(Drive.id == drive_id, may_see_vessel(who))
        .order_by(Happening.id.desc())
        .limit(SHOWN)
    ).all()
    if not rows:
        raise NotFound("There is no such drive here.")
    happenings = [row.Happening for row in rows if row.Happening is not None]
    return DrivePage(drive=rows[0].Drive, vessel=rows[0].Vessel, happenings=happenings)
