"""What came of a sheet, put into the words of a page. No database, no request: a look and a kept sheet read alike."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import tau
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.bench.geometry import mark_radius
from yardapp.bench.sums import Compared, Known, Near, Outcome, Sum
from yardapp.bench.tools import K
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.helix import helix_triangle
from yardapp.drawings.propeller import from_aft
from yardapp.filters import kind_of
from yardapp.quantities import System

LABELS = {
    "diameter_m": "Diameter",
    "tip_radius_m": "Tip radius",
    "across_m": "Tip to opposite tip",
    "chord_m": "Tip to tip",
    "pitch_m": "Pitch",
    "pitch_ratio": "Pitch over diameter",
    "rise_m": "Rise",
    "leading_m": "Leading edge, height",
    "trailing_m": "Trailing edge, height",
    "swing_rad": "Swing",
    "angle_rad": "Blade angle",
    "radius_m": "Radius of the mark",
    "bore_large_m": "Bore, large end",
    "bore_small_m": "Bore, small end",
    "bore_length_m": "Bore, length between",
    "large_m": "Large end",
    "small_m": "Small end",
    "length_m": "Length between",
    "taper": "Taper",
    "taper_angle_rad": "Angle, side to side",
    "keyway_width_m": "Keyway, width",
    "keyway_depth_m": "Keyway, depth",
    "hub_length_m": "Hub, length",
    "hub_diameter_m": "Hub, diameter",
    "blades": "Blades",
}
WORDS = {
    "blade": "Blade",
    "blades": "Blades",
    "climbs": "Climbs, seen from above",
    "tips": "Which tips",
    "bore_kind": "Kind of bore",
}
TIPS = {"far": "the two furthest apart", "next": "neighbours"}
METHODS = {"diameter": "Diameter", "pitch": "Pitch", "bore": "Bore"}
HEADINGS = {"diameter": "Diameter", "pitch": "Pitch", "bore": "Bore, keyway and hub"}
BASIS = {
    "measured": "Measured before",
    "stamped": "Stamped",
    "decoded": "Read from its mark",
    "paper": "On paper",
    "guessed": "Guessed",
}
SIXTH = tau / 6
INCH_M = 0.0254


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One outcome as a page shows it."""

    lead: str
    read_with: str
    figures: list[dict[str, Any]]
    sums: list[dict[str, Any]]
    agreements: list[dict[str, str]]
    remarks: tuple[str, ...]
    near: list[str]
    drawing: Markup | None
    drawing_rows: list[tuple[str, str]]


def shown(method: str, outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Shown:
    """Everything that the readings say."""
    drawing, rows = _picture(method, outcome, readings, known, system)
    return Shown(
        lead=lead(method, outcome, readings, system),
        read_with=_read_with(readings, system),
        figures=_figures(method, outcome, readings),
        sums=[_sum(one, system) for one in outcome.sums],
        agreements=[_agreement(one, method, system) for one in outcome.compared],
        remarks=outcome.remarks,
        near=_near(outcome.near, outcome.value),
        drawing=drawing,
        drawing_rows=rows,
    )


def mark_of(known: Known, system: System) -> float | None:
    """Where a blade is marked: 0.7 R to the nearest millimetre or sixteenth, as a rule is read."""
    if not known.diameter_m:
        return None
    step_m = INCH_M / 16 if system == "in" else 0.001
    return round(float(mark_radius(known.diameter_m)) / step_m) * step_m


def figure(name: str, value: Any, system: System, u: float | None = None) -> str:
    """One figure by its name; a plain count where the name has no unit."""
    if name == "blades":
        return f"{value:.0f}"
    return quantities.show(value, kind_of(name), system, u=u)


def lead(method: str, outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """The sheet in one line: `Pitch 582 ± 4 mm`."""
    if method != "bore":
        return f"{METHODS[method]} {figure(outcome.answer, outcome.value, system, outcome.u)}"
    taper = [figure("taper", outcome.value, system, outcome.u)] if outcome.value is not None else []
    large = [figure("bore_large_m", readings["bore_large_m"], system)] if "bore_large_m" in readings else []
    kind = str(readings.get("bore_kind") or "")
    said = [*large, *taper, kind if kind and not taper else ""]
    return f"Bore {', '.join(part for part in said if part)}" if any(said) else "Keyway and hub"


def _figures(method: str, outcome: Outcome, readings: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The answer first, then what follows from it; of a bore also what was read."""
    rows = [_row(one.what, one.value, one.u) for one in sorted(outcome.sums, key=_answer_first(outcome))]
    if method == "bore":
        rows += [
            _row(name, readings[name], readings[f"u_{name}"])
            for name in LABELS
            if name in readings and f"u_{name}" in readings
        ]
    return rows


def _answer_first(outcome: Outcome) -> Any:
    return lambda one: one.what != outcome.answer


def _row(name: str, value: float, u: float | None) -> dict[str, Any]:
    row: dict[str, Any] = {"label": LABELS[name]}
    if kind_of(name) != "length":
        return row | {"first": figure(name, value, "mm", u)}
    first, second = (figure(name, value, system, u) for system in ("mm", "in"))
    return row | {"first": first.removesuffix(" mm"), "second": second.removesuffix(" in")}


def _read_with(readings: Mapping[str, Any], system: System) -> str:
    """`Height gauge ± 0.1 mm, degree ring ± 0.5°`: each tool once, with the ± that was reckoned with."""
    said = (
        f"{readings[f'{name}_tool']} ± {figure(name, K * readings[f'u_{name}'], system)}"
        for name in LABELS
        if readings.get(f"{name}_tool") and readings.get(f"u_{name}")
    )
    tools = ", ".join(dict.fromkeys(said))
    return f"Read with {tools}." if tools else ""


def _sum(one: Sum, system: System) -> dict[str, Any]:
    """A sum, opened: what went in, the formula by name, and where it comes from."""
    return {
        "label": LABELS[one.what],
        "said": figure(one.what, one.value, system, one.u),
        "formula": one.formula,
        "source": one.source,
        "inputs": [(LABELS[put.name], figure(put.name, put.value, system, put.u)) for put in one.inputs],
    }


def _agreement(one: Compared, method: str, system: System) -> dict[str, str]:
    """Whether another statement and this reading can both be true, in a sentence."""
    kind = kind_of(one.what)
    of = "" if method != "bore" else f", {LABELS[one.what].lower()}"
    theirs = quantities.both(one.value, kind, system)
    apart = quantities.show(abs(one.apart), kind, system)
    allowed = quantities.plus_minus(one.allowed, one.allowed / K, kind, system).partition("± ")[2]
    more = "more" if one.apart > 0 else "less"
    row = {"label": f"{BASIS[one.basis]}{of}:"}
    if one.agrees:
        return row | {"verdict": "yes", "said": f"{theirs}. It agrees, within what the readings allow."}
    if not one.is_sure:
        return row | {"verdict": "ask", "said": f"{theirs}. Neither says how well it was read."}
    asks = " Re-pitched since?" if one.what == "pitch_m" and one.basis == "stamped" else ""
    if kind == "taper":
        return row | {"verdict": "no", "said": f"{theirs}. The readings do not allow that."}
    said = f"{theirs}, {apart} {more} than read here; the readings allow {allowed}.{asks}"
    return row | {"verdict": "no", "said": said}


def _near(near: Near | None, taper: float | None) -> list[str]:
    """Which standard it is, or that it is none."""
    if near is None:
        return []
    said = []
    if taper is not None:
        ratio = quantities.show(near.taper, "taper") if near.taper else ""
        said.append(f"Nearest standard taper: {ratio}." if ratio else "Nearest standard taper: none of them.")
    if near.end:
        said.append(f"Standard shaft end: {near.end}.")
    elif near.nearest:
        said.append(f"Standard shaft end: none of them; {near.nearest} comes nearest.")
    return said


def _picture(
    method: str, outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System
) -> tuple[Markup | None, list[tuple[str, str]]]:
    if method == "pitch":
        return _helix(outcome, readings, system)
    if method == "diameter":
        label = f"⌀ {figure('diameter_m', outcome.value, system, outcome.u)}"
        drawing = from_aft(outcome.value, readings.get("blades") or known.blades, known.hand, diameter_label=label)
        return drawing, [(LABELS["diameter_m"], figure("diameter_m", outcome.value, system, outcome.u))]
    return _bore(outcome, readings, system)


def _helix(outcome: Outcome, readings: Mapping[str, Any], system: System) -> tuple[Markup, list[tuple[str, str]]]:
    """The triangle that was read; by angle alone, a sixth of a turn stands for it."""
    radius = readings.get("radius_m")
    swing = readings.get("swing_rad") or SIXTH
    rise = (outcome.value or 0.0) * swing / tau
    named = {"radius_m": radius, "swing_rad": swing, "rise_m": rise}
    angle = outcome.sum_of("angle_rad")
    slope = readings.get("angle_rad") or (angle.value if angle else None)
    drawing = helix_triangle(
        radius,
        swing,
        rise,
        base_label=f"{figure('swing_rad', swing, system)} round",
        rise_label=figure("rise_m", rise, system),
        angle_label=figure("angle_rad", slope, system) if slope else "",
        pitch_label=figure("pitch_m", outcome.value, system),
        turn_label="one full turn",
    )
    rows = [(LABELS[name], figure(name, value, system)) for name, value in named.items() if value is not None]
    return drawing, [*rows, (LABELS["pitch_m"], figure("pitch_m", outcome.value, system, outcome.u))]


def _bore(outcome: Outcome, readings: Mapping[str, Any], system: System) -> tuple[Markup | None, list[tuple[str, str]]]:
    if outcome.value is None:
        return None, []
    large, length = readings["bore_large_m"], readings["bore_length_m"]
    label = f"⌀ {figure('bore_large_m', large, system)}, {figure('taper', outcome.value, system)}"
    drawing = bore_on_taper(None, None, None, large, outcome.value, length, bore_label=label)
    names = ("bore_large_m", "bore_small_m", "bore_length_m")
    return drawing, [(LABELS[name], figure(name, readings[name], system)) for name in names]


def as_typed(readings: Mapping[str, Any], system: System) -> list[tuple[str, str, str]]:
    """Each reading: its label and tool, as typed, and as understood with its ±."""
    rows = [
        (
            f"{LABELS[name]}, {readings[f'{name}_tool']}" if readings.get(f"{name}_tool") else LABELS[name],
            str(readings.get(f"{name}_typed") or "not typed"),
            figure(name, readings[name], system, readings.get(f"u_{name}")),
        )
        for name in LABELS
        if name != "blades" and name in readings
    ]
    words = [(WORDS[name], readings[name]) for name in WORDS if readings.get(name)]
    return [*rows, *((label, "", TIPS.get(str(said), str(said))) for label, said in words)]
