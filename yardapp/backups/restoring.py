"""Put a copy back: into an empty data folder or database, never over a register that stands."""

import shutil
import tempfile
from pathlib import Path

from sqlalchemy import create_engine, inspect, make_url

from yardapp.backups.copies import PHOTOS, Copy, look_over
from yardapp.backups.databases import DUMP, SQLITE, run_postgres
from yardapp.backups.files import out_of_file
from yardapp.config import Settings
from yardapp.errors import Refused


def restore(settings: Settings, path: Path) -> Copy:
    """Make the register of `settings` the one in the copy's file.

    Raises
    ------
    Refused
        A register stands there already, the copy is not sound, or it is of the other kind of database.
    """
    with tempfile.TemporaryDirectory(dir=settings.data, prefix=".restore-") as scratch:
        copy = out_of_file(path, Path(scratch))
        look_over(copy, Path(scratch) / PHOTOS)
        _put_back(settings, copy)
        if (Path(scratch) / PHOTOS).exists():
            shutil.copytree(Path(scratch) / PHOTOS, settings.photos, dirs_exist_ok=True)
    return copy


def _put_back(settings: Settings, copy: Copy) -> None:
    where = make_url(settings.database_url)
    if (where.get_backend_name() == "sqlite") != (copy.database == SQLITE):
        raise Refused(f"That copy is of a {'SQLite' if copy.database == SQLITE else 'Postgres'} register.")
    if where.get_backend_name() != "sqlite":
        _must_be_empty(settings.database_url)
        run_postgres(
            "pg_restore", where, "--no-owner", "--exit-on-error", "--single-transaction", str(copy.folder / DUMP)
        )
        return
    target = Path(str(where.database))
    if target.exists():
        raise Refused(f"A register stands in {target.parent} already. Name an empty folder with --data.")
    shutil.copyfile(copy.folder / SQLITE, target)


def _must_be_empty(url: str) -> None:
    engine = create_engine(url)
    names = inspect(engine).get_table_names()
    engine.dispose()
    if names:
        raise Refused("A register stands in that database already. Name an empty one.")
