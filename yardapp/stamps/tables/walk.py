"""A worn mark against one table: pattern and grammar walked together, place by place, without a step back.

Each node is a part and a state of the pattern; how many readings begin there is counted, not listed, so that a mark
of nothing but wildcards costs no more than any other. Work is bounded: `Budget` counts it.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from yardapp.stamps.tables.automaton import Automaton
from yardapp.stamps.tables.compile import CompiledTable
from yardapp.stamps.tables.grammar import START
from yardapp.stamps.tables.pattern import Pattern, State, joined
from yardapp.stamps.tables.rank import CONFUSION, FILLED, Agreement, Judge
from yardapp.stamps.tables.told import Option, Teller, Told

MOST_TEXTS = 200  # more texts than this at one place are counted, not read
MOST_YEARS = 10  # of a year, more than one figure unread makes no more readings
MOST_STEPS_A_TABLE = 4_000
MOST_STEPS = 6_000  # some 3 to 6 microseconds each


Swept = dict[State, tuple[int, str]]  # state to how many texts lead there, and the first of the shortest


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
    """One text at one place; `to` is None at the mark's end. `worth` is what the best reading through it gains."""

    gain: float
    text: str
    option: Option
    agreement: Agreement
    count: int
    example: str
    to: Node | None
    confusion_count: int = 0
    worth: float = 0.0

    def __post_init__(self) -> None:
        self.worth = self.gain + (self.to.best if self.to else 0.0)


class _Step(NamedTuple):
    """A text that the pattern allows at a place, one example where it stands for many, and the state after it."""

    text: str
    option: Option
    many: int
    example: str
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
            end = Edge(CONFUSION * confusion_count, "", (), Agreement(), 1, "", None, confusion_count)
            node.edges.append(end)
        for (body, entered), separator in self._entrances(part, state).items():
            for step in self._steps(body, entered):
                self.budget.spend()
                node.edges.append(self._edge(separator, step, self._node(body, step.state)))
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
        example = separator + step.example
        if self.pattern.runs:
            gain += FILLED * len(example)
        return Edge(gain, separator + step.text, step.option, agreement, step.many, example, to)

    def _steps(self, part: int, state: State) -> Iterator[_Step]:
        """The texts at a place after which the mark can be brought to its end."""
        here = self.compiled.grammar.parts[part]
        teller = self.compiled.tellers[here.place]
        swept = self._sweep(here.graph, state)
        swept = {after: found for after, found in swept.items() if self._node(part, after).count}
        many = sum(count for count, _ in swept.values())
        if teller.is_kept:
            yield from self._as_one(teller.kept, state, swept)
        elif many <= (MOST_YEARS if teller.is_beside else MOST_TEXTS):
            yield from self._read(teller, state, swept, self._texts(here.graph, state))
        elif teller.lists_some:
            yield from self._read(teller, state, swept, self._codes(teller, state), left_over=True)
        elif teller.is_beside:
            yield from self._as_one(teller.unread, state, swept)
        else:
            for after, (count, example) in swept.items():
                text = self.pattern.between(state, after)
                yield _Step(text, (teller.unread(text),), count, example, after)

    def _as_one(self, say: Callable[[str], Told], state: State, swept: Swept) -> Iterator[_Step]:
        """All texts as one reading: which of them it is makes no difference to what the mark tells."""
        if swept:
            after = joined(swept)
            many = sum(count for count, _ in swept.values())
            example = min((example for _, example in swept.values()), key=len)
            text = example if many == 1 else self.pattern.between(state, after)
            yield _Step(text, (say(text),), 1, example, after)

    def _read(
        self, teller: Teller, state: State, swept: Swept, texts: Iterable[tuple[str, State]], left_over: bool = False
    ) -> Iterator[_Step]:
        """Each text by itself; codes that are in no list make one reading together."""
        unknown = dict(swept) if left_over else {}
        for text, after in texts:
            if after in swept:
                for option in teller.options(text):
                    if option[0].is_unknown:
                        unknown[after] = (unknown[after][0] + 1 if after in unknown else 1, text)
                    else:
                        yield _Step(text, option, 1, text, after)
        yield from self._as_one(teller.unknown, state, unknown)

    def _codes(self, teller: Teller, state: State) -> Iterator[tuple[str, State]]:
        """Each code of a list that the pattern allows here."""
        for code in teller.codes:
            here = {state}
            for mark in code:
                self.budget.spend()
                here = {after for one in here for after, _ in self.pattern.moves(one, mark)}
            yield from ((code, after) for after in here)

    def _sweep(self, graph: Automaton, state: State) -> Swept:
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
