"""The propeller that suits a boat: best diameter, best pitch, and where engine, hull and propeller agree."""

from yardapp.formulas.sizing_best import Selection, best_diameter, best_pitch
from yardapp.formulas.sizing_handbook import (
    PitchRatios,
    handbook_diameter,
    handbook_pitch_ratio,
    handbook_slip,
    repitch_limit,
    usual_slip,
)
from yardapp.formulas.sizing_load import WorkingPoint, shaft_speed_at_torque, working_point
from yardapp.formulas.sizing_meeting import Drive, HullCurve, Meeting, Propellers, meeting_point
from yardapp.formulas.sizing_pitch import equal_load_pitch, pitch_for_power, pitch_for_thrust

__all__ = [
    "Drive",
    "HullCurve",
    "Meeting",
    "PitchRatios",
    "Propellers",
    "Selection",
    "WorkingPoint",
    "best_diameter",
    "best_pitch",
    "equal_load_pitch",
    "handbook_diameter",
    "handbook_pitch_ratio",
    "handbook_slip",
    "meeting_point",
    "pitch_for_power",
    "pitch_for_thrust",
    "repitch_limit",
    "shaft_speed_at_torque",
    "usual_slip",
    "working_point",
]
