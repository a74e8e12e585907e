"""Does the nut clamp the hub, or the end of the taper."""

from dataclasses import replace

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, ANOTHER, CANNOT_TELL, GOES_ON, NO, SPACER, Check, Need
from yardapp.fit.checks.readings import BORE_LENGTH, HUB_LENGTH, LARGE, SHAFT, TAPER_LENGTH
from yardapp.fit.checks.sums import add_up
from yardapp.fit.checks.weighing import at_least, at_most
from yardapp.formulas.seat import overhang

SOURCE = "SAE J755: the hub passes the taper by 1/4 in, above 4 in shafts by 1/2 in (from memory, medium)."
QUARTER_INCH_M, HALF_INCH_M, FOUR_INCH_M = 0.00635, 0.0127, 0.1016
THREAD = Need(
    figure=TAPER_LENGTH,
    says="At the dry fit, see that both nuts and the lock get their thread.",
)
DRY_FIT = Need(
    figure=HUB_LENGTH, says="Push the hub up by hand, key out, and measure how far it passes the end of the taper."
)


def check_hub_length(case: Case, up: UFloat | None) -> Check:
    """Hub against taper, from where the hub comes to stand; `up` None where that is not known."""
    paths = (HUB_LENGTH, TAPER_LENGTH)
    hub, taper, shaft = (case.known(path) for path in (*paths, SHAFT))
    if hub is None or taper is None or shaft is None:
        return case.lacking("hub length", SOURCE, *paths, SHAFT)
    if up is None:
        says = f"Hub {case.tell(HUB_LENGTH)}, taper {case.tell(TAPER_LENGTH)}: where the hub stands is not known yet."
        check = case.cannot_tell("hub length", says, SOURCE, *paths, missing=case.unknown(LARGE, BORE_LENGTH))
        return replace(check, needs=(*check.needs, DRY_FIT))
    past, workings = add_up(
        "Hub past the taper", overhang, "length", hub_length_m=hub, taper_length_m=taper, set_up_m=up
    )
    check = Check(
        name="hub length",
        verdict=CANNOT_TELL,
        says=f"Hub {case.tell(HUB_LENGTH)}, taper {case.tell(TAPER_LENGTH)}.",
        source=SOURCE,
        compared=case.compared(*paths),
        sums=(workings,),
        rests_on=(*paths, SHAFT),
    )
    return _weighed(case, check, past, shaft)


def _weighed(case: Case, check: Check, past: UFloat, shaft: UFloat) -> Check:
    is_past, told = at_least(past, 0.0), case.tell_length(past)
    if is_past is None or (is_past and past.n == 0):
        says = f"{check.says} The hub ends at the end of the taper, within its ±: the nut may clamp the shoulder."
        return replace(check, says=says, needs=(DRY_FIT,))
    if not is_past:
        says = f"{check.says} The hub ends {told} short of the taper's end: the nut would clamp the shoulder."
        return _spaced(case, replace(check, says=says), past, shaft)
    check = replace(check, says=f"{check.says} The hub stands {told} past the taper.{_scant(case, past, shaft)}")
    if at_most(past - case.limits.most_overhang_ratio * shaft, 0.0):
        return replace(check, verdict=GOES_ON)
    return replace(check, says=f"{check.says} That is far: the nuts may lack thread.", needs=(THREAD,))


def _wanted_m(shaft: UFloat) -> float:
    return QUARTER_INCH_M if shaft.n <= FOUR_INCH_M else HALF_INCH_M


def _scant(case: Case, past: UFloat, shaft: UFloat) -> str:
    if past.n >= _wanted_m(shaft):
        return ""
    return f" SAE J755 has {case.say('length', _wanted_m(shaft), None)}: little is left for drawing up and wear."


def _spaced(case: Case, check: Check, past: UFloat, shaft: UFloat) -> Check:
    thick_m = _wanted_m(shaft) - past.n
    fits = at_most(_wanted_m(shaft) - past - case.limits.most_spacer_ratio * shaft, 0.0)
    if fits:
        remedy = f"Fit a spacer of {case.say('length', thick_m, None)} between hub and nut, bored to pass the taper."
        return replace(check, verdict=AFTER_WORK, remedy=remedy, work=SPACER)
    if fits is None:
        return replace(check, needs=(DRY_FIT,))
    remedy = "Another propeller, with a longer hub: a spacer would be longer than the yard allows."
    return replace(check, verdict=NO, remedy=remedy, work=ANOTHER)
