"""The yard's coating systems: every version kept, compared, brought back."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.checking import SystemRefused, must_be_right
from yardapp.coating.exchange import from_json, to_json
from yardapp.coating.models import CoatingSystem, SystemVersion
from yardapp.coating.shipped import shipped
from yardapp.coating.system import System
from yardapp.db import now
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who


@dataclass(frozen=True, kw_only=True)
class SystemRow:
    """One system as the list shows it; `version_id` is the row of its newest version."""

    id: int
    name: str
    number: int
    version_id: int
    is_used: bool
    at: datetime
    said_by: str
    system: System


@dataclass(frozen=True, kw_only=True)
class VersionRow:
    """One version of a system."""

    id: int
    number: int
    at: datetime
    said_by: str
    why: str
    system: System


@dataclass(frozen=True, kw_only=True)
class SystemPage:
    """One system with every version, newest first."""

    id: int
    name: str
    number: int
    is_used: bool
    versions: Sequence[VersionRow]

    def version(self, number: int) -> VersionRow:
        """The version of that number.

        Raises
        ------
        NotFound
            It never had that many.
        """
        found = next((one for one in self.versions if one.number == number), None)
        if found is None:
            raise NotFound(f"{self.name} has no version {number}.")
        return found

    @property
    def newest(self) -> VersionRow:
        """How it stands now."""
        return self.version(self.number)


def _newest() -> Any:
    return select(CoatingSystem, SystemVersion).join(
        SystemVersion,
        (SystemVersion.system_id == CoatingSystem.id) & (SystemVersion.number == CoatingSystem.version),
    )


def systems(session: Session, who: Who, *, used_only: bool = False) -> list[SystemRow]:
    """Every system of the yard, by name."""
    who.must("see")
    chosen = _newest().order_by(CoatingSystem.name_key)
    rows = session.execute(chosen.where(CoatingSystem.is_used) if used_only else chosen)
    return [
        SystemRow(
            id=record.id,
            name=record.name,
            number=record.version,
            version_id=version.id,
            is_used=record.is_used,
            at=version.at,
            said_by=version.said_by,
            system=from_json(version.sheet),
        )
        for record, version in rows
    ]


def still_shipped(rows: Sequence[SystemRow]) -> list[System]:
    """The systems that come with yardapp and that the yard has not taken in."""
    known = {_key(row.name) for row in rows}
    return [system for system in shipped() if _key(system.name) not in known]


def system_page(session: Session, who: Who, system_id: int) -> SystemPage:
    """One system and its versions.

    Raises
    ------
    NotFound
        There is no such system.
    """
    who.must("see")
    rows = session.execute(
        select(CoatingSystem, SystemVersion)
        .join(SystemVersion, SystemVersion.system_id == CoatingSystem.id)
        .where(CoatingSystem.id == system_id)
        .order_by(SystemVersion.number.desc())
    ).all()
    if not rows:
        raise NotFound("There is no such coating system.")
    record = rows[0][0]
    versions = [_version(version) for _record, version in rows]
    return SystemPage(id=record.id, name=record.name, number=record.version, is_used=record.is_used, versions=versions)


def _version(row: SystemVersion) -> VersionRow:
    return VersionRow(
        id=row.id, number=row.number, at=row.at, said_by=row.said_by, why=row.why, system=from_json(row.sheet)
    )


def _key(name: str) -> str:
    return " ".join(name.split()).casefold()


def take_shipped(session: Session, who: Who, name: str) -> int:
    """Take a system that comes with yardapp into the yard's own list.

    Raises
    ------
    NotFound
        None of that name comes with it.
    """
    found = next((system for system in shipped() if system.name == name), None)
    if found is None:
        raise NotFound(f"No system called {name} comes with yardapp.")
    return add_system(session, who, found, why="came with yardapp")


def add_system(session: Session, who: Who, system: System, *, why: str = "") -> int:
    """A new system, as its version 1; gives its number.

    Raises
    ------
    NotAllowed
        Only yard hands and the office change records.
    Refused
        It can't be right, or there is one of that name.
    """
    who.must("change")
    name = _named(session, system, None)
    record = CoatingSystem(name=name, name_key=_key(name), version=1)
    session.add(record)
    session.flush()
    _add_version(session, who, record, system, why)
    return record.id


def change_system(session: Session, who: Who, system_id: int, version: int, system: System, *, why: str = "") -> int:
    """Make the next version of a system; jobs keep the one that they ran on. Gives the version's number.

    Raises
    ------
    NotFound
        There is no such system.
    Refused
        It can't be right, or another one has that name.
    Superseded
        Somebody made a version since `version`.
    """
    who.must("change")
    record = session.get(CoatingSystem, system_id, with_for_update=True)
    if record is None:
        raise NotFound("There is no such coating system.")
    if record.version != version:
        newest = _row_of(session, record)
        raise Superseded(record.version, {"number": str(newest.number)}, newest.said_by)
    name = _named(session, system, record)
    if to_json(replace(system, version=record.version)) == _row_of(session, record).sheet:
        raise Refused("Nothing was changed.")
    record.name, record.name_key, record.version = name, _key(name), record.version + 1
    _add_version(session, who, record, system, why)
    return record.version


def _row_of(session: Session, record: CoatingSystem) -> SystemVersion:
    chosen = select(SystemVersion).where(SystemVersion.system_id == record.id, SystemVersion.number == record.version)
    return session.scalars(chosen).one()


def _named(session: Session, system: System, record: CoatingSystem | None) -> str:
    """Its name, when it can be right and no other system has it."""
    try:
        must_be_right(system)
    except SystemRefused as refusal:
        raise Refused(str(refusal), "sheet") from refusal
    name = " ".join(system.name.split())
    if len(name) > 80:
        raise Refused("A name has at most 80 letters.", "name")
    other = session.scalar(select(CoatingSystem.id).where(CoatingSystem.name_key == _key(name)))
    if other is not None and (record is None or other != record.id):
        raise Refused(f"There is a system called {name} already.", "name")
    return name


def _add_version(session: Session, who: Who, record: CoatingSystem, system: System, why: str) -> None:
    row = SystemVersion(
        system_id=record.id,
        number=record.version,
        sheet=to_json(replace(system, name=record.name, version=record.version)),
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
        why=why[:300],
    )
    session.add(row)
    session.flush()
    people.note(session, who, "wrote", "coating system", record.id, number=record.version)


def bring_back(session: Session, who: Who, system_id: int, version: int, number: int) -> int:
    """Make an earlier version the newest again, as a new version.

    Raises
    ------
    NotFound
        There is no such system or version.
    Superseded
        Somebody made a version since `version`.
    """
    earlier = system_page(session, who, system_id).version(number)
    return change_system(session, who, system_id, version, earlier.system, why=f"version {number} brought back")


def use_system(session: Session, who: Who, system_id: int, *, is_used: bool) -> None:
    """Offer a system for new jobs, or no longer.

    Raises
    ------
    NotFound
        There is no such system.
    """
    who.must("change")
    record = session.get(CoatingSystem, system_id, with_for_update=True)
    if record is None:
        raise NotFound("There is no such coating system.")
    record.is_used = is_used
    people.note(session, who, "offers" if is_used else "no longer offers", "coating system", record.id)
