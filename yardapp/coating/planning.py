"""Can it be done: blades, coats and people against the windows of the sheet, within working hours."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from yardapp.coating.hours import Hours
from yardapp.coating.mixing import Pot, pots_for
from yardapp.coating.ops import Op
from yardapp.coating.pieces import Unit
from yardapp.coating.scheduling import Line, Slot, Task
from yardapp.coating.system import System
from yardapp.coating.timing import Times, cure_s, window_s
from yardapp.coating.working_day import Day, in_hours
from yardapp.drawings.timeline import Bar, TimeRow
from yardapp.errors import Refused

__all__ = ["MOST_PEOPLE", "Op", "Plan", "Pot", "bars", "clocked", "latest_start_s", "plan", "pots_for"]

MOST_PEOPLE, MOST_UNITS = 12, 40
UNTRIED = "No way was found, though not every way was tried: there are too many."


@dataclass(frozen=True, kw_only=True)
class Plan:
    """A schedule; `feasible` None: the sheet gives no times, so nobody can tell."""

    feasible: bool | None
    proven: bool
    ops: tuple[Op, ...]
    pots: tuple[Pot, ...]
    finish_s: float
    immersion_s: float | None
    people: int
    at_once: int
    why: tuple[str, ...] = ()
    day: Day | None = None  # how the working day bears on it; None: somebody coats at any hour

    @property
    def begun_s(self) -> float:
        """When the first hand is needed: to stir, or to coat."""
        return min([op.start_s for op in self.ops] + [pot.stir_s for pot in self.pots])

    @property
    def missed(self) -> tuple[Op, ...]:
        """What would start outside its window."""
        return tuple(op for op in self.ops if not op.met)


def plan(
    system: System,
    units: Sequence[Unit],
    *,
    people: int,
    metal_c: float,
    start_s: float = 0.0,
    at_once: int | None = None,
    hours: Hours | None = None,
) -> Plan:
    """The soonest way to coat `units`, all in rounds together, or `at_once` of them at a time, within working hours.

    Raises
    ------
    Refused
        Nothing to coat, nobody to do it, or too many of either.
    OutsideRange
        The sheet has no row for this temperature.
    """
    _hold(units, people, at_once)
    group = min(at_once or len(units), len(units))
    if silent := _silent(system):
        return _cannot_tell(silent, people=people, at_once=group)
    lines = [_line(system, unit, metal_c) for unit in units]
    day = Day(system=system, lines=tuple(lines), metal_c=metal_c, hours=hours)
    found, fresh = in_hours(day, people, group, start_s)
    ops = ops_of(lines, found.slots, start_s)
    pots, troubles = pots_for(system, ops, metal_c)
    troubles += tuple(_out_of_hours(hours, ops, pots))
    finish_s = max(op.end_s for op in ops)
    wait_s = cure_s(system, metal_c)
    return Plan(
        feasible=found.meets and not troubles,
        proven=found.proven,
        ops=ops,
        pots=pots,
        finish_s=finish_s,
        immersion_s=None if wait_s is None else finish_s + wait_s,
        people=people,
        at_once=group,
        why=tuple(_why(lines, ops)) + troubles + (() if found.meets or found.proven else (UNTRIED,)),
        day=None if hours is None else replace(day, slots=found.slots, fresh=fresh),
    )


def clocked(system: System) -> tuple[int, ...]:
    """The steps that run against the clock: the last coat, and all before it that are tied to it by windows."""
    held = [system.coats[-1]]
    for number in reversed([one for one in system.chain if one < held[0]]):
        if system.steps[number].window is None and number not in system.coats:
            break
        held.insert(0, number)
    return tuple(held)


def _hold(units: Sequence[Unit], people: int, at_once: int | None) -> None:
    if not 1 <= len(units) <= MOST_UNITS:
        raise Refused(f"A job has 1 to {MOST_UNITS} blades and pieces; this has {len(units)}.", "units")
    if not 1 <= people <= MOST_PEOPLE:
        raise Refused(f"1 to {MOST_PEOPLE} people coat; this says {people}.", "people")
    if at_once is not None and at_once < 1:
        raise Refused("At least one piece goes at once.", "at_once")
    for unit in units:
        if not 0 < unit.work_s < 86400:
            raise Refused(f"One coat of {unit.label} takes more than nothing and less than a day.", "work_s")


def _silent(system: System) -> tuple[str, ...]:
    """Steps after which only the finger can tell: no plan can be made of them."""
    numbers = clocked(system)[:-1]
    steps = [system.steps[number] for number in numbers]
    return tuple(
        f"After {step.name} the sheet gives no times: only the finger can tell, so no plan can."
        for step in steps
        if step.window is not None and not step.window.rows
    )


def _cannot_tell(why: tuple[str, ...], *, people: int, at_once: int) -> Plan:
    return Plan(
        feasible=None,
        proven=False,
        ops=(),
        pots=(),
        finish_s=0.0,
        immersion_s=None,
        people=people,
        at_once=at_once,
        why=why,
    )


def _line(system: System, unit: Unit, metal_c: float) -> Line:
    return Line(key=unit.key, label=unit.label, tasks=tuple(_tasks(system, unit.work_s, metal_c)))


def _tasks(system: System, work_s: float, metal_c: float) -> Iterator[Task]:
    for number in clocked(system):
        step = system.steps[number]
        times = window_s(step, metal_c) or Times(earliest_s=0.0, latest_s=None)
        yield Task(
            step=number,
            name=step.name,
            work_s=work_s * step.work_ratio,
            earliest_s=times.earliest_s,
            latest_s=times.latest_s,
        )


def _out_of_hours(hours: Hours | None, ops: Sequence[Op], pots: Sequence[Pot]) -> Iterator[str]:
    """What would be done while nobody works."""
    if hours is None:
        return
    for op in ops:
        if not hours.holds(op.start_s, op.end_s):
            yield f"{op.label}: {op.name} takes {_minutes(op.end_s - op.start_s)}: it fits into no stretch of the day."
    for pot in pots:
        if not hours.holds(pot.stir_s, pot.stir_s + pot.stirring_s):
            yield f"{pot.product} would have to be stirred while nobody works."


def ops_of(lines: Sequence[Line], slots: Sequence[Slot], start_s: float) -> tuple[Op, ...]:
    """Each slot as a coat at its moment, with the window that the coat before leaves it."""
    return tuple(_op(lines, slot, slots, start_s) for slot in slots)


def _op(lines: Sequence[Line], slot: Slot, slots: Sequence[Slot], start_s: float) -> Op:
    line = lines[slot.line]
    task = line.tasks[slot.task]
    opens_s = shuts_s = None
    for before in slots:
        if (before.line, before.task) == (slot.line, slot.task - 1):
            last, began_s = line.tasks[before.task], start_s + before.start_s
            opens_s = began_s + last.work_s + last.earliest_s
            shuts_s = None if last.latest_s is None else began_s + last.latest_s
    return Op(
        unit=line.key,
        label=line.label,
        step=task.step,
        name=task.name,
        person=slot.person,
        start_s=start_s + slot.start_s,
        end_s=start_s + slot.start_s + task.work_s,
        opens_s=opens_s,
        shuts_s=shuts_s,
    )


def _why(lines: Sequence[Line], ops: Sequence[Op]) -> Iterator[str]:
    """What stands in the way, in words."""
    for line in lines:
        for task in line.tasks[:-1]:
            if task.latest_s is not None and task.work_s + task.earliest_s > task.latest_s + 1e-6:
                yield (
                    f"{line.label}: {task.name} takes {_minutes(task.work_s)}, and its window shuts "
                    f"{_minutes(task.latest_s)} after it is begun: there is no time left in it."
                )
    for op in ops:
        if op.shuts_s is not None and not op.met:
            yield f"{op.label}: {op.name} would start {_minutes(op.start_s - op.shuts_s)} after its window has shut."


def _minutes(duration_s: float) -> str:
    return f"{duration_s / 60:.0f} min"


def latest_start_s(planned: Plan, launch_s: float) -> float | None:
    """Latest moment to begin the plan's first step so that the cure holds before the launch; None: no cure is known.

    Within working hours: the same turns by the same people, as late as they still end in time.
    """
    if planned.immersion_s is None or not planned.ops:
        return None
    if planned.day is None:
        return launch_s - (planned.immersion_s - planned.begun_s)
    cure_wait_s = planned.immersion_s - planned.finish_s
    return planned.day.latest_begin_s(launch_s - cure_wait_s)


def bars(planned: Plan) -> tuple[TimeRow, ...]:
    """Each blade against time, for the drawing: its coats, the windows to the next, and those that are missed."""
    rows: dict[str, list[Bar]] = {}
    for op in sorted(planned.ops, key=lambda one: one.start_s):
        marks = rows.setdefault(op.label, [])
        if op.opens_s is not None and op.shuts_s is not None and op.shuts_s > op.opens_s:
            kind = "window" if op.met else "past"
            marks.append(Bar(start_s=op.opens_s, end_s=op.shuts_s, kind=kind))
        marks.append(Bar(start_s=op.start_s, end_s=op.end_s, kind="coat"))
    drawn = [TimeRow(label=label, bars=tuple(marks)) for label, marks in rows.items()]
    return (*drawn, *_at_work(planned))


def _at_work(planned: Plan) -> Iterator[TimeRow]:
    """The stretches in which the yard works, where the plan goes over more than one."""
    if planned.day is None or planned.day.hours is None:
        return
    first_s, last_s = planned.begun_s, planned.finish_s
    stretches = takewhile(lambda one: one[0] < last_s, planned.day.hours.stretches(first_s))
    bars = [Bar(start_s=max(one, first_s), end_s=min(two, last_s), kind="window") for one, two in stretches]
    if len(bars) > 1:
        yield TimeRow(label="At work", bars=tuple(bars))
