"""The register that a command works on: found, or made, and brought up to this version's tables."""

import argparse
from pathlib import Path

from sqlalchemy import make_url

from yardapp import backups, config, db, tables, upgrading
from yardapp.config import Settings
from yardapp.errors import NotFound
from yardapp.marks import services as marks

__all__ = ["made", "open_at_head", "standing", "tables"]


def made(asked: argparse.Namespace) -> Settings:
    """The register in the data folder, made when it is not there, and opened."""
    return open_at_head(config.load(asked.data))


def standing(asked: argparse.Namespace) -> Settings:
    """The register in the data folder, which must be there already; not opened yet.

    Raises
    ------
    NotFound
        There is none.
    """
    folder = Path(asked.data)
    missing = NotFound(f"There is no register in {folder}. `yardapp serve --data {folder}` makes one.")
    if not folder.is_dir():
        raise missing
    settings = config.load(folder)
    url = make_url(settings.database_url)
    if url.get_backend_name() == "sqlite" and not Path(url.database or "").is_file():
        raise missing
    return settings


def _copy_before_upgrade(settings: Settings) -> None:
    """A register with people's work in it is copied before its tables are changed."""
    if upgrading.is_behind(settings.database_url):
        backups.make_copy(settings, settings.backups, why="before-upgrade")


def open_at_head(settings: Settings) -> Settings:
    """Bring the register up to this version's tables, open it for this process, and see that it can read marks."""
    _copy_before_upgrade(settings)
    upgrading.upgrade(settings.database_url)
    db.open_register(settings.database_url)
    with db.transaction() as session:
        marks.seed_tables(session)
    return settings
