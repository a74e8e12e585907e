"""The live job drawn: each blade's coats as they went on, the window that is open to it, and those that were missed."""

from collections.abc import Iterator

from yardapp.coating.faults import Fault
from yardapp.coating.running import Run
from yardapp.coating.system import TOO_LATE
from yardapp.coating.unit_run import UnitRun
from yardapp.drawings.timeline import Bar, TimeRow


def live_bars(run: Run, now_s: float) -> tuple[TimeRow, ...]:
    """One row for each blade and piece, in the order of the job."""
    return tuple(TimeRow(label=unit.label, bars=tuple(_bars(run, unit, now_s))) for unit in run.units)


def _bars(run: Run, unit: UnitRun, now_s: float) -> Iterator[Bar]:
    system = run.job.system
    for done in (*unit.undone, *unit.done):
        if system.steps[done.step].is_coat:
            yield Bar(start_s=done.started_s, end_s=done.done_s, kind="coat")
    if unit.started_s is not None and unit.next is not None and system.steps[unit.next].is_coat:
        yield Bar(start_s=unit.started_s, end_s=max(now_s, unit.started_s), kind="coat")
    window = unit.opening(system)
    opens_s = window.test_s if window.opens_s is None else window.opens_s
    if unit.started_s is None and opens_s is not None and window.shuts_s is not None and opens_s < window.shuts_s:
        kind = "past" if now_s > window.shuts_s or _was_missed(unit) else "window"
        yield Bar(start_s=opens_s, end_s=window.shuts_s, kind=kind)


def _was_missed(unit: UnitRun) -> bool:
    def of_the_next(fault: Fault) -> bool:
        return fault.kind == TOO_LATE and fault.step == unit.next

    return any(of_the_next(fault) for fault in unit.open_faults)
