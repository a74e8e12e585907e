"""A bush as a remedy: what it would measure outside, and the wall it leaves in the hub."""

from dataclasses import replace

from yardapp.fit.checks.boring import STOUTER
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import ANOTHER, BUSH, Check
from yardapp.fit.checks.readings import HUB_DIAMETER, HUB_KEY_DEPTH, LARGE, SHAFT, SHAFT_KEY_DEPTH
from yardapp.fit.checks.sums import add_up
from yardapp.fit.checks.weighing import at_least
from yardapp.formulas.hub_room import bush_diameter
from yardapp.formulas.seat import wall_left

CLEAN_UP_M = 0.001  # on diameter: the old bore must be cut away all round


def bushed(case: Case, check: Check) -> Check:
    """The check, its bush sized and its wall shown; another propeller where the hub has no metal for one."""
    keyway = HUB_KEY_DEPTH if case.known(SHAFT_KEY_DEPTH) is None else SHAFT_KEY_DEPTH
    shaft, depth, hub = (case.known(path) for path in (SHAFT, keyway, HUB_DIAMETER))
    if check.work != BUSH or shaft is None or depth is None:
        return check
    outside, sized = add_up(
        "Outside of the bush",
        bush_diameter,
        "length",
        shaft_diameter_m=shaft,
        keyway_depth_m=depth,
        wall_m=case.limits.min_bush_wall_ratio * shaft,
    )
    bore = case.known(LARGE)
    if bore is not None and bore.n + CLEAN_UP_M > outside.n:
        outside = bore + CLEAN_UP_M
    told = case.say("length", outside.n, None)
    if hub is None:
        remedy = f"Bush it: a bush of {told} outside, if the hub has the metal for it; or another propeller."
        return replace(check, remedy=remedy, sums=(*check.sums, sized))
    wall, walled = add_up("Wall left round the bush", wall_left, "length", hub_diameter_m=hub, bore_m=outside)
    check = replace(check, sums=(*check.sums, sized, walled))
    wanted, left = case.limits.min_wall_ratio * shaft, case.say("length", wall.n, wall.s)
    if at_least(wall - wanted, 0.0) is not False:
        remedy = (
            f"Bore it to {told}, fit a bush and bore that to the shaft, keyway and all: {left} of hub is left round "
            "it. Or another propeller."
        )
        return replace(check, remedy=remedy)
    least = case.say("length", wanted.n, None)
    says = f"{check.says} A bush of {told} outside would leave {left} of hub; the yard wants {least}."
    return replace(check, says=says, remedy=STOUTER, work=ANOTHER)
