"""What can be done at the bench: one door."""

from yardapp.bench.models import Sheet
from yardapp.bench.repeating import settled
from yardapp.bench.services.bore import BORE, BoreReading, bore_of, measure_bore
from yardapp.bench.services.diameter import DIAMETER, DiameterReading, diameter_of, measure_diameter
from yardapp.bench.services.keeping import Filled, Method, known_of, look, measure
from yardapp.bench.services.pitch import PITCH, PitchReading, measure_pitch, pitch_of
from yardapp.bench.services.sheets import (
    ON_ONE_PAGE,
    AtBench,
    SheetRow,
    at_bench,
    newest_sheets,
    readings_of,
    sheet_by_id,
    sheets_of,
)
from yardapp.bench.services.tools import add_tool, change_tool, tool_by_name, tools
from yardapp.bench.sums import Known, Outcome, figures_read

METHODS = {method.name: method for method in (DIAMETER, PITCH, BORE)}

__all__ = [
    "BORE",
    "DIAMETER",
    "METHODS",
    "ON_ONE_PAGE",
    "PITCH",
    "AtBench",
    "BoreReading",
    "DiameterReading",
    "Filled",
    "Known",
    "Method",
    "Outcome",
    "PitchReading",
    "Sheet",
    "SheetRow",
    "add_tool",
    "at_bench",
    "bore_of",
    "change_tool",
    "diameter_of",
    "figures_read",
    "known_of",
    "look",
    "measure",
    "measure_bore",
    "measure_diameter",
    "measure_pitch",
    "newest_sheets",
    "pitch_of",
    "readings_of",
    "settled",
    "sheet_by_id",
    "sheets_of",
    "tool_by_name",
    "tools",
]
