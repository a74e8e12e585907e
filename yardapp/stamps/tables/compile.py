"""A sound table made ready: one precompiled regular expression, and what each place's texts mean, remembered."""

import math
import re
from collections.abc import Iterable

from yardapp.stamps.tables.ambiguity import BEGIN, TooTangled, onward, two_ways
from yardapp.stamps.tables.check import check
from yardapp.stamps.tables.confusions import LOOKS_LIKE, MOST_CONFUSED
from yardapp.stamps.tables.expression import expression, is_caught, is_expressible
from yardapp.stamps.tables.grammar import Grammar, Part, grammar
from yardapp.stamps.tables.refusals import TableRefused
from yardapp.stamps.tables.sources import ALWAYS
from yardapp.stamps.tables.splits import Spans, Splitter
from yardapp.stamps.tables.table import Table
from yardapp.stamps.tables.told import LEAST_CERTAINTY, MOST_REMEMBERED, Option, Teller

# How many confusions it assumes, the text it was read as, what that tells (nothing for a separator), how surely.
Choice = tuple[int, str, Option, float]


class CompiledTable:
    """A table ready to read with; made by `compile_table`. `key` is whatever its keeper calls it by."""

    def __init__(self, table: Table, key: object = None, like: "CompiledTable | None" = None) -> None:
        self.table, self.key = table, key
        self.grammar = grammar(table.places)
        self.tellers = [Teller(place, at) for at, place in enumerate(table.places)]
        self.log_certainty = math.log(max(table.certainty, LEAST_CERTAINTY))
        self.has_ranges = table.holds != ALWAYS or any(_has_ranges(teller) for teller in self.tellers)
        folded = self.grammar.folded()
        self.beginnings = _beginnings(folded)
        is_clear = is_expressible(folded) and _is_clear(folded)
        self.regex = re.compile(expression(folded, table.places)) if is_clear else None
        self.splitter: Splitter = like.splitter if like and like.splitter.folded == folded else Splitter(folded)
        self.choosers = [Chooser(part, self.tellers[part.place]) for part in self.grammar.parts if is_caught(part)]

    def may_read(self, length: int, beginning: str) -> bool:
        """Whether a folded mark of this length and with these two first characters may be its."""
        return self.grammar.shortest <= length <= self.grammar.longest and beginning in self.beginnings

    def splits(self, folded: str) -> Iterable[Spans]:
        """The spans of a folded mark's places; more than one only where confusions allow it."""
        if self.regex is None:
            return self.splitter.spans(folded)
        match = self.regex.fullmatch(folded)
        return (match.regs,) if match else ()


def compile_table(
    table: Table, key: object = None, *, is_checked: bool = False, like: CompiledTable | None = None
) -> CompiledTable:
    """The table ready to read with; `is_checked` spares a second look at one that `check` found sound.

    `like` is another version of it: how marks are split is found out once for both, where both are built alike.

    Raises
    ------
    TableRefused
        It contradicts itself; `problems` says where and why.
    """
    problems = () if is_checked else check(table)
    if problems:
        raise TableRefused(problems)
    return CompiledTable(table, key, like)


class Chooser:
    """What the text at one part may have been, with common confusions, and what that tells; remembered by text."""

    def __init__(self, part: Part, teller: Teller) -> None:
        self.part, self.teller = part, teller
        self.known: dict[str, tuple[Choice, ...]] = {}

    def choices(self, text: str) -> tuple[Choice, ...]:
        """Fewest confusions first."""
        found = self.known.get(text)
        if found is None:
            if len(self.known) >= MOST_REMEMBERED:
                self.known.clear()
            found = self.known[text] = tuple(self._choices(text))
        return found

    def _choices(self, text: str) -> Iterable[Choice]:
        read = sorted(self._read_as(text))
        if self.part.is_separator:
            return [(count, other, (), 0.0) for count, other in read[:1]]
        if self.teller.is_kept:
            return [_choice(count, other, (self.teller.kept(other),)) for count, other in read[:1]]
        return [_choice(count, other, option) for count, other in read for option in self.teller.options(other)]

    def _read_as(self, text: str) -> Iterable[tuple[int, str]]:
        """Every text of this part that may look like the one seen."""
        graph = self.part.graph
        here = [(0, "", 0)]
        for mark in text:
            here = [
                (count + (other != mark), read + other, graph[number].onward[other])
                for count, read, number in here
                for other in mark + LOOKS_LIKE.get(mark, "")
                if other in graph[number].onward and count + (other != mark) <= MOST_CONFUSED
            ]
        return [(count, read) for count, read, number in here if graph[number].ends]


def _choice(count: int, text: str, option: Option) -> Choice:
    return count, text, option, sum(told.log_certainty for told in option)


def _has_ranges(teller: Teller) -> bool:
    listed = [entry.holds for entries in teller.entries.values() for entry in entries]
    return any(one != ALWAYS for one in (teller.place.holds, *(one.holds for one in teller.place.specials), *listed))


def _is_clear(folded: Grammar) -> bool:
    """Whether a mark can be split in one way only even if characters are confused."""
    try:
        return two_ways(folded) is None
    except TooTangled:
        return False


def _beginnings(folded: Grammar) -> frozenset[str]:
    found = set()
    for first, standing in onward(folded, BEGIN):
        if folded.shortest <= 1:
            found.add(first)
        found |= {first + second for second, _ in onward(folded, standing)}
    return frozenset(found)
