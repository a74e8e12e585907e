"""A worn mark against one table: pattern and grammar walked together, place by place, without a step back.

Each node is a part and a state of the pattern; how many readings begin there is counted, not listed, so that a mark
of nothing but wildcards costs no more than any other. Work is bounded: `Budget` counts it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from yardapp.stamps.tables.automaton import Automaton
from yardapp.stamps.tables.compile import CompiledTable
from yardapp.stamps.tables.grammar import START
from yardapp.stamps.tables.pattern import Pattern, State
from yardapp.stamps.tables.rank import CONFUSION, FILLED, Agreement, Judge
from yardapp.stamps.tables.told import Option

MOST_TEXTS = 200  # more texts than this at one place are counted, not read
MOST_YEARS = 10  # of a year, more than one figure unread makes no more readings
MOST_STEPS_A_TABLE = 3_000
MOST_STEPS = 6_000  # some 3 to 6 microseconds each


class Enough(Exception):
    """The work that one mark may cost is done."""


@dataclass
class Budget:
    """How many steps are left, for this table and for all."""

    left: int = MOST_STEPS
    left_here: int = MOST_STEPS_A_TABLE

    def next_table(self) -> None:
        """Each table may take its own share of what is left."""
        self.left_here = min(MOST_STEPS_A_TABLE, self.left)

    def spend(self, steps: int = 1) -> None:
        """Take steps off, or raise Enough."""
        self.left_here -= steps
        self.left -= steps
        if self.left_here < 0:
            raise Enough


@dataclass(slots=True)
class Node:
    """All ways on from here: how many readings, how many of them the tape allows, and what the best is worth."""

    edges: "list[Edge]" = field(default_factory=list)
    count: int = 0
    allowed_count: int = 0
    best: float = float("-inf")


@dataclass(slots=True)
class Edge:
    """One text at one part; `to` is None at the mark's end. `worth` is what the best reading through it gains."""

    gain: float
    text: str
    option: Option
    agreement: Agreement
    count: int
    length: int
    to: Node | None
    confusion_count: int = 0
    worth: float = 0.0

    def __post_init__(self) -> None:
        self.worth = self.gain + (self.to.best if self.to else 0.0)


class _Step(NamedTuple):
    """A text that the pattern allows at a part, and the state after it."""

    text: str
    option: Option
    many: int
    length: int
    state: State


class Walk:
    """One pattern through one table."""

    def __init__(self, pattern: Pattern, compiled: CompiledTable, judge: Judge, budget: Budget) -> None:
        self.pattern, self.compiled, self.judge, self.budget = pattern, compiled, judge, budget
        self._nodes: dict[tuple[int, State], Node] = {}

    def root(self) -> Node:
        """The node of the whole mark.

        Raises
        ------
        Enough
            It would cost more steps than the budget has.
        """
        return self._node(START, self.pattern.start)

    def _node(self, part: int, state: State) -> Node:
        known = self._nodes.get((part, state))
        if known is None:
            known = self._nodes[part, state] = self._new(part, state)
        return known

    def _new(self, part: int, state: State) -> Node:
        node = Node()
        confusion_count = self.pattern.confusions_at_end(state)
        if part in self.compiled.grammar.last and confusion_count is not None:
            end = Edge(CONFUSION * confusion_count, "", (), Agreement(), 1, 0, None, confusion_count)
            node.edges.append(end)
        for (body, entered), separator in self._entrances(part, state).items():
            for step in self._steps(body, entered):
                self.budget.spend()
                to = self._node(body, step.state)
                if to.count:
                    node.edges.append(self._edge(separator, step, to))
        node.edges.sort(key=lambda edge: (-edge.worth, edge.text))
        return _summed(node)

    def _entrances(self, part: int, state: State) -> dict[tuple[int, State], str]:
        """The places that may come next, each with a state in which it may begin; a separator adds no readings."""
        found: dict[tuple[int, State], str] = {}
        for after in self.compiled.grammar.follow[part]:
            here = self.compiled.grammar.parts[after]
            if not here.is_separator:
                found[after, state] = ""
                continue
            body = self.compiled.grammar.follow[after][0]
            for entered, (_, text) in self._sweep(here.graph, state).items():
                found.setdefault((body, entered), text)
        return found

    def _edge(self, separator: str, step: _Step, to: Node) -> Edge:
        agreement = self.judge.of(step.option)
        gain = agreement.gain + sum(told.log_certainty for told in step.option)
        length = len(separator) + step.length
        if self.pattern.runs:
            gain += FILLED * length
        return Edge(gain, separator + step.text, step.option, agreement, step.many, length, to)

    def _steps(self, part: int, state: State) -> Iterator[_Step]:
        here = self.compiled.grammar.parts[part]
        teller = self.compiled.tellers[here.place]
        swept = self._sweep(here.graph, state)
        if teller.is_kept:
            for after, (count, example) in swept.items():
                text = example if count == 1 else self.pattern.between(state, after)
                yield _Step(text, (teller.kept(text),), 1, len(example), after)
        elif sum(count for count, _ in swept.values()) > (MOST_YEARS if teller.is_beside else MOST_TEXTS):
            for after, (count, example) in swept.items():
                text = self.pattern.between(state, after)
                yield _Step(text, (teller.unread(text),), 1 if teller.is_beside else count, len(example), after)
        else:
            yield from self._read(part, state)

    def _read(self, part: int, state: State) -> Iterator[_Step]:
        """Each text by itself; codes that are in no list make one reading together."""
        here = self.compiled.grammar.parts[part]
        teller = self.compiled.tellers[here.place]
        unknown: dict[State, list[str]] = {}
        for text, after in self._texts(here.graph, state):
            for option in teller.options(text):
                if option[0].is_unknown:
                    unknown.setdefault(after, []).append(text)
                else:
                    yield _Step(text, option, 1, len(text), after)
        for after, texts in unknown.items():
            text = texts[0] if len(texts) == 1 else self.pattern.between(state, after)
            yield _Step(text, (teller.unknown(text),), 1, len(texts[0]), after)

    def _sweep(self, graph: Automaton, state: State) -> dict[State, tuple[int, str]]:
        """State after the part to how many texts lead there, and the first of the shortest."""
        ends: dict[State, tuple[int, str]] = {}
        here = {(0, state): (1, "")}
        while here:
            onward: dict[tuple[int, State], tuple[int, str]] = {}
            for (number, before), (count, example) in here.items():
                for marks, there in graph[number].edges:
                    self.budget.spend()
                    for after, some in self.pattern.moves(before, marks):
                        known = onward.get((there, after), (0, example + some[0]))
                        onward[there, after] = (known[0] + count * len(some), known[1])
            for (number, after), (count, example) in onward.items():
                if graph[number].ends:
                    known = ends.get(after, (0, example))
                    ends[after] = (known[0] + count, known[1])
            here = onward
        return ends

    def _texts(self, graph: Automaton, state: State) -> Iterator[tuple[str, State]]:
        waiting = [(0, state, "")]
        while waiting:
            number, before, text = waiting.pop()
            if graph[number].ends and text:
                yield text, before
            for marks, there in graph[number].edges:
                self.budget.spend()
                for after, some in self.pattern.moves(before, marks):
                    waiting.extend((there, after, text + mark) for mark in some)


def _summed(node: Node) -> Node:
    for edge in node.edges:
        count, allowed = (edge.to.count, edge.to.allowed_count) if edge.to else (1, 1)
        node.count += edge.count * count
        node.allowed_count += 0 if edge.agreement.ruled_out else edge.count * allowed
    if node.edges:
        node.best = node.edges[0].worth
    return node
