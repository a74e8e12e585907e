"""When it may go in the water: counted from the last coat of the last piece, at the coldest metal read since."""

from dataclasses import dataclass

from yardapp.coating.running import Run
from yardapp.coating.timing import cure_s, span_said
from yardapp.coating.weather import TOO_OLD_S
from yardapp.errors import OutsideRange


@dataclass(frozen=True, kw_only=True)
class Immersion:
    """The earliest moment, or why there is none yet."""

    at_s: float | None = None
    why: str = ""


def immersion(run: Run) -> Immersion:
    """Earliest immersion by the readings so far; colder readings put it off."""
    system = run.job.system
    waiting = [unit.label for unit in run.units if unit.next is not None]
    if waiting:
        return Immersion(why=f"The cure counts from the last coat of the last piece; to come: {', '.join(waiting)}.")
    if not system.cure:
        return Immersion(why="The sheet names no wait before immersion. Ask the supplier.")
    last_s = max(unit.done[-1].done_s for unit in run.units if unit.done)
    metals_c = [one.metal_c for one in run.readings if one.metal_c is not None and one.at_s >= last_s - TOO_OLD_S]
    if not metals_c:
        return Immersion(why="Nobody has read the metal since the last coat: measure it, or the cure can't be told.")
    try:
        waits_s = [cure_s(system, metal_c) or 0.0 for metal_c in metals_c]
    except OutsideRange as refusal:
        said = f"The metal was at {refusal.figure:.1f} °C; {span_said(system.cure)} for the cure. Ask the supplier."
        return Immersion(why=said)
    why = f"Counted at {min(metals_c):.1f} °C, the coldest that was read; a colder night lengthens it."
    return Immersion(at_s=last_s + max(waits_s), why=why)


def likely_immersion_s(run: Run, finish_s: float | None, metal_c: float | None) -> float | None:
    """When it may go in the water if the rest goes as forecast; None where nobody can tell."""
    if finish_s is None or metal_c is None:
        return None
    try:
        wait_s = cure_s(run.job.system, metal_c)
    except OutsideRange:
        return None
    return None if wait_s is None else finish_s + wait_s
