"""A verdict put into the words and drawings of a page. No database, no request."""

from collections.abc import Callable, Iterable
from functools import partial
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.disc_under_hull import RuleBand, disc_under_hull
from yardapp.fit.figures import Figure, PropellerFigures
from yardapp.fit.services import Pairing
from yardapp.fit.verdict import GOES_ON, NO, Check, Compared, Sum, Verdict
from yardapp.formulas.clearance import handbook_rule
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.taper import taper_from_ends
from yardapp.quantities import System


def say_in(system: System) -> Callable[[str, float, float | None], str]:
    """How sentences write a figure: in the person's units, ± at k = 2."""
    return partial(told, system)


def told(system: System, kind: str, value: float, u: float | None) -> str:
    """One figure as a sentence writes it."""
    if kind == "ratio":
        half_width = round(200 * (u or 0.0))
        return f"{100 * value:.0f} ± {half_width} %" if half_width else f"{100 * value:.0f} %"
    if kind in ("count", "words"):
        return f"{value:.4g}"
    known: Any = kind
    return quantities.show(value, known, system, u=u or None)


def check_rows(pairing: Pairing, system: System, explained: Callable[[str], str]) -> list[dict[str, Any]]:
    """Each check: verdict, reason, remedy, the two figures, the sums, what would settle it."""
    return rows_of(pairing.verdict.checks, system, explained)


def rows_of(checks: Iterable[Check], system: System, explained: Callable[[str], str]) -> list[dict[str, Any]]:
    """The rows of some checks."""
    rows = [check_row(check, system, explained) for check in checks]
    told: set[str | None] = set()
    for row in rows:  # each caution once: a wall of them is read by nobody
        row["caution"] = None if row["caution"] in told else row["caution"]
        told.add(row["caution"])
    return rows


GROUPS = {
    "shaft": "On the shaft",
    "seat": "Nut, cutter and bearing",
    "water": "Hand and room at the tips",
    "around": "Room around it",
    "condition": "Condition",
    "engine": "On the engine",
    "blades": "Blades",
    "strength": "The shaft itself",
}


def parts(pairing: Pairing) -> list[tuple[str, str]]:
    """Each part of the question and its answer, in the order of refusal; more than one, else the verdict says it."""
    found = [(GROUPS[part.group], part.verdict) for part in pairing.verdict.parts]
    return found if len(pairing.verdict.parts) > 2 else []


def still_open(pairing: Pairing) -> list[dict[str, Any]]:
    """What was not judged for want of any figure: each part, and the readings that would let it be."""
    if pairing.unjudged is None:
        return []
    judged = {part.group for part in pairing.verdict.parts}
    return [
        {
            "label": GROUPS[part.group],
            "verdict": part.verdict,
            "needs": list(dict.fromkeys(_needs(pairing.unjudged, part.checks))),
            "known": _known(pairing.unjudged, part.checks),
        }
        for part in pairing.unjudged.parts
        if part.group not in judged
    ]


def _known(verdict: Verdict, names: tuple[str, ...]) -> list[str]:
    """What is known of a part all the same, and in order."""
    return [check.says for check in verdict.checks if check.name in names and check.verdict == GOES_ON]


def _needs(found: Verdict, names: tuple[str, ...]) -> list[str]:
    return [need.says for check in found.checks if check.name in names for need in check.needs]


def check_row(check: Check, system: System, explained: Callable[[str], str]) -> dict[str, Any]:
    """One check: verdict, reason, remedy, figures, sums, what would settle it."""
    return {
        "verdict": check.verdict,
        "label": check.name.capitalize(),
        "said": check.says,
        "todo": check.remedy,
        "needs": [need.says for need in check.needs],
        "caution": check.caution,
        "compared": [(one.label, _figure(one, system), one.basis or "") for one in check.compared],
        "sums": [_sum(one, system, explained) for one in check.sums],
        "source": check.source,
    }


def _figure(one: Compared, system: System) -> str:
    if one.value is None:
        return "not known"
    return one.value if isinstance(one.value, str) else told(system, one.kind, one.value, one.u)


def _sum(one: Sum, system: System, explained: Callable[[str], str]) -> dict[str, Any]:
    name = one.formula.removeprefix("yardapp.formulas.")
    return {
        "label": one.label,
        "formula": name,
        "href": explained(name),
        "inputs": [(read.label, _figure(read, system)) for read in one.inputs],
        "result": told(system, one.kind, one.value, one.u),
    }


def shaft_drawing(pairing: Pairing, system: System) -> Markup | None:
    """The bore over the shaft's taper; nothing on the wrong hand, for nothing else is offered there."""
    if _is_refused_at_once(pairing):
        return None
    hub, shaft = pairing.propeller, pairing.room
    return bore_on_taper(
        _value(shaft.shaft_diameter_m),
        _value(shaft.taper),
        _value(shaft.taper_length_m),
        _value(hub.bore_large_m),
        _value(_taper_of(hub)),
        _value(hub.bore_length_m) or _value(hub.hub_length_m),
        shaft_label=f"shaft {_label(shaft.taper, 'taper', system)}",
        bore_label=f"hub {_label(_taper_of(hub), 'taper', system)}",
    )


def _taper_of(hub: PropellerFigures) -> Figure | None:
    """As it was read, else out of both ends of the bore, as the judge takes it; a pilot has none."""
    if hub.taper is not None or hub.bore_kind == "pilot":
        return hub.taper if hub.bore_kind != "pilot" else None
    if hub.bore_large_m is None or hub.bore_small_m is None or hub.bore_length_m is None:
        return None
    try:
        taper = taper_from_ends(hub.bore_large_m.value, hub.bore_small_m.value, hub.bore_length_m.value)
    except OutsideRange:
        return None
    return Figure(value=float(taper), basis="worked out") if taper > 0 else None


def _is_refused_at_once(pairing: Pairing) -> bool:
    checks = pairing.verdict.checks
    return len(checks) == 1 and checks[0].verdict == NO


def shaft_rows(pairing: Pairing, system: System) -> list[tuple[str, str]]:
    """The same figures as a table."""
    hub, shaft = pairing.propeller, pairing.room
    return [
        ("Shaft, large end", _label(shaft.shaft_diameter_m, "length", system)),
        ("Shaft taper", _label(shaft.taper, "taper", system)),
        ("Shaft taper, length", _label(shaft.taper_length_m, "length", system)),
        ("Bore, large end", _label(hub.bore_large_m, "length", system)),
        ("Bore taper", _label(_taper_of(hub), "taper", system)),
        ("Bore, length", _label(hub.bore_length_m or hub.hub_length_m, "length", system)),
    ]


def room_drawing(pairing: Pairing, system: System) -> Markup | None:
    """The disc under the hull with the bands that handbooks ask for."""
    if _is_refused_at_once(pairing):
        return None
    diameter, clearance = pairing.propeller.diameter_m, pairing.room.hull_clearance_m
    gap = clearance.value - diameter.value / 2 if diameter and clearance else None
    return disc_under_hull(
        _value(diameter),
        _value(clearance),
        bands=_bands(diameter),
        diameter_label=f"⌀ {_label(diameter, 'length', system)}" if diameter else "",
        tip_gap_label=quantities.show(gap, "length", system) if gap is not None else "",
    )


def _bands(diameter: Figure | None) -> list[RuleBand]:
    if diameter is None:
        return []
    bands = [one for one in handbook_rule(diameter.value) if round(100 * float(one.share_ratio)) in (10, 15)]
    return [RuleBand(label=f"{100 * float(one.share_ratio):.0f} %", clearance_m=float(one.gap_m)) for one in bands]


def room_rows(pairing: Pairing, system: System) -> list[tuple[str, str]]:
    """The same figures as a table."""
    return [
        ("Diameter", _label(pairing.propeller.diameter_m, "length", system)),
        ("Shaft centre to hull", _label(pairing.room.hull_clearance_m, "length", system)),
    ]


def _value(figure: Figure | None) -> float | None:
    return None if figure is None else figure.value


def _label(figure: Figure | None, kind: Any, system: System) -> str:
    return "not known" if figure is None else quantities.show(figure.value, kind, system, u=figure.u or None)
