"""Bring a register up to this version's tables."""

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine

from yardapp.paths import ROOT


def alembic_config(url: str) -> Config:
    """Alembic's settings for the register at `url`."""
    config = Config()
    config.set_main_option("script_location", str(ROOT / "migrations").replace("%", "%%"))
    config.attributes["url"] = url
    return config


def upgrade(url: str) -> None:
    """Run every migration that the register at `url` has not seen."""
    command.upgrade(alembic_config(url), "head")


def is_behind(url: str) -> bool:
    """Whether the register at `url` has tables, but not yet this version's."""
    engine = create_engine(url)
    with engine.connect() as connection:
        current = MigrationContext.configure(connection).get_current_revision()
    engine.dispose()
    return current is not None and current != ScriptDirectory.from_config(alembic_config(url)).get_current_head()
