"""What was typed and how it was understood, figure by figure."""

from collections.abc import Mapping
from typing import Any

from yardapp.bench.words import LABELS, SAID, WORDS, figure, in_order, is_named, label_of
from yardapp.quantities import System

__all__ = ["LABELS", "as_typed", "figure", "in_order", "is_named", "label_of"]


def as_typed(readings: Mapping[str, Any], system: System) -> list[tuple[str, str, str]]:
    """Each reading: its label and tool, as typed, and as understood with its ±."""
    rows = [
        (
            f"{label_of(name)}, {readings[f'{name}_tool']}" if readings.get(f"{name}_tool") else label_of(name),
            str(readings.get(f"{name}_typed") or "not typed"),
            figure(name, readings[name], system, readings.get(f"u_{name}")),
        )
        for name in in_order(readings)
        if name != "blades"
    ]
    if readings.get("outline"):
        typed = "; ".join(str(readings.get("outline_typed") or "not typed").split("\n"))
        rows.append(("Points of the outline", typed, f"{len(readings['outline'])} points"))
    words = [(name, readings[name]) for name in WORDS if readings.get(name)]
    return [*rows, *((WORDS[name], "", SAID.get(name, {}).get(str(said), str(said))) for name, said in words)]
