"""The texts that one place may hold, as a small graph: from each point, which characters lead on, and to where."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from yardapp.stamps.tables.confusions import fold
from yardapp.stamps.tables.meanings import LETTERS

DIGITS = "0123456789"
ANYTHING = LETTERS + DIGITS + "-./"
PARTS_OF_AN_INCH = ("2", "4", "8", "16", "32", "64")


@dataclass(frozen=True)
class Spelling:
    """One way to write it: for each character what it may be; it may end once `least` of them are there."""

    classes: tuple[str, ...]
    least: int

    def folded(self) -> "Spelling":
        """The same with characters that may be confused as one."""
        return Spelling(tuple("".join(sorted(set(fold(marks)))) for marks in self.classes), self.least)


@dataclass(frozen=True)
class Point:
    """Where one may stand in a text: whether it may end here, and which characters lead to which point."""

    ends: bool
    edges: tuple[tuple[str, int], ...]
    onward: dict[str, int] = field(compare=False)


Automaton = tuple[Point, ...]


def counted(marks: str, shortest: int, longest: int) -> Spelling:
    """So many characters of one kind."""
    return Spelling((marks,) * longest, shortest)


def code(text: str) -> Spelling:
    """Exactly this text."""
    return Spelling(tuple(text), len(text))


def sizes() -> Iterator[Spelling]:
    """Numbers as a yard strikes them: 22, 560, 22.5, 22-1/2, 22 1/2; at least one before the fraction."""
    for figures in (1, 2, 3, 4):
        whole = ("123456789", *(DIGITS,) * (figures - 1))
        yield Spelling(whole, figures)
        yield Spelling((*whole, ".", DIGITS, DIGITS), figures + 2)
        if figures <= 2:
            yield from (Spelling((*whole, joint, *part), 0) for joint in "- " for part in parts_of_an_inch())


def parts_of_an_inch() -> Iterator[tuple[str, ...]]:
    """1/2 to 63/64, as classes of characters."""
    for under in PARTS_OF_AN_INCH:
        for over in (("13579",), ("123456", "13579")) if len(under) > 1 else (("1357",),):
            yield (*over, "/", *under)


def automaton(spellings: Iterable[Spelling]) -> Automaton:
    """All the spellings in one graph without two ways for one text."""
    ways = [(one.classes, one.least or len(one.classes)) for one in spellings]
    start = frozenset((way, 0) for way in range(len(ways)))
    numbers, waiting = {start: 0}, [start]
    points: list[Point] = []
    while len(points) < len(waiting):
        here = waiting[len(points)]
        edges: list[tuple[str, int]] = []
        for marks, there in _onward(here, ways):
            if there not in numbers:
                numbers[there] = len(waiting)
                waiting.append(there)
            edges.append((marks, numbers[there]))
        ends = any(at >= ways[way][1] for way, at in here)
        points.append(Point(ends, tuple(edges), {mark: there for marks, there in edges for mark in marks}))
    return tuple(points)


Standing = frozenset[tuple[int, int]]


def _onward(here: Standing, ways: list[tuple[tuple[str, ...], int]]) -> list[tuple[str, Standing]]:
    """Which characters lead to which standing; characters that lead to the same one are together."""
    reached: dict[str, set[tuple[int, int]]] = defaultdict(set)
    for way, at in here:
        if at < len(ways[way][0]):
            for mark in ways[way][0][at]:
                reached[mark].add((way, at + 1))
    together: dict[Standing, list[str]] = defaultdict(list)
    for mark in sorted(reached):
        together[frozenset(reached[mark])].append(mark)
    return [("".join(marks), there) for there, marks in together.items()]


def lengths(graph: Automaton) -> tuple[int, int]:
    """The shortest and the longest text."""
    shortest: dict[int, int] = {}
    longest: dict[int, int] = {}
    for number in reversed(_in_order(graph)):
        point = graph[number]
        onward = [there for _, there in point.edges]
        shortest[number] = 0 if point.ends else 1 + min(shortest[there] for there in onward)
        longest[number] = max((1 + longest[there] for there in onward), default=0)
    return shortest[0], longest[0]


def _in_order(graph: Automaton) -> list[int]:
    """The points so that each stands before those it leads to; the graph has no circle."""
    order: list[int] = []
    done: set[int] = set()
    waiting: list[tuple[int, bool]] = [(0, False)]
    while waiting:
        number, left = waiting.pop()
        if left:
            order.append(number)
        elif number not in done:
            done.add(number)
            waiting.append((number, True))
            waiting.extend((there, False) for _, there in graph[number].edges)
    return order[::-1]


def texts(graph: Automaton, at_most: int) -> list[str]:
    """The texts, in the order of their characters; none if there are more than `at_most`."""
    found: list[str] = []
    waiting = [(0, "")]
    while waiting:
        number, text = waiting.pop()
        point = graph[number]
        if point.ends:
            found.append(text)
        if len(found) > at_most:
            return []
        waiting.extend((there, text + mark) for marks, there in reversed(point.edges) for mark in reversed(marks))
    return found
