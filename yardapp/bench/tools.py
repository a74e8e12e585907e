"""What a bench reads with, and how well each reads. ± as people see it (k = 2): common practice, no source."""

from dataclasses import dataclass
from math import radians
from typing import Literal

K = 2  # what people type and read as ± is two standard uncertainties


@dataclass(frozen=True)
class Tool:
    """One tool: its name, and its ± in metres or radians."""

    name: str
    plus_minus: float
    kind: Literal["length", "angle"] = "length"

    @property
    def u(self) -> float:
        """Its standard uncertainty, k = 1."""
        return self.plus_minus / K


TOOLS = {
    tool.name: tool
    for tool in (
        Tool("tape", 0.001),
        Tool("steel rule", 0.0005),
        Tool("caliper", 0.00005),
        Tool("height gauge", 0.0001),
        Tool("depth gauge", 0.0001),
        Tool("degree ring", radians(0.5), "angle"),
        Tool("swing template", radians(0.5), "angle"),
        Tool("protractor", radians(1.0), "angle"),
        Tool("inclinometer", radians(0.2), "angle"),
    )
}
