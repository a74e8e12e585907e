"""`yardapp check`: sentences about the register; 0 when all of them are good news."""

import argparse
from collections.abc import Iterable

from yardapp import db
from yardapp.cli import registers, soundness
from yardapp.cli.soundness import Finding

MOST_SENTENCES = 20  # of one kind: the hundredth says no more than the twentieth


def run(asked: argparse.Namespace) -> int:
    """Look at everything that can be looked at; what hangs on broken tables is left out."""
    settings = registers.standing(asked)
    db.open_register(settings.database_url)
    with db.snapshot() as session:
        faults = _told(soundness.of_the_file(session))
        at_head = not _told(soundness.of_the_tables(session, settings.database_url))
        if not at_head:
            print("Photos and figures were not looked at.")
            return 1
        faults += _told(soundness.of_the_photos(session, settings.photos))
        faults += _told(soundness.of_the_figures(session))
        faults += _told(soundness.of_the_places(session))
    print("The register is sound." if not faults else f"{soundness.counted(faults, 'fault')} found.")
    return 1 if faults else 0


def _told(findings: Iterable[Finding]) -> int:
    """Print them, and count the bad news."""
    faults = 0
    for is_good, sentence in findings:
        faults += not is_good
        if is_good or faults <= MOST_SENTENCES:
            print(sentence if is_good else f"FAULT  {sentence}")
    if faults > MOST_SENTENCES:
        print(f"FAULT  … and {faults - MOST_SENTENCES} more like these.")
    return faults
