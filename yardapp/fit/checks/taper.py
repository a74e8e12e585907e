"""Is the hub's taper the shaft's, and can it be made so."""

from dataclasses import replace

from uncertainties import UFloat

from yardapp.fit.checks.boring import BUSHING, cleans_up, wall_after, with_boring
from yardapp.fit.checks.case import SAME_TAPER, Case
from yardapp.fit.checks.check import AFTER_WORK, BUSH, CANNOT_TELL, GOES_ON, LAP, NO, REBORE, Check, Compared, Need, Sum
from yardapp.fit.checks.readings import BORE_LENGTH, ENDS, HUB_LENGTH, HUB_TAPER, LARGE, SHAFT, SHAFT_TAPER
from yardapp.fit.checks.sums import add_up, size
from yardapp.fit.checks.weighing import at_most
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.seat import parting
from yardapp.formulas.taper import nearest_taper
from yardapp.formulas.taper_contact import contact_gap

SOURCE = (
    "Tapers on diameter: SAE J755 (1:16, large sizes 1:12), ISO 4566 (1:10), ISO 8845 (1:16, from memory). "
    "Where a hub bears is geometry; what may be re-bored follows from the bore's own ends."
)
# Standard tapers lie a sixth of a taper or more apart; half of that is as far as two readings of one may part.
NAMING_SHARE = 0.08
STATIONS = ("at the large end", "a quarter down", "half-way", "three quarters down", "at the nut end")
BLUE = "Prove it by bluing at the dry fit, key out: two readings name a taper, they don't pass a fit."


def check_taper(case: Case) -> Check:
    """Hub 1:N against shaft 1:M, and where it would bear."""
    hub, shaft = case.hub_taper, case.known(SHAFT_TAPER)
    if hub is None or shaft is None:
        return case.lacking("taper", SOURCE, *case.hub_taper_rests_on, SHAFT_TAPER)
    if case.taper_from_bore and case.ends_contradict_taper:
        return _contradicted(case, hub, case.taper_from_bore)
    check = Check(
        name="taper",
        verdict=GOES_ON,
        says=_side_by_side(case, hub, shaft),
        source=SOURCE,
        compared=_compared(case, hub),
        sums=(case.taper_from_bore[1],) if case.taper_from_bore else (),
        rests_on=(*case.hub_taper_rests_on, SHAFT_TAPER),
    )
    apart = size(hub - shaft)
    if at_most(apart, SAME_TAPER) is False:
        return _apart(case, check, hub, shaft)
    if at_most(apart, NAMING_SHARE * shaft.n):
        return replace(check, says=f"{check.says} One taper within their ±. {BLUE}")
    says = f"{check.says} The readings are too coarse to tell whether these are one taper or two."
    return replace(check, verdict=CANNOT_TELL, says=says, needs=_sharper(case, hub, shaft))


def _contradicted(case: Case, hub: UFloat, from_ends: tuple[UFloat, Sum]) -> Check:
    ends, workings = from_ends
    told, ends_told = (case.say("taper", taper.n, taper.s) for taper in (hub, ends))
    says = f"The hub is put down as {told}, but the ends of its bore give {ends_told}."
    check = case.cannot_tell("taper", says, SOURCE, HUB_TAPER, SHAFT_TAPER, missing=ENDS)
    return replace(check, sums=(workings,))


def _compared(case: Case, hub: UFloat) -> tuple[Compared, ...]:
    read, shaft = case.compared(HUB_TAPER, SHAFT_TAPER)
    if read.value is None:
        read = replace(read, value=hub.n, u=hub.s, basis="worked out from its ends")
    return read, shaft


def _side_by_side(case: Case, hub: UFloat, shaft: UFloat) -> str:
    told = [case.say("taper", taper.n, taper.s) for taper in (hub, shaft)]
    return f"Hub {told[0]} ({_named(case, hub)}), shaft {told[1]} ({_named(case, shaft)})."


def _named(case: Case, taper: UFloat) -> str:
    nearest = nearest_taper(taper.n, taper.s)
    return "no standard taper" if nearest is None else f"nearest {case.say('taper', nearest, None)}"


def _sharper(case: Case, hub: UFloat, shaft: UFloat) -> tuple[Need, ...]:
    """The readings to take again: whichever side is the coarser, or both."""
    of_hub = case.needs(*ENDS) if hub.s >= shaft.s / 2 else ()
    return of_hub + (case.needs(SHAFT_TAPER) if shaft.s >= hub.s / 2 else ())


def _apart(case: Case, check: Check, hub: UFloat, shaft: UFloat) -> Check:
    """Two tapers for certain: lap it, re-bore it, or leave it."""
    length = case.known(BORE_LENGTH) or case.known(HUB_LENGTH)
    is_slower = hub.n < shaft.n
    bears, gap_at = ("large", "nut") if is_slower else ("nut", "large")
    than = "slower" if is_slower else "faster"
    says = f"{check.says} The hub is {than} than the shaft: it would bear at its {bears} end only"
    if length is None:
        return _unsized(case, replace(check, says=f"{says}."), is_slower)
    gap, workings = add_up(
        "Gap at the end that does not bear", parting, "length", hub_taper=hub, shaft_taper=shaft, length_m=length
    )
    says = f"{says}, with a gap of {case.tell_length(gap)} on diameter at the {gap_at} end."
    compared = (*check.compared, *_along(case, hub, shaft, length))
    check = replace(check, says=says, sums=(*check.sums, workings), compared=compared)
    can_lap = at_most(size(gap), case.limits.lap_m)
    if can_lap is None:
        says = f"{check.says} Whether lapping mends that is too close to call: lap, blue, and see."
        return replace(check, says=says, verdict=CANNOT_TELL, needs=_sharper(case, hub, shaft))
    if can_lap:
        remedy = "Lap the hub to the shaft until it blues over its length: this is within what lapping mends."
        return replace(check, verdict=AFTER_WORK, remedy=remedy, work=LAP)
    return _rebored(case, check, hub, length)


def _along(case: Case, hub: UFloat, shaft: UFloat, length: UFloat) -> tuple[Compared, ...]:
    """The gap along the hub once it is up, quarter by quarter; nothing where the sizes don't give one."""
    bore, stem = case.known(LARGE), case.known(SHAFT)
    if bore is None or stem is None:
        return ()
    try:
        found = contact_gap(bore.n, hub.n, stem.n, shaft.n, length.n, stations=len(STATIONS))
    except OutsideRange:
        return ()
    return tuple(
        Compared(label=f"Gap {where}", value=float(gap), kind="length")
        for where, gap in zip(STATIONS, found.gap_m, strict=True)
    )


def _unsized(case: Case, check: Check, is_slower: bool) -> Check:
    if is_slower:
        says = f"{check.says} On a shaft of its own size its small end is already too big to be re-bored."
        return replace(check, verdict=NO, says=says, remedy=BUSHING, work=BUSH)
    says = f"{check.says} A re-bore may make it fit: that hangs on the size of the bore."
    return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(*case.unknown(LARGE, SHAFT, BORE_LENGTH)))


def _rebored(case: Case, check: Check, hub: UFloat, length: UFloat) -> Check:
    large, shaft, shaft_taper = case.known(LARGE), case.known(SHAFT), case.known(SHAFT_TAPER)
    if large is None or shaft is None or shaft_taper is None:
        return _unsized(case, check, shaft_taper is not None and hub.n < shaft_taper.n)
    boring = cleans_up(case, large=large, hub_taper=hub, length=length, shaft=shaft, shaft_taper=shaft_taper)
    check = replace(check, rests_on=(*check.rests_on, LARGE))
    if boring.answer is False:
        return with_boring(check, boring)
    to = case.say("taper", nearest_taper(shaft_taper.n, shaft_taper.s) or shaft_taper.n, None)
    remedy = f"Re-bore the hub to {to}, its large end to {case.tell_size(SHAFT)}, and key it again."
    return with_boring(replace(check, remedy=remedy, work=REBORE), boring, wall_after(case))


def is_settled(check: Check) -> bool:
    """Tell whether hub and shaft are on one taper, so that a set-up has a meaning."""
    return check.verdict == GOES_ON or check.work == LAP
