"""What one blade waits for at a moment."""

from yardapp.coating.acts import TOO_DRY
from yardapp.coating.system import System
from yardapp.coating.unit_run import UnitRun
from yardapp.coating.windows import Opening

TO_DO, RUNNING, WAITING, TEST, OPEN = "to do", "running", "waiting", "test", "open"
MISSED, UNKNOWN, CURING, CURED = "missed", "unknown", "curing", "cured"
PHASES = (TO_DO, RUNNING, WAITING, TEST, OPEN, MISSED, UNKNOWN, CURING, CURED)


def phase_of(system: System, unit: UnitRun, window: Opening, now_s: float, *, cured: bool) -> str:
    """The phase of one blade; a window that has shut comes before everything else that is known of it."""
    if unit.next is None:
        return CURED if cured else CURING
    if unit.started_s is not None:
        return RUNNING
    if _is_missed(unit, window, now_s):
        return MISSED
    if window.why:
        return UNKNOWN
    if window.opens_s is not None:
        return OPEN if now_s >= window.opens_s else WAITING
    if window.test_s is not None:
        return TEST if now_s >= window.test_s else WAITING
    return TO_DO


def _is_missed(unit: UnitRun, window: Opening, now_s: float) -> bool:
    is_dry = unit.finger is not None and unit.finger.kind == TOO_DRY and not unit.is_free
    return is_dry or (window.shuts_s is not None and now_s > window.shuts_s)
