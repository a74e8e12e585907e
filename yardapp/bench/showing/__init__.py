"""What came of a sheet, put into the words of a page. No database, no request."""

from yardapp.bench.showing.ages import before, perhaps, wrong_way
from yardapp.bench.showing.faces import FACES, Face
from yardapp.bench.showing.outcomes import Shown, lead, shown
from yardapp.bench.showing.survey import SurveyPage, letter_rows, of_survey
from yardapp.bench.showing.words import as_typed, figure, label_of
from yardapp.bench.sums import Known
from yardapp.formulas.pitch import mark_radius
from yardapp.quantities import System

INCH_M = 0.0254

__all__ = [
    "FACES",
    "Face",
    "Shown",
    "SurveyPage",
    "as_typed",
    "before",
    "figure",
    "label_of",
    "lead",
    "letter_rows",
    "mark_of",
    "of_survey",
    "perhaps",
    "shown",
    "wrong_way",
]


def mark_of(known: Known, system: System) -> float | None:
    """Where a blade is marked: 0.7 R to the nearest millimetre or sixteenth, as a rule is read."""
    if not known.diameter_m:
        return None
    step_m = INCH_M / 16 if system == "in" else 0.001
    return round(float(mark_radius(known.diameter_m)) / step_m) * step_m
