"""What the relaunch tells on timelines: faults of things, drives and boats, and what was released when."""

from collections.abc import Callable
from typing import Any

from sqlalchemy import case, or_

from yardapp.relaunch.lines import FOLLOW_UP
from yardapp.relaunch.models import FaultAct, Launch, LaunchAct, YardFault
from yardapp.relaunch.shipped import LISTS
from yardapp.timelines import TOLD, Strand, strand

# The follow-ups that came with the app, by key; a yard's own stand on its sheet alone.
FOLLOW_UPS = {line.key: line.words for lines in LISTS.values() for line in lines if line.part == FOLLOW_UP}


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
    """Launches that were planned, put off or called off, each release, and what was answered of follow-ups."""
    hers, joined = Launch.vessel_id.in_(vessel_ids), [(Launch, Launch.id == LaunchAct.launch_id)]
    line = case(FOLLOW_UPS, value=LaunchAct.line, else_="")
    kind = case(
        (line != "", "follow-up " + LaunchAct.kind + ": " + line),
        (LaunchAct.release != "", LaunchAct.kind + " " + LaunchAct.release),
        (LaunchAct.kind == "taken back", "release taken back"),
        (LaunchAct.kind == "called off", "launch called off"),
        else_="launch planned",
    )
    told = or_(LaunchAct.line.in_(tuple(FOLLOW_UPS)), LaunchAct.line == "")
    return [
        strand("launch", "launch", LaunchAct, hers, told, joined=joined, kind=kind, note=LaunchAct.note),
    ]


TOLD["item", "relaunch faults"] = _faults(YardFault.item_id)
TOLD["drive", "relaunch faults"] = _faults(YardFault.drive_id)
TOLD["vessel", "relaunch faults"] = _faults(YardFault.vessel_id)
TOLD["vessel", "launches"] = _launches
