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
    """The bore, where its taper was read."""
    if outcome.value is None:
        return None, []
    large, length = readings["bore_large_m"], readings["bore_length_m"]
    label = f"⌀ {figure('bore_large_m', large, system)}, {figure('taper', outcome.value, system)}"
    drawing = bore_on_taper(None, None, None, large, outcome.value, length, bore_label=label)
    names = ("bore_large_m", "bore_small_m", "bore_length_m")
    return drawing, [(LABELS[name], figure(name, readings[name], system)) for name in names]
