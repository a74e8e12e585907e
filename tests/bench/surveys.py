"""Surveys for tests: cells of a helicoid that is made here, not by the code under test."""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from yardapp.bench.survey.cells import Cell, SurveyReading

RADII = (0.5, 0.6, 0.7, 0.8)
ANGLES_DEG = (0.0, 15.0, 30.0, 45.0)


def cells_of(
    pitch_m: Callable[[int, float], float] | float,
    *,
    blades: int = 3,
    radii: Sequence[float] = RADII,
    angles_deg: Sequence[float] = ANGLES_DEG,
    way: float = 1.0,
) -> list[Cell]:
    """One cell a station; `pitch_m(blade, radius_ratio)` may differ by place, `way` -1 makes the face fall."""
    found: list[Cell] = []
    for blade in range(1, blades + 1):
        for radius in radii:
            here = pitch_m(blade, radius) if callable(pitch_m) else pitch_m
            for station, angle_deg in enumerate(angles_deg, 1):
                height_m = 0.02 + way * here * angle_deg / 360
                found.append(
                    Cell(
                        blade=blade,
                        radius_ratio=radius,
                        station=station,
                        height_m=height_m,
                        angle_rad=float(np.radians(angle_deg)),
                    )
                )
    return found


def reading_of(cells: Sequence[Cell], **said: Any) -> SurveyReading:
    """A survey by height gauge and ring: ± 0.1 mm and ± 0.1 degrees, k = 2."""
    usual = {"blades": 3, "hand": "right", "u_height_m": 0.00005, "u_angle_rad": float(np.radians(0.05))}
    return SurveyReading(**{**usual, **said}, cells=list(cells))
