"""Which coat on which blade, when, by whom: the soonest finish that keeps every window, searched for, not guessed.

Pieces taken together go in rounds: each its first coat, each its second, and so on; always in one order, so that the
blade coated first is done first. For a given order the start times follow from the windows alone (a longest path); the
search goes over the orders and over who does what. Working hours push a start on to where the coat fits: that only
ever moves starts later, so the least starts that hold are still the soonest.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

# How much is searched before the best so far is taken: about half a second, whatever the size of the job.
ENOUGH = 12000
HAIR_S = 1e-6
SWEEPS = 60  # with working hours a start may be pushed from stretch to stretch, day after day


@dataclass(frozen=True, kw_only=True)
class Task:
    """One coat of one blade, and its window to the next: seconds after its last stroke, and after its first."""

    step: int
    name: str
    work_s: float
    earliest_s: float = 0.0
    latest_s: float | None = None


@dataclass(frozen=True, kw_only=True)
class Line:
    """All coats of one blade or piece."""

    key: str
    label: str
    tasks: tuple[Task, ...]


@dataclass(frozen=True)
class Slot:
    """One task in its place: which line, which of its tasks, by which person, and from when."""

    line: int
    task: int
    person: int
    start_s: float


@dataclass(frozen=True)
class Found:
    """A schedule; `meets`: every window is kept; `proven`: nothing better was left unsearched."""

    slots: tuple[Slot, ...]
    meets: bool
    proven: bool


Turn = tuple[int, int]
Turns = Sequence[Turn]
# From which moment on a turn can really start, if it may from a moment on; infinity: never.
Fits = Callable[[Turn, float], float]


def schedule(lines: Sequence[Line], people: int, at_once: int, fits: Fits | None = None) -> Found:
    """The soonest finish that keeps every window; where none does, the soonest round with its misses.

    `fits`: the yard's working hours; without them somebody coats at any hour.
    """
    search = _Search(lines, people, fits)
    for order in _orders(lines):
        if search.left <= 0:
            break
        search.over(_turns(lines, order, at_once))
    if search.best is not None:
        return Found(search.best, meets=True, proven=search.left > 0)
    turns = _turns(lines, range(len(lines)), at_once)
    return Found(_regardless(lines, turns, people, fits), meets=False, proven=search.left > 0)


def retimed(lines: Sequence[Line], slots: Sequence[Slot], fits: Fits) -> tuple[Slot, ...] | None:
    """The same turns by the same people, as soon as other hours let them; None where a window can't be kept."""
    turns, staff = [(slot.line, slot.task) for slot in slots], [slot.person for slot in slots]
    starts_s = _least(len(turns), _bounds(lines, turns, staff), _pushes(turns, fits))
    return None if starts_s is None else _slots(turns, staff, starts_s)


class _Search:
    """The best schedule so far, and how many more may be timed."""

    def __init__(self, lines: Sequence[Line], people: int, fits: Fits | None = None) -> None:
        self.lines, self.people, self.fits = lines, people, fits
        self.left = ENOUGH
        self.best: tuple[Slot, ...] | None = None
        self.best_s = math.inf

    def over(self, turns: Turns) -> None:
        """Try every way to share these turns out that could still be better."""
        works_s = {_task(self.lines, turn).work_s for turn in turns}
        if len(works_s) <= 1 or self.people == 1:
            # All turns alike: whoever began longest ago is free first, and no other sharing out is sooner.
            self._keep(self._timed(turns, [number % self.people for number in range(len(turns))]))
        else:
            # A plain sharing out first, so that a long job has something before the search runs out.
            plain = [slot.person for slot in _regardless(self.lines, turns, self.people, self.fits)]
            self._keep(self._timed(turns, plain))
            self._share(turns, [])

    def _share(self, turns: Turns, staff: list[int]) -> None:
        slots = self._timed(turns[: len(staff)], staff)
        if slots is None or _finish_s(self.lines, slots) >= self.best_s - HAIR_S:
            return
        if len(staff) == len(turns):
            self._keep(slots)
            return
        for person in _free_first(self.lines, slots, self.people):
            self._share(turns, [*staff, person])

    def _timed(self, turns: Turns, staff: Sequence[int]) -> tuple[Slot, ...] | None:
        if self.left <= 0:
            return None
        cost = 1 + len(turns) ** 2 // 40  # timing a long list takes longer
        self.left -= cost if self.fits is None else 4 * cost
        bounds = _bounds(self.lines, turns, staff)
        starts_s = _least(len(turns), bounds)
        if starts_s is not None and self.fits is not None:
            starts_s = _least(len(turns), bounds, _pushes(turns, self.fits))
        return None if starts_s is None else _slots(turns, staff, starts_s)

    def _keep(self, slots: tuple[Slot, ...] | None) -> None:
        if slots is not None and (ends_s := _finish_s(self.lines, slots)) < self.best_s - HAIR_S:
            self.best, self.best_s = slots, ends_s


def _orders(lines: Sequence[Line]) -> Iterator[tuple[int, ...]]:
    """Orders of the lines, the given one first; of lines that are alike only the given order is tried."""
    alike: dict[tuple[Task, ...], list[int]] = {}
    for number, line in enumerate(lines):
        alike.setdefault(line.tasks, []).append(number)
    yield from _woven(list(alike.values()))


def _woven(queues: list[list[int]]) -> Iterator[tuple[int, ...]]:
    """Every way to merge queues that each keep their order; first the one that takes the lowest number each time."""
    if not queues:
        yield ()
    for queue in sorted(queues, key=lambda one: one[0]):
        rest = [one for one in queues if one is not queue] + ([queue[1:]] if queue[1:] else [])
        for later in _woven(rest):
            yield (queue[0], *later)


def _turns(lines: Sequence[Line], order: Sequence[int], at_once: int) -> list[Turn]:
    """Rounds over each group of `at_once` lines, group after group."""
    groups = [order[first : first + at_once] for first in range(0, len(order), at_once)]
    rounds = max((len(line.tasks) for line in lines), default=0)
    return [(one, task) for group in groups for task in range(rounds) for one in group if task < len(lines[one].tasks)]


def _free_first(lines: Sequence[Line], slots: tuple[Slot, ...], people: int) -> list[int]:
    """People by when they are free; of those who have not begun only the first, for they are alike."""
    free_s = {slot.person: slot.start_s + lines[slot.line].tasks[slot.task].work_s for slot in slots}
    fresh = [person for person in range(people) if person not in free_s][:1]
    return fresh + sorted(free_s, key=lambda person: free_s[person])


def _slots(turns: Turns, staff: Sequence[int], starts_s: Sequence[float]) -> tuple[Slot, ...]:
    return tuple(
        Slot(one, task, person, at_s) for (one, task), person, at_s in zip(turns, staff, starts_s, strict=True)
    )


def _bounds(lines: Sequence[Line], turns: Turns, staff: Sequence[int]) -> list[tuple[int, int, float]]:
    """Each (a, b, wait): turn b starts at least `wait` after turn a does."""
    bounds: list[tuple[int, int, float]] = [(number - 1, number, 0.0) for number in range(1, len(turns))]
    place = {turn: number for number, turn in enumerate(turns)}
    busy: dict[int, int] = {}
    for number, (one, task) in enumerate(turns):
        if (before := busy.get(staff[number])) is not None:
            bounds.append((before, number, _task(lines, turns[before]).work_s))
        busy[staff[number]] = number
        if task:
            earlier, last = place[one, task - 1], _task(lines, (one, task - 1))
            bounds.append((earlier, number, last.work_s + last.earliest_s))
            if last.latest_s is not None:
                bounds.append((number, earlier, -last.latest_s))
    return bounds


def _task(lines: Sequence[Line], turn: Turn) -> Task:
    return lines[turn[0]].tasks[turn[1]]


Push = Callable[[float], float]


def _pushes(turns: Turns, fits: Fits) -> list[Push]:
    return [partial(fits, turn) for turn in turns]


def _least(count: int, bounds: Sequence[tuple[int, int, float]], pushes: Sequence[Push] = ()) -> list[float] | None:
    """The smallest starts from zero that keep every bound; None where none do (a cycle that pushes itself on)."""
    starts_s = [0.0] * count
    for _ in range(count + 1 if not pushes else SWEEPS + 8 * count):
        settled = True
        for number, push in enumerate(pushes):
            at_s = push(starts_s[number])
            if at_s > starts_s[number] + HAIR_S:
                starts_s[number], settled = at_s, False
        for before, after, wait_s in bounds:
            if starts_s[before] + wait_s > starts_s[after] + HAIR_S:
                starts_s[after] = starts_s[before] + wait_s
                settled = False
        if settled:
            return starts_s
        if math.inf in starts_s:
            return None
    return None


def _finish_s(lines: Sequence[Line], slots: Sequence[Slot]) -> float:
    return max((slot.start_s + lines[slot.line].tasks[slot.task].work_s for slot in slots), default=0.0)


def _regardless(lines: Sequence[Line], turns: Turns, people: int, fits: Fits | None = None) -> tuple[Slot, ...]:
    """Each turn as soon as somebody is free and it may, whatever shuts meanwhile: what would happen."""
    free_s = [0.0] * people
    ends_s: dict[Turn, float] = {}
    slots = []
    for one, task in turns:
        person = min(range(people), key=lambda who: free_s[who])
        ready_s = ends_s[one, task - 1] + lines[one].tasks[task - 1].earliest_s if task else 0.0
        at_s = max(free_s[person], ready_s)
        pushed_s = at_s if fits is None else fits((one, task), at_s)
        at_s = pushed_s if math.isfinite(pushed_s) else at_s
        free_s[person] = ends_s[one, task] = at_s + lines[one].tasks[task].work_s
        slots.append(Slot(one, task, person, at_s))
    return tuple(slots)
