"""Bring a register up to this version's tables."""

from alembic import command
from alembic.config import Config

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
