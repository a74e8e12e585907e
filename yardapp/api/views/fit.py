"""Does this propeller go on that drive?"""

from functools import partial
from typing import Any

from flask import g

from yardapp import quantities
from yardapp.api.bodies import fit as bodies
from yardapp.api.bodies.items import PROPELLER_SIZES
from yardapp.api.door import Act, works_out
from yardapp.api.sizes import K, Told
from yardapp.api.views.items import figures_said
from yardapp.errors import NotFound, Refused
from yardapp.fit import services
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures
from yardapp.vessels import services as vessels

PAIRS = ("speed_power", "engine_curve")
HULL_AND_LINE = ("shaft_alloy", "behind", "hull_kind", "planing_kind", "speed_power_kind")


@works_out("/fit", body=bodies.Pair, reply=bodies.Verdict)
def judge(act: Act, said: bodies.Pair) -> bodies.Verdict:
    """Judge whether a propeller goes on a drive; whatever is not known says which reading would settle it."""
    propeller, drive = _propeller(act, said.propeller), _drive(act, said.drive)
    ask = None if said.ask is None else tuple(dict.fromkeys(said.ask))
    say = partial(_say, act.who.units)
    verdict: Any = services.judge_figures(propeller, drive, rule=said.rule, say=say, ask=ask)
    return bodies.Verdict(
        verdict=verdict.verdict,
        lede=verdict.lede,
        parts=[bodies.Part(group=part.group, verdict=part.verdict, checks=list(part.checks)) for part in verdict.parts],
        checks=[told_check(check) for check in verdict.checks],
        needs=[_need(need) for need in verdict.needs],
        works=list(verdict.works),
        assumed=g.get("assumed", []),
    )


def _propeller(act: Act, said: Any) -> PropellerFigures:
    """A propeller of the register by its tag, or one that was described."""
    if isinstance(said, str):
        try:
            return services.propeller_by_tag(act.session, act.who, said)[0]
        except NotFound as refusal:
            raise Refused(str(refusal), "propeller") from None
    figures: dict[str, Any] = _figures(figures_said(said, PROPELLER_SIZES, "propeller."), said.basis)
    blades = figures.pop("blades", None)
    return PropellerFigures(
        hand=said.hand,
        hand_stamped=said.hand_stamped,
        bore_kind=said.bore_kind,
        material=said.material,
        kind=said.blade_kind,
        open_faults=None if said.open_faults is None else tuple(said.open_faults),
        blades=None if blades is None else int(blades.value),
        **figures,
    )


def _drive(act: Act, said: Any) -> DriveFigures:
    """A drive of the register by its number, or one that was described."""
    if isinstance(said, int):
        try:
            return services.drive_figures(*vessels.drive_by_id(act.session, act.who, said))
        except NotFound as refusal:
            raise Refused(str(refusal), "drive") from None
    figures: dict[str, Any] = _figures(figures_said(said, bodies.ROOM_SIZES, "drive."), said.basis)
    block = None if said.block_ratio is None else Figure(value=said.block_ratio, basis=said.basis)
    words = {name: getattr(said, name) for name in HULL_AND_LINE}
    pairs: dict[str, Any] = {name: tuple((one[0], one[1]) for one in getattr(said, name)) for name in PAIRS}
    return DriveFigures(hand=said.hand, is_twin=said.is_twin, block_ratio=block, **pairs, **words, **figures)


def _figures(found: dict[str, Told], basis: str) -> dict[str, Figure]:
    return {name: Figure(value=one.value, u=one.u, basis=basis) for name, one in found.items()}


def _say(system: quantities.System, kind: str, value: float, u: float | None) -> str:
    """How sentences write a figure: in the caller's units, ± at k = 2."""
    if kind == "ratio":
        return f"{100 * value:.0f} %" if not u else f"{100 * value:.0f} ± {100 * K * u:.0f} %"
    if kind in ("count", "words"):
        return f"{value:.4g}"
    known: Any = kind
    return quantities.show(value, known, system, u=u or None)


def told_check(check: Any) -> bodies.Check:
    """One check as it goes out."""
    return bodies.Check(
        name=check.name,
        group=check.group,
        verdict=check.verdict,
        says=check.says,
        remedy=check.remedy,
        caution=check.caution,
        source=check.source,
        needs=[_need(need) for need in check.needs],
        compared=[_compared(one) for one in check.compared],
        sums=[_sum(one) for one in check.sums],
    )


def _need(need: Any) -> bodies.Need:
    return bodies.Need(figure=need.figure, says=need.says)


def _compared(one: Any) -> bodies.Compared:
    return bodies.Compared(label=one.label, value=one.value, basis=one.basis, **_unit(one))


def _sum(one: Any) -> bodies.Result:
    inputs = [_compared(put) for put in one.inputs]
    return bodies.Result(label=one.label, formula=one.formula, inputs=inputs, value=one.value, **_unit(one))


def _unit(one: Any) -> dict[str, Any]:
    return {"unit": bodies.unit_of(one.kind), "plus_minus": None if one.u is None else K * one.u}
