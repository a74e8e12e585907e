"""What is likely to come, from where the job really stands: who is free, which window shuts first, who waits."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.coating.ops import Op
from yardapp.coating.phases import MISSED, RUNNING, UNKNOWN
from yardapp.coating.pots import ready_from_s
from yardapp.coating.running import Run
from yardapp.coating.scheduling import Task
from yardapp.coating.staffed import Staffed
from yardapp.coating.system import System
from yardapp.coating.timing import Times, window_s
from yardapp.coating.unit_run import UnitRun
from yardapp.coating.windows import Opening
from yardapp.errors import OutsideRange


@dataclass
class _Rest:
    """What is left to do on one blade, and when its next coat may start."""

    unit: UnitRun
    system: System
    hours: Staffed
    tasks: list[Task]
    done: int
    since_s: float
    opens_s: float
    shuts_s: float | None

    def start_s(self, free_s: float) -> float:
        """The soonest that somebody who is free from then on begins its next coat."""
        task = self.tasks[0]
        product = self.system.product(self.system.steps[task.step].product)
        return self.hours.start_s(max(free_s, self.opens_s), task, product)


def forecast(
    run: Run, places: Sequence[tuple[UnitRun, Opening, str]], metal_c: float | None, now_s: float, hours: Staffed
) -> tuple[Op, ...] | None:
    """Every coat that is left, in the order in which it is likely to be begun; None where no times are known.

    First the blade that has the fewest coats, of those the one coated first, so long as nobody else's window shuts
    meanwhile; else the window that shuts first. Blades that are turned or can't be told are left out.
    """
    going = [place for place in places if place[0].next is not None and place[2] not in (MISSED, UNKNOWN)]
    try:
        rests = [_rest(run, unit, window, metal_c, now_s, hours) for unit, window, _ in going]
    except OutsideRange:
        return None
    busy = [_end_of_running(run.job.system, unit, now_s) for unit, _, phase in going if phase == RUNNING]
    free_s = sorted([*busy, *[now_s] * max(0, run.people - len(busy))])
    return tuple(_go(rests, free_s))


def _rest(run: Run, unit: UnitRun, window: Opening, metal_c: float | None, now_s: float, hours: Staffed) -> _Rest:
    system = run.job.system
    steps = [number for number in system.chain if unit.next is not None and number >= unit.next]
    tasks = [_task(system, unit, number, metal_c) for number in steps]
    done = len(unit.coats(system))
    since_s = unit.last.started_s if unit.last else now_s
    if unit.started_s is None:
        opens_s = window.opens_s if window.opens_s is not None else window.test_s
        ready_s = max(now_s, now_s if opens_s is None else opens_s, _ready_s(run, steps[0], now_s))
        return _Rest(unit, system, hours, tasks, done, since_s, ready_s, window.shuts_s)
    running, end_s = tasks.pop(0), _end_of_running(system, unit, now_s)
    is_coat = system.steps[steps[0]].is_coat
    shuts_s = None if running.latest_s is None else unit.started_s + running.latest_s
    return _Rest(unit, system, hours, tasks, done + is_coat, unit.started_s, end_s + running.earliest_s, shuts_s)


def _ready_s(run: Run, number: int, now_s: float) -> float:
    """From when the step's product can be ready."""
    step = run.job.system.steps[number]
    product = run.job.system.product(step.product)
    return ready_from_s(run.pots, product, now_s) if product and step.is_coat else now_s


def _task(system: System, unit: UnitRun, number: int, metal_c: float | None) -> Task:
    step = system.steps[number]
    times = None if metal_c is None else window_s(step, metal_c)
    times = times or Times(earliest_s=0.0, latest_s=None)
    work_s = unit.work_s * step.work_ratio
    return Task(step=number, name=step.name, work_s=work_s, earliest_s=times.earliest_s, latest_s=times.latest_s)


def _end_of_running(system: System, unit: UnitRun, now_s: float) -> float:
    ratio = system.steps[unit.next].work_ratio if unit.next is not None else 1.0
    started_s = now_s if unit.started_s is None else unit.started_s
    return max(now_s, started_s + unit.work_s * ratio)


def _go(rests: list[_Rest], free_s: list[float]) -> list[Op]:
    ops: list[Op] = []
    while left := [rest for rest in rests if rest.tasks]:
        who = min(range(len(free_s)), key=lambda one: free_s[one])
        at_s = free_s[who]
        chosen = _choose(left, free_s, who)
        if chosen is None:
            free_s[who] = min(start_s for rest in left if (start_s := rest.start_s(at_s)) > at_s)
            continue
        op = _op(chosen, who, at_s)
        free_s[who] = op.end_s
        _advance(chosen, op)
        ops.append(op)
    return ops


def _choose(left: Sequence[_Rest], free_s: Sequence[float], who: int) -> _Rest | None:
    """Whose turn it is for somebody who is free; None: better to wait for a window that is about to open."""
    at_s = free_s[who]
    ready = [rest for rest in left if rest.start_s(at_s) <= at_s]
    for rest in sorted(ready, key=lambda one: (one.done, one.since_s)):
        if _leaves_time(rest, left, free_s, who):
            return rest
    hurried = [rest for rest in ready if rest.shuts_s is not None]
    if hurried:
        return min(hurried, key=lambda rest: rest.shuts_s or 0.0)
    return None if len(ready) < len(left) else next(iter(ready), None)


def _leaves_time(chosen: _Rest, left: Sequence[_Rest], free_s: Sequence[float], who: int) -> bool:
    """Whether everybody else's next window can still be met after this one."""
    free_s = list(free_s)
    free_s[who] += chosen.tasks[0].work_s
    others = [rest for rest in left if rest is not chosen and rest.shuts_s is not None]
    for rest in sorted(others, key=lambda one: one.shuts_s or 0.0):
        hand = min(range(len(free_s)), key=lambda one: free_s[one])
        start_s = rest.start_s(free_s[hand])
        if rest.shuts_s is not None and start_s > rest.shuts_s:
            return False
        free_s[hand] = start_s + rest.tasks[0].work_s
    return True


def _op(rest: _Rest, who: int, at_s: float) -> Op:
    task = rest.tasks[0]
    return Op(
        unit=rest.unit.key,
        label=rest.unit.label,
        step=task.step,
        name=task.name,
        person=who,
        start_s=at_s,
        end_s=at_s + task.work_s,
        opens_s=rest.opens_s,
        shuts_s=rest.shuts_s,
    )


def _advance(rest: _Rest, op: Op) -> None:
    task = rest.tasks.pop(0)
    rest.done += 1
    rest.since_s = op.start_s
    rest.opens_s = op.end_s + task.earliest_s
    rest.shuts_s = None if task.latest_s is None else op.start_s + task.latest_s
