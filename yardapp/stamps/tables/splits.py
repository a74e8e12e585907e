"""Every way to split a mark into places, for tables whose marks may be split differently once characters are confused.

The 1 of 22X181 may be the L of 22X18L; no regular expression tells both. What can't be brought to an end is noticed
once, so that work is bounded by parts times characters.
"""

from collections.abc import Iterator
from itertools import islice

from yardapp.stamps.tables.expression import is_caught
from yardapp.stamps.tables.grammar import START, Grammar

MOST_SPLITS = 200
MOST_REMEMBERED = 2000

Spans = tuple[tuple[int, int], ...]  # of the whole mark first, as a match has them; (-1, -1) for what is not there
ABSENT = (-1, -1)


class Splitter:
    """The folded grammar of one table; how a mark is split is remembered."""

    def __init__(self, folded: Grammar) -> None:
        self.folded = folded
        caught = [number for number, part in enumerate(folded.parts) if is_caught(part)]
        self.groups = {number: group for group, number in enumerate(caught, 1)}
        self.known: dict[str, tuple[Spans, ...]] = {}

    def spans(self, text: str) -> tuple[Spans, ...]:
        """Each split, at most so many of them."""
        found = self.known.get(text)
        if found is None:
            if len(self.known) >= MOST_REMEMBERED:
                self.known.clear()
            whole = [(0, len(text)), *[ABSENT] * len(self.groups)]
            found = self.known[text] = tuple(islice(_Split(self, text).onward(START, 0, whole), MOST_SPLITS))
        return found


class _Split:
    """One mark."""

    def __init__(self, splitter: Splitter, text: str) -> None:
        self.text = text
        self.folded, self.groups = splitter.folded, splitter.groups
        self.dead: set[tuple[int, int]] = set()

    def onward(self, part: int, at: int, spans: list[tuple[int, int]]) -> Iterator[Spans]:
        """The splits that go on after a part that ends here."""
        ends = at == len(self.text) and part in self.folded.last
        if ends:
            yield tuple(spans)
        for after in self.folded.follow[part]:
            group = self.groups.get(after, 0)
            kept = spans[group]
            for end in self._ends(after, at):
                if group:
                    spans[group] = (at, end)
                for found in self.onward(after, end, spans):
                    ends = True
                    yield found
            spans[group] = kept
        if not ends:
            self.dead.add((part, at))

    def _ends(self, part: int, at: int) -> list[int]:
        """Where a part that begins here may end, and the mark go on."""
        graph, found = self.folded.parts[part].graph, []
        point = graph[0]
        for end, mark in enumerate(self.text[at:], at + 1):
            number = point.onward.get(mark)
            if number is None:
                break
            point = graph[number]
            if point.ends and (part, end) not in self.dead:
                found.append(end)
        return found
