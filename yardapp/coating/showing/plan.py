"""A plan in the words of a page: can it be done, drawn against time; what would help; what is needed."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from yardapp.coating.planning import Op, Plan, bars
from yardapp.coating.services import Asked, Looked
from yardapp.drawings.timeline import timeline
from yardapp.filters import clock, day
from yardapp.quantities import System, show

TICKS = 5


def shown(looked: Looked, asked: Asked, units: System) -> dict[str, Any]:
    """Everything that the page says of it."""
    planned = looked.plan
    at = _at_of(planned)
    return {
        "verdict": _verdict(planned),
        "lede": looked.plan_said or (" ".join(planned.why) if planned else ""),
        "would": [_would(one) for one in looked.would],
        "drawing": _drawing(planned) if planned and planned.ops else None,
        "ops": [_op(op, planned.people, at) for op in planned.ops] if planned else [],
        "pots": [_pot(pot, at) for pot in planned.pots] if planned else [],
        "hours": asked.hours.said if asked.hours else "",
        "ends": _ends(looked, asked),
        "pieces": [_piece(one, units) for one in looked.found],
        "needs": [_need(one, looked.rests.get(one.product)) for one in looked.needs],
        "rests": [said for one in looked.needs for said in _rest(one.product, looked.rests.get(one.product))],
        "weather": _weather(looked),
        "silent": [why for one in looked.needs for why in one.why],
        "shares": [_share(one, looked) for one in looked.shares],
        "cautions": sorted({caution for one in looked.found for caution in one.verdict.cautions}),
        "waits": [f"{one.planned.label}: {one.verdict.why}" for one in looked.found if one.verdict.verdict == "waits"],
    }


def _verdict(planned: Plan | None) -> str:
    """One of the four words that have a shape."""
    if planned is None or planned.feasible is None:
        return "cannot tell"
    return "goes on" if planned.feasible else "does not go on"


def _moment(at_s: float) -> datetime:
    return datetime.fromtimestamp(at_s, UTC)


def _at(at_s: float | None) -> str:
    return clock(_moment(at_s)) if at_s is not None else ""


def _at_of(planned: Plan | None) -> Callable[[float | None], str]:
    """How a moment of the plan is said: with its day where the plan goes over more than one."""
    if planned is None or not planned.ops:
        return _at
    days = {_moment(at_s).astimezone().date() for at_s in (planned.begun_s, planned.finish_s)}
    return _at if len(days) == 1 else _with_day


def _with_day(at_s: float | None) -> str:
    if at_s is None:
        return ""
    return f"{_at(at_s)} {_moment(at_s).astimezone():%a}"


def _when(at_s: float) -> str:
    return f"{_at(at_s)} on {day(_moment(at_s))}"


def _would(one: Any) -> str:
    return f"{one.said} Done at {_when(one.plan.finish_s)}."


def _drawing(planned: Plan) -> Any:
    first = min(op.start_s for op in planned.ops)
    last = max(op.end_s for op in planned.ops)
    step = (last - first) / (TICKS - 1)
    at = _at_of(planned)
    ticks = [(first + number * step, at(first + number * step)) for number in range(TICKS)]
    return timeline(bars(planned), ticks=ticks, title="Each blade against time, as planned", key="plan")


def _op(op: Op, people: int, at: Callable[[float | None], str]) -> tuple[str, ...]:
    window = f"{at(op.opens_s)} to {at(op.shuts_s) or 'any time'}" if op.opens_s is not None else ""
    by = f"person {op.person + 1}" if people > 1 else ""
    return (op.label, op.name, at(op.start_s), at(op.end_s), window, by, "" if op.met else "missed")


def _pot(pot: Any, at: Callable[[float | None], str]) -> tuple[str, str, str, str]:
    return (pot.product, at(pot.stir_s), at(pot.ready_s), at(pot.good_until_s) or "not limited")


def _ends(looked: Looked, asked: Asked) -> list[tuple[str, str]]:
    """When it is done, when it may go in the water, how late it may begin."""
    planned = looked.plan
    if planned is None or not planned.ops:
        return []
    found = [("Begins", _when(planned.begun_s)), ("Last coat done", _when(planned.finish_s))]
    if planned.immersion_s is not None:
        found.append(("Water not before", _when(planned.immersion_s)))
    if looked.latest_start_s is not None:
        late = looked.latest_start_s < planned.begun_s
        found.append(("Latest start for the launch", _when(looked.latest_start_s) + (": too late" if late else "")))
    if asked.launches is not None:
        found.append(("Launch", f"{clock(asked.launches)} on {day(asked.launches)}"))
    return found


def _piece(one: Any, units: System) -> tuple[str, str, str]:
    return (one.planned.label, show(one.planned.area_m2, "area", units), one.rests_on)


def _need(one: Any, rest: Any) -> tuple[str, ...]:
    needs = "" if one.volume_m3 is None else show(one.volume_m3, "volume")
    kits = "" if one.kits is None else f"{one.kits:g}"
    left = "" if one.left_m3 is None else show(one.left_m3, "volume")
    covers = "" if one.left_covers_m2 is None else show(one.left_covers_m2, "area")
    in_time = show(rest.by_time_m2, "area") if rest is not None and rest.by_time_m2 is not None else ""
    return (one.product, needs, kits, left, covers, in_time)


def _rest(product: str, rest: Any) -> list[str]:
    """Onto which pieces of other jobs the rest would go while it is good."""
    if rest is None or not rest.pieces:
        return []
    return [f"The rest of {product} would do {', '.join(piece.label for piece in rest.pieces)}."]


def _weather(looked: Looked) -> tuple[str, list[str]]:
    """Go or wait, in the weather that is expected."""
    if looked.gate is None:
        return "", []
    dew = f"dew point {show(looked.gate.dew_c, 'temperature')}" if looked.gate.dew_c is not None else ""
    margin = f"metal {looked.gate.margin_c:.1f} degrees above it" if looked.gate.margin_c is not None else ""
    word = {"go": "Go", "wait": "Wait", "unknown": "Cannot tell"}[looked.gate.verdict]
    return ", ".join(part for part in (word, dew, margin) if part), list(looked.gate.why)


def _share(one: Any, looked: Looked) -> tuple[str, str, str]:
    tins = {str(tin.id): tin for tin in looked.tins}
    takes = [f"{show(volume_m3, 'volume')} of {_tin(tins[key])}" for key, volume_m3 in one.draw.takes]
    expired = [f"{_tin(tins[key])} is past its date" for key in one.draw.expired]
    undated = [f"{_tin(tins[key])} has no date" for key in one.draw.undated]
    short = [f"{show(one.draw.short_m3, 'volume')} is missing"] if one.draw.short_m3 > 0 else []
    what = one.product if one.part == one.product else f"{one.product}, {one.part}"
    return (what, show(one.volume_m3, "volume"), "; ".join([*takes, *short, *expired, *undated]))


def _tin(tin: Any) -> str:
    return ", ".join(part for part in (tin.place or "stock", f"batch {tin.batch}" if tin.batch else "") if part)
