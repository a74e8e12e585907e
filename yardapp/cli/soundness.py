"""Whether a register is sound: its file, keys, tables and photos, and every figure against the evidence."""

import hashlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sqlalchemy import inspect, select
from sqlalchemy.orm import Session

from yardapp import upgrading
from yardapp.cli.registers import tables
from yardapp.gear import services as gear

AT_ONCE = 200  # items whose evidence is read before their figures are let go again
Finding = tuple[bool, str]  # whether it is as it should be, and a sentence
WITH_PHOTOS = (
    tables.gear.Photo.sha256,
    tables.relaunch.LaunchAct.photo_sha256,
    tables.relaunch.YardFault.photo_sha256,
)


def of_the_file(session: Session) -> Iterator[Finding]:
    """What SQLite itself can say of its file; Postgres watches over its own."""
    if session.get_bind().dialect.name != "sqlite":
        yield True, "Postgres looks after its own files and keys."
        return
    said = [row[0] for row in session.connection().exec_driver_sql("PRAGMA quick_check")]
    if said == ["ok"]:
        yield True, "The database file is whole."
    else:
        yield False, f"The database file is damaged: {'; '.join(said[:3])}"
    for row in session.connection().exec_driver_sql("PRAGMA foreign_key_check"):
        yield False, f"A row of {row[0]} points at a row of {row[2]} that is not there."


def of_the_tables(session: Session, url: str) -> Iterator[Finding]:
    """Whether every migration of this version has run, and none of a later one."""
    from alembic.runtime.migration import MigrationContext
    from alembic.script import ScriptDirectory

    heads = set(ScriptDirectory.from_config(upgrading.alembic_config(url)).get_heads())
    there = set(MigrationContext.configure(session.connection()).get_current_heads())
    if there == heads:
        yield True, "The tables are those of this version."
    elif not there:
        yield False, "There are no tables yet. `yardapp serve` makes them."
    else:
        yield False, f"The tables are of another version ({', '.join(sorted(there))}). `yardapp serve` brings them up."


def of_the_photos(session: Session, folder: Path) -> Iterator[Finding]:
    """Every photo that the register names against the file that bears its SHA-256."""
    named = {sha256 for column in WITH_PHOTOS for sha256 in session.scalars(select(column).distinct()) if sha256}
    for sha256 in sorted(named):
        fault = _photo_fault(folder, sha256)
        if fault:
            yield False, f"Photo {sha256[:12]}… {fault}"
    yield True, f"{counted(len(named), 'photo')} looked at."
    documents = set(session.scalars(select(tables.gear.Paper.sha256).where(tables.gear.Paper.kind == "pdf").distinct()))
    for sha256 in sorted(documents):
        fault = _file_fault(gear.paper_path(folder, sha256), sha256)
        if fault:
            yield False, f"Document {sha256[:12]}… {fault}"
    if documents:
        yield True, f"{counted(len(documents), 'document')} looked at."
    named |= documents
    stray = sum(1 for path in _files(folder) if path.stem.split("-small")[0] not in named)
    if stray:
        yield True, f"{counted(stray, 'file')} in the photo folder without an item: left by saves never finished."


def _photo_fault(folder: Path, sha256: str) -> str:
    """What is wrong with one picture, or nothing."""
    fault = _file_fault(gear.path_of(folder, sha256), sha256)
    return fault or ("" if gear.path_of(folder, sha256, small=True).is_file() else "has lost its small picture.")


def _file_fault(path: Path, sha256: str) -> str:
    if not path.is_file():
        return "is not in the photo folder."
    with path.open("rb") as file:
        if hashlib.file_digest(file, "sha256").hexdigest() != sha256:
            return "was changed: its file is not the one that was kept."
    return ""


def _files(folder: Path) -> Iterator[Path]:
    return (path for path in folder.rglob("*") if path.is_file()) if folder.is_dir() else iter(())


def of_the_figures(session: Session) -> Iterator[Finding]:
    """Derive every working figure again, keep none of it, and say where the register went by another."""
    after, looked_at = 0, 0
    while items := _next_items(session, after):
        for item in items:
            drifted = _drifted(session, item)
            if drifted:
                yield False, f"{item.tag}: {', '.join(drifted)} is not what the evidence says."
        after, looked_at = items[-1].id, looked_at + len(items)
        session.rollback()  # nothing that was derived here is kept
    yield True, f"{counted(looked_at, 'item')} looked at: figures against evidence."


def of_the_places(session: Session) -> Iterator[Finding]:
    """Where each thing is against the moves that put it there."""
    after, looked_at = 0, 0
    while items := _next_items(session, after):
        for item in gear.astray(session, items):
            yield False, f"{item.tag} is not where its moves leave it."
        after, looked_at = items[-1].id, looked_at + len(items)
        session.rollback()
    yield True, f"{counted(looked_at, 'item')} looked at: places against moves."


def _next_items(session: Session, after: int) -> list[gear.Item]:
    return list(session.scalars(select(gear.Item).where(gear.Item.id > after).order_by(gear.Item.id).limit(AT_ONCE)))


def _drifted(session: Session, item: gear.Item) -> list[str]:
    """The names of the columns that `refresh` would change."""
    with session.no_autoflush:
        before = _columns(item)
        gear.refresh(session, item)
        after = _columns(item)
    return sorted(name for name, value in before.items() if after[name] != value)


def _columns(item: gear.Item) -> dict[str, Any]:
    return {column.key: getattr(item, column.key) for column in inspect(type(item)).column_attrs}


def counted(number: int, noun: str) -> str:
    """`1 photo`, `7 photos`."""
    return f"{number} {noun}{'' if number == 1 else 's'}"
