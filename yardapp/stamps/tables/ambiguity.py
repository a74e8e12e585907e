"""Whether one mark could be split in two ways: two places that can swallow the same characters."""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from yardapp.stamps.tables.grammar import START, Grammar

MOST_PAIRS = 60_000  # pairs of standings looked at; a table that needs more is too tangled to judge

Standing = tuple[int, int]  # the part, and the point in its graph
Pair = tuple[Standing, Standing]
BEGIN: Standing = (START, 0)


@dataclass(frozen=True)
class TwoWays:
    """A mark that can be split in two ways, the first places (from 0) where the two part, and both splits."""

    mark: str
    places: tuple[int, int]
    splits: tuple[str, str]


class TooTangled(Exception):
    """More pairs than can be looked at."""


def onward(grammar: Grammar, here: Standing) -> Iterator[tuple[str, Standing]]:
    """Each character that may come next, and where it leads; more than one place may want the same character."""
    part, number = here
    ends = part == START
    if not ends:
        point = grammar.parts[part].graph[number]
        ends = point.ends
        for mark, there in point.onward.items():
            yield mark, (part, there)
    if ends:
        for after in grammar.follow[part]:
            for mark, there in grammar.parts[after].graph[0].onward.items():
                yield mark, (after, there)


def may_end(grammar: Grammar, here: Standing) -> bool:
    """Whether a whole mark may end here."""
    part, number = here
    return part in grammar.last and grammar.parts[part].graph[number].ends


class _Steps:
    """Where standings lead, remembered."""

    def __init__(self, grammar: Grammar) -> None:
        self.grammar = grammar
        self.known: dict[Standing, dict[str, list[Standing]]] = {}

    def of(self, here: Standing) -> dict[str, list[Standing]]:
        """Character to the standings that it leads to."""
        if here not in self.known:
            found: dict[str, list[Standing]] = {}
            for mark, there in onward(self.grammar, here):
                found.setdefault(mark, []).append(there)
            self.known[here] = found
        return self.known[here]

    def together(self, pair: Pair) -> Iterator[tuple[str, Pair]]:
        """Each character that both can take, and where it may lead them."""
        first, second = self.of(pair[0]), self.of(pair[1])
        for mark, ones in first.items():
            for one in ones:
                for other in second.get(mark, ()):
                    yield mark, (one, other)


def two_ways(grammar: Grammar) -> TwoWays | None:
    """A shortest mark that the grammar can split in two ways, or None.

    Raises
    ------
    TooTangled
        It would take too long to tell.
    """
    steps = _Steps(grammar)
    came: dict[Pair, tuple[Pair, str] | None] = {(BEGIN, BEGIN): None}
    waiting = deque(came)
    while waiting:
        pair = waiting.popleft()
        for mark, there in steps.together(pair):
            met = there[0] == there[1]
            parted = pair[0] != pair[1]
            if (met and parted) or (not met and may_end(grammar, there[0]) and may_end(grammar, there[1])):
                return _witness(steps, [*_way_to(came, pair), (there, mark)])
            if there not in came and not (met and parted):
                came[there] = (pair, mark)
                waiting.append(there)
        if len(came) > MOST_PAIRS:
            raise TooTangled
    return None


def _way_to(came: dict[Pair, tuple[Pair, str] | None], pair: Pair) -> list[tuple[Pair, str]]:
    way = []
    while step := came[pair]:
        way.append((pair, step[1]))
        pair = step[0]
    return way[::-1]


def _witness(steps: _Steps, way: list[tuple[Pair, str]]) -> TwoWays:
    """The mark along the way, brought to an end, and how each of the two splits it."""
    end = way[-1][0]
    rest = _shortest_end(steps, end[0]) if end[0] == end[1] else []
    marks = [mark for _, mark in way] + [mark for _, mark in rest]
    tail = [there for there, _ in rest]
    one, other = ([pair[side] for pair, _ in way] + tail for side in (0, 1))
    first = next((a[0], b[0]) for a, b in zip(one, other, strict=True) if a != b)
    parts = steps.grammar.parts
    splits = (_split(steps.grammar, one, marks), _split(steps.grammar, other, marks))
    return TwoWays("".join(marks), (parts[first[0]].place, parts[first[1]].place), splits)


def _shortest_end(steps: _Steps, here: Standing) -> list[tuple[Standing, str]]:
    came: dict[Standing, list[tuple[Standing, str]]] = {here: []}
    waiting = deque(came)
    while waiting:
        now = waiting.popleft()
        if may_end(steps.grammar, now):
            return came[now]
        for mark, theres in steps.of(now).items():
            for there in theres:
                if there not in came:
                    came[there] = [*came[now], (there, mark)]
                    waiting.append(there)
    return []


def _split(grammar: Grammar, standings: list[Standing], marks: list[str]) -> str:
    """The mark with a bar before each place."""
    by_place = groupby(zip(standings, marks, strict=True), key=lambda step: grammar.parts[step[0][0]].place)
    return "|".join("".join(mark for _, mark in steps) for _, steps in by_place)
