"""The picture of each method, to scale from its own readings, with its figures for the table under it."""

from collections.abc import Mapping
from math import atan2, tau
from typing import Any

from markupsafe import Markup

from yardapp.bench.showing.words import LABELS, figure
from yardapp.bench.sums import Known, Outcome
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.helix import helix_triangle
from yardapp.drawings.propeller import from_aft
from yardapp.drawings.template_on_blade import template_on_blade
from yardapp.quantities import System

Picture = tuple[Markup | None, list[tuple[str, str]]]
SIXTH = tau / 6


def of_diameter(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The propeller from aft, its diameter on it."""
    said = figure("diameter_m", outcome.value, system, outcome.u)
    blades = readings.get("blades") or known.blades
    drawing = from_aft(outcome.value, blades, known.hand, diameter_label=f"⌀ {said}")
    return drawing, [(LABELS["diameter_m"], said)]


def of_pitch(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The triangle that was read; by angle alone, a sixth of a turn stands for it."""
    if readings.get("template_pitch_m"):
        return _template(outcome, readings, system)
    radius, swing = readings.get("radius_m"), _swing(outcome, readings)
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


def _template(outcome: Outcome, readings: Mapping[str, Any], system: System) -> Picture:
    """The template on the blade, its gap drawn wider than it is."""
    gap = -readings["gap_m"] if readings.get("gap_at") == "trailing" else readings["gap_m"]
    names = ("template_pitch_m", "radius_m", "gap_m", "width_m")
    drawing = template_on_blade(
        atan2(readings["template_pitch_m"], tau * readings["radius_m"]),
        gap,
        readings["width_m"],
        template_label=f"template {figure('pitch_m', readings['template_pitch_m'], system)}",
        gap_label=f"gap {figure('gap_m', readings['gap_m'], system)}",
        blade_label=f"blade {figure('pitch_m', outcome.value, system)}",
    )
    rows = [(LABELS[name], figure(name, readings[name], system)) for name in names]
    return drawing, [*rows, (LABELS["pitch_m"], figure("pitch_m", outcome.value, system, outcome.u))]


def _swing(outcome: Outcome, readings: Mapping[str, Any]) -> float:
    worked = outcome.sum_of("swing_rad")
    return float(readings.get("swing_rad") or (worked.value if worked else SIXTH))


def of_bore(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """The bore where its taper was read, laid over the shaft's where that is known."""
    shaft = _shaft(readings)
    if outcome.value is None and not all(shaft):
        return None, []
    bore: tuple[Any, Any, Any] = (readings.get("bore_large_m"), outcome.value, readings.get("bore_length_m"))
    if outcome.value is None:
        bore = (None, None, None)
    label = f"⌀ {figure('bore_large_m', bore[0], system)}, {figure('taper', bore[1], system)}" if all(bore) else ""
    drawing = bore_on_taper(*shaft, *bore, bore_label=label, **_on_shaft(outcome, shaft, system))
    names = ("bore_large_m", "bore_small_m", "bore_length_m", "shaft_large_m", "shaft_taper", "shaft_length_m")
    return drawing, [(LABELS[name], figure(name, readings[name], system)) for name in names if readings.get(name)]


def _shaft(readings: Mapping[str, Any]) -> tuple[Any, Any, Any]:
    """The shaft's cone, or nothing at all: half of one can't be drawn."""
    cone = tuple(readings.get(name) for name in ("shaft_large_m", "shaft_taper", "shaft_length_m"))
    return cone if all(cone) else (None, None, None)  # type: ignore[return-value]


def _on_shaft(outcome: Outcome, shaft: tuple[Any, Any, Any], system: System) -> dict[str, Any]:
    """What stands beside a hub on its shaft."""
    up, past = outcome.sum_of("set_up_m"), outcome.sum_of("overhang_m")
    said = {"shaft_label": f"shaft {figure('taper', shaft[1], system)}"} if shaft[1] else {}
    if up:
        way = "up by" if up.value >= 0 else "short by"
        said["set_up_label"] = f"{way} {figure('set_up_m', abs(up.value), system)}"
    if past:
        way = "past" if past.value >= 0 else "short"
        said["overhang_label"] = f"{figure('overhang_m', abs(past.value), system)} {way}"
    return said
