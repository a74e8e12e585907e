"""What a job has left on each piece, derived from its acts: the one place that writes those columns."""

from collections.abc import Sequence
from datetime import UTC, datetime

from yardapp.coating.models import Piece
from yardapp.coating.services.stories import Story
from yardapp.coating.system import TOO_EARLY, TOO_LATE
from yardapp.coating.unit_run import Done, UnitRun


def refresh(story: Story) -> None:
    """Write what the acts say now onto the row of each piece."""
    launched = [act.at for act in story.standing_acts if act.kind == "launched"]
    for piece in story.pieces:
        runs = [story.run.unit(unit.key) for unit in story.units if unit.piece == str(piece.number)]
        coats = [coat for run in runs for coat in run.coats(story.system)]
        is_finished = bool(coats) and all(run.next is None for run in runs)
        _write(piece, runs, coats if is_finished else ())
        piece.immersed = launched[-1] if launched and is_finished else None


def _write(piece: Piece, runs: Sequence[UnitRun], coats: Sequence[Done]) -> None:
    read = [coat.metal_c for coat in coats if coat.metal_c is not None]
    piece.finished = datetime.fromtimestamp(max(coat.done_s for coat in coats), UTC) if coats else None
    piece.metal_low_c, piece.metal_high_c = (min(read), max(read)) if read else (None, None)
    piece.windows_met = windows_met(runs) if coats else None


def windows_met(runs: Sequence[UnitRun]) -> bool | None:
    """Whether every coat went on inside its window, or was put right; None where nobody can vouch for it."""
    faults = [fault for run in runs for fault in run.open_faults]
    if any(fault.kind in (TOO_EARLY, TOO_LATE) for fault in faults):
        return False
    return None if any(fault.is_unknown for fault in faults) else True
