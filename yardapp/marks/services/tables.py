"""The yard's makers' tables: every version kept, compared, brought back."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property
from typing import Any

from sqlalchemy import Select, func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.marks.models import MakerTable, TableVersion
from yardapp.people import services as people
from yardapp.people.services import TERMINAL, Who
from yardapp.stamps.tables import Table, as_plain, check, from_plain, shipped
from yardapp.stamps.tables.shipped import INVENTED

UNPRINTED = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff]")
MOST_ID = 2**31 - 1  # what a database's integer holds


@dataclass(frozen=True, kw_only=True)
class VersionRow:
    """One version of a table."""

    id: int
    version: int
    body: dict[str, Any]
    why: str
    at: datetime
    said_by: str

    @cached_property
    def table(self) -> Table:
        """The table as it was then."""
        return from_plain(self.body)


@dataclass(frozen=True, kw_only=True)
class TablePage:
    """One table with its versions, newest first."""

    id: int
    maker: str
    title: str
    version: int
    is_in_use: bool
    versions: Sequence[VersionRow]

    @property
    def name(self) -> str:
        """Maker and title."""
        return f"{self.maker}, {self.title}" if self.title else self.maker

    @property
    def newest(self) -> VersionRow:
        """The version that stands."""
        return self.numbered(self.version)

    def numbered(self, version: int) -> VersionRow:
        """The version of that number.

        Raises
        ------
        NotFound
            The table never had so many.
        """
        found = next((one for one in self.versions if one.version == version), None)
        if found is None:
            raise NotFound(f"{self.name} has no version {version}.")
        return found


def tables(session: Session, who: Who) -> list[TablePage]:
    """Every table with the version that stands, by maker and title.

    Raises
    ------
    NotAllowed
        Owners don't see the yard's tables.
    """
    who.must("see")
    rows = session.execute(
        select(MakerTable, TableVersion)
        .join(TableVersion, (TableVersion.table_id == MakerTable.id) & (TableVersion.version == MakerTable.version))
        .order_by(MakerTable.name_key)
    )
    return [_page(record, [version]) for record, version in rows]


def table_page(session: Session, who: Who, table_id: int) -> TablePage:
    """One table and all its versions.

    Raises
    ------
    NotFound
        There is no such table.
    """
    who.must("see")
    _must_be_a_number(table_id)
    rows = session.execute(
        select(MakerTable, TableVersion)
        .join(TableVersion, TableVersion.table_id == MakerTable.id)
        .where(MakerTable.id == table_id)
        .order_by(TableVersion.version.desc())
    ).all()
    if not rows:
        raise NotFound("There is no such table.")
    return _page(rows[0][0], [version for _record, version in rows])


def _page(record: MakerTable, versions: Sequence[TableVersion]) -> TablePage:
    return TablePage(
        id=record.id,
        maker=record.maker,
        title=record.title,
        version=record.version,
        is_in_use=record.is_in_use,
        versions=[_row(one) for one in versions],
    )


def _row(one: TableVersion) -> VersionRow:
    return VersionRow(id=one.id, version=one.version, body=one.body, why=one.why, at=one.at, said_by=one.said_by)


def add_table(session: Session, who: Who, table: Table, *, why: str = "") -> int:
    """A new table, as its version 1; gives its number.

    Raises
    ------
    NotAllowed
        Only yard hands and the office write tables.
    Refused
        The table contradicts itself, or the yard has one of that maker and title.
    """
    who.must("change")
    _must_be_sound(table)
    record = MakerTable(maker=table.maker, title=table.title, name_key=_key(table), version=1, is_in_use=True)
    session.add(record)
    _flush_named(session, record)
    _add_version(session, who, record, table, why)
    return record.id


def change_table(session: Session, who: Who, table_id: int, version: int, table: Table, *, why: str = "") -> int:
    """Make the next version of a table; gives its number. What is the same as before makes none.

    Raises
    ------
    NotFound
        There is no such table.
    Superseded
        Somebody made a version since `version`.
    Refused
        The table contradicts itself, or another one bears its name.
    """
    who.must("change")
    _must_be_sound(table)
    record = _for_change(session, table_id)
    newest = session.scalars(_standing(record)).one()
    if record.version != version:
        raise Superseded(record.version, {"maker": record.maker, "title": record.title}, newest.said_by)
    if as_plain(replace(table, version=record.version)) == newest.body:
        return record.version
    record.maker, record.title, record.name_key = table.maker, table.title, _key(table)
    record.version += 1
    _flush_named(session, record)
    _add_version(session, who, record, table, why)
    return record.version


def bring_back(session: Session, who: Who, table_id: int, version: int, number: int) -> int:
    """Make an old version the newest again; gives the new version's number.

    Raises
    ------
    NotFound
        The table never had that version.
    Superseded
        Somebody made a version since `version`.
    """
    old = table_page(session, who, table_id).numbered(number)
    return change_table(session, who, table_id, version, old.table, why=f"version {number} brought back")


def take_table(session: Session, who: Who, table: Table, *, is_next: bool = False, why: str = "") -> int:
    """Take a table that came from elsewhere, as a new one or as the next version of its namesake; gives its number.

    Raises
    ------
    NotAllowed
        Only yard hands and the office write tables.
    Refused
        The yard has one of that name, and was not told to make this its next version.
    """
    there = session.scalar(select(MakerTable).where(MakerTable.name_key == _key(table)))
    if there is None:
        return add_table(session, who, table, why=why)
    if not is_next:
        raise Refused(f"The yard has a table called {table.name}. Tick the box to make this its next version.")
    change_table(session, who, there.id, there.version, table, why=why)
    return there.id


def use_table(session: Session, who: Who, table_id: int, version: int, *, is_in_use: bool) -> None:
    """Let marks be read by a table, or no longer.

    Raises
    ------
    NotFound
        There is no such table.
    Superseded
        Somebody made a version since `version`.
    """
    who.must("change")
    record = _for_change(session, table_id)
    newest = session.scalars(_standing(record)).one()
    if record.is_in_use == is_in_use:
        return
    if record.version != version:
        raise Superseded(record.version, {"maker": record.maker, "title": record.title}, newest.said_by)
    record.is_in_use, record.version = is_in_use, record.version + 1
    why = "taken into use again" if is_in_use else "taken out of use"
    _add_version(session, who, record, from_plain(newest.body), why)


def seed_tables(session: Session) -> None:
    """Give a fresh register the plain sizes and the shop's re-stamps; one that has tables is left as it is."""
    if session.scalar(select(func.count(MakerTable.id))):
        return
    for table in shipped()[: -len(INVENTED)]:
        add_table(session, TERMINAL, table, why="shipped with yardapp")


def examples() -> tuple[Table, ...]:
    """The tables of invented makers, to look at and to start from."""
    return shipped()[-len(INVENTED) :]


def _must_be_sound(table: Table) -> None:
    if any(UNPRINTED.search(text) for text in _texts(as_plain(table))):
        raise Refused("There is a character in it that can't be printed. Type it anew instead of pasting it.", "table")
    problems = check(table)
    if problems:
        raise Refused("; ".join(problem.said for problem in problems[:5]), "places")


def _texts(plain: object) -> Iterator[str]:
    """Every text in it."""
    if isinstance(plain, str):
        yield plain
    elif isinstance(plain, dict | list):
        for one in plain.values() if isinstance(plain, dict) else plain:
            yield from _texts(one)


def _must_be_a_number(table_id: int) -> None:
    if table_id > MOST_ID:
        raise NotFound("There is no such table.")


def _for_change(session: Session, table_id: int) -> MakerTable:
    _must_be_a_number(table_id)
    record = session.scalar(select(MakerTable).where(MakerTable.id == table_id).with_for_update())
    if record is None:
        raise NotFound("There is no such table.")
    return record


def _standing(record: MakerTable) -> Select[TableVersion]:
    return select(TableVersion).where(TableVersion.table_id == record.id, TableVersion.version == record.version)


def _flush_named(session: Session, record: MakerTable) -> None:
    """Keep the record; the database itself refuses a second table of one name."""
    said = f"The yard has a table of {record.maker} called `{record.title}`. Give this one another title."
    try:
        session.flush()
    except IntegrityError:
        raise Refused(said, "title") from None


def _key(table: Table) -> str:
    return f"{' '.join(table.maker.split())}|{' '.join(table.title.split())}".casefold()[:250]


def _add_version(session: Session, who: Who, record: MakerTable, table: Table, why: str) -> None:
    session.add(
        TableVersion(
            table_id=record.id,
            version=record.version,
            body=as_plain(replace(table, version=record.version)),
            why=" ".join(why.split())[:300],
            at=now(),
            person_id=who.person_id,
            said_by=who.name,
        )
    )
    session.flush()
    people.note(session, who, "wrote", "maker table", record.id, version=record.version)
