"""Two propellers for one boat: are their blades alike in number and area, and are both in a state to go on."""

from dataclasses import replace
from math import pi

from yardapp.fit.checks.check import AFTER_WORK, ANOTHER, CANNOT_TELL, GOES_ON, MEND, NO, Check, Compared, Need
from yardapp.fit.checks.groups import CONDITION, SHAFT
from yardapp.fit.checks.readings import BLADES, READINGS, assumed_u
from yardapp.fit.checks.readings_of_boat import AREA, FAULTS
from yardapp.fit.checks.sums import measured, size
from yardapp.fit.checks.weighing import at_most
from yardapp.fit.checks.words import Say, listed
from yardapp.fit.figures import Figure, PropellerFigures
from yardapp.formulas.iso484 import band

SOURCE = "Two shafts of one boat turn opposite ways with propellers alike (common practice)."
AREA_SOURCE = (
    "ISO 484-2: how far the lengths of a blade's sections may be out in a class, taken over the whole blade from 0.2 of"
    " the radius out (ours); two of one class may differ by twice that."
)
BLADE_SPAN_RATIO = 0.4  # of the diameter: from 0.2 of the radius to the tip
Sides = tuple[PropellerFigures, PropellerFigures]


def check_blades(sides: Sides) -> Check:
    """As many blades on either."""
    counts = [side.blades for side in sides]
    rows = tuple(Compared(label=f"Blades of {side.tag or 'one'}", value=side.blades, kind="count") for side in sides)
    check = Check(
        name="pair: blades",
        verdict=GOES_ON,
        says=f"Both have {counts[0]} blades.",
        source=SOURCE,
        compared=rows,
        group=SHAFT,
        rests_on=(BLADES,),
    )
    if None in counts:
        need = Need(figure=BLADES, says="Count the blades of both.")
        return replace(check, verdict=CANNOT_TELL, says="The blades of the two are not both counted.", needs=(need,))
    if counts[0] == counts[1]:
        return check
    says = f"One has {counts[0]} blades, the other {counts[1]}: they load their engines differently."
    return replace(check, verdict=NO, says=says, remedy="Another propeller, with as many blades.", work=ANOTHER)


def check_area(sides: Sides, say: Say, pitch_class: str) -> Check:
    """As much blade on either, within what the class lets the blades' sections differ by."""
    figures = [side.area_ratio for side in sides]
    rows = tuple(_row(side, figure) for side, figure in zip(sides, figures, strict=True))
    check = Check(
        name="pair: area",
        verdict=CANNOT_TELL,
        says="The blades' area is not known from both.",
        source=AREA_SOURCE,
        compared=rows,
        group=SHAFT,
        rests_on=(AREA,),
    )
    known = [figure for figure in figures if figure is not None and figure.basis != "guessed"]
    allowed = _allowed_ratio(sides[0], pitch_class)
    if len(known) < 2 or allowed is None:
        return replace(check, needs=(Need(figure=AREA, says=READINGS[AREA].how),))
    first, second = (measured(figure.value, _u(figure)) for figure in known)
    apart = size(first - second)
    told = (say("count", round(float(apart.n), 3), None), say("count", round(allowed, 3), None))
    check = replace(check, says=f"Their area ratios differ by {told[0]}; class {pitch_class} lets {told[1]}.")
    alike = at_most(apart, allowed)
    if alike is None:
        need = Need(figure=AREA, says=f"{READINGS[AREA].how} Both, by the same hand.")
        return replace(check, says=f"{check.says} Too close to call.", needs=(need,))
    if alike:
        return replace(check, verdict=GOES_ON)
    return replace(check, verdict=NO, remedy="Another propeller: blades are not made wider.", work=ANOTHER)


def _row(side: PropellerFigures, figure: Figure | None) -> Compared:
    label = f"Blade area ratio of {side.tag or 'one'}"
    if figure is None:
        return Compared(label=label, value=None, kind="count")
    return Compared(label=label, value=figure.value, u=_u(figure), kind="count", basis=figure.basis)


def _u(figure: Figure) -> float:
    return assumed_u("ratio", figure.value) if figure.u is None else figure.u


def _allowed_ratio(side: PropellerFigures, pitch_class: str) -> float | None:
    """Twice the band of a section's length, over the blade's span and all blades, as a part of the disc."""
    if side.blades is None or side.diameter_m is None or side.blades < 1:
        return None
    diameter = side.diameter_m.value
    wider = 2 * float(band("section_length", pitch_class, diameter / side.blades).plus_m)
    return wider * BLADE_SPAN_RATIO * diameter * side.blades / (pi * diameter**2 / 4)


def check_state(sides: Sides) -> tuple[Check, ...]:
    """Whatever bars one of them bars the pair; nothing where nobody wrote anything down."""
    if all(side.open_faults is None for side in sides):
        return ()
    open_faults = [f"{side.tag or 'one'}: {listed(list(side.open_faults))}" for side in sides if side.open_faults]
    rows = tuple(
        Compared(label=f"Open faults of {side.tag or 'one'}", value=_faults(side.open_faults)) for side in sides
    )
    check = Check(
        name="pair: faults",
        verdict=GOES_ON,
        says="Both were looked over and nothing bars them.",
        source="A propeller is looked over before it goes on (common practice).",
        compared=rows,
        group=CONDITION,
        rests_on=(FAULTS,),
    )
    if open_faults:
        says = f"Still open on {'; on '.join(open_faults)}."
        return (replace(check, verdict=AFTER_WORK, says=says, remedy=f"Mend first. {says}", work=MEND),)
    if any(side.open_faults is None for side in sides):
        need = Need(figure=FAULTS, says="Look over the one that nobody looked over.")
        return (replace(check, verdict=CANNOT_TELL, says="Only one of the two was looked over.", needs=(need,)),)
    return (check,)


def _faults(faults: tuple[str, ...] | None) -> str | None:
    return None if faults is None else listed(list(faults)) or "none"
