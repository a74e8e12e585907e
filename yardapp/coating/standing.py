"""The job at one moment: what to do now, on which blade, how long is left, what comes next. Cheap: ask every second."""

from collections.abc import Sequence
from dataclasses import dataclass

from yardapp.coating.curing import Immersion, immersion, likely_immersion_s
from yardapp.coating.faults import Fault
from yardapp.coating.forecast import forecast
from yardapp.coating.judging import fault_of_missed, gate_for
from yardapp.coating.ops import Op
from yardapp.coating.phases import MISSED, OPEN, PHASES, TEST, UNKNOWN, WAITING, phase_of
from yardapp.coating.pots import PotStanding, pot_standing
from yardapp.coating.running import Run
from yardapp.coating.staffed import Staffed, staffed
from yardapp.coating.system import System
from yardapp.coating.telling import launch_ok, warnings
from yardapp.coating.turns import SOON_S, Next, turns
from yardapp.coating.unit_run import UnitRun
from yardapp.coating.weather import Gate, gate
from yardapp.coating.windows import Opening

__all__ = ["PHASES", "Next", "PotStanding", "Standing", "UnitStanding", "standing"]


@dataclass(frozen=True, kw_only=True)
class UnitStanding:
    """One blade or piece. `step` is its next step, `touch_step` the coat that the finger tries (else None)."""

    key: str
    label: str
    phase: str
    step: int | None
    name: str
    touch_step: int | None
    opens_s: float | None
    shuts_s: float | None
    test_s: float | None
    started_s: float | None
    due_s: float | None
    done_s: float | None
    coats: int
    finger: str
    said: str
    faults: tuple[Fault, ...]
    order: int


@dataclass(frozen=True, kw_only=True)
class Standing:
    """Everything that the page says. `changes_at_s`: when something changes by itself, if nobody taps."""

    now_s: float
    now: Next | None
    then: Next | None
    turns: tuple[Next, ...]
    units: tuple[UnitStanding, ...]
    gate: Gate
    pots: tuple[PotStanding, ...]
    faults: tuple[Fault, ...]
    warnings: tuple[str, ...]
    ops: tuple[Op, ...]
    finish_s: float | None
    immersion_s: float | None
    immersion_why: str
    likely_immersion_s: float | None
    cured: bool
    launch_ok: bool | None
    changes_at_s: float | None
    hours: Staffed

    @property
    def waits(self) -> bool:
        """Whether any blade or piece still waits for a coat."""
        return any(unit.step is not None for unit in self.units)


HAIR_S = 0.001
Place = tuple[UnitRun, Opening, str]


def standing(run: Run, now_s: float) -> Standing:
    """Where the job stands at `now_s`."""
    system = run.job.system
    water = immersion(run)
    cured = water.at_s is not None and now_s >= water.at_s
    places = _places(run, now_s, cured)
    metal_c = next((one.metal_c for one in reversed(run.readings) if one.metal_c is not None), None)
    hours = staffed(run, now_s)
    ops = forecast(run, places, metal_c, now_s, hours) or ()
    coming = turns(run, places, ops, now_s)
    finish_s = _finish_s(run, ops)
    likely_s = water.at_s if water.at_s is not None else likely_immersion_s(run, finish_s, metal_c)
    missed = [fault for unit, _, _ in places if (fault := fault_of_missed(system, unit, now_s))]
    pots = tuple(pot_standing(pot, now_s) for pot in run.pots if not pot.is_gone)
    judged = _gate(run, ops, now_s)
    return Standing(
        now_s=now_s,
        now=coming[0] if coming else None,
        then=coming[1] if len(coming) > 1 else None,
        turns=coming,
        units=_units(system, places, ops, missed),
        gate=judged,
        pots=pots,
        faults=tuple(sorted((*run.faults, *missed), key=lambda fault: fault.at_s)),
        warnings=tuple(warnings(run, places, ops, pots, judged, likely_s, now_s)),
        ops=ops,
        finish_s=finish_s,
        immersion_s=water.at_s,
        immersion_why=water.why,
        likely_immersion_s=likely_s,
        cured=cured,
        launch_ok=launch_ok(run, likely_s),
        changes_at_s=_changes_at_s(places, pots, judged, coming, water, hours, now_s),
        hours=hours,
    )


def _places(run: Run, now_s: float, cured: bool) -> list[Place]:
    windows = [(unit, unit.opening(run.job.system)) for unit in run.units]
    return [(unit, window, phase_of(run.job.system, unit, window, now_s, cured=cured)) for unit, window in windows]


def _gate(run: Run, ops: Sequence[Op], now_s: float) -> Gate:
    """The weather's verdict on the next step that asks for it."""
    reading = run.readings[-1] if run.readings else None
    asked = (gate_for(run.job.system, op.step, reading, now_s) for op in sorted(ops, key=lambda one: one.start_s))
    last = run.job.system.steps[run.job.system.coats[-1]]
    return next((judged for judged in asked if judged is not None), None) or gate(reading, last.limits, now_s)


def _finish_s(run: Run, ops: Sequence[Op]) -> float | None:
    """When the last coat is likely to be done; None where a blade is turned, or times are not known."""
    left = {unit.key for unit in run.units if unit.next is not None}
    running = [unit for unit in run.units if unit.started_s is not None]
    if left - {op.unit for op in ops} - {unit.key for unit in running}:
        return None
    ends = [op.end_s for op in ops] + [unit.done[-1].done_s for unit in run.units if unit.done]
    ends += [
        (unit.started_s or 0.0) + unit.work_s * run.job.system.steps[unit.next or 0].work_ratio for unit in running
    ]
    return max(ends, default=None)


def _units(
    system: System, places: Sequence[Place], ops: Sequence[Op], missed: Sequence[Fault]
) -> tuple[UnitStanding, ...]:
    """In the order of work; what is turned comes after, what is finished last."""
    first = {op.unit: op.start_s for op in reversed(ops)}

    def turn(place: Place) -> tuple[int, float]:
        unit, _, _ = place
        if unit.next is None:
            return 2, unit.done[-1].done_s if unit.done else 0.0
        if unit.started_s is not None:
            return 0, unit.started_s
        return (0, first[unit.key]) if unit.key in first else (1, unit.last.started_s if unit.last else 0.0)

    ordered = sorted(places, key=turn)
    return tuple(
        _unit(system, place, order, [fault for fault in missed if fault.unit == place[0].key])
        for order, place in enumerate(ordered)
    )


def _unit(system: System, place: Place, order: int, missed: Sequence[Fault]) -> UnitStanding:
    unit, window, phase = place
    step = system.steps[unit.next] if unit.next is not None else None
    tested = unit.last is not None and window.test_s is not None and phase in (WAITING, TEST, OPEN, UNKNOWN)
    works = step.work_ratio if step else 1.0
    return UnitStanding(
        key=unit.key,
        label=unit.label,
        phase=phase,
        step=unit.next,
        name=step.name if step else "",
        touch_step=unit.last.step if tested and unit.last else None,
        opens_s=window.opens_s,
        shuts_s=window.shuts_s,
        test_s=window.test_s,
        started_s=unit.started_s,
        due_s=None if unit.started_s is None else unit.started_s + unit.work_s * works,
        done_s=unit.last.done_s if unit.last else None,
        coats=len(unit.coats(system)),
        finger=unit.finger.kind if unit.finger else "",
        said=_unit_said(system, unit, window, phase),
        faults=(*unit.faults, *missed),
        order=order,
    )


def _unit_said(system: System, unit: UnitRun, window: Opening, phase: str) -> str:
    if phase == MISSED:
        return system.remedy(unit.last.step if unit.last else None, "too late")
    return window.why if phase == UNKNOWN else ""


def _changes_at_s(
    places: Sequence[Place],
    pots: Sequence[PotStanding],
    judged: Gate,
    coming: Sequence[Next],
    water: Immersion,
    hours: Staffed,
    now_s: float,
) -> float | None:
    """The next moment at which a phase, a pot, the weather, the cure or the day turns, or a warning begins."""
    opening = [water.at_s, *(one.from_s for one in coming), *(pot.from_s for pot in pots)]
    shutting = [judged.due_s, *hours.edges_s(), *(pot.good_until_s for pot in pots)]
    for _, window, _ in places:
        opening += [window.opens_s, window.test_s]
        shutting.append(window.shuts_s)
    moments = [moment for moment in opening if moment is not None]
    for moment in shutting:
        # What shuts still holds at its own moment: it turns a hair later.
        moments += [] if moment is None else [moment - SOON_S, moment + HAIR_S]
    return min((moment for moment in moments if moment > now_s), default=None)
