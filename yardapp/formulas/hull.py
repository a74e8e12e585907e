"""Speed, resistance and power of a hull: handbook lines, Delft, Holtrop & Mennen, Savitsky."""

from yardapp.formulas.hull_choice import HullFigures, HullResistance, resistance
from yardapp.formulas.hull_delft import DelftResistance, delft_resistance
from yardapp.formulas.hull_handbook import (
    DisplacementSpeed,
    crouch_constant,
    crouch_power,
    crouch_speed,
    displacement_limit,
    displacement_power,
    displacement_speed,
)
from yardapp.formulas.hull_holtrop import holtrop_resistance
from yardapp.formulas.hull_holtrop_steps import HoltropResistance
from yardapp.formulas.hull_savitsky import savitsky, savitsky_at_trim
from yardapp.formulas.hull_savitsky_steps import Planing, keel_wetted_length

__all__ = [
    "DelftResistance",
    "DisplacementSpeed",
    "HoltropResistance",
    "HullFigures",
    "HullResistance",
    "Planing",
    "crouch_constant",
    "crouch_power",
    "crouch_speed",
    "delft_resistance",
    "displacement_limit",
    "displacement_power",
    "displacement_speed",
    "holtrop_resistance",
    "keel_wetted_length",
    "resistance",
    "savitsky",
    "savitsky_at_trim",
]
