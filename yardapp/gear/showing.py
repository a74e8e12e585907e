"""What stands in the register, put into the words of a page. No database, no request."""

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.drawings.propeller import from_aft
from yardapp.filters import day
from yardapp.gear.figures import FIGURES, figures_of
from yardapp.gear.services import ItemPage, ItemRow, Line
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


def size_of(row: ItemRow, system: System) -> str:
    """`22 × 18 in, 3 blades, right hand`: diameter first, pitch second, then blades and hand, as people say it."""
    if row.kind == "shaft":
        parts = [_length(row.diameter_m, system), row.taper and quantities.show(row.taper, "taper", system)]
        return ", ".join(part for part in parts if part) or "not measured yet"
    parts = [_pair(row, system), f"{row.blades} blades" if row.blades else "", f"{row.hand} hand" if row.hand else ""]
    return ", ".join(part for part in parts if part) or row.stamp or "not measured yet"


def _length(value: float | None, system: System) -> str:
    return quantities.show(value, "length", system) if value is not None else ""


def _pair(row: ItemRow, system: System) -> str:
    if row.diameter_m is None and row.pitch_m is None:
        return ""
    unit = " in" if system == "in" else " mm"
    diameter, pitch = (_length(size, system).removesuffix(unit) or "?" for size in (row.diameter_m, row.pitch_m))
    return f"{diameter} × {pitch}{unit}"


def listed(row: ItemRow, system: System, href: str) -> dict[str, str]:
    """One row of a list of items."""
    flag = "proposed" if row.is_proposed else "evidence disagrees" if row.is_at_odds else ""
    return {"tag": row.tag, "href": href, "size": size_of(row, system), "where": row.where, "flag": flag}


def said_in(what: str, value: float | None, u: float | None, word: str | None, system: System) -> str:
    """One statement's figure as text; `±` where the reading has one."""
    if value is None:
        return word.capitalize() if word and what != "stamp" else word or "withdrawn"
    return quantities.show(value, FIGURES[what].kind, system, u=u)


def figure_rows(page: ItemPage, system: System, href: Any, gap_href: Any) -> list[dict[str, Any]]:
    """The table of working figures: what is known, from what, against what; gaps and what fills them."""
    return [
        _known(page, figure.name, system, href) if figure.name in page.item.known else _gap(figure.name, href, gap_href)
        for figure in figures_of(page.item.kind)
    ]


def _gap(what: str, href: Any, gap_href: Any) -> dict[str, Any]:
    fills = gap_href(what) or href(what)
    return {"label": FIGURES[what].label, "href": href(what), "gap": GAPS[what], "gap_href": fills}


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
    return row | _at_odds(page, what, system)


def _known_from(page: ItemPage, what: str) -> str:
    basis = page.item.known[what]
    line = next((one for one in page.evidence if one.kind == what and one.basis == basis and not one.is_replaced), None)
    if line is None:
        return BASIS[basis]
    how = line.note if basis == "measured" and line.note and len(line.note) <= 24 else BASIS[basis]
    return f"{how}, {day(line.true_from or line.at)}"


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


def evidence_rows(lines: Sequence[Line], system: System, href: Any) -> list[dict[str, Any]]:
    """Every statement about one figure, newest first, replaced ones struck through."""
    return [
        {
            "when": day(line.true_from or line.at) if line.true_from else f"written {day(line.at)}",
            "who": line.said_by,
            "what": f"{said_in(line.kind, line.value, line.u_value, line.word, system)}, {BASIS[line.basis]}",
            "note": _remarks(line),
            "href": href(line),
            "replaced": line.is_replaced,
        }
        for line in lines
    ]


def _remarks(line: Line) -> str:
    typed = f"typed “{line.typed}”" if line.typed else ""
    why = f"in place of an earlier one: {line.why}" if line.why else ""
    return "; ".join(part for part in (line.note, typed, why) if part)


def history_rows(page: ItemPage) -> list[dict[str, Any]]:
    """What happened to the item, newest first."""
    return [
        {"when": day(line.at), "who": line.said_by, "what": _event(line), "note": line.note} for line in page.events
    ]


def _event(line: Line) -> str:
    what = line.kind.capitalize()
    if line.kind in ("came off", "went on") and line.drive:
        what = f"{what} {line.drive}"
    put = line.place if line.kind in ("logged", "came off", "moved", "found") else ""
    return f"{what}; put in {put}" if put else what


def picture_of(page: ItemPage, system: System) -> Markup | None:
    """The propeller to scale from its own figures; nothing for a shaft."""
    item = page.item
    if item.kind != "propeller":
        return None
    label = f"⌀ {quantities.show(item.diameter_m, 'length', system, u=item.u_diameter_m)}" if item.diameter_m else ""
    return from_aft(
        item.diameter_m,
        item.blades,
        item.hand,
        hub_diameter_m=item.hub_diameter_m,
        bore_m=item.bore_large_m,
        pitch_m=item.pitch_m,
        diameter_label=label,
    )


def picture_rows(page: ItemPage, system: System) -> list[tuple[str, str]]:
    """The drawing's figures as a table."""
    item = page.item
    names = ("diameter_m", "hub_diameter_m", "bore_large_m", "pitch_m")
    rows = [(FIGURES[name].label, quantities.show(getattr(item, name), "length", system)) for name in names]
    return [*rows, ("Blades", str(item.blades or "not known")), ("Hand", item.hand or "not known")]
