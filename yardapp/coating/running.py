"""The live job as a fold over what was tapped: no clock in it, so the same acts always give the same run.

An act is a fact and is never refused; it is judged against the sheet, and what is wrong stands on that blade alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.coating.acts import Act, Job, standing_acts
from yardapp.coating.faults import Fault
from yardapp.coating.folding import Fold
from yardapp.coating.pots import PotRun
from yardapp.coating.unit_run import UnitRun
from yardapp.coating.weather import Reading

__all__ = ["Ignored", "Run", "run"]


@dataclass(frozen=True, kw_only=True)
class Ignored:
    """An act that changed nothing, and why: a second tap of the same thing, or a blade that was not there yet."""

    number: int
    why: str


@dataclass(frozen=True, kw_only=True)
class Run:
    """Where every blade, pot and reading stands after the newest act; `last_s`: when the last of them was done."""

    job: Job
    units: tuple[UnitRun, ...]
    pots: tuple[PotRun, ...]
    readings: tuple[Reading, ...]
    people: int
    ignored: tuple[Ignored, ...]
    last_number: int
    last_s: float | None

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Every fault that an act made, in the order in which they came about."""
        found = [fault for unit in self.units for fault in unit.faults]
        return tuple(sorted(found, key=lambda fault: fault.at_s))

    def unit(self, key: str) -> UnitRun:
        """The blade or piece of that key."""
        return next(unit for unit in self.units if unit.key == key)


def run(job: Job, acts: Sequence[Act]) -> Run:
    """Fold every act that stands, in the order in which they were done."""
    fold = Fold(job)
    ignored = []
    for act in standing_acts(acts):
        if why := fold.take(act):
            ignored.append(Ignored(number=act.number, why=why))
    return Run(
        job=job,
        units=tuple(fold.units.values()),
        pots=tuple(fold.pots),
        readings=tuple(fold.readings),
        people=fold.people,
        ignored=tuple(ignored),
        last_number=max((act.number for act in acts), default=0),
        last_s=max((act.at_s for act in acts), default=None),
    )
