"""Room fore and aft of the blades, water over the tips, and weight on the shaft."""

from dataclasses import replace

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, ANOTHER, CANNOT_TELL, CUT_DOWN, GOES_ON, NO, Check, Compared, Need, Sum
from yardapp.fit.checks.groups import AROUND
from yardapp.fit.checks.readings import BLADES, BLOCK, DIAMETER, HUB_LENGTH, LARGE, POWER, SHAFT, VESSEL_LENGTH
from yardapp.fit.checks.readings_of_boat import AHEAD, APERTURE, AREA, DEPTH, MASS, NUTS, OLD_MASS, PITCH, RUDDER, SPAN
from yardapp.fit.checks.sums import add_up, measured, workings
from yardapp.fit.checks.tip_room import CLASS, CLASS_BLADES, CLASS_SOURCE
from yardapp.fit.checks.weighing import at_least, at_most
from yardapp.formulas.blade_room import aperture_left, blade_depth, room_aft, room_ahead, tip_depth
from yardapp.formulas.clearance import class_factor, class_rule

FIXED_MINIMUM = "No small-craft rule is published for room ahead of the blades and behind them: the class rule's own."
ROOM_SOURCE = f"{CLASS_SOURCE} {FIXED_MINIMUM}"
APERTURE_SOURCE = "Geometry."
DEPTH_SOURCE = "Tips well under water, or they draw air (common practice; how deep is a yard setting, no source)."
WEIGHT_SOURCE = "A heavier propeller whips its shaft sooner (mechanics); how much heavier is a yard setting, no source."
LEAST_K = 1e-9  # K left out: the rule's fixed least governs, as it does on craft under about 15 m
OFFER_UP = Need(figure=RUDDER, says="Offer the propeller up and measure the gaps: no rule is given for so few blades.")
OR_SIGN = "or somebody accepts the smaller gap and signs for it: it is a matter of noise and shaking"


def check_around(case: Case, up: UFloat | None) -> tuple[Check, ...]:
    """Rudder, what stands ahead, aperture, immersion, weight."""
    checks = (
        _gap(case, up, RUDDER, "room to the rudder"),
        _gap(case, up, AHEAD, "room ahead of the blades"),
        _aperture(case),
        _immersion(case),
        _weight(case),
    )
    return tuple(replace(check, group=AROUND) for check in checks)


def _gap(case: Case, up: UFloat | None, distance: str, name: str) -> Check:
    paths = (distance, DIAMETER, PITCH, AREA, HUB_LENGTH)
    if case.unknown(*paths):
        return case.lacking(name, ROOM_SOURCE, *paths)
    if case.propeller.blades not in CLASS_BLADES:
        return replace(
            case.cannot_tell(name, "The rule begins at three blades.", ROOM_SOURCE, *paths), needs=(OFFER_UP,)
        )
    if up is None:
        says = "Where the hub comes to stand is not known yet."
        check = case.cannot_tell(name, says, ROOM_SOURCE, *paths, missing=case.unknown(LARGE, SHAFT))
        return replace(check, needs=(*check.needs, OFFER_UP))
    gap, sums = _room(case, up, distance)
    wanted, rule, said = _wanted(case, distance)
    check = Check(
        name=name,
        verdict=CANNOT_TELL,
        says=f"At 0.7 of the radius {case.say('length', gap.n, gap.s)} is left; {said} asks for "
        f"{case.say('length', wanted.n, None)}.",
        source=ROOM_SOURCE,
        compared=(*case.compared(distance, HUB_LENGTH), Compared(label="Gap", value=gap.n, u=gap.s, kind="length")),
        sums=(*sums, rule),
        rests_on=(*paths, BLADES),
    )
    return _weighed(case, check, gap, wanted, distance)


def _room(case: Case, up: UFloat, distance: str) -> tuple[UFloat, tuple[Sum, ...]]:
    diameter, pitch, area, hub = (case.surely(path) for path in (DIAMETER, PITCH, AREA, HUB_LENGTH))
    deep, blade = add_up(
        "Blade along the shaft",
        blade_depth,
        "length",
        diameter_m=diameter,
        pitch_m=pitch,
        area_ratio=area,
        blades=float(case.propeller.blades or 0),
    )
    formula, name = (room_aft, "rudder_distance_m") if distance == RUDDER else (room_ahead, "ahead_distance_m")
    figures = {name: case.surely(distance), "hub_length_m": hub, "set_up_m": up, "blade_depth_m": deep}
    gap, summed = add_up("Gap at 0.7 R", formula, "length", **figures)
    return gap, (blade, summed)


def _wanted(case: Case, distance: str) -> tuple[UFloat, Sum, str]:
    """By the class rule; its K only where that rule was chosen and everything in it is known."""
    factor, said = LEAST_K, "the class rule's fixed least"
    if case.rule == CLASS and not case.unknown(VESSEL_LENGTH, BLOCK, POWER):
        length, block, power = (float(case.surely(path).n) for path in (VESSEL_LENGTH, BLOCK, POWER))
        factor, said = float(class_factor(length, block, power)), "the class rule"
    letter = "c_m" if distance == RUDDER else ("f_m" if case.drive.is_twin else "b_m")
    figures = {"diameter_m": float(case.surely(DIAMETER).n), "blades": float(case.propeller.blades or 0)}
    wanted = measured(float(getattr(class_rule(**figures, k_factor=factor), letter)), 0.0)
    return wanted, workings("Gap asked for", class_rule, "length", wanted, **figures, k_factor=factor), said


def _weighed(case: Case, check: Check, gap: UFloat, wanted: UFloat, distance: str) -> Check:
    if at_most(gap, 0.0):
        remedy = "Another propeller, with narrower blades or a hub that stands elsewhere."
        return replace(check, verdict=NO, says=f"{check.says} They would strike.", remedy=remedy, work=ANOTHER)
    keeps = at_least(gap - wanted, 0.0)
    if keeps:
        return replace(check, verdict=GOES_ON)
    if keeps is None:
        return replace(check, says=f"{check.says} Too close to call.", needs=case.needs(distance))
    return replace(check, verdict=NO, remedy=f"Another propeller, with narrower blades; {OR_SIGN}.", work=ANOTHER)


def _aperture(case: Case) -> Check:
    paths = (APERTURE, HUB_LENGTH, NUTS)
    if case.unknown(*paths):
        return case.lacking("aperture", APERTURE_SOURCE, *paths)
    aperture, hub, nuts = (case.surely(path) for path in paths)
    left, summed = add_up(
        "Left over in the aperture",
        aperture_left,
        "length",
        aperture_length_m=aperture,
        hub_length_m=hub,
        nut_length_m=nuts,
    )
    check = Check(
        name="aperture",
        verdict=CANNOT_TELL,
        says=f"Hub and nuts leave {case.say('length', left.n, left.s)} of the aperture over.",
        source=APERTURE_SOURCE,
        compared=case.compared(*paths),
        sums=(summed,),
        rests_on=paths,
    )
    goes_in = at_least(left, 0.0)
    if goes_in:
        says = (
            f"{check.says} To come off again it must move aft by the taper and the thread: shaft drawn or rudder off."
        )
        return replace(check, verdict=GOES_ON, says=says if left.n < hub.n else check.says)
    if goes_in is None:
        return replace(check, says=f"{check.says} Too close to call.", needs=case.needs(APERTURE))
    remedy = "Another propeller, with a shorter hub."
    return replace(check, verdict=NO, says=f"{check.says} They do not go in.", remedy=remedy, work=ANOTHER)


def _immersion(case: Case) -> Check:
    paths = (DEPTH, DIAMETER)
    if case.unknown(*paths):
        return case.lacking("immersion", DEPTH_SOURCE, *paths)
    depth, diameter = (case.surely(path) for path in paths)
    over, summed = add_up("Water over the tips", tip_depth, "length", shaft_depth_m=depth, diameter_m=diameter)
    least = case.limits.min_tip_depth_ratio * diameter
    check = Check(
        name="immersion",
        verdict=CANNOT_TELL,
        says=f"{case.say('length', over.n, over.s)} of water over the tips at rest; the yard wants "
        f"{case.say('length', least.n, None)}.",
        source=DEPTH_SOURCE,
        compared=case.compared(*paths),
        sums=(summed,),
        rests_on=paths,
    )
    is_deep = at_least(over - least, 0.0)
    if is_deep:
        return replace(check, verdict=GOES_ON)
    if is_deep is None:
        return replace(check, says=f"{check.says} Too close to call.", needs=case.needs(DEPTH))
    return _shallow(case, check, depth, diameter)


def _shallow(case: Case, check: Check, depth: UFloat, diameter: UFloat) -> Check:
    largest = float(depth.n) / (0.5 + case.limits.min_tip_depth_ratio)
    told = case.say("length", largest, None)
    says = f"{check.says} It would draw air."
    if largest >= (1 - case.limits.most_cut_ratio) * diameter.n:
        remedy = f"Cut it down to {told}, which is a new choice for the engine."
        return replace(check, verdict=AFTER_WORK, says=says, remedy=remedy, work=CUT_DOWN)
    remedy = f"Another propeller, of {told} at most."
    return replace(check, verdict=NO, says=says, remedy=remedy, work=ANOTHER)


def _weight(case: Case) -> Check:
    paths = (MASS, OLD_MASS)
    if case.unknown(*paths):
        return case.lacking("weight", WEIGHT_SOURCE, *paths)
    mass, old = (case.surely(path) for path in paths)
    more = mass / old - 1
    told = f"{case.say('ratio', abs(more.n), more.s)} {'heavier' if more.n > 0 else 'lighter'}"
    check = Check(
        name="weight",
        verdict=GOES_ON,
        says=f"It weighs {case.tell(MASS)}, {told} than the old one.",
        source=WEIGHT_SOURCE,
        compared=case.compared(*paths),
        rests_on=paths,
    )
    if at_most(more, case.limits.most_heavier_ratio):
        return check
    says = (
        f"{check.says} That is much: whether the shaft line bears it must be reckoned by whoever reckons shaft lines."
    )
    return replace(check, verdict=CANNOT_TELL, says=says, needs=case.needs(MASS, SPAN))
