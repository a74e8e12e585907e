"""What kind of bore it is: tapered, parallel, or a pilot that is still to be bored."""

from dataclasses import replace

from yardapp.fit.checks.boring import BUSHING, WALL_SOURCE, cleans_up, wall_after, with_boring
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, BORE, BUSH, CANNOT_TELL, NO, Check, Compared, Need
from yardapp.fit.checks.readings import BORE_LENGTH, HUB_LENGTH, KIND, LARGE, SHAFT, SHAFT_TAPER, TAPER_LENGTH

TAPER, PARALLEL, PILOT = "taper", "parallel", "pilot"
SOURCE = "A parallel bore touches a taper at one ring only (geometry)."
LOOK = Need(figure=KIND, says="Look into the bore: tapered, parallel, or a pilot that was never bored to a shaft.")


def kind_of(case: Case) -> str | None:
    """The bore's kind as said; else a taper, if one was read."""
    said = case.propeller.bore_kind
    if said in (TAPER, PARALLEL, PILOT):
        return said
    return TAPER if case.hub_taper is not None else None


def check_unknown_kind(case: Case) -> Check:
    """Nobody said what bore it is, and its readings don't show it."""
    says = "Whether the bore is tapered, parallel or a pilot is not known."
    compared = (Compared(label="Bore", value=None), *case.compared(LARGE))
    return Check(name="bore", verdict=CANNOT_TELL, says=says, source=SOURCE, compared=compared, needs=(LOOK,))


def check_parallel(case: Case) -> Check:
    """A parallel bore on a taper shaft: never as it is."""
    if case.known(SHAFT_TAPER) is None:
        return case.lacking("bore", SOURCE, SHAFT_TAPER)
    check = Check(
        name="bore",
        verdict=NO,
        says="The bore is parallel and the shaft tapered: it would touch at one ring and rock there.",
        source=SOURCE,
        compared=(Compared(label="Bore", value="parallel"), *case.compared(LARGE, SHAFT_TAPER)),
        remedy=BUSHING,
        work=BUSH,
        rests_on=(KIND,),
    )
    as_pilot = check_pilot(case)
    if as_pilot.verdict != AFTER_WORK:
        return check
    says = f"{check.says} It is small enough to be bored to the shaft like a pilot, if its owner wants that."
    return replace(check, says=says, remedy=as_pilot.remedy, work=BORE, sums=as_pilot.sums, caution=as_pilot.caution)


def check_pilot(case: Case) -> Check:
    """Can this pilot bore be bored and keyed to this shaft?"""
    pilot, shaft, taper = (case.known(path) for path in (LARGE, SHAFT, SHAFT_TAPER))
    along = next(
        (path for path in (BORE_LENGTH, HUB_LENGTH, TAPER_LENGTH) if case.known(path) is not None), BORE_LENGTH
    )
    length = case.known(along)
    if pilot is None or shaft is None or taper is None or length is None:
        return case.lacking("pilot bore", WALL_SOURCE, LARGE, SHAFT, SHAFT_TAPER, along)
    to = case.say("taper", taper.n, None)
    check = Check(
        name="pilot bore",
        verdict=AFTER_WORK,
        says=f"The pilot is {case.tell(LARGE)} and the shaft {case.tell(SHAFT)}, {to}.",
        source=WALL_SOURCE,
        compared=case.compared(LARGE, SHAFT),
        remedy=f"Bore it to {to}, its large end to {case.tell_size(SHAFT)}, and cut a keyway to the shaft's.",
        work=BORE,
        rests_on=(KIND, LARGE, SHAFT, SHAFT_TAPER, along),
    )
    boring = cleans_up(case, large=pilot, hub_taper=0.0, length=length, shaft=shaft, shaft_taper=taper)
    return with_boring(check, boring, wall_after(case))
