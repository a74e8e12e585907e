"""`yardapp restore FILE`: the register of a copy, in an empty data folder."""

import argparse
from pathlib import Path

from yardapp import backups, config, upgrading


def run(asked: argparse.Namespace) -> int:
    """Look the copy over, put it back, and bring it up to this version's tables."""
    settings = config.load(asked.data)
    copy = backups.restore(settings, Path(asked.file))
    upgrading.upgrade(settings.database_url)
    print(f"Restored into {settings.data}: the register of {copy.made:%Y-%m-%d %H:%M} UTC,")
    print(f"{sum(copy.tables.values())} rows, {copy.photos} picture files.")
    return 0
