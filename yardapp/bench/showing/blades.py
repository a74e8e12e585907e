"""The blades that were read at one mark, side by side."""

from typing import Any

from yardapp.bench.blades import MEAN
from yardapp.bench.showing.words import figure
from yardapp.bench.sums import Outcome
from yardapp.quantities import System


def tables(outcome: Outcome, system: System) -> list[dict[str, Any]]:
    """Each blade's pitch at this mark, its ±, and how far it is off their mean."""
    found, mean = outcome.more.get("beside"), outcome.sum_of(MEAN)
    if not found or mean is None:
        return []
    rows = [
        (
            str(one["blade"]),
            figure("pitch_m", one["pitch_m"], system, one["u_m"]),
            _off(one["pitch_m"] - mean.value, system),
            str(one["sheet_id"] or "this"),
        )
        for one in found["blades"]
    ]
    at = f" at {figure('radius_m', found['radius_m'], system)}" if found["radius_m"] else ""
    said = figure("pitch_m", mean.value, system, mean.u)
    return [
        {
            "caption": f"The blades{at}",
            "heads": ("Blade", "Pitch", "Off their mean", "Sheet"),
            "rows": rows,
            "note": f"Mean of these {len(rows)} blades: {said}. What one template or gauge gets wrong on every blade "
            "alike does not average out in it.",
        }
    ]


def _off(off_m: float, system: System) -> str:
    said = figure("pitch_m", abs(off_m), system)
    return "none" if not off_m else f"{said} {'more' if off_m > 0 else 'less'}"
