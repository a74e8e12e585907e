"""What to do now and what comes next: coats and touches, pots to be stirred, weather to be read, remedies."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from yardapp.coating.judging import gate_for
from yardapp.coating.ops import Op
from yardapp.coating.phases import MISSED, RUNNING, TEST, UNKNOWN, WAITING
from yardapp.coating.pots import pot_of
from yardapp.coating.running import Run
from yardapp.coating.system import Product
from yardapp.coating.unit_run import UnitRun
from yardapp.coating.weather import TOO_OLD_S, WAIT
from yardapp.coating.weather import UNKNOWN as NOT_MEASURED
from yardapp.coating.windows import UNREAD, Opening

SOON_S = 300.0
TOUCH = "test"


@dataclass(frozen=True, kw_only=True)
class Next:
    """One thing to do: from when, by when. `act` is what will be tapped; "test" stands for the three of the finger."""

    act: str
    name: str
    said: str
    unit: str = ""
    label: str = ""
    step: int | None = None
    product: str = ""
    from_s: float = 0.0
    by_s: float | None = None
    rank: int = 9


Places = Sequence[tuple[UnitRun, Opening, str]]


def turns(run: Run, places: Places, ops: Sequence[Op], now_s: float) -> tuple[Next, ...]:
    """Everything that is to be done, what is due first."""
    first: dict[str, Op] = {}
    for op in ops:  # of two that may begin at once, the one that was chosen first comes first
        first.setdefault(op.unit, op)
    coming = sorted(first.values(), key=lambda op: op.start_s)
    found = [
        *_weather(run, coming, now_s),
        *_pots(run, coming),
        *_on_blades(run, places, coming),
        *_running(run, places, now_s),
        *_remedies(run, places),
    ]
    return tuple(sorted(found, key=lambda one: (max(one.from_s, now_s), one.rank)))


def _weather(run: Run, coming: Sequence[Op], now_s: float) -> Iterator[Next]:
    """A reading that is missing, refused or about to grow too old, before the next coat that asks for one."""
    reading = run.readings[-1] if run.readings else None
    for op in coming:
        judged = gate_for(run.job.system, op.step, reading, now_s)
        if judged is None:
            continue
        if judged.verdict in (NOT_MEASURED, WAIT):
            name = "Read the weather" if judged.verdict == NOT_MEASURED else "Wait for the weather"
            said = " ".join(judged.why)
            yield Next(act="weather", name=name, said=said, from_s=max(now_s, op.start_s - SOON_S), rank=1)
        elif judged.due_s is not None and reading is not None:
            said = f"The last reading is too old after {TOO_OLD_S / 60:.0f} minutes."
            from_s = max(judged.due_s - SOON_S, min(op.start_s, judged.due_s) - SOON_S)
            yield Next(act="weather", name="Read the weather", said=said, from_s=from_s, by_s=judged.due_s, rank=1)
        return


def _pots(run: Run, coming: Sequence[Op]) -> Iterator[Next]:
    """Each product that the next coats need and that does not stand ready."""
    seen = set()
    for op in coming:
        product = run.job.system.product(run.job.system.steps[op.step].product)
        if product is None or product.name in seen or not run.job.system.steps[op.step].is_coat:
            continue
        seen.add(product.name)
        yield from _pot(run, product, op)


def _pot(run: Run, product: Product, op: Op) -> Iterator[Next]:
    pot = pot_of(run.pots, product.name)
    said = f"For {op.name} on {op.label}."
    if pot is not None and pot.mixed_s is None:
        from_s = (op.start_s if pot.stirring_s is None else pot.stirring_s) + product.stirring_s
        verb = "Add the hardener and mix" if product.is_mixed else "Stirred, ready"
        name = f"{verb}: {product.name}"
        yield Next(act="mixed", name=name, said=said, product=product.name, step=op.step, from_s=from_s, rank=2)
    elif (product.stirring_s or product.is_mixed) and (pot is None or _is_past(pot.good_until_s, op.end_s)):
        from_s = op.start_s - product.stirring_s - product.induction_s
        name = f"Stir {product.name}"
        yield Next(act="stirring", name=name, said=said, product=product.name, step=op.step, from_s=from_s, rank=2)


def _is_past(until_s: float | None, at_s: float) -> bool:
    return until_s is not None and at_s > until_s


def _on_blades(run: Run, places: Places, coming: Sequence[Op]) -> Iterator[Next]:
    by_key = {unit.key: (unit, window, phase) for unit, window, phase in places}
    for rank, op in enumerate(coming):
        unit, window, phase = by_key[op.unit]
        if phase == RUNNING:
            continue
        said = f"{op.name} comes next on {op.label}."
        if window.test_s is not None and window.opens_s is None and phase in (TEST, WAITING) and unit.last:
            yield Next(
                act=TOUCH,
                name=f"Touch {op.label} with a gloved finger",
                said=said,
                unit=op.unit,
                label=op.label,
                step=unit.last.step,
                from_s=window.test_s,
                by_s=window.shuts_s,
                rank=3 + rank,
            )
            continue
        yield Next(
            act="started",
            name=op.name,
            said="",
            unit=op.unit,
            label=op.label,
            step=op.step,
            from_s=op.start_s,
            by_s=window.shuts_s,
            rank=3 + rank,
        )


def _running(run: Run, places: Places, now_s: float) -> Iterator[Next]:
    running = [unit for unit, _, phase in places if phase == RUNNING]
    is_full = len(running) >= run.people
    for unit in sorted(running, key=lambda one: one.started_s or 0.0):
        step = run.job.system.steps[unit.next or 0]
        yield Next(
            act="done",
            name=step.name,
            said="Tap done at the last stroke: its clock runs from there.",
            unit=unit.key,
            label=unit.label,
            step=unit.next,
            from_s=now_s,
            by_s=(now_s if unit.started_s is None else unit.started_s) + unit.work_s * step.work_ratio,
            rank=0 if is_full else 200,
        )


def _remedies(run: Run, places: Places) -> Iterator[Next]:
    for unit, window, phase in places:
        if phase not in (MISSED, UNKNOWN) or unit.next is None:
            continue
        if phase == UNKNOWN and window.why == UNREAD:
            yield Next(act="weather", name="Read the weather", said=window.why, rank=1)
            continue
        missed = phase == MISSED
        asks = unit.last.step if unit.last else None
        remedy = run.job.system.remedy(asks, "too late")
        said = remedy if missed else window.why
        name = "Window missed" if missed else "Its window can't be told"
        yield Next(
            act="remedied",
            name=name,
            said=said,
            unit=unit.key,
            label=unit.label,
            step=unit.next,
            from_s=window.shuts_s if missed and window.shuts_s is not None else 0.0,
            rank=300,
        )
