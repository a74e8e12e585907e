"""What would make an impossible job possible: another person, a roller, fewer at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from yardapp.coating.hours import Hours
from yardapp.coating.pieces import Unit
from yardapp.coating.planning import MOST_PEOPLE, Plan, plan
from yardapp.coating.system import System


@dataclass(frozen=True, kw_only=True)
class Would:
    """A change that makes it possible: another "person", a "roller", "fewer at once"."""

    change: str
    said: str
    plan: Plan


def would_do(
    system: System,
    units: Sequence[Unit],
    *,
    people: int,
    metal_c: float,
    start_s: float = 0.0,
    roller_s: Mapping[str, float] | None = None,
    hours: Hours | None = None,
) -> tuple[Would, ...]:
    """What would make an impossible job possible; only what does, each by itself. `roller_s`: time a coat by roller."""
    rolled = [replace(unit, work_s=(roller_s or {}).get(unit.key, unit.work_s)) for unit in units]
    tries: list[tuple[str, str, Sequence[Unit], int, int | None]] = [
        ("person", f"Another person: {people + 1} coat.", units, people + 1, None)
    ]
    if roller_s:
        tries.append(("roller", "A roller instead of the brush.", rolled, people, None))
    for group in _smaller(len(units)):
        tries.append(("fewer at once", f"Fewer at once: {group} go together.", units, people, group))
    found: dict[str, Would] = {}
    for change, said, given, hands, group_size in tries:
        if change not in found and hands <= MOST_PEOPLE:
            tried = plan(system, given, people=hands, metal_c=metal_c, start_s=start_s, at_once=group_size, hours=hours)
            if tried.feasible:
                found[change] = Would(change=change, said=said, plan=tried)
    return tuple(found.values())


def _smaller(whole: int) -> list[int]:
    """Fewer at once, the most first: each number of a small job, shares of a large one."""
    if whole <= 12:
        return list(range(whole - 1, 0, -1))
    return sorted({whole * part // 12 for part in (9, 8, 6, 4, 3, 2, 1)} | {1}, reverse=True)
