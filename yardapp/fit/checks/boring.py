"""Can the hub be bored to this shaft: does it clean up, and is there wall left."""

from dataclasses import dataclass, replace
from typing import TypeVar

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, ANOTHER, BUSH, CANNOT_TELL, NO, SHOP, Check, Need, Sum
from yardapp.fit.checks.readings import HUB_DIAMETER, HUB_KEY_DEPTH, LARGE, SHAFT, SHAFT_KEY_DEPTH, SHAFT_TAPER
from yardapp.fit.checks.sums import add_up
from yardapp.fit.checks.weighing import all_told, at_least
from yardapp.formulas.seat import metal_to_bore, wall_left

WALL_SOURCE = "Least wall: a yard setting, common practice, no source."
BUSHING = "Bush the hub and re-bore the bush to the shaft, if the hub has the metal for it; or another propeller."
STOUTER = "Another propeller, with a stouter hub."
_T = TypeVar("_T")


@dataclass(frozen=True, kw_only=True)
class Boring:
    """One answer about boring: yes, no, or cannot tell (None), why, and what is left to do if it is no."""

    answer: bool | None
    says: str
    sums: tuple[Sum, ...] = ()
    needs: tuple[Need, ...] = ()
    rests_on: tuple[str, ...] = ()
    remedy: str = BUSHING
    work: str = BUSH


def cleans_up(
    case: Case, *, large: UFloat, hub_taper: UFloat | float, length: UFloat, shaft: UFloat, shaft_taper: UFloat
) -> Boring:
    """Is the bore to be made nowhere smaller than the bore there is, over the share of its length that must bear?"""
    share = case.limits.min_contact_share_ratio
    is_faster = (hub_taper if isinstance(hub_taper, float) else hub_taper.n) > shaft_taper.n
    metal, workings = add_up(
        "Metal to bore away at the tightest place",
        metal_to_bore,
        "length",
        bore_large_m=large,
        bore_taper=hub_taper,
        shaft_large_m=shaft,
        shaft_taper=shaft_taper,
        station_m=length * (1 - share if is_faster else share),
    )
    answer = at_least(metal, 0.0)
    says = _cleans_says(case.tell_length(metal), "large" if is_faster else "small", answer)
    needs = case.needs(LARGE, SHAFT) if answer is None else ()
    return Boring(answer=answer, says=says, sums=(workings,), needs=needs, rests_on=(SHAFT, SHAFT_TAPER))


def _cleans_says(metal: str, end: str, answer: bool | None) -> str:
    return {
        True: f"Boring to the shaft cleans up: {metal} of metal on diameter at the tightest place.",
        False: f"Boring to the shaft can't clean up: toward its {end} end the bore is already {metal} too big.",
        None: f"Whether boring to the shaft cleans up toward the {end} end is too close to call.",
    }[answer]


def wall_after(case: Case) -> Boring:
    """Does the hub keep wall enough when it is bored to the shaft, over the keyway too?"""
    keyway = HUB_KEY_DEPTH if case.known(SHAFT_KEY_DEPTH) is None else SHAFT_KEY_DEPTH
    shaft, hub, depth = (case.known(path) for path in (SHAFT, HUB_DIAMETER, keyway))
    if shaft is None or hub is None or depth is None:
        missing = case.unknown(SHAFT, HUB_DIAMETER) + (() if depth is not None else (SHAFT_KEY_DEPTH,))
        says = "Whether that leaves wall enough in the hub can't be told yet."
        return _wall(None, says, case.needs(*missing), keyway)
    wall, plain = add_up("Wall left", wall_left, "length", hub_diameter_m=hub, bore_m=shaft)
    over, keyed = add_up(
        "Wall left over the keyway", wall_left, "length", hub_diameter_m=hub, bore_m=shaft, keyway_depth_m=depth
    )
    least, least_over = case.limits.min_wall_ratio * shaft, case.limits.min_wall_over_key_ratio * shaft
    answer = all_told(at_least(wall - least, 0.0), at_least(over - least_over, 0.0))
    says = _wall_says(case, answer, (wall, over), (least, least_over))
    needs = case.needs(HUB_DIAMETER) if answer is None else ()
    return replace(_wall(answer, says, needs, keyway), sums=(plain, keyed))


def _wall(answer: bool | None, says: str, needs: tuple[Need, ...], keyway: str) -> Boring:
    rests_on = (SHAFT, HUB_DIAMETER, keyway)
    return Boring(answer=answer, says=says, needs=needs, rests_on=rests_on, remedy=STOUTER, work=ANOTHER)


def _wall_says(case: Case, answer: bool | None, walls: tuple[UFloat, UFloat], least: tuple[UFloat, UFloat]) -> str:
    if walls[0].n <= 0:
        return "The shaft is as large as the hub: nothing would be left of it."
    plain, keyed = (case.say("length", wall.n, wall.s) for wall in walls)
    wanted, wanted_over = (case.say("length", limit.n, None) for limit in least)
    left = f"{plain} of wall left, {keyed} over the keyway; the yard wants {wanted} and {wanted_over}."
    return {True: left, False: f"The hub is too thin: {left}", None: f"Too close to call: {left}"}[answer]


def with_boring(check: Check, *borings: Boring) -> Check:
    """The check, its verdict as the borings have it: work, no, or cannot tell."""
    answer = all_told(*(boring.answer for boring in borings))
    done = replace(
        check,
        verdict={True: AFTER_WORK, False: NO, None: CANNOT_TELL}[answer],
        says=" ".join([check.says, *(boring.says for boring in borings)]),
        sums=check.sums + tuple(one for boring in borings for one in boring.sums),
        needs=_once(check.needs, *(boring.needs for boring in borings)),
        rests_on=_once(check.rests_on, *(boring.rests_on for boring in borings)),
        caution=SHOP,
    )
    if answer is not False:
        return done
    last = next(boring for boring in reversed(borings) if boring.answer is False)
    return replace(done, remedy=last.remedy, work=last.work, needs=())


def _once(*parts: tuple[_T, ...]) -> tuple[_T, ...]:
    return tuple(dict.fromkeys(one for part in parts for one in part))
