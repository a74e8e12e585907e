"""The best readings first, without listing all: one queue over every table's walk."""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from yardapp.stamps.tables.compile import CompiledTable
from yardapp.stamps.tables.pattern import Pattern
from yardapp.stamps.tables.walk import Edge, Node

Task = tuple[Pattern, CompiledTable]


@dataclass(frozen=True)
class Way:
    """A whole reading as the edges that make it up, and the walk's pattern and table."""

    task: Task
    edges: tuple[Edge, ...]


def best_ways(roots: list[tuple[Task, float, Node]], at_most: int) -> Iterator[Way]:
    """Ways in the order of what they are worth; each table's walk begins with what the table itself is worth."""
    number = count()
    queue: list[tuple[float, int, float, Task, Node, int, tuple[Edge, ...]]] = [
        (-(base + node.edges[0].worth), next(number), base, task, node, 0, ())
        for task, base, node in roots
        if node.edges
    ]
    heapq.heapify(queue)
    found = 0
    while queue and found < at_most:
        _, _, gained, task, node, at, before = heapq.heappop(queue)
        edge = node.edges[at]
        if at + 1 < len(node.edges):
            beside = gained + node.edges[at + 1].worth
            heapq.heappush(queue, (-beside, next(number), gained, task, node, at + 1, before))
        edges = (*before, edge)
        if edge.to is None:
            found += 1
            yield Way(task, edges)
        else:
            onward = gained + edge.gain
            heapq.heappush(queue, (-(onward + edge.to.best), next(number), onward, task, edge.to, 0, edges))
