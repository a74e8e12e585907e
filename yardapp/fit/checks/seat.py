"""Around the hub once it is up: nuts on their thread, the cutter ahead of it, the bearing's housing beside it."""

from dataclasses import replace

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import (
    AFTER_WORK,
    ANOTHER,
    CANNOT_TELL,
    GOES_ON,
    NO,
    REBORE,
    SHIFT_CUTTER,
    SHOP,
    Check,
    Need,
)
from yardapp.fit.checks.groups import SEAT
from yardapp.fit.checks.readings import HUB_DIAMETER, HUB_LENGTH, HUB_SPACE, LARGE, SHAFT, TAPER_LENGTH
from yardapp.fit.checks.readings_of_boat import BEARING_DIAMETER, CUTTER, NUTS, THREAD
from yardapp.fit.checks.sums import add_up
from yardapp.fit.checks.weighing import at_least
from yardapp.formulas.hub_room import cutter_gap, thread_left
from yardapp.formulas.seat import difference, overhang

NUT_SOURCE = "Both nuts and the lock get their whole thread (common practice, geometry)."
CUTTER_SOURCE = "Geometry; the least gap that lets water out of the bearing is a yard setting, no source."
HOUSING_SOURCE = "A hub about as thick as the housing before it (common practice, no source)."
MUCH_SHARE = 0.25
DRY_FIT = Need(figure=HUB_LENGTH, says="Push the hub up by hand, key out, and measure thread and gap as it stands.")


def check_seat(case: Case, up: UFloat | None) -> tuple[Check, ...]:
    """Nuts, cutter, housing; `up` is how far the hub passes the taper's large end, None where that is not known."""
    found = (_nuts(case, up), _cutter(case, up), _housing(case))
    return tuple(replace(check, group=SEAT) for check in found if check is not None)


def _not_standing(case: Case, name: str, source: str, *paths: str) -> Check:
    says = "Where the hub comes to stand is not known yet."
    check = case.cannot_tell(name, says, source, *paths, missing=case.unknown(LARGE, SHAFT))
    return replace(check, needs=(*check.needs, DRY_FIT))


def _nuts(case: Case, up: UFloat | None) -> Check:
    paths = (THREAD, NUTS, HUB_LENGTH, TAPER_LENGTH)
    if case.unknown(*paths):
        return case.lacking("nut and thread", NUT_SOURCE, *paths)
    if up is None:
        return _not_standing(case, "nut and thread", NUT_SOURCE, *paths)
    thread, nuts, hub, taper = (case.surely(path) for path in paths)
    past, passed = add_up("Hub past the taper", overhang, "length", hub_length_m=hub, taper_length_m=taper, set_up_m=up)
    left, summed = add_up(
        "Thread left over", thread_left, "length", thread_length_m=thread, overhang_m=past, nut_length_m=nuts
    )
    check = Check(
        name="nut and thread",
        verdict=GOES_ON,
        says=f"Thread {case.tell(THREAD)}, nuts and lock {case.tell(NUTS)}.",
        source=NUT_SOURCE,
        compared=case.compared(THREAD, NUTS),
        sums=(passed, summed),
        rests_on=paths,
    )
    has_thread = at_least(left, 0.0)
    if has_thread:
        return replace(check, says=f"{check.says} {case.tell_length(left)} is left over with the hub where it stands.")
    if has_thread is None:
        return replace(check, verdict=CANNOT_TELL, says=f"{check.says} Too close to call.", needs=(DRY_FIT,))
    return _short_of_thread(case, check, left, up)


def _short_of_thread(case: Case, check: Check, left: UFloat, up: UFloat) -> Check:
    says = f"{check.says} The nuts lack {case.tell_length(left)} of thread."
    if up.n <= left.n:  # it stops short by more than the nuts lack: bored out, it goes up far enough
        remedy = "Re-bore it on its own taper, so that it goes further up and frees the thread."
        return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=REBORE, caution=SHOP)
    remedy = "Another propeller, with a shorter hub."
    return replace(check, verdict=NO, says=says, remedy=remedy, work=ANOTHER)


def _cutter(case: Case, up: UFloat | None) -> Check:
    paths = (HUB_SPACE, CUTTER)
    if case.has_none(CUTTER):
        says = "There is no cutter on the shaft."
        return Check(name="cutter", verdict=GOES_ON, says=says, source=CUTTER_SOURCE, rests_on=(CUTTER,))
    if case.unknown(*paths):
        return case.lacking("cutter", CUTTER_SOURCE, *paths)
    if up is None:
        return _not_standing(case, "cutter", CUTTER_SOURCE, *paths)
    room, cutter = (case.surely(path) for path in paths)
    gap, summed = add_up(
        "Gap beside the cutter", cutter_gap, "length", hub_space_m=room, set_up_m=up, cutter_length_m=cutter
    )
    least = case.say("length", case.limits.min_bearing_gap_m, None)
    check = Check(
        name="cutter",
        verdict=GOES_ON,
        says=f"Beside the cutter {case.say('length', gap.n, gap.s)} is left to the bearing; the yard wants {least}.",
        source=CUTTER_SOURCE,
        compared=case.compared(*paths),
        sums=(summed,),
        rests_on=paths,
    )
    fits = at_least(gap, case.limits.min_bearing_gap_m)
    if fits:
        return check
    if fits is None:
        return replace(check, verdict=CANNOT_TELL, says=f"{check.says} Too close to call.", needs=(DRY_FIT,))
    remedy = "Shift the cutter, fit a shorter one, or leave it off."
    return replace(check, verdict=AFTER_WORK, remedy=remedy, work=SHIFT_CUTTER)


def _housing(case: Case) -> Check | None:
    """Only where the housing was measured: whether it goes on never hangs on this."""
    if case.known(BEARING_DIAMETER) is None:
        return None
    paths = (HUB_DIAMETER, BEARING_DIAMETER)
    if case.unknown(*paths):
        return case.lacking("hub and housing", HOUSING_SOURCE, *paths)
    hub, housing = (case.surely(path) for path in paths)
    wider, summed = add_up("Hub wider than the housing by", difference, "length", hub_m=hub, shaft_m=housing)
    way = "proud of" if wider.n > 0 else "inside"
    says = f"The hub stands {case.say('length', abs(wider.n) / 2, None)} {way} the bearing's housing all round."
    if abs(wider.n) > MUCH_SHARE * housing.n:
        says += " That is a step in the water's way: it costs a little and may sing."
    return Check(
        name="hub and housing",
        verdict=GOES_ON,
        says=says,
        source=HOUSING_SOURCE,
        compared=case.compared(*paths),
        sums=(summed,),
        rests_on=paths,
    )
