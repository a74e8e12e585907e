"""What a start or an end is worth against the sheet: window, weather and pot, each by itself."""

from collections.abc import Iterator
from dataclasses import dataclass

from yardapp.coating.faults import NO_MIX, NO_WEATHER, NO_WINDOW, Fault, fault_of
from yardapp.coating.pots import PotRun, pot_of
from yardapp.coating.system import PAST_POT_LIFE, TOO_EARLY, TOO_LATE, WRONG_WEATHER, Step, System
from yardapp.coating.unit_run import UnitRun
from yardapp.coating.weather import UNKNOWN, WAIT, Gate, Reading, gate


@dataclass(frozen=True, kw_only=True)
class Beside:
    """What stands beside the blades at a moment: the newest reading, and the pots."""

    system: System
    reading: Reading | None
    pots: tuple[PotRun, ...]


Wrong = Iterator[tuple[str, str]]


def faults_at_start(beside: Beside, unit: UnitRun, step: int, at_s: float, act: int | None) -> tuple[Fault, ...]:
    """Every fault that starting `step` on `unit` at `at_s` makes."""
    system = beside.system
    asks = unit.last.step if unit.last else None
    told = [
        fault_of(system, kind, unit.key, step, at_s, said, asks=asks, act=act)
        for kind, said in _of_window(system, unit, step, at_s)
    ]
    for kind, said in (*_of_weather(beside, step, at_s), *_of_pot(beside, step, at_s)):
        told.append(fault_of(system, kind, unit.key, step, at_s, said, act=act))
    return tuple(told)


def faults_at_end(beside: Beside, unit: UnitRun, step: int, at_s: float, act: int | None) -> tuple[Fault, ...]:
    """What went wrong between start and end: weather that turned, a pot that went past its life."""
    known = {fault.kind for fault in unit.open_faults if fault.step == step}
    weather = [(kind, said) for kind, said in _of_weather(beside, step, at_s) if kind == WRONG_WEATHER]
    pot = [(kind, said) for kind, said in _of_pot(beside, step, at_s) if kind == PAST_POT_LIFE]
    return tuple(
        fault_of(beside.system, kind, unit.key, step, at_s, said, act=act)
        for kind, said in (*weather, *pot)
        if kind not in known
    )


def fault_of_missed(system: System, unit: UnitRun, now_s: float) -> Fault | None:
    """The window that shut before its next step was begun; None where it has not, or was noted already."""
    shuts_s = unit.opening(system).shuts_s
    if shuts_s is None or now_s <= shuts_s or unit.started_s is not None or unit.next is None or _is_noted(unit):
        return None
    said = f"The window for {system.steps[unit.next].name} shut before it was begun."
    asks = unit.last.step if unit.last else None
    return fault_of(system, TOO_LATE, unit.key, unit.next, shuts_s, said, asks=asks, act=None)


def fault_of_dry(system: System, unit: UnitRun, at_s: float, act: int) -> Fault | None:
    """The finger found it too dry: that window is missed, whatever the clock says."""
    if unit.next is None or _is_noted(unit):
        return None
    said = "The finger found it too dry."
    asks = unit.last.step if unit.last else None
    return fault_of(system, TOO_LATE, unit.key, unit.next, at_s, said, asks=asks, act=act)


def gate_for(system: System, step: int | None, reading: Reading | None, now_s: float) -> Gate | None:
    """The weather's verdict on a step; None where the step does not ask."""
    if step is None or not _asks_weather(system.steps[step]):
        return None
    return gate(reading, system.steps[step].limits, now_s)


def _is_noted(unit: UnitRun) -> bool:
    return any(fault.kind == TOO_LATE and fault.step == unit.next for fault in unit.open_faults)


def _asks_weather(step: Step) -> bool:
    return step.is_coat or step.limits is not None


def _of_window(system: System, unit: UnitRun, step: int, at_s: float) -> Wrong:
    window = unit.opening(system)
    name = system.steps[step].name
    if window.shuts_s is not None and at_s > window.shuts_s:
        if not _is_noted(unit):
            yield TOO_LATE, f"{name} was begun {_minutes(at_s - window.shuts_s)} after its window had shut."
    elif window.why:
        yield NO_WINDOW, window.why
    elif window.opens_s is not None and at_s < window.opens_s:
        yield TOO_EARLY, f"{name} was begun {_minutes(window.opens_s - at_s)} before its window opened."
    elif window.opens_s is None and window.test_s is not None:
        yield TOO_EARLY, f"{name} was begun before the finger had found the last coat ready."


def _of_weather(beside: Beside, step: int, at_s: float) -> Wrong:
    judged = gate_for(beside.system, step, beside.reading, at_s)
    if judged is not None and judged.verdict == WAIT:
        yield WRONG_WEATHER, " ".join(judged.why)
    elif judged is not None and judged.verdict == UNKNOWN:
        yield NO_WEATHER, " ".join(judged.why)


def _of_pot(beside: Beside, step: int, at_s: float) -> Wrong:
    product = beside.system.product(beside.system.steps[step].product)
    if product is None or not product.is_mixed or not beside.system.steps[step].is_coat:
        return
    pot = pot_of(beside.pots, product.name)
    if pot is None or pot.mixed_s is None:
        yield NO_MIX, f"Nobody noted when the {product.name} was mixed."
        return
    if pot.ready_s is not None and at_s < pot.ready_s:
        yield TOO_EARLY, f"{product.name} must stand {_minutes(pot.ready_s - at_s)} longer before it goes on."
    if pot.good_until_s is not None and at_s > pot.good_until_s:
        yield PAST_POT_LIFE, f"The {product.name} was {_minutes(at_s - pot.good_until_s)} past its pot life."
    elif pot.why:
        yield NO_MIX, pot.why


def _minutes(duration_s: float) -> str:
    return f"{max(1, round(duration_s / 60))} min"
