"""How the working day bears on a plan: a coat fits into a stretch of work, and what it needs is stirred within one."""

import math
from dataclasses import dataclass, field

from yardapp.coating.hours import Hours
from yardapp.coating.mixing import Pot, pots_for
from yardapp.coating.ops import Op
from yardapp.coating.scheduling import Fits, Found, Line, Slot, Turn, retimed, schedule
from yardapp.coating.system import System

TRIES = 6
DAY_S, MINUTE_S = 86400.0, 60.0
FURTHEST_DAYS = 21


@dataclass(frozen=True, kw_only=True)
class Day:
    """A plan's coats and the yard's hours. `fresh`: turns for which a pot is stirred anew."""

    system: System
    lines: tuple[Line, ...]
    metal_c: float
    hours: Hours | None
    slots: tuple[Slot, ...] = ()
    fresh: frozenset[Turn] = field(default_factory=frozenset)

    def fits(self, start_s: float, fresh: frozenset[Turn]) -> Fits | None:
        """From when a turn can start, in seconds after the start of the plan."""
        hours = self.hours
        if hours is None:
            return None

        def fit(turn: Turn, at_s: float) -> float:
            task = self.lines[turn[0]].tasks[turn[1]]
            stirring_s, lead_s = self._lead_s(task.step) if turn in fresh else (0.0, 0.0)
            at_s = max(at_s, lead_s)  # nobody stirs before the plan begins
            found_s = hours.first_fit_s(start_s + at_s, task.work_s, stirring_s=stirring_s, lead_s=lead_s)
            return math.inf if found_s is None else found_s - start_s

        return fit

    def _lead_s(self, step: int) -> tuple[float, float]:
        """How long its product is stirred, and how long before the coat that begins."""
        product = self.system.product(self.system.steps[step].product)
        return (0.0, 0.0) if product is None else (product.stirring_s, product.stirring_s + product.induction_s)

    def latest_begin_s(self, done_s: float) -> float | None:
        """The latest moment to begin so that the last coat is done by then; None: not within three weeks before."""
        early_s, late_s = done_s - FURTHEST_DAYS * DAY_S, done_s
        found_s = self._begun_s(early_s, done_s)
        if found_s is None:
            return None
        while late_s - early_s > MINUTE_S / 2:
            middle_s = (early_s + late_s) / 2
            begun_s = self._begun_s(middle_s, done_s)
            if begun_s is None:
                late_s = middle_s
            else:
                early_s, found_s = middle_s, begun_s
        return found_s

    def _begun_s(self, start_s: float, done_s: float) -> float | None:
        """When the first hand is needed if it starts from then on; None where it is not done in time."""
        fits = self.fits(start_s, self.fresh)
        slots = retimed(self.lines, self.slots, fits) if fits else None
        if slots is None or start_s + _finish_s(self.lines, slots) > done_s:
            return None
        leads_s = [slot.start_s - self._stirred_before_s(slot) for slot in slots]
        return start_s + min(leads_s)

    def _stirred_before_s(self, slot: Slot) -> float:
        turn = (slot.line, slot.task)
        return self._lead_s(self.lines[slot.line].tasks[slot.task].step)[1] if turn in self.fresh else 0.0


def _finish_s(lines: tuple[Line, ...], slots: tuple[Slot, ...]) -> float:
    return max(slot.start_s + lines[slot.line].tasks[slot.task].work_s for slot in slots)


def in_hours(day: Day, people: int, at_once: int, start_s: float) -> tuple[Found, frozenset[Turn]]:
    """The soonest schedule within working hours, its pots stirred within them too, and for which turns."""
    fresh: frozenset[Turn] = frozenset()
    found = schedule(day.lines, people, at_once, day.fits(start_s, fresh))
    for _ in range(TRIES if day.hours is not None else 0):
        begun = _pots_begun(day, found, start_s)
        if begun <= fresh:
            break
        fresh |= begun
        found = schedule(day.lines, people, at_once, day.fits(start_s, fresh))
    return found, fresh


def _pots_begun(day: Day, found: Found, start_s: float) -> frozenset[Turn]:
    """The turns for which a pot is stirred anew."""
    by_place = {(day.lines[slot.line].key, day.lines[slot.line].tasks[slot.task].step): slot for slot in found.slots}
    ops = [_bare_op(day, slot, start_s) for slot in found.slots]
    pots, _troubles = pots_for(day.system, ops, day.metal_c)
    firsts = [next(op for op in ops if _begins(day.system, op, pot)) for pot in pots]
    slots = [by_place[op.unit, op.step] for op in firsts]
    return frozenset((slot.line, slot.task) for slot in slots)


def _begins(system: System, op: Op, pot: Pot) -> bool:
    return op.start_s == pot.first_s and op.unit in pot.units and system.steps[op.step].product == pot.product


def _bare_op(day: Day, slot: Slot, start_s: float) -> Op:
    line = day.lines[slot.line]
    task = line.tasks[slot.task]
    at_s = start_s + slot.start_s
    return Op(
        unit=line.key,
        label=line.label,
        step=task.step,
        name=task.name,
        person=slot.person,
        start_s=at_s,
        end_s=at_s + task.work_s,
    )
