"""Pitch of a whole propeller, surveyed blade by blade, radius by radius."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from sqlalchemy.orm import Session

from yardapp import quantities
from yardapp.bench.models import HalfDone, Sheet
from yardapp.bench.services.half_done import InWriting, begin_sheet, finish_sheet
from yardapp.bench.services.keeping import Filled, Method, measure
from yardapp.bench.services.sheets import SheetRow
from yardapp.bench.sums import Input, Known, Outcome, Sum, source_of, work_out
from yardapp.bench.survey.boxes import boxes_of
from yardapp.bench.survey.cells import Fault, SurveyReading
from yardapp.bench.survey.findings import findings
from yardapp.bench.survey.order import table_of
from yardapp.bench.survey.words import fault_said
from yardapp.bench.survey.worked import Worked, worked
from yardapp.errors import OutsideRange, Refused
from yardapp.formulas.pitch import pitch_ratio
from yardapp.formulas.pitch_survey import mean_pitch
from yardapp.gear import services as gear
from yardapp.people.services import Who
from yardapp.quantities import exact

MOST_BLADES = 7
LEAST_STATIONS = 2
RE_PITCHED = "re-pitched"  # the one work after which it is meant to have another pitch than its stamp
TOO_FEW = "Read two stations of one radius at least: a pitch is a rise over a swing."
GREATEST_M, GREATEST_RAD = 3.0, 4 * np.pi


def survey_of(reading: SurveyReading, known: Known | None = None) -> Outcome:
    """Local, section, blade and propeller pitch with their ±, classes and the shop list. No register here.

    What can't be is left out and told in `more["survey"]["faults"]`.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        No radius has two stations, or a cell lies outside the propeller.
    """
    known = known or Known()
    _hold(reading)
    table = table_of(reading)
    if table.heights_m.shape[-1] < LEAST_STATIONS:
        raise Refused(TOO_FEW, "cells")
    one = worked(table, reading)
    if np.isnan(one.means.propeller_m):
        raise Refused(_nothing_left(table.faults), "cells")
    return Outcome(
        answer="pitch_m",
        sums=tuple(_sums(one, reading, known)),
        remarks=tuple(_remarks(one, reading, known)),
        more={"survey": findings(one, reading)},
        u_common=one.spread.common_m if one.spread else None,
        u_separate=one.spread.separate_m if one.spread else None,
    )


def _nothing_left(faults: Sequence[Fault]) -> str:
    """Why there is no pitch at all: what can't be, else that too little was read."""
    stopping = [fault_said(fault.kept()) for fault in faults if fault.stops]
    return stopping[0] if stopping else TOO_FEW


def _hold(reading: SurveyReading) -> None:
    if not reading.cells:
        raise Refused(TOO_FEW, "cells")
    if reading.blades is not None and not 2 <= reading.blades <= MOST_BLADES:
        raise Refused("Two to seven blades.", "blades")
    last = reading.blades or MOST_BLADES
    for cell in reading.cells:
        if not 1 <= cell["blade"] <= last:
            raise Refused(f"There is no blade {cell['blade']} among {last}.", "cells")
        if not 0 < cell["radius_ratio"] <= 1:
            said = "must be above zero and at most 1, the tip."
            raise OutsideRange("radius_ratio", said, f"{cell['radius_ratio']:g}")
        if not (abs(cell["height_m"]) <= GREATEST_M and abs(cell["angle_rad"]) <= GREATEST_RAD):
            raise Refused("A height reaches to 3 m, an angle to two turns.", "cells")


def _sums(one: Worked, reading: SurveyReading, known: Known) -> list[Sum]:
    """The propeller's pitch from its blades', and its ratio to the diameter."""
    u = one.u_of("blade_m")
    blades = [
        Input(name=f"pitch_{number}_m", value=float(value), u=float(u[number - 1]) if one.spread else None)
        for number, value in enumerate(one.means.blade_m, 1)
        if not np.isnan(value)
    ]
    pitch = Sum(
        what="pitch_m",
        value=one.means.propeller_m,
        u=one.spread.propeller_m if one.spread else None,
        formula=f"{mean_pitch.__module__}.{mean_pitch.__qualname__}",
        source=source_of(mean_pitch),
        inputs=tuple(blades),
    )
    diameter_m = reading.diameter_m or known.diameter_m
    if not diameter_m:
        return [pitch]
    u_diameter_m = reading.u_diameter_m if reading.diameter_m else known.u_diameter_m
    return [pitch, work_out("pitch_ratio", pitch_ratio, pitch_m=pitch.figure, diameter_m=(diameter_m, u_diameter_m))]


def _remarks(one: Worked, reading: SurveyReading, known: Known) -> list[str]:
    remarks = []
    if reading.blades and known.blades and reading.blades != known.blades:
        remarks.append(f"The register says {known.blades} blades. Count again.")
    if reading.hand and known.hand and reading.hand != known.hand:
        remarks.append(f"The register says {known.hand} hand. Look again.")
    if not reading.hand and one.table.hand:
        remarks.append(f"By the way its face climbs it is a {one.table.hand}-hand propeller.")
    if reading.is_design_known and reading.design_pitch_m:
        known_as = quantities.both(reading.design_pitch_m, "length")
        remarks.append(f"Nobody said what pitch it should have: held against the register's, {known_as}.")
    unread = int(np.isnan(one.means.section_m).sum())
    if unread:
        remarks.append(f"Not read, or left out: {unread} of {one.means.section_m.size} sections. The means go without.")
    return remarks


def _statements(reading: SurveyReading, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """The propeller's mean pitch; and the blades, when nobody had counted them before."""
    faults = outcome.more["survey"]["faults"]
    stopping = [fault_said(fault) for fault in faults if fault["stops"]]
    if stopping:
        raise Refused(f"{stopping[0]} Mend it, or leave it empty.", "cells")
    pitch = gear.Said(what="pitch_m", basis="measured", value=outcome.value, u_value=outcome.u)
    if not reading.blades or known.blades is not None:
        return (pitch,)
    return pitch, gear.Said(what="blades", basis="measured", value=float(reading.blades), u_value=0.0)


SURVEY = Method(
    name="survey", reading=SurveyReading, work_out=survey_of, statements=_statements, tools=("height_tool",)
)


def measure_survey(session: Session, who: Who, tag: str, reading: SurveyReading, filled: Filled | None = None) -> Sheet:
    """Keep the sheet, and what it says about the propeller's pitch.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        No propeller here carries the tag, or there is no such sheet to correct.
    OutsideRange
        A reading cannot be right.
    Refused
        Too little was read, a reading can't be, or a correction can't stand.
    """
    return measure(session, who, tag, SURVEY, reading, filled)


def begin_survey(session: Session, who: Who, tag: str, boxes: Mapping[str, str]) -> HalfDone:
    """Begin a survey that is kept as it is written; the pitch it should have stands in it where the register knows it.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        No propeller here carries the tag.
    """
    who.must("record")
    found = gear.item_page(session, who, tag, "propeller")
    design_m = design_pitch_of(found)
    known = {"design_pitch_m": exact(design_m, "length")} if design_m and not boxes.get("design_pitch_m") else {}
    return begin_sheet(session, who, tag, SURVEY.name, {**boxes, **known})


def begin_correction(session: Session, who: Who, row: SheetRow, why: str) -> HalfDone:
    """Open a kept survey to be written again, as it was typed.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    Refused
        It was corrected before.
    """
    if row.replaced_by is not None:
        raise Refused("That sheet was corrected before. Correct the newest one.", "why")
    boxes = {**boxes_of(row.sheet.readings, row.sheet.note), "why": why}
    return begin_sheet(session, who, row.tag, SURVEY.name, boxes, corrects=row.sheet.id)


def keep_survey(
    session: Session, who: Who, there: InWriting, reading: SurveyReading, boxes: Mapping[str, Any], note: str
) -> Sheet:
    """Make a sheet of what was in the writing.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    OutsideRange
        A reading cannot be right.
    Refused
        It was kept or dropped meanwhile, too little was read, a reading can't be, or a correction can't stand.
    """
    if there.row.sheet_id is not None or there.row.is_dropped:
        raise Refused("This sheet was kept or put aside meanwhile.")
    corrects, why = there.row.corrects_id, there.typed.get("why", "")
    about = Filled(boxes=boxes, note=note, corrects=corrects, why=why)
    sheet = measure_survey(session, who, there.item.tag, reading, about)
    finish_sheet(session, there.row, sheet.id)
    return sheet


def with_design_pitch(session: Session, who: Who, tag: str, reading: SurveyReading) -> SurveyReading:
    """The reading with the pitch that the register says it should have, where the reading itself says none.

    Raises
    ------
    NotFound
        No propeller here carries the tag.
    """
    if reading.design_pitch_m is not None:
        return reading
    design_m = design_pitch_of(gear.item_page(session, who, tag, "propeller"))
    return reading if design_m is None else replace(reading, design_pitch_m=design_m, is_design_known=True)


def design_pitch_of(found: gear.ItemPage) -> float | None:
    """The pitch that a propeller should have, as far as the register knows: its stamp's, else a paper's.

    A stamp from before it was last re-pitched no longer speaks.
    """
    changed = max((event.at for event in found.events if event.kind == RE_PITCHED), default=None)
    told: dict[str, float] = {}
    for line in found.evidence:  # newest first
        is_old = changed is not None and (line.true_from is None or line.true_from < changed)
        if line.kind == "pitch_m" and line.value is not None and not line.is_replaced and not is_old:
            told.setdefault(line.basis, line.value)
    return next((told[basis] for basis in ("stamped", "decoded", "paper") if basis in told), None)
