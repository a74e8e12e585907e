"""What a bench reads with, and how well each reads, before a yard has said otherwise."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import radians
from typing import Literal

K = 2  # what people type and read as ± is two standard uncertainties
ToolKind = Literal["length", "angle"]
USUAL = "common practice, no source"


@dataclass(frozen=True)
class Tool:
    """One tool: its name, and its ± (k = 2) in metres or radians.

    `is_common`: its error is one and the same at every reading, as of a template; else each reading has its own.
    `version` 0 is a tool of which the yard has said nothing yet.
    """

    name: str
    plus_minus: float
    kind: ToolKind = "length"
    is_common: bool = False
    source: str = USUAL
    is_used: bool = True
    version: int = 0

    @property
    def u(self) -> float:
        """Its standard uncertainty, k = 1."""
        return self.plus_minus / K


TOOLS = {
    tool.name: tool
    for tool in (
        Tool("tape", 0.001),
        Tool("steel rule", 0.0005),
        Tool("string", 0.002),
        Tool("caliper", 0.00005),
        Tool("micrometer", 0.00001),
        Tool("dial gauge", 0.00002),
        Tool("feeler gauge", 0.00005),
        Tool("height gauge", 0.0001),
        Tool("depth gauge", 0.0001),
        Tool("chord gauge", 0.0005, is_common=True),
        Tool("pitch template", 0.003, is_common=True),
        Tool("degree ring", radians(0.5), "angle"),
        Tool("swing template", radians(0.5), "angle", is_common=True),
        Tool("protractor", radians(1.0), "angle"),
        Tool("inclinometer", radians(0.2), "angle"),
    )
}


def offered(tools: Mapping[str, Tool], kind: ToolKind, usual: Iterable[str]) -> list[str]:
    """The names to choose from for readings of this kind: what is in use, the usual ones first."""
    first = [name for name in usual if name in tools]
    rest = sorted(set(tools) - set(first))
    return [name for name in (*first, *rest) if tools[name].kind == kind and tools[name].is_used]
