"""What can be done at the bench: one door."""

from yardapp.bench.models import Fault, FaultClosing, Sheet
from yardapp.bench.repeating import settled
from yardapp.bench.services import strands
from yardapp.bench.services.alike import ALIKE, AlikeReading, alike_of
from yardapp.bench.services.area import AREA, AreaReading, area_of
from yardapp.bench.services.bearing import BEARING, BearingReading, bearing_of
from yardapp.bench.services.bore import BORE, BoreReading, bore_of, measure_bore
from yardapp.bench.services.comparing import Comparison, Difference, compare_sheets
from yardapp.bench.services.condition import (
    Condition,
    FaultRow,
    FaultSaid,
    close_fault,
    condition_of,
    fault_by_id,
    note_ring,
    raise_fault,
    still_open,
)
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
from yardapp.bench.services.keeping import Filled, Looked, Method, known_of, look, measure
from yardapp.bench.services.pitch import PITCH, PitchReading, measure_pitch, pitch_of
from yardapp.bench.services.run_out import RUN_OUT, RunOutReading, run_out_of
from yardapp.bench.services.shaft_end import SHAFT_END, ShaftEndReading, shaft_end_of
from yardapp.bench.services.shaft_wear import WEAR, WearReading, wear_of
from yardapp.bench.services.sheets import (
    ON_ONE_PAGE,
    AtBench,
    SheetRow,
    at_bench,
    newest_sheets,
    others_like,
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
    with_design_pitch,
)
from yardapp.bench.services.tools import add_tool, change_tool, tool_by_name, tools
from yardapp.bench.sums import Known, Outcome, figures_read
from yardapp.bench.survey.boxes import boxes_of
from yardapp.bench.survey.cells import Cell, SurveyReading
from yardapp.bench.survey.words import class_note, error_note, fault_said

OF_PROPELLERS = (DIAMETER, PITCH, BORE, SURVEY, ALIKE, AREA)
OF_SHAFTS = (WEAR, RUN_OUT, SHAFT_END, BEARING)
METHODS = {method.name: method for method in (*OF_PROPELLERS, *OF_SHAFTS)}

__all__ = [
    "ALIKE",
    "AREA",
    "BEARING",
    "BORE",
    "DIAMETER",
    "METHODS",
    "ON_ONE_PAGE",
    "PITCH",
    "RUN_OUT",
    "SHAFT_END",
    "SURVEY",
    "WEAR",
    "AlikeReading",
    "AreaReading",
    "AtBench",
    "BearingReading",
    "BoreReading",
    "Cell",
    "Comparison",
    "Condition",
    "DiameterReading",
    "Difference",
    "Fault",
    "FaultClosing",
    "FaultRow",
    "FaultSaid",
    "Filled",
    "InWriting",
    "Known",
    "Looked",
    "Method",
    "Outcome",
    "PitchReading",
    "RunOutReading",
    "ShaftEndReading",
    "Sheet",
    "SheetRow",
    "SurveyReading",
    "WearReading",
    "add_tool",
    "alike_of",
    "area_of",
    "at_bench",
    "bearing_of",
    "begin_correction",
    "begin_sheet",
    "begin_survey",
    "bore_of",
    "boxes_of",
    "change_tool",
    "class_note",
    "close_fault",
    "compare_sheets",
    "condition_of",
    "design_pitch_of",
    "diameter_of",
    "drop_sheet",
    "error_note",
    "fault_by_id",
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
    "note_ring",
    "others_like",
    "pitch_of",
    "raise_fault",
    "readings_of",
    "run_out_of",
    "settled",
    "shaft_end_of",
    "sheet_by_id",
    "sheets_in_writing",
    "sheets_of",
    "still_open",
    "strands",
    "survey_of",
    "tool_by_name",
    "tools",
    "typed_at",
    "wear_of",
    "with_design_pitch",
    "write_boxes",
]
