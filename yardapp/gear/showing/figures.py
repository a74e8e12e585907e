"""Figures and the statements behind them, as rows of a page."""

from collections.abc import Sequence
from typing import Any

from yardapp import quantities
from yardapp.filters import day
from yardapp.gear.figures import FIGURES, figures_of
from yardapp.gear.services import ItemPage, Line
from yardapp.gear.showing.doubtful import possibly_of
from yardapp.quantities import System

BASIS = {
    "measured": "measured",
    "stamped": "stamped",
    "decoded": "read from its mark",
    "paper": "on paper",
    "guessed": "guessed",
}
# The reading that would fill a gap.
GAPS = {
    "hand": "Look how the near blade leans",
    "blades": "Count them",
    "diameter_m": "Measure a tip radius",
    "pitch_m": "Measure rise and angle",
    "bore_kind": "Look into the bore",
    "bore_large_m": "Caliper across the large end",
    "bore_small_m": "Caliper across the small end",
    "bore_length_m": "Measure between the two bore readings",
    "taper": "Measure both ends and the length",
    "taper_length_m": "Measure along the taper",
    "keyway_width_m": "Caliper across the keyway",
    "keyway_depth_m": "Measure at the side of the keyway",
    "hub_length_m": "Measure along the hub",
    "hub_diameter_m": "Caliper across the hub",
    "thread_diameter_m": "Caliper across the thread, or the mating shaft's",
    "thread_pitch_m": "Count threads along a rule",
    "lock_kind": "Look what holds the nut",
    "key_kind": "Look at its shape",
    "gland_kind": "Look whether it is packed or a seal",
    "bore_m": "Caliper across the bore",
    "outside_diameter_m": "Caliper across the outside",
    "bolt_circle_m": "Measure across two opposite bolt holes",
    "packing_m": "Caliper across the old packing",
    "width_m": "Caliper across it",
    "height_m": "Caliper from bottom to top",
    "anode_metal": "Look for a stamp; zinc is the heaviest",
    "left_ratio": "Weigh it against a new one",
    "length_m": "Measure end to end",
    "material": "Look at a clean spot",
    "area_ratio": "Measure the widths of a blade",
    "mass_kg": "Weigh it",
    "blade_kind": "Look whether they fold or turn",
}
# Which bench sheet takes the reading; the rest is typed on the figure's own page.
ON_SHEETS = {
    "propeller": {
        "diameter_m": "diameter",
        "pitch_m": "pitch",
        "bore_large_m": "bore",
        "bore_small_m": "bore",
        "bore_length_m": "bore",
        "taper": "bore",
        "keyway_width_m": "bore",
        "keyway_depth_m": "bore",
        "hub_length_m": "bore",
        "hub_diameter_m": "bore",
    },
    "shaft": {
        "diameter_m": "wear",
        "taper": "shaft_end",
        "taper_length_m": "shaft_end",
        "keyway_width_m": "shaft_end",
        "keyway_depth_m": "shaft_end",
    },
}


def said_in(what: str, value: float | None, u: float | None, word: str | None, system: System) -> str:
    """One statement's figure as text; `±` where the reading has one."""
    if value is None:
        return word.capitalize() if word and what != "stamp" else word or "withdrawn"
    return quantities.show(value, FIGURES[what].kind, system, u=u)


def figure_rows(page: ItemPage, system: System, href: Any, gap_href: Any) -> list[dict[str, Any]]:
    """The table of working figures: what is known, from what, against what; gaps and what fills them."""
    return [
        _known(page, figure.name, system, href)
        if figure.name in page.item.known
        else _gap(page.item.kind, figure.name, href, gap_href)
        for figure in figures_of(page.item.kind)
    ]


def _gap(kind: str, what: str, href: Any, gap_href: Any) -> dict[str, Any]:
    fills = gap_href(what) or href(what)
    return {"label": FIGURES[what].label, "href": href(what), "gap": gap_of(kind, what), "gap_href": fills}


def gap_of(kind: str, what: str) -> str:
    """The reading that would fill a gap of this kind of thing."""
    return "Look which way it goes on" if (kind, what) == ("nut", "hand") else GAPS[what]


def _known(page: ItemPage, what: str, system: System, href: Any) -> dict[str, Any]:
    item, figure = page.item, FIGURES[what]
    value = None if figure.is_word else getattr(item, what)
    u = None if figure.is_word else getattr(item, f"u_{what}", None)
    word = getattr(item, what) if figure.is_word else None
    row = {"label": figure.label, "href": href(what), "basis": _known_from(page, what)}
    if figure.kind != "length":
        row["first"] = said_in(what, value, u, word, system)
    else:
        row["first"], row["second"] = (said_in(what, value, u, None, one) for one in ("mm", "in"))
        row["first"], row["second"] = row["first"].removesuffix(" mm"), row["second"].removesuffix(" in")
    return row | (_at_odds(page, what, system) or _doubtful(page, what))


def _doubtful(page: ItemPage, what: str) -> dict[str, str]:
    """Whether the working figure was read while two tags may have been crossed."""
    line = _working_line(page, what)
    other = possibly_of(page, line) if line is not None else ""
    return {"flag": "perhaps the other’s", "said": f"It is {other}. Read it again."} if other else {}


def _known_from(page: ItemPage, what: str) -> str:
    basis = page.item.known[what]
    line = _working_line(page, what)
    if line is None:
        return BASIS[basis]
    how = line.note if basis == "measured" and line.note and len(line.note) <= 24 else BASIS[basis]
    return f"{how}, {day(line.true_from or line.at)}"


def _working_line(page: ItemPage, what: str) -> Line | None:
    """The statement that a working figure rests on."""
    basis = page.item.known[what]
    return next((one for one in page.evidence if one.kind == what and one.basis == basis and not one.is_replaced), None)


def _at_odds(page: ItemPage, what: str, system: System) -> dict[str, str]:
    """What contradicts the working figure, in words."""
    found = [one for one in page.item.odds if one["what"] == what]
    lines = [(page.statement(one["working"]), page.statement(one["other"]), one["sure"]) for one in found]
    said = [disagreement(ours, other, is_sure, system) for ours, other, is_sure in lines if ours and other]
    if not said:
        return {}
    flag = f"{BASIS[lines[0][1].basis]} disagrees" if lines[0][1] else "disagrees"
    return {"flag": "stamp disagrees" if flag.startswith("stamped") else flag, "said": " ".join(said)}


def disagreement(ours: Line, other: Line, is_sure: bool, system: System) -> str:
    """One contradiction in a sentence."""
    theirs = said_in(other.kind, other.value, None, other.word, system)
    basis = BASIS[other.basis]
    if ours.value is None or other.value is None:
        own = said_in(ours.kind, ours.value, None, ours.word, system).lower()
        return f"{theirs} {basis}, {own} {BASIS[ours.basis]}. Look again."
    kind: Any = FIGURES[ours.kind].kind
    apart = quantities.show(abs(other.value - ours.value), kind, system) if kind == "length" else ""
    more = f", {apart} {'more' if other.value > ours.value else 'less'} than {BASIS[ours.basis]}" if apart else ""
    doubt = "" if is_sure else " Neither says how well it was read."
    asks = " Re-pitched since?" if ours.kind == "pitch_m" and other.basis == "stamped" else ""
    return f"{theirs} {basis}{more}.{doubt}{asks}"


def evidence_rows(
    lines: Sequence[Line], system: System, href: Any, page: ItemPage | None = None
) -> list[dict[str, Any]]:
    """Every statement about one figure, newest first, replaced ones struck through, the perhaps other's marked."""
    return [
        {
            "when": day(line.true_from or line.at) if line.true_from else f"written {day(line.at)}",
            "who": line.said_by,
            "what": f"{said_in(line.kind, line.value, line.u_value, line.word, system)}, {BASIS[line.basis]}",
            "note": "; ".join(filter(None, (_remarks(line), possibly_of(page, line)))),
            "href": href(line),
            "replaced": line.is_replaced,
        }
        for line in lines
    ]


def _remarks(line: Line) -> str:
    typed = f"typed “{line.typed}”" if line.typed else ""
    why = f"in place of an earlier one: {line.why}" if line.why else ""
    return "; ".join(part for part in (line.note, typed, why) if part)
