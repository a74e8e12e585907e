"""A worn mark as a machine that reads one character at a time and knows, in bits, which elements it may be at."""

from collections.abc import Iterable

from yardapp.stamps.tables.confusions import LOOKS_LIKE, MOST_CONFUSED
from yardapp.stamps.tables.seen import ANY, RUN, SPACE, Seen

# For 0, 1 and 2 confusions assumed: the elements that may come next, one bit each.
State = tuple[int, ...]


class Pattern:
    """The mark's elements; `moves` are remembered, so that many tables share the work."""

    def __init__(self, seen: Seen) -> None:
        self.seen = seen
        self.size = len(seen.elements)
        self.runs = _bits(at for at, one in enumerate(seen.elements) if one == RUN)
        self._any = _bits(at for at, one in enumerate(seen.elements) if one == ANY)
        self._empty = self.runs | _bits(seen.maybe)
        self._exact: dict[str, int] = {}
        self._near: dict[str, int] = {}
        for at, element in enumerate(seen.elements):
            self._learn(at, element)
        self.start: State = (self._skipping(1), *(0,) * MOST_CONFUSED)
        self._moves: dict[tuple[State, str], tuple[tuple[State, str], ...]] = {}

    @property
    def fixed_count(self) -> int:
        """How many characters the mark has beside its unknown runs."""
        return self.size - self.runs.bit_count() - len(self.seen.maybe)

    @property
    def most(self) -> float:
        """How many characters it has at most."""
        return float("inf") if self.runs else self.size

    def _learn(self, at: int, element: str) -> None:
        if element in (ANY, RUN):
            return
        for mark in element:
            self._exact[mark] = self._exact.get(mark, 0) | 1 << at
        for mark in {alike for one in element for alike in LOOKS_LIKE.get(one, "")} - set(element):
            self._near[mark] = self._near.get(mark, 0) | 1 << at

    def _skipping(self, bits: int) -> int:
        """Elements that need not be there lead on by themselves; no two of them are neighbours."""
        return bits | (bits & self._empty) << 1

    def moves(self, state: State, marks: str) -> tuple[tuple[State, str], ...]:
        """Where each of the characters leads from here; those that lead nowhere are left out."""
        known = self._moves.get((state, marks))
        if known is None:
            found: dict[State, str] = {}
            for mark in marks:
                there = self._after(state, mark)
                if any(there):
                    found[there] = found.get(there, "") + mark
            known = self._moves[state, marks] = tuple(found.items())
        return known

    def _after(self, state: State, mark: str) -> State:
        exact = self._exact.get(mark, 0) | (0 if mark == SPACE else self._any)
        near = self._near.get(mark, 0)
        surer, before, there = 0, 0, []
        for bits in state:
            moved = self._skipping((bits & exact) << 1 | bits & self.runs | (before & near) << 1) & ~surer
            surer |= moved
            before = bits
            there.append(moved)
        return tuple(there)

    def confusions_at_end(self, state: State) -> int | None:
        """How many confusions the surest way to the mark's end assumes; None if its end is not reached."""
        return next((count for count, bits in enumerate(state) if bits >> self.size & 1), None)

    def between(self, before: State, after: State) -> str:
        """The elements between two states, ? where open; an unknown run where it is not clear which they are."""
        start, end = _only_bit(before), _only_bit(after)
        if start is None or end is None:
            return RUN
        return "".join(one if len(one) == 1 else ANY for one in self.seen.elements[start:end])


def joined(states: Iterable[State]) -> State:
    """One state that stands wherever any of them does."""
    surer, found = 0, []
    for level in zip(*states, strict=True):
        bits = 0
        for one in level:
            bits |= one
        found.append(bits & ~surer)
        surer |= bits
    return tuple(found)


def _bits(elements: Iterable[int]) -> int:
    return sum(1 << at for at in elements)


def _only_bit(state: State) -> int | None:
    bits = sum(state)
    return bits.bit_length() - 1 if bits.bit_count() == 1 else None
