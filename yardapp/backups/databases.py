"""One consistent copy of the database while people go on writing, and how many rows each table has in it."""

import shutil
import sqlite3
import subprocess
from contextlib import closing
from pathlib import Path

from sqlalchemy import URL, create_engine, inspect, make_url, text
from sqlalchemy.engine import Connection

from yardapp.errors import Refused

SQLITE, DUMP = "register.sqlite", "register.dump"


def copy_database(url: str, folder: Path) -> tuple[Path, dict[str, int]]:
    """Copy the database at `url` into `folder`: SQLite by its own online backup, Postgres by pg_dump.

    Raises
    ------
    Refused
        The copy is not sound, or Postgres' own programs are missing.
    """
    where = make_url(url)
    return _copy_sqlite(where, folder) if where.get_backend_name() == "sqlite" else _copy_postgres(where, folder)


def _copy_sqlite(where: URL, folder: Path) -> tuple[Path, dict[str, int]]:
    target = folder / SQLITE
    with closing(sqlite3.connect(str(where.database))) as source, closing(sqlite3.connect(target)) as copy:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")  # one file, with no log beside it
    return target, counted(target)


def counted(path: Path) -> dict[str, int]:
    """Open a copy, have SQLite look it over, and count every table.

    Raises
    ------
    Refused
        SQLite finds it broken.
    """
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as copy:
        found = copy.execute("PRAGMA quick_check").fetchone()[0]
        if found != "ok":
            raise Refused(f"The copy {path} is broken: {found}")
        names = copy.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND sql NOT LIKE 'CREATE VIRTUAL%'")
        ours = [name for (name,) in names if not name.startswith(("sqlite_", "gear_words", "vessels_words"))]
        return {name: copy.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0] for name in sorted(ours)}


def _copy_postgres(where: URL, folder: Path) -> tuple[Path, dict[str, int]]:
    """Rows are counted in the very snapshot that pg_dump writes out."""
    target = folder / DUMP
    engine = create_engine(where)
    with engine.connect() as connection:
        connection.execute(text("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY"))
        snapshot = connection.scalar(text("SELECT pg_export_snapshot()"))
        rows = _counted_in(connection)
        run_postgres("pg_dump", where, "--format=custom", f"--snapshot={snapshot}", f"--file={target}")
    engine.dispose()
    run_postgres("pg_restore", None, "--list", str(target))  # opens it: a torn file fails here
    return target, rows


def _counted_in(connection: Connection) -> dict[str, int]:
    names = sorted(inspect(connection).get_table_names())
    return {name: connection.scalar(text(f'SELECT count(*) FROM "{name}"')) or 0 for name in names}


def run_postgres(program: str, where: URL | None, *words: str) -> None:
    """Run one of Postgres' own programs against the database at `where`.

    Raises
    ------
    Refused
        It is not on this machine, or it failed.
    """
    found = shutil.which(program) or next(
        (str(path) for path in sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{program}"), reverse=True)), None
    )
    if found is None:
        raise Refused(f"{program} is not on this machine; Debian's postgresql-client brings it.")
    to = [] if where is None else [f"--dbname={_plain(where)}"]
    done = subprocess.run([found, *to, *words], capture_output=True, text=True, check=False)
    if done.returncode:
        raise Refused(
            f"{program} failed: {done.stderr.strip().splitlines()[-1] if done.stderr.strip() else 'no reason'}"
        )


def _plain(where: URL) -> str:
    return where.set(drivername="postgresql").render_as_string(hide_password=False)
