"""Every way to start every coat on whole minutes, tried one after the other: slow, and with no idea of its own."""

from itertools import pairwise, permutations


def finish_by_brute_force(works, windows, people, *, at_once=None, in_order=True, in_rounds=True, closed=()):
    """The soonest finish in minutes over all integer starts, or None.

    `works[unit]` is the time of one coat; `windows[k]` is (earliest, latest or None) after coat k. Coats of one unit
    follow each other inside their windows; at most `people` run at once. `in_order`: every coat is begun in one order
    of the units; `in_rounds`: no unit of a group begins a coat before all of the group have begun the one before, and
    a group follows the group before it. `closed`: minutes from and to in which nobody works.
    """
    # One unit after another, each waiting as little as it may, is always among what is tried.
    horizon = sum(work * (len(windows) + 1) + sum(earliest for earliest, _ in windows) for work in works)
    horizon += max((ends for _, ends in closed), default=0)
    shut = {minute for begins, ends in closed for minute in range(begins, ends)}
    chains = [[starts for starts in _chains(work, windows, horizon) if _is_open(starts, work, shut)] for work in works]
    group = at_once or len(works)
    best = None
    for starts in _together(chains, works, people, [0] * (horizon + 1), []):
        ends = max(unit[-1] + work for unit, work in zip(starts, works, strict=True))
        if best is not None and ends >= best:
            continue
        if not in_order or _is_ordered(starts, group, in_rounds):
            best = ends
    return best


def _is_open(starts, work, shut):
    return shut.isdisjoint(minute for at in starts for minute in range(at, at + work))


def _chains(work, windows, horizon, starts=()):
    """All starts of one unit's coats, each inside its window."""
    if len(starts) == len(windows) + 1:
        yield starts
        return
    first, last = 0, horizon - work
    if starts:
        earliest, latest = windows[len(starts) - 1]
        first = starts[-1] + work + earliest
        last = last if latest is None else min(last, starts[-1] + latest)
    for at in range(first, last + 1):
        yield from _chains(work, windows, horizon, (*starts, at))


def _together(chains, works, people, busy, chosen):
    """All starts of all units in which nobody is in two places."""
    if len(chosen) == len(works):
        yield chosen
        return
    work = works[len(chosen)]
    for starts in chains[len(chosen)]:
        minutes = [minute for at in starts for minute in range(at, at + work)]
        if all(busy[minute] < people for minute in minutes):
            then = list(busy)
            for minute in minutes:
                then[minute] += 1
            yield from _together(chains, works, people, then, [*chosen, starts])


def _is_ordered(starts, at_once, in_rounds):
    """Whether one order of the units, cut into groups, explains every round."""
    return any(_fits(starts, order, at_once, in_rounds) for order in permutations(range(len(starts))))


def _fits(starts, order, at_once, in_rounds):
    rounds = range(len(starts[0]))
    if not in_rounds:
        return all(starts[one][k] <= starts[two][k] for k in rounds for one, two in pairwise(order))
    groups = [order[first : first + at_once] for first in range(0, len(order), at_once)]
    said = [starts[one][k] for group in groups for k in rounds for one in group]
    return all(before <= after for before, after in pairwise(said))
