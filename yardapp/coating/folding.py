"""How each act changes the run: blades by starts, ends and the finger; pots by stirring; all of it by readings."""

from collections.abc import Callable
from dataclasses import replace

from yardapp.coating.acts import (
    DONE,
    FINGER,
    LEFT_OVER,
    MIXED,
    PEOPLE,
    REMEDIED,
    STARTED,
    STIRRING,
    TOO_DRY,
    UNDO,
    WEATHER,
    Act,
    Job,
    what_is_wrong,
)
from yardapp.coating.faults import Fault
from yardapp.coating.judging import (
    Beside,
    fault_of_dry,
    fault_of_missed,
    faults_at_end,
    faults_at_start,
)
from yardapp.coating.pots import PotRun, begun, mixed, pot_of, warmed
from yardapp.coating.system import Product
from yardapp.coating.unit_run import Done, UnitRun
from yardapp.coating.weather import TOO_OLD_S, Reading
from yardapp.coating.windows import Finger, Strict


class Fold:
    """The run while acts go in, one by one. `take` says why an act changed nothing, or ""."""

    def __init__(self, job: Job) -> None:
        self.job, self.system = job, job.system
        self.people = job.people
        self.readings: list[Reading] = []
        self.pots: list[PotRun] = []
        first = self.system.chain[0]
        self.units = {
            unit.key: UnitRun(key=unit.key, label=unit.label, work_s=unit.work_s, next=first) for unit in job.units
        }
        self._of_kind: dict[str, Callable[[Act], str]] = {
            WEATHER: self._weather,
            STIRRING: self._stirring,
            MIXED: self._mixed,
            LEFT_OVER: self._left_over,
            PEOPLE: self._people,
            UNDO: lambda act: "",
        }
        one_by_one = {STARTED: self._started, DONE: self._done, REMEDIED: self._remedied}
        self._of_unit = one_by_one | dict.fromkeys(FINGER, self._finger)

    def take(self, act: Act) -> str:
        """Let one act in."""
        if wrong := what_is_wrong(act, self.job):
            return wrong
        if act.kind in self._of_kind:
            return self._of_kind[act.kind](act)
        keys = [act.unit] if act.unit else list(self.units)
        told = [self._of_unit[act.kind](self.units[key], act) for key in keys]
        return "" if "" in told else told[0]

    # One blade.

    def _started(self, unit: UnitRun, act: Act) -> str:
        step = act.step or 0
        if why := self._not_yet(unit, step):
            return why
        if unit.started_s is not None:
            return f"{self._name(step)} is already begun on {unit.label}."
        there = self._moved_to(unit, step)
        faults = faults_at_start(self._beside(), there, step, act.at_s, act.number)
        self.units[unit.key] = replace(there, started_s=act.at_s).with_faults(*faults)
        return ""

    def _done(self, unit: UnitRun, act: Act) -> str:
        step = act.step or 0
        if why := self._not_yet(unit, step):
            return why
        there = self._moved_to(unit, step)
        beside, started_s = self._beside(), there.started_s
        faults: tuple[Fault, ...] = ()
        if started_s is None:
            started_s = self._reckoned_start_s(there, step, act.at_s)
            faults = faults_at_start(beside, there, step, started_s, act.number)
        there = there.with_faults(*faults)
        there = there.with_faults(*faults_at_end(beside, there, step, act.at_s, act.number))
        done = self._done_of(there, act, step, started_s)
        self.units[unit.key] = replace(
            there,
            next=self.system.step_after(step),
            started_s=None,
            done=(*there.done, done),
            finger=None,
            strict=self._strict_over(step, started_s),
            is_free=False,
        )
        return ""

    def _finger(self, unit: UnitRun, act: Act) -> str:
        last = unit.last
        if last is None or last.step != act.step or unit.started_s is not None or unit.is_free:
            return f"There is nothing to touch on {unit.label}: {self._name(act.step or 0)} is not its last coat."
        if unit.finger is not None and unit.finger.kind == TOO_DRY:
            return f"{unit.label} was already found too dry."
        if act.kind == TOO_DRY and (fault := fault_of_dry(self.system, unit, act.at_s, act.number)):
            unit = unit.with_faults(fault)
        self.units[unit.key] = replace(unit, finger=Finger(kind=act.kind, at_s=act.at_s))
        return ""

    def _remedied(self, unit: UnitRun, act: Act) -> str:
        missed = fault_of_missed(self.system, unit, act.at_s)
        if not (unit.open_faults or missed):
            return f"Nothing was wrong with {unit.label}."
        step = unit.next if act.step is None else act.step
        faults = (*unit.faults, *([missed] if missed else []))
        back = step is not None and act.step is not None
        self.units[unit.key] = replace(
            unit,
            next=step,
            started_s=None if back else unit.started_s,
            done=tuple(one for one in unit.done if not back or one.step < (step or 0)),
            undone=(*unit.undone, *(one for one in unit.done if back and one.step >= (step or 0))),
            finger=None if back or missed else unit.finger,
            is_free=back or unit.is_free or missed is not None or self._window_is_past(unit),
            faults=tuple(fault.mended() for fault in faults),
        )
        return ""

    def _window_is_past(self, unit: UnitRun) -> bool:
        """Whether what was mended concerns the coat to come, not one that is on already."""
        return any(fault.step == unit.next for fault in unit.open_faults) and unit.started_s is None

    def _not_yet(self, unit: UnitRun, step: int) -> str:
        if unit.next is None or step < unit.next:
            return f"{self._name(step)} is already done on {unit.label}."
        between = [one for one in self.system.chain if unit.next <= one < step]
        if unit.started_s is not None and between:
            return f"{self._name(unit.next)} is begun on {unit.label}, and not done yet."
        left_out = [one for one in between if self.system.steps[one].is_coat]
        return f"{self._name(left_out[0])} is not noted as done on {unit.label}." if left_out else ""

    def _moved_to(self, unit: UnitRun, step: int) -> UnitRun:
        """The unit at a step; what was not noted on the way there is kept as skipped."""
        skipped = tuple(one for one in self.system.chain if unit.next is not None and unit.next <= one < step)
        return replace(unit, next=step, skipped=(*unit.skipped, *skipped))

    def _reckoned_start_s(self, unit: UnitRun, step: int, done_s: float) -> float:
        """Back from the end by the time that one coat takes; not before the step before it was done."""
        start_s = done_s - unit.work_s * self.system.steps[step].work_ratio
        return max(start_s, unit.last.done_s) if unit.last else start_s

    def _done_of(self, unit: UnitRun, act: Act, step: int, started_s: float) -> Done:
        product = self.system.steps[step].product
        pot = pot_of(self.pots, product) if product else None
        reading = self._reading_at(started_s)
        return Done(
            step=step,
            name=self._name(step),
            started_s=started_s,
            done_s=act.at_s,
            is_start_noted=unit.started_s is not None,
            who=act.who,
            batch=act.batch or (pot.batch if pot else ""),
            metal_c=reading.metal_c if reading else None,
        )

    def _name(self, step: int) -> str:
        return self.system.steps[step].name

    # Beside the blades.

    def _weather(self, act: Act) -> str:
        assert act.reading is not None
        reading = replace(act.reading, at_s=act.at_s, who=act.reading.who or act.who)
        self.readings.append(reading)
        if reading.metal_c is not None:
            for unit in self.units.values():
                if unit.last is not None and unit.next is not None:
                    strict = unit.strict.seen(self.system.steps[unit.last.step], reading.metal_c)
                    self.units[unit.key] = replace(unit, strict=strict)
        for number, pot in enumerate(self.pots):
            self.pots[number] = self._warmed(pot, reading)
        return ""

    def _stirring(self, act: Act) -> str:
        standing = pot_of(self.pots, act.product)
        if standing is not None and standing.mixed_s is None:
            return f"{act.product} is already being stirred."
        self.pots.append(begun(self._product(act), act.at_s))
        return ""

    def _mixed(self, act: Act) -> str:
        product, standing = self._product(act), pot_of(self.pots, act.product)
        if standing is None or standing.mixed_s is not None:
            standing = PotRun(product=act.product)
            self.pots.append(standing)
        place = next(number for number, pot in enumerate(self.pots) if pot is standing)
        made = mixed(standing, product, act.at_s, act.batch, act.volume_m3)
        reading = self._reading_at(act.at_s)
        self.pots[place] = self._warmed(made, reading) if reading else made
        return ""

    def _left_over(self, act: Act) -> str:
        standing = pot_of(self.pots, act.product)
        if standing is None:
            return f"No pot of {act.product} stands open."
        place = next(number for number, pot in enumerate(self.pots) if pot is standing)
        self.pots[place] = replace(standing, is_gone=True, left_m3=act.volume_m3, where=act.said)
        return ""

    def _people(self, act: Act) -> str:
        self.people = act.people or self.people
        return ""

    def _product(self, act: Act) -> Product:
        return next(product for product in self.system.products if product.name == act.product)

    def _warmed(self, pot: PotRun, reading: Reading) -> PotRun:
        """Air or metal, whichever is warmer: the mix is as warm as either, and warmth shortens its life."""
        known = [at_c for at_c in (reading.air_c, reading.metal_c) if at_c is not None]
        product = self.system.product(pot.product)
        return warmed(pot, product, max(known)) if known and product else pot

    def _reading_at(self, at_s: float) -> Reading | None:
        """The newest reading that spoke at that moment: not younger, and not too old."""
        return next((one for one in reversed(self.readings) if at_s - TOO_OLD_S <= one.at_s <= at_s), None)

    def _strict_over(self, step: int, started_s: float) -> Strict:
        """Every reading of the metal since the coat began, and the one that stood when it did."""
        first = self._reading_at(started_s)
        strict = Strict()
        for reading in self.readings:
            if reading.metal_c is not None and (reading is first or reading.at_s > started_s):
                strict = strict.seen(self.system.steps[step], reading.metal_c)
        return strict

    def _beside(self) -> Beside:
        newest = self.readings[-1] if self.readings else None
        return Beside(system=self.system, reading=newest, pots=tuple(self.pots))
