"""Two propellers for the two shafts of one boat: opposite hands, sizes alike within a class."""

from dataclasses import replace

from yardapp.fit.checks.case import HANDS
from yardapp.fit.checks.check import (
    AFTER_WORK,
    ANOTHER,
    CANNOT_TELL,
    CUT_DOWN,
    GOES_ON,
    NO,
    REPITCH,
    Check,
    Compared,
    Need,
)
from yardapp.fit.checks.groups import SHAFT, WATER
from yardapp.fit.checks.pair_blades import SOURCE, check_area, check_blades, check_state
from yardapp.fit.checks.readings import DIAMETER, HAND, READINGS, assumed_u
from yardapp.fit.checks.readings_of_boat import PITCH
from yardapp.fit.checks.sums import measured, size
from yardapp.fit.checks.weighing import at_most
from yardapp.fit.checks.words import Say
from yardapp.fit.figures import Figure, PropellerFigures
from yardapp.formulas.iso484 import band

CLASS_SOURCE = "ISO 484-2: how far the mean pitch may be out in a class; two of one class may differ by twice that."
CLASSES = ("S", "I", "II", "III")
MOST_REPITCH_M, MOST_CUT_M = 0.0254, 0.025  # beyond an inch nothing is mended that was one pair


def judged_pair(one: PropellerFigures, other: PropellerFigures, say: Say, pitch_class: str) -> tuple[Check, ...]:
    """Hands, diameter, pitch, blades, area and state of the two."""
    if pitch_class not in CLASSES:
        raise ValueError(f"pitch_class must be one of {', '.join(CLASSES)}; {pitch_class!r} is not.")
    hands = _hands(one, other)
    if hands.verdict == NO:
        return (hands,)
    sides = (one, other)
    return (
        hands,
        _sized(sides, say, "diameter", pitch_class),
        _sized(sides, say, "pitch", pitch_class),
        check_blades(sides),
        check_area(sides, say, pitch_class),
        *check_state(sides),
    )


def _hands(one: PropellerFigures, other: PropellerFigures) -> Check:
    seen = [HANDS.get((side.hand or "").strip().lower()) for side in (one, other)]
    rows = tuple(
        Compared(label=f"Hand of {side.tag or where}", value=hand)
        for side, where, hand in zip((one, other), ("one", "the other"), seen, strict=True)
    )
    check = Check(
        name="pair: hands", verdict=CANNOT_TELL, says="", source=SOURCE, compared=rows, group=WATER, rests_on=(HAND,)
    )
    if None in seen:
        need = Need(figure=HAND, says="Lay both flat and look which way their blades lean.")
        return replace(check, says="The hands of the two are not both known.", needs=(need,))
    if seen[0] != seen[1]:
        return replace(check, verdict=GOES_ON, says="One is right hand, the other left.")
    says = f"Both are {seen[0]} hand: two shafts of one boat turn opposite ways."
    return replace(check, verdict=NO, says=says, remedy="Another propeller, of the other hand.", work=ANOTHER)


def _sized(sides: tuple[PropellerFigures, PropellerFigures], say: Say, what: str, pitch_class: str) -> Check:
    path = DIAMETER if what == "diameter" else PITCH
    figures = [getattr(side, f"{what}_m") for side in sides]
    rows = tuple(_row(side, figure, what) for side, figure in zip(sides, figures, strict=True))
    check = Check(
        name=f"pair: {what}",
        verdict=CANNOT_TELL,
        says="",
        source=CLASS_SOURCE,
        compared=rows,
        group=SHAFT,
        rests_on=(path,),
    )
    if None in figures or any(figure.basis == "guessed" for figure in figures):
        says = f"The {what} of the two is not known from both."
        return replace(check, says=says, needs=(Need(figure=path, says=READINGS[path].how),))
    first, second = (measured(figure.value, _u(figure)) for figure in figures)
    apart, allowed = size(first - second), _allowed_m(what, (first.n + second.n) / 2, pitch_class)
    said = f"They differ by {say('length', apart.n, apart.s)}; class {pitch_class} lets {say('length', allowed, None)}."
    alike = at_most(apart, allowed)
    if alike is None:
        need = Need(figure=path, says=f"{READINGS[path].how} Both, with the same tool.")
        return replace(check, says=f"{said} Too close to call.", needs=(need,))
    if alike:
        return replace(check, verdict=GOES_ON, says=said)
    return _unlike(replace(check, says=said), what, say, float(apart.n))


def _row(side: PropellerFigures, figure: Figure | None, what: str) -> Compared:
    label = f"{what.capitalize()} of {side.tag or 'one'}"
    if figure is None:
        return Compared(label=label, value=None, kind="length")
    return Compared(label=label, value=figure.value, u=_u(figure), kind="length", basis=figure.basis)


def _u(figure: Figure) -> float:
    return assumed_u("length", figure.value) if figure.u is None else figure.u


def _allowed_m(what: str, mean_m: float, pitch_class: str) -> float:
    """Twice the class's band: one at its top and the other at its bottom."""
    if what == "pitch":
        return 2 * float(band("mean_pitch_of_propeller", pitch_class, mean_m).plus_m)
    return 4 * float(band("extreme_radius", pitch_class, mean_m / 2, "484-1").plus_m)


def _unlike(check: Check, what: str, say: Say, apart_m: float) -> Check:
    if what == "pitch" and apart_m <= MOST_REPITCH_M:
        remedy = f"Have one re-pitched to the other's, by {say('length', apart_m, None)}, and both measured again."
        return replace(check, verdict=AFTER_WORK, remedy=remedy, work=REPITCH)
    if what == "diameter" and apart_m <= MOST_CUT_M:
        remedy = f"Have the larger cut down by {say('length', apart_m, None)}: a new choice for its engine."
        return replace(check, verdict=AFTER_WORK, remedy=remedy, work=CUT_DOWN)
    return replace(check, verdict=NO, remedy="Another propeller: these two are no pair.", work=ANOTHER)
