"""What can be asked of the fit: one door."""

from yardapp.fit.services.pairing import (
    Pairing,
    drive_choices,
    drive_figures,
    judge,
    pairing,
    propeller_choices,
    propeller_figures,
)
from yardapp.fit.services.trying import Tried, log_tried, try_size
from yardapp.fit.verdict import RULES
from yardapp.fit.verdict import judge as judge_figures

__all__ = [
    "RULES",
    "Pairing",
    "Tried",
    "drive_choices",
    "drive_figures",
    "judge",
    "judge_figures",
    "log_tried",
    "pairing",
    "propeller_choices",
    "propeller_figures",
    "try_size",
]
