"""The list for the propeller shop: which blade, which radius, how far at which edge."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from yardapp.bench.survey.cells import SurveyReading, Table
from yardapp.bench.survey.worked import Worked
from yardapp.bench.tools import K
from yardapp.formulas.iso484 import CLASSES, scope
from yardapp.formulas.repitch import edge_moves, sections_to_move


def shop_list(one: Worked, reading: SurveyReading) -> dict[str, Any] | None:
    """What to move, to bring the propeller to the pitch and class that are wanted; None without a class to reach.

    Where nobody says what pitch it should have, the blades are made alike: every section goes to the propeller's mean.
    """
    if reading.wanted_class not in CLASSES:
        return None
    wanted_m = reading.wanted_pitch_m or reading.design_pitch_m or one.means.propeller_m
    part = scope(reading.diameter_m or np.nan).part
    moved = sections_to_move(one.means, wanted_m, reading.wanted_class, part)
    return {
        "wanted_m": float(wanted_m),
        "is_own_mean": not (reading.wanted_pitch_m or reading.design_pitch_m),
        "class": reading.wanted_class,
        "moves": [_move(one, int(blade), int(ring), wanted_m) for blade, ring in np.argwhere(moved)],
    }


def _move(one: Worked, blade: int, ring: int, wanted_m: float) -> dict[str, Any]:
    """One section: what each edge moves, up being off the table with the propeller face down."""
    section_m, swing_rad = float(one.means.section_m[blade, ring]), float(_swing(one.table)[blade, ring])
    moves = edge_moves(section_m, swing_rad, wanted_m)
    u_m = float(one.u_of("section_m")[blade, ring]) * swing_rad / (4 * np.pi)
    return {
        "blade": blade + 1,
        "radius_ratio": one.table.radii[ring],
        "pitch_m": section_m,
        "swing_rad": swing_rad,
        "leading_m": float(moves.leading_m),
        "trailing_m": float(moves.trailing_m),
        "u_m": u_m if one.spread else None,
        "is_within_readings": bool(abs(float(moves.leading_m)) <= K * u_m),
    }


def _swing(table: Table) -> NDArray[np.float64]:
    """From the first to the last reading of each section."""
    angles_rad = np.where(np.isnan(table.heights_m), np.nan, table.angles_rad)
    is_read = ~np.isnan(angles_rad)
    last = np.where(is_read, angles_rad, -np.inf).max(axis=-1)
    first = np.where(is_read, angles_rad, np.inf).min(axis=-1)
    return np.asarray(last - first)
