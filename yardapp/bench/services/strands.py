"""What the bench tells on a thing's timeline: faults marked and closed."""

from typing import Any

from yardapp.bench.models import Fault, FaultClosing
from yardapp.timelines import TOLD, Strand, strand


def of_items(item_ids: Any) -> list[Strand]:
    """Faults of propellers, and how each was closed."""
    mine = Fault.item_id.in_(item_ids)
    fault = [(Fault, Fault.id == FaultClosing.fault_id)]
    return [
        strand(
            "fault", "faults", Fault, mine, kind="fault found: " + Fault.kind, note=Fault.note, basis=Fault.severity
        ),
        strand(
            "fault closed",
            "faults",
            FaultClosing,
            mine,
            joined=fault,
            kind="fault closed: " + Fault.kind,
            note=FaultClosing.how,
        ),
    ]


TOLD["item", "bench"] = of_items
