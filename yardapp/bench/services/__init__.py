"""What can be done at the bench: one door."""

from yardapp.bench.models import Sheet
from yardapp.bench.repeating import settled
from yardapp.bench.services.alike import ALIKE, AlikeReading, alike_of
from yardapp.bench.services.bore import BORE, BoreReading, bore_of, measure_bore
from yardapp.bench.services.diameter import DIAMETER, DiameterReading, diameter_of, measure_diameter
from yardapp.bench.services.half_done import (
    InWriting,
    begin_sheet,
    drop_sheet,
    finish_sheet,
    in_writing,
    sheets_in_writing,
    typed_at,
    write_boxes,
)
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
from yardapp.bench.services.survey import (
    SURVEY,
    begin_correction,
    begin_survey,
    design_pitch_of,
    keep_survey,
    measure_survey,
    survey_of,
)
from yardapp.bench.services.tools import add_tool, change_tool, tool_by_name, tools
from yardapp.bench.sums import Known, Outcome, figures_read
from yardapp.bench.survey.boxes import boxes_of
from yardapp.bench.survey.cells import Cell, SurveyReading
from yardapp.bench.survey.words import class_note, error_note, fault_said

METHODS = {method.name: method for method in (DIAMETER, PITCH, BORE, SURVEY, ALIKE)}

__all__ = [
    "ALIKE",
    "BORE",
    "DIAMETER",
    "METHODS",
    "ON_ONE_PAGE",
    "PITCH",
    "SURVEY",
    "AlikeReading",
    "AtBench",
    "BoreReading",
    "Cell",
    "DiameterReading",
    "Filled",
    "InWriting",
    "Known",
    "Method",
    "Outcome",
    "PitchReading",
    "Sheet",
    "SheetRow",
    "SurveyReading",
    "add_tool",
    "alike_of",
    "at_bench",
    "begin_correction",
    "begin_sheet",
    "begin_survey",
    "bore_of",
    "boxes_of",
    "change_tool",
    "class_note",
    "design_pitch_of",
    "diameter_of",
    "drop_sheet",
    "error_note",
    "fault_said",
    "figures_read",
    "finish_sheet",
    "in_writing",
    "keep_survey",
    "known_of",
    "look",
    "measure",
    "measure_bore",
    "measure_diameter",
    "measure_pitch",
    "measure_survey",
    "newest_sheets",
    "pitch_of",
    "readings_of",
    "settled",
    "sheet_by_id",
    "sheets_in_writing",
    "sheets_of",
    "survey_of",
    "tool_by_name",
    "tools",
    "typed_at",
    "write_boxes",
]
