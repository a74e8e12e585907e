"""The yard's tables ready to read with, kept by this process until one of them changes."""

from dataclasses import dataclass, field
from typing import ClassVar
from weakref import WeakKeyDictionary

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from yardapp.marks.models import MakerTable, TableVersion
from yardapp.stamps.tables import CompiledTable, Shelf, compile_table, from_plain, reread

# What tells whether the shelf has changed; every change of a table, also out of use and back, adds a version.
NEWEST = select(func.max(TableVersion.id)).scalar_subquery()
COUNT = select(func.count(TableVersion.id)).scalar_subquery()
Key = tuple[int | None, int]
WORN = "********"


@dataclass
class _Kept:
    """What this process remembers of one register."""

    key: Key = (None, 0)
    shelf: Shelf = field(default_factory=lambda: Shelf(()))
    compiled: dict[int, CompiledTable] = field(default_factory=dict)


class Shelves:
    """One shelf a register; a register is known by its pool of connections."""

    kept: ClassVar[WeakKeyDictionary[object, _Kept]] = WeakKeyDictionary()


def shelf_now(session: Session, key: Key | None = None) -> Shelf:
    """Every table in use, compiled; one cheap query when none has changed, none where the caller has asked the key."""
    if key is None:
        newest, count = session.execute(select(NEWEST, COUNT)).one()
        key = (newest, count)
    kept = Shelves.kept.setdefault(session.get_bind().engine.pool, _Kept())
    if kept.key != key:
        kept.compiled = _compiled(session, kept.compiled)
        kept.shelf = Shelf(kept.compiled.values())
        next(reread([WORN], kept.shelf))  # what the first worn mark would else wait for
        kept.key = key
    return kept.shelf


def _compiled(session: Session, before: dict[int, CompiledTable]) -> dict[int, CompiledTable]:
    """Each current version in use by its number; one that was compiled before is not compiled again."""
    rows = session.execute(
        select(TableVersion.id, TableVersion.body)
        .join(MakerTable, (MakerTable.id == TableVersion.table_id) & (MakerTable.version == TableVersion.version))
        .where(MakerTable.is_in_use)
        .order_by(TableVersion.table_id)
    )
    return {
        number: before.get(number) or compile_table(from_plain(body), key=number, is_checked=True)
        for number, body in rows
    }
