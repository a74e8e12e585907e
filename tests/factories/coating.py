"""Coating of the invented yard: a simple system, a job of three blades, and taps on them."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy.orm import Session

from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.coating.models import Job
from yardapp.coating.system import (
    Film,
    Limits,
    Part,
    Product,
    Remedies,
    Step,
    System,
    TimeAt,
    Window,
    WindowAt,
)
from yardapp.db import Clock

NOON = datetime(2026, 5, 4, 12, 0, tzinfo=UTC)
MINUTE = 60.0
FINE = {"air_c": 20.0, "metal_c": 20.0, "relative_humidity": 0.5}


class FakeClock:
    """A clock that a test sets; it stands still between."""

    def __init__(self, at: datetime = NOON) -> None:
        self.at = at

    def __call__(self) -> datetime:
        return self.at

    def later(self, **by: float) -> datetime:
        """Let so much time pass: `clock.later(minutes=25)`."""
        self.at += timedelta(**by)
        return self.at


@contextmanager
def stopped_clock(at: datetime = NOON) -> Iterator[FakeClock]:
    """The server goes by a clock that stands still until it is set."""
    before, clock = Clock.tells, FakeClock(at)
    Clock.tells = staticmethod(clock)
    try:
        yield clock
    finally:
        Clock.tells = staticmethod(before)


def make_sheet(**said: Any) -> System:
    """Two coats of a two-part primer, tacky for the clear coat that follows; figures invented."""
    primer = {
        "product": "Primer",
        "film": Film(wet_m=100e-6, dry_m=50e-6),
        "limits": Limits(metal_low_c=10, metal_high_c=30, relative_humidity_most=0.85),
        "window": Window(by_touch=True, rows=(_row(10, 40, 120), _row(20, 20, 60), _row(30, 10, 30))),
        "remedies": Remedies(too_late="Abrade that blade and give it the coat again."),
    }
    steps = (
        Step(kind="mix", product="Primer"),
        Step(kind="coat", title="Primer, coat 1", **primer),
        Step(kind="touch test", title="Gloved finger"),
        Step(kind="coat", title="Primer, coat 2", **primer),
        Step(kind="touch test", title="Gloved finger"),
        Step(kind="top coat", title="Clear coat", product="Clear", limits=primer["limits"]),
        Step(kind="leave alone", cure=(TimeAt(temperature_c=10, time_s=86400), TimeAt(temperature_c=30, time_s=43200))),
    )
    products = (
        Product(
            name="Primer",
            parts=(Part(name="Base", share=4, kit_m3=200e-6), Part(name="Hardener", share=1, kit_m3=50e-6)),
            pot_life=(TimeAt(temperature_c=10, time_s=14400), TimeAt(temperature_c=30, time_s=7200)),
            solids_ratio=0.5,
        ),
        Product(name="Clear", parts=(Part(name="Clear", kit_m3=250e-6),), solids_ratio=0.75),
    )
    return System(**{"name": "Clear over primer", "products": products, "steps": steps, "foul_release": True, **said})


def _row(temperature_c: float, earliest_min: float, latest_min: float) -> WindowAt:
    return WindowAt(temperature_c=temperature_c, earliest_s=earliest_min * MINUTE, latest_s=latest_min * MINUTE)


COAT_1, COAT_2, TOP = 1, 3, 5  # places of the coats among the steps


def make_system(session: Session, **said: Any) -> int:
    """The yard's own system."""
    return coating.add_system(session, make_who(session), make_sheet(**said))


def make_job(session: Session, *, tag: str = "", blades: int = 1, **said: Any) -> Job:
    """A job on a system of its own unless one is given; without a tag, on as many brackets as there would be blades."""
    system_id = said.pop("system_id", None) or make_system(session, name=said.pop("system", "Clear over primer"))
    pieces = (
        [coating.AskedPiece(kind="propeller", name=tag, area_m2=0.3, area_m2_typed="0.3 m²")]
        if tag
        else [
            coating.AskedPiece(kind="bracket", name=f"Bracket {number}", area_m2=0.1, row=number - 1)
            for number in range(1, blades + 1)
        ]
    )
    asked = {"people": 1, "way": "brush", "blade_s": 5 * MINUTE, "metal_c": 20.0, "title": "Kittiwake", **said}
    return coating.plan_job(session, make_who(session), coating.Asked(system_id=system_id, pieces=pieces, **asked))


def tap(session: Session, job_id: int, kind: str, unit: str = "", step: int | None = None, **said: Any) -> Any:
    """One tap by Ada Brook."""
    return coating.act(session, make_who(session), job_id, coating.Tap(kind=kind, unit=unit, step=step, **said))


def read_weather(session: Session, job_id: int, **said: Any) -> Any:
    """Fine weather, unless said otherwise."""
    return tap(session, job_id, "weather", figures={**FINE, **said})


def mix(session: Session, job_id: int, product: str = "Primer", **said: Any) -> Any:
    """A product is mixed."""
    return tap(session, job_id, "mixed", figures={"product": product, **said})


def coat_whole(session: Session, job: Job, clock: FakeClock, units: tuple[str, ...] = ("1",)) -> None:
    """Every coat on every unit, each inside its window."""
    for step in (COAT_1, COAT_2, TOP):
        read_weather(session, job.id)
        mix(session, job.id, "Clear" if step == TOP else "Primer")
        for unit in units:
            tap(session, job.id, "started", unit, step)
            clock.later(minutes=5)
            tap(session, job.id, "done", unit, step)
        clock.later(minutes=21)
        if step != TOP:
            for unit in units:
                tap(session, job.id, "tacky", unit, step)
