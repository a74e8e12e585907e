"""`yardapp backup FILE`: the whole register as one file, while people go on working."""

import argparse
from pathlib import Path

from yardapp import backups
from yardapp.cli import registers


def run(asked: argparse.Namespace) -> int:
    """Copy, look the copy over, and say what is in it."""
    made = backups.into_file(registers.standing(asked), Path(asked.file))
    items, rows = made.tables.get("gear_item", 0), sum(made.tables.values())
    print(f"{asked.file}: {items} items, {rows} rows in all, {made.photos} picture files. Opened and counted.")
    return 0
