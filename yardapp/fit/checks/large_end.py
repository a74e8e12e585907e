"""On one taper: how far up the shaft the hub goes, and whether it can stay there."""

from dataclasses import dataclass, replace

from uncertainties import UFloat

from yardapp.fit.checks.boring import BUSHING, wall_after, with_boring
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, BUSH, CANNOT_TELL, GOES_ON, LAP, NO, REBORE, Check, Sum
from yardapp.fit.checks.readings import BORE_LENGTH, HUB_SPACE, LARGE, SHAFT, SHAFT_TAPER, TAPER_LENGTH
from yardapp.fit.checks.sums import add_up
from yardapp.fit.checks.weighing import all_told, at_least, at_most
from yardapp.formulas.clearance import hub_gap_limit
from yardapp.formulas.seat import bearing_gap, seat_left

SOURCE = (
    "Set-up is the difference in diameter over the taper (geometry). Share of the bore that must bear: 70 % on a "
    "fitting sheet, 75 % in common practice, a yard setting. Hub to bearing: at most one shaft diameter (SAE J756 and "
    "ABYC P-6 as practitioners cite them)."
)
MARK = "At the dry fit, key out, mark the shaft at the hub's forward face."


@dataclass(frozen=True, kw_only=True)
class Stand:
    """Where the hub comes to stand, and which of three limits it keeps; None is "cannot tell"."""

    set_up: UFloat
    has_taper_enough: bool | None
    is_on_taper: bool | None
    is_clear_of_bearing: bool | None
    gap: UFloat | None
    sums: tuple[Sum, ...]


def check_large_end(case: Case) -> Check:
    """Bore against shaft at the large end, in millimetres along the shaft."""
    paths = (LARGE, SHAFT, SHAFT_TAPER)
    if case.set_up is None:
        return case.lacking("large end", SOURCE, *paths)
    stand = _stand(case, *case.set_up)
    check = Check(
        name="large end",
        verdict=CANNOT_TELL,
        says=_says(case, stand),
        source=SOURCE,
        compared=case.compared(LARGE, SHAFT),
        sums=stand.sums,
        rests_on=(*paths, BORE_LENGTH, TAPER_LENGTH, *(() if at_most(stand.set_up, 0.0) else (HUB_SPACE,))),
    )
    if stand.is_on_taper is False or stand.is_clear_of_bearing is False:
        return replace(check, verdict=NO, says=f"{check.says} {_too_far(case, stand)}", remedy=BUSHING, work=BUSH)
    if stand.has_taper_enough is False:
        return _too_short(case, check)
    if all_told(stand.has_taper_enough, stand.is_on_taper, stand.is_clear_of_bearing):
        return replace(check, verdict=GOES_ON, says=f"{check.says} {MARK}")
    return _unsettled(case, check, stand)


def check_unsized_large_end(case: Case, taper: Check) -> Check:
    """Bore and shaft side by side where their tapers are not known to be one."""
    check = case.lacking("large end", SOURCE, LARGE, SHAFT, SHAFT_TAPER)
    says = "How far the hub goes up can't be told until the tapers are known to be one."
    needs = tuple(dict.fromkeys(taper.needs + case.needs(*case.unknown(LARGE, SHAFT))))
    return replace(check, says=says, needs=needs, compared=case.compared(LARGE, SHAFT))


def _stand(case: Case, up: UFloat, workings: Sum) -> Stand:
    length, seat, room = case.known(BORE_LENGTH), case.known(TAPER_LENGTH), case.known(HUB_SPACE)
    share = case.limits.min_contact_share_ratio
    has_taper_enough, is_on_taper = None, None
    is_clear: bool | None = at_most(up, 0.0) or None
    gap, sums = None, [workings]
    if length is not None and seat is not None:
        left, summed = add_up("Taper behind the hub's large end", seat_left, "length", taper_length_m=seat, set_up_m=up)
        has_taper_enough = at_least(left - share * length, 0.0)
        sums.append(summed)
    if length is not None:
        is_on_taper = at_most(up - (1 - share) * length, 0.0)
    if room is not None:
        gap, summed = add_up("Gap from hub to bearing", bearing_gap, "length", hub_space_m=room, set_up_m=up)
        is_clear = is_clear or at_least(gap, case.limits.min_bearing_gap_m)
        sums.append(summed)
    return Stand(
        set_up=up,
        has_taper_enough=has_taper_enough,
        is_on_taper=is_on_taper,
        is_clear_of_bearing=is_clear,
        gap=gap,
        sums=tuple(sums),
    )


def _says(case: Case, stand: Stand) -> str:
    sizes = f"Bore {case.tell(LARGE)}, shaft {case.tell(SHAFT)} at the large end:"
    up = case.tell_length(stand.set_up)
    if at_most(stand.set_up, 0.0):
        where = f"the hub stops {up} short of the taper's large end"
    elif at_least(stand.set_up, 0.0):
        where = f"the hub slides up {up} past the taper's large end"
    else:
        signed = case.say("length", stand.set_up.n, stand.set_up.s)
        where = f"the hub comes to the taper's large end, within its ± ({signed})"
    return f"{sizes} {where}.{_gap_says(case, stand)}"


def _gap_says(case: Case, stand: Stand) -> str:
    if stand.gap is None:
        return ""
    if at_most(stand.gap, 0.0):
        return " It would come up against the bearing."
    told = f" {case.tell_length(stand.gap)} is left between hub and bearing"
    too_long = stand.gap.n > float(hub_gap_limit(case.surely(SHAFT).n))
    return f"{told}, more than one shaft diameter: a long overhang whips." if too_long else f"{told}."


def _too_far(case: Case, stand: Stand) -> str:
    if stand.is_clear_of_bearing is False:
        least = case.say("length", case.limits.min_bearing_gap_m, None)
        return f"The bore is too large: the yard wants {least} clear of the bearing, so that water gets out."
    return "The bore is too large: too little of it would lie on the taper."


def _too_short(case: Case, check: Check) -> Check:
    says = f"{check.says} The bore is too small: too little of it would lie on the taper."
    check = replace(check, says=says)
    if at_most(case.surely(SHAFT) - case.surely(LARGE), case.limits.lap_m):
        return replace(check, verdict=AFTER_WORK, remedy="Lap the hub to the shaft.", work=LAP)
    remedy = f"Re-bore the hub on its own taper until its large end is {case.tell_size(SHAFT)}."
    return with_boring(replace(check, remedy=remedy, work=REBORE), wall_after(case))


def _unsettled(case: Case, check: Check, stand: Stand) -> Check:
    """What would settle it: the figures that lack, else the diameters read more finely."""
    missing = case.unknown(BORE_LENGTH, TAPER_LENGTH)
    if stand.is_clear_of_bearing is None and case.known(HUB_SPACE) is None:
        missing = (*missing, HUB_SPACE)
    if missing:
        says = f"{check.says} Whether it can stay there can't be told yet."
        return replace(check, says=says, needs=case.needs(*missing))
    says = f"{check.says} Too close to call: 0.1 mm on diameter is {_per_tenth(case)} along the shaft."
    return replace(check, says=says, needs=case.needs(LARGE, SHAFT))


def _per_tenth(case: Case) -> str:
    return case.say("length", 0.0001 / case.surely(SHAFT_TAPER).n, None)
