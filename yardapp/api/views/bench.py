"""Readings worked out, and sheets kept."""

from collections.abc import Callable
from typing import Any

from flask import g

from yardapp.api.bodies import bench as bodies
from yardapp.api.bodies.base import figure_of
from yardapp.api.bodies.measuring import HUB_SIZES, Standard
from yardapp.api.bodies.outcome import Sum, Went
from yardapp.api.door import Act, creates, reads, works_out
from yardapp.api.problems import Unfit
from yardapp.api.sizes import K, Size
from yardapp.api.views.items import figures_said
from yardapp.bench import services
from yardapp.bench.services import Outcome
from yardapp.filters import kind_of

PITCH = (services.PitchReading, bodies.PITCH_SIZES, ("blade", "climbs", "gap_at"))
DIAMETER = (services.DiameterReading, bodies.DIAMETER_SIZES, ("blades", "tips"))
BORE = (services.BoreReading, HUB_SIZES, ("bore_kind", "shaft_tag"))
METHODS: dict[str, tuple[Any, tuple[Size, ...], tuple[str, ...]]] = {"pitch": PITCH, "diameter": DIAMETER, "bore": BORE}


# Methods whose readings are more than figures by name: how each is made of a body.
MADE: dict[str, Callable[[Any], tuple[Any, dict[str, Any]]]] = {}
# What a kept sheet of one method says besides its figures.
PARTS: dict[str, Callable[[Outcome], dict[str, Any]]] = {}


def figured(method: str, said: Any) -> tuple[Any, dict[str, Any]]:
    """The reading as the bench takes it, and what was typed."""
    if method in MADE:
        return MADE[method](said)
    reading, sizes, words = METHODS[method]
    found = figures_said(said, sizes)
    chosen = {name: getattr(said, name) for name in words if getattr(said, name) is not None}
    values = {name: one.value for name, one in found.items()}
    known = {f"u_{name}": one.u for name, one in found.items()}
    several, common = _repeats(said, values), _common(said, values)
    more: dict[str, Any] = ({"repeats": several} if several else {}) | ({"common": common} if common else {})
    return reading(**values, **known, **chosen, **more), {f"{name}_typed": one.typed for name, one in found.items()}


def _repeats(said: Any, values: dict[str, Any]) -> dict[str, tuple[float, ...]]:
    """Figures that were read several times over; each stands beside the figure itself."""
    several = getattr(said, "repeats", None) or {}
    alone = sorted(set(several) - set(values))
    if alone:
        raise Unfit([(f"repeats.{name}", "There is no such figure beside it to go with.") for name in alone])
    return {name: tuple(readings) for name, readings in several.items()}


def _common(said: Any, values: dict[str, Any]) -> tuple[str, ...]:
    """Figures that were read with a tool which errs alike on every blade."""
    names = tuple(dict.fromkeys(getattr(said, "common", None) or ()))
    alone = [name for name in names if name not in values]
    if alone:
        raise Unfit([("common", f"{alone[0]} was not sent.")])
    return names


@works_out("/bench/pitch", body=bodies.PitchReading, reply=bodies.PitchOutcome)
def pitch(act: Act, said: bodies.PitchWords) -> bodies.PitchOutcome:
    """Work out a pitch from one blade's readings; nothing is kept."""
    outcome = services.pitch_of(figured("pitch", said)[0])
    return bodies.PitchOutcome(**said_of(outcome), pitch=_answer(outcome))


@works_out("/bench/diameter", body=bodies.DiameterReading, reply=bodies.DiameterOutcome)
def diameter(act: Act, said: bodies.DiameterWords) -> bodies.DiameterOutcome:
    """Work out a diameter from the tips; nothing is kept."""
    outcome = services.diameter_of(figured("diameter", said)[0])
    return bodies.DiameterOutcome(**said_of(outcome), diameter=_answer(outcome))


@works_out("/bench/bore", body=bodies.BoreReading, reply=bodies.BoreOutcome)
def bore(act: Act, said: bodies.BoreWords) -> bodies.BoreOutcome:
    """Work out a bore's taper, and the standards nearest to it; nothing is kept."""
    reading = services.BORE.prepared(act.session, act.who, figured("bore", said)[0])
    outcome = services.bore_of(reading)
    near = None if outcome.near is None else bodies.Near.model_validate(outcome.near, from_attributes=True)
    standards = [Standard.model_validate(one) for one in outcome.more["standards"]]
    return bodies.BoreOutcome(**said_of(outcome), taper=_answer(outcome), near=near, standards=standards)


def _answer(outcome: Outcome) -> Any:
    value = outcome.value
    return None if value is None else figure_of(value, kind_of(outcome.answer), outcome.u)


def said_of(outcome: Outcome) -> dict[str, Any]:
    """What every outcome says, as a reply has it."""
    answer = outcome.sum_of(outcome.answer)
    return {
        "formula": answer.formula if answer else "",
        "source": answer.source if answer else "",
        "sums": [_sum(one) for one in outcome.sums],
        "remarks": list(outcome.remarks),
        "common": _twice(outcome.u_common),
        "separate": _twice(outcome.u_separate),
        "assumed": g.get("assumed", []),
    }


def _sum(one: Any) -> Sum:
    inputs = [Went(name=put.name, value=put.value, plus_minus=_twice(put.u)) for put in one.inputs]
    return Sum(
        what=one.what, value=one.value, plus_minus=_twice(one.u), formula=one.formula, source=one.source, inputs=inputs
    )


def _twice(u: float | None) -> float | None:
    return None if u is None else K * u


def shown(row: services.SheetRow) -> bodies.KeptSheet:
    """A sheet as it was kept."""
    sheet = row.sheet
    outcome = Outcome.from_kept(sheet.results)
    return bodies.KeptSheet(
        id=sheet.id,
        tag=row.tag,
        method=sheet.method,
        at=sheet.at,
        said_by=sheet.said_by,
        readings=sheet.readings,
        figures={one.what: figure_of(one.value, kind_of(one.what), one.u) for one in outcome.sums},
        sums=[_sum(one) for one in outcome.sums],
        remarks=list(outcome.remarks),
        note=sheet.note,
        replaces_id=sheet.replaces_id,
        replaced_by=row.replaced_by,
        why=sheet.why,
        work_since=row.work_since,
        worked_at=row.worked_at,
        perhaps_of=row.perhaps_of,
        **PARTS.get(sheet.method, _no_parts)(outcome),
    )


def _no_parts(outcome: Outcome) -> dict[str, Any]:
    return {}


@reads("/propellers/{tag}/sheets", reply=bodies.Sheets)
def sheets(act: Act, tag: str) -> bodies.Sheets:
    """The bench sheets of one propeller, newest first."""
    found = services.sheets_of(act.session, act.who, tag, "propeller")
    return bodies.Sheets(sheets=[shown(row) for row in found.sheets])


@reads("/sheets/{sheet_id}", reply=bodies.KeptSheet)
def sheet(act: Act, sheet_id: int) -> bodies.KeptSheet:
    """One bench sheet as it was kept."""
    return shown(services.sheet_by_id(act.session, act.who, sheet_id)[0])


def kept_sheet(act: Act, key: str, tag: str) -> bodies.KeptSheet:
    """The sheet that was just kept."""
    return sheet(act, int(key))


@creates("/propellers/{tag}/sheets", body=bodies.NewSheet, reply=bodies.KeptSheet, at="/sheets/{key}", shows=kept_sheet)
def measure(act: Act, said: bodies.NewSheet, tag: str) -> str:
    """Keep a bench sheet of a propeller; what comes of it is evidence.

    A survey that says no design pitch is held against the register's, and its remarks say so.
    """
    sent: Any = said.root
    reading, typed = figured(sent.method, sent)
    if isinstance(reading, services.SurveyReading):
        reading = services.with_design_pitch(act.session, act.who, tag, reading)
    filled = services.Filled(boxes=typed, note=sent.note, corrects=sent.corrects, why=sent.why)
    return str(services.measure(act.session, act.who, tag, services.METHODS[sent.method], reading, filled).id)
