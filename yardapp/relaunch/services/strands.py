"""What the relaunch tells on timelines: faults of things, drives and boats, and what was released when."""

from collections.abc import Callable
from typing import Any

from sqlalchemy import or_

from yardapp.relaunch.models import FaultAct, Launch, LaunchAct, YardFault
from yardapp.timelines import TOLD, Strand, strand


def _faults(column: Any) -> Callable[[Any], list[Strand]]:
    """Faults of what that column numbers, and what was decided of each."""

    def told(numbers: Any) -> list[Strand]:
        mine = column.in_(numbers)
        fault = [(YardFault, YardFault.id == FaultAct.fault_id)]
        found = "fault found: " + YardFault.what
        acted = "fault " + FaultAct.kind + ": " + YardFault.what
        return [
            strand("yard fault", "faults", YardFault, mine, kind=found, note=YardFault.evidence),
            strand("yard fault act", "faults", FaultAct, mine, joined=fault, kind=acted, note=FaultAct.note),
        ]

    return told


def _launches(vessel_ids: Any) -> list[Strand]:
    """Launches that were planned, and every release."""
    hers, joined = Launch.vessel_id.in_(vessel_ids), [(Launch, Launch.id == LaunchAct.launch_id)]
    said = or_(LaunchAct.release != "", LaunchAct.planned.is_not(None))
    kind = LaunchAct.kind + " " + LaunchAct.release
    return [
        strand("launch", "launch", LaunchAct, hers, said, joined=joined, kind=kind, note=LaunchAct.note),
    ]


TOLD["item", "relaunch faults"] = _faults(YardFault.item_id)
TOLD["drive", "relaunch faults"] = _faults(YardFault.drive_id)
TOLD["vessel", "relaunch faults"] = _faults(YardFault.vessel_id)
TOLD["vessel", "launches"] = _launches
