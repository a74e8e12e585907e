"""Diameter of a propeller from its tips."""

from dataclasses import dataclass

from sqlalchemy.orm import Session

from yardapp.bench.models import Sheet
from yardapp.bench.repeating import Reading, repeatable
from yardapp.bench.services.keeping import Filled, Method, measure
from yardapp.bench.sums import Figure, Known, Outcome, Sum, read, work_out
from yardapp.errors import Refused
from yardapp.formulas.diameter import (
    diameter_across,
    diameter_from_next_tip,
    diameter_from_string,
    diameter_from_tip_chord,
    diameter_from_tip_radius,
    tip_wear,
)
from yardapp.gear import services as gear
from yardapp.people.services import Who

MOST_BLADES = 7
WHICH_TIPS = ("far", "next")
COUNT_THEM = "Count the blades: the sum hangs on it."
ODD_ACROSS = (
    "With {blades} blades no tip stands opposite another: straight across reads too little. "
    "Read a tip radius, or tip to tip."
)
STRING_TWO = "Round two tips a string says nothing: read straight across."
SHORTEST = "The shortest tip can't stand further out than the longest. Swap the two."
EVEN_FAR = "With {blades} blades the tips furthest apart lie straight across. Read it so, or take neighbours."


@dataclass(frozen=True, kw_only=True)
class DiameterReading(Reading):
    """What was read off the tips: a radius, straight across, from tip to tip, a string round all. `u_` is k = 1."""

    tip_radius_m: float | None = None
    u_tip_radius_m: float | None = None
    shortest_m: float | None = None  # the radius of the most worn tip
    u_shortest_m: float | None = None
    across_m: float | None = None
    u_across_m: float | None = None
    chord_m: float | None = None
    u_chord_m: float | None = None
    string_m: float | None = None
    u_string_m: float | None = None
    tips: str = ""  # of a chord: "far" or "next"
    blades: int | None = None


@repeatable
def diameter_of(reading: DiameterReading, known: Known | None = None) -> Outcome:
    """Diameter with its ±. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        A reading is missing, or does not go with this number of blades.
    """
    known = known or Known()
    remarks = []
    if reading.blades and known.blades and reading.blades != known.blades:
        remarks.append(f"The register says {known.blades} blades. Count again.")
    if reading.string_m is not None:
        remarks.append("A string holds for blades evenly spaced and equally long; if not, it reads too little.")
    return Outcome(answer="diameter_m", sums=(_sum(reading), *_wear(reading)), remarks=tuple(remarks))


def _wear(reading: DiameterReading) -> list[Sum]:
    """How far the shortest tip stands back, where both were read."""
    longest, shortest = read(reading, "tip_radius_m"), read(reading, "shortest_m")
    if longest is None or shortest is None:
        return []
    if shortest[0] > longest[0]:
        raise Refused(SHORTEST, "shortest_m")
    return [work_out("wear_m", tip_wear, tip_radius_m=longest, shortest_m=shortest)]


def _sum(reading: DiameterReading) -> Sum:
    radius, across, chord = (read(reading, name) for name in ("tip_radius_m", "across_m", "chord_m"))
    if radius is not None:
        return work_out("diameter_m", diameter_from_tip_radius, tip_radius_m=radius)
    if across is not None:
        blades = _counted(reading)
        if blades % 2:
            raise Refused(ODD_ACROSS.format(blades=blades), "across_m")
        return work_out("diameter_m", diameter_across, across_m=across, blades=(blades, 0.0))
    if chord is not None:
        return _from_chord(reading, chord)
    return _from_string(reading, read(reading, "string_m"))


def _from_string(reading: DiameterReading, string: Figure | None) -> Sum:
    if string is None:
        raise Refused("Read a tip radius, straight across, tip to tip, or a string round the tips.", "tip_radius_m")
    blades = _counted(reading)
    if blades == 2:
        raise Refused(STRING_TWO, "string_m")
    return work_out("diameter_m", diameter_from_string, string_m=string, blades=(blades, 0.0))


def _from_chord(reading: DiameterReading, chord: Figure) -> Sum:
    """From one tip to another; on three blades every tip is a neighbour, and the furthest too."""
    blades = _counted(reading)
    if blades == 2:
        raise Refused("Two tips lie straight across from each other: read it so.", "chord_m")
    if reading.tips not in WHICH_TIPS and blades != 3:
        raise Refused("Which two tips? The furthest apart and neighbours give different diameters.", "tips")
    if reading.tips == "far" and blades % 2 == 0:
        raise Refused(EVEN_FAR.format(blades=blades), "tips")
    is_far = reading.tips != "next"
    formula = diameter_from_tip_chord if is_far else diameter_from_next_tip
    return work_out("diameter_m", formula, chord_m=chord, blades=(blades, 0.0))


def _counted(reading: DiameterReading) -> int:
    if reading.blades is None:
        raise Refused(COUNT_THEM, "blades")
    if not 2 <= reading.blades <= MOST_BLADES:
        raise Refused("Two to seven blades.", "blades")
    return reading.blades


def _statements(reading: DiameterReading, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """The diameter; and the blades, when nobody had counted them before."""
    diameter = gear.Said(what="diameter_m", basis="measured", value=outcome.value, u_value=outcome.u)
    if not reading.blades or known.blades is not None:
        return (diameter,)
    return diameter, gear.Said(what="blades", basis="measured", value=float(reading.blades), u_value=0.0)


DIAMETER = Method(
    name="diameter", reading=DiameterReading, work_out=diameter_of, statements=_statements, tools=("tip_tool",)
)


def measure_diameter(
    session: Session, who: Who, tag: str, reading: DiameterReading, filled: Filled | None = None
) -> Sheet:
    """Keep the sheet, and what it says about the propeller's diameter.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        No propeller here carries the tag, or there is no such sheet to correct.
    OutsideRange
        A reading cannot be right.
    Refused
        A reading is missing or does not go with the others, or a correction can't stand.
    """
    return measure(session, who, tag, DIAMETER, reading, filled)
