"""What a survey says: pitches with their ±, classes, what stands far off, what a shop must move. Ready for JSON."""

from dataclasses import asdict
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from yardapp.bench.survey.cells import SurveyReading
from yardapp.bench.survey.far import faults_far_off
from yardapp.bench.survey.shop import shop_list
from yardapp.bench.survey.worked import Worked
from yardapp.formulas.survey_class import ClaimedClass
from yardapp.formulas.survey_spread import PitchSpread


def findings(one: Worked, reading: SurveyReading) -> dict[str, Any]:
    """Everything that the survey says, as a sheet keeps it."""
    table, means = one.table, one.means
    return {
        "blades": table.blades,
        "radii": list(table.radii),
        "stations": int(table.heights_m.shape[-1]),
        "hand": table.hand,
        "design_m": reading.design_pitch_m,
        "diameter_m": reading.diameter_m,
        "propeller": _figure(means.propeller_m, one.u_of("propeller_m") if one.spread else None),
        "separate_u_m": one.spread.separate_m if one.spread else None,
        "common_u_m": one.spread.common_m if one.spread else None,
        "blade": _figures(means.blade_m, one.u_of("blade_m"), one.spread),
        "section": _figures(means.section_m, one.u_of("section_m"), one.spread),
        "local": _figures(means.local_m, one.u_of("local_m"), one.spread),
        "classes": _classes(one.claimed),
        "overall": one.claimed.overall if one.claimed else "",
        "scope": one.claimed.scope.said if one.claimed else "",
        "shop": shop_list(one, reading),
        "faults": [fault.kept() for fault in (*table.faults, *faults_far_off(one))],
    }


def _figures(figures_m: ArrayLike, u_m: ArrayLike, spread: PitchSpread | None) -> list[Any]:
    """Nested as the figures are, each `[value, u]`, or None where nothing was read."""
    figures, wide = np.asarray(figures_m, float), np.asarray(u_m, float)
    if figures.ndim > 1:
        return [_figures(*pair, spread) for pair in zip(figures, wide, strict=True)]
    return [_figure(value, u if spread else None) for value, u in zip(figures, wide, strict=True)]


def _figure(value: ArrayLike, u: ArrayLike | None) -> list[float | None] | None:
    value = float(np.asarray(value))
    return None if np.isnan(value) else [value, None if u is None else float(np.asarray(u))]


def _classes(claimed: ClaimedClass | None) -> list[dict[str, Any]]:
    """Each quantity's class with the figures that decide it; an infinite or unknown one is None."""
    rows = [asdict(one) for one in claimed.quantities] if claimed else []
    return [
        {name: None if isinstance(said, float) and not np.isfinite(said) else said for name, said in row.items()}
        for row in rows
    ]
