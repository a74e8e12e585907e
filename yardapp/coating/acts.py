"""What is tapped beside the boat: one act is one tap, with its own true time."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.coating.hours import Hours
from yardapp.coating.pieces import Unit
from yardapp.coating.system import System
from yardapp.coating.weather import Reading, what_cannot_be

STARTED, DONE = "started", "done"
TACKY, WET, TOO_DRY = "tacky", "wet", "too dry"
FINGER = (TACKY, WET, TOO_DRY)
WEATHER, STIRRING, MIXED, LEFT_OVER = "weather", "stirring", "mixed", "left over"
REMEDIED, PEOPLE, UNDO = "remedied", "people", "undo"
ACTS = (STARTED, DONE, *FINGER, WEATHER, STIRRING, MIXED, LEFT_OVER, REMEDIED, PEOPLE, UNDO)
OF_STEP = (STARTED, DONE, *FINGER)


@dataclass(frozen=True, kw_only=True)
class Act:
    """One tap. `unit` "" is every blade and piece; `undoes` names the act whose place this one takes.

    `number` rises in the order in which the server heard of them; `at_s` is when it was done.
    """

    number: int
    kind: str
    at_s: float
    who: str = ""
    unit: str = ""
    step: int | None = None
    product: str = ""
    batch: str = ""
    volume_m3: float | None = None
    reading: Reading | None = None
    people: int | None = None
    undoes: int | None = None
    said: str = ""
    offline: bool = False


@dataclass(frozen=True, kw_only=True)
class Job:
    """What is coated, on which version of which system, by how many, in which hours, and when it goes in the water."""

    system: System
    units: tuple[Unit, ...]
    people: int = 1
    launch_s: float | None = None
    hours: Hours | None = None


def standing_acts(acts: Sequence[Act]) -> tuple[Act, ...]:
    """The acts that stand, in the order in which they were done; an undone undo is none."""
    gone: set[int] = set()
    for act in sorted(acts, key=lambda one: one.number, reverse=True):
        if act.number not in gone and act.undoes is not None:
            gone.add(act.undoes)
    return tuple(sorted((act for act in acts if act.number not in gone), key=lambda one: (one.at_s, one.number)))


def what_is_wrong(act: Act, job: Job) -> str:
    """Why an act names nothing of this job, or ""; what it says of the coating is judged by `running`."""
    if act.kind not in ACTS:
        return f"{act.kind!r} is no act."
    if act.unit and act.unit not in {unit.key for unit in job.units}:
        return "No blade or piece of this job is called that."
    if act.kind in OF_STEP or act.step is not None:
        if act.step not in job.system.chain:
            return "That step is not done on a blade."
        if act.kind in FINGER and job.system.test_after(act.step) is None:
            return f"No touch test follows {job.system.steps[act.step].name}."
    if act.kind in (STIRRING, MIXED, LEFT_OVER) and job.system.product(act.product) is None:
        return "That product is not in this job's system."
    if act.kind == WEATHER:
        return what_cannot_be(act.reading) if act.reading else "A reading of the weather holds at least one figure."
    if act.kind == PEOPLE and not (act.people and act.people >= 1):
        return "At least one person coats."
    return "Which act is undone?" if act.kind == UNDO and act.undoes is None else ""
