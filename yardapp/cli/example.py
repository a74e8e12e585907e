"""`yardapp example`: the invented yard, in a folder of its own beside the real register."""

import argparse
import os
from dataclasses import replace
from pathlib import Path

from yardapp import config, db
from yardapp.cli import registers, welcome
from yardapp.config import Settings
from yardapp.example import EXAMPLE_YARD, build, is_built


def run(asked: argparse.Namespace) -> int:
    """Make it, and say who may sign in."""
    settings = registers.open_at_head(example_settings(asked.data))
    fill(settings)
    welcome.say(f"The invented yard is in {settings.data}. `yardapp serve --example` opens it.")
    welcome.example_people()
    return 0


def example_settings(data: Path | str) -> Settings:
    """Settings of the invented yard: always a SQLite file of its own, whatever database the real yard uses."""
    os.environ.pop("YARDAPP_DATABASE_URL", None)
    return replace(config.load(Path(data) / "example"), yard=EXAMPLE_YARD)


def fill(settings: Settings) -> None:
    """Enter everything, unless it was before."""
    with db.transaction() as session:  # a second process waits here, and then finds it built
        if is_built(session):
            return
        welcome.say("Making the invented yard:")
        build(session, settings.photos, lambda chapter: welcome.say(f"    {chapter}"))
