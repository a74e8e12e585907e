"""Room between the blade tips and the hull, against the rule that somebody chose."""

from dataclasses import dataclass, replace

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import (
    AFTER_WORK,
    ANOTHER,
    CANNOT_TELL,
    CUT_DOWN,
    GOES_ON,
    NO,
    Check,
    Compared,
    Need,
    Sum,
)
from yardapp.fit.checks.readings import BLADES, BLOCK, CLEARANCE, DIAMETER, POWER, TWIN, VESSEL_LENGTH
from yardapp.fit.checks.sums import add_up, workings
from yardapp.fit.checks.weighing import at_least, at_most
from yardapp.fit.checks.words import sentence
from yardapp.fit.figures import DriveFigures
from yardapp.formulas.clearance import class_factor, class_rule, handbook_rule, tip_clearance
from yardapp.formulas.seat import largest_diameter
from yardapp.formulas.uncertainty import propagate

CLASS = "class"
BANDS = {"8 %": 0.08, "10 %": 0.10, "15 %": 0.15, "20 %": 0.20}
RULES = (*BANDS, CLASS)
BAND_SOURCE = (
    "Tip room of 8, 10, 15 and 20 % of the diameter by speed of craft: D. Gerr, Propeller Handbook (from memory, "
    "medium). Bands in use, not law."
)
CLASS_SOURCE = (
    "Lloyd's Register, Rules for Ships, July 2000, Pt 3 Ch 6 Table 6.7.2 (recommended minimum against shaking, not "
    "strength); on craft under about 15 m its fixed minimum usually governs."
)
CLASS_BLADES = (3, 4, 5, 6)
ASK_TWIN = Need(figure=TWIN, says="Say whether the vessel has one screw or two: the class rule asks for more on two.")
ASK_BLADES = Need(figure=BLADES, says="Count the blades: the class rule is given for 3 to 6.")


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """The gap that the rule asks for, and the rule in words."""

    gap: UFloat
    said: str
    sums: tuple[Sum, ...] = ()
    rests_on: tuple[str, ...] = ()


def check_tip_room(case: Case) -> Check:
    """Gap at the tips against the band or class rule."""
    paths = (DIAMETER, CLEARANCE)
    source = CLASS_SOURCE if case.rule == CLASS else BAND_SOURCE
    diameter, room = (case.known(path) for path in paths)
    if diameter is None or room is None:
        return case.lacking("tip room", source, *paths)
    gap, workings = add_up("Gap at the tips", tip_clearance, "length", hull_clearance_m=room, diameter_m=diameter)
    check = Check(
        name="tip room",
        verdict=CANNOT_TELL,
        says=_gap_says(case, gap, diameter),
        source=source,
        compared=(*case.compared(*paths), Compared(label="Gap at the tips", value=gap.n, u=gap.s, kind="length")),
        sums=(workings,),
        rests_on=paths,
    )
    if at_most(gap, 0.0):
        remedy = "Another propeller: a smaller one, chosen anew for the engine."
        return replace(check, verdict=NO, says=f"{check.says} They would strike it.", remedy=remedy, work=ANOTHER)
    if case.rule != CLASS:
        wanted = Wanted(gap=BANDS[case.rule] * diameter, said=f"the {case.rule} band")
        return _weighed(case, check, gap, wanted)
    missing = _class_needs(case)
    if missing:
        says = f"{check.says} The class rule also goes by length, block coefficient, power, blades and screws."
        return replace(check, says=says, needs=missing)
    return _weighed(case, check, gap, _class_wanted(case, diameter))


def room_share(drive: DriveFigures, rule: str, blades: int) -> float | None:
    """The part of the diameter that a rule asks for at the tips, its ± left aside; None where it can't be told."""
    if rule in BANDS:
        return BANDS[rule]
    figures = (drive.vessel_length_m, drive.block_ratio, drive.rated_power_w)
    if blades not in CLASS_BLADES or drive.is_twin is None or None in figures:
        return None
    factor = class_factor(*(figure.value for figure in figures if figure is not None))
    return float(getattr(class_rule(1.0, blades, factor), "e_m" if drive.is_twin else "a_m"))


def _gap_says(case: Case, gap: UFloat, diameter: UFloat) -> str:
    if gap.n < 0:
        return f"The blades reach {case.tell_length(gap)} beyond the hull."
    share = gap / diameter
    return f"{case.say('length', gap.n, gap.s)} at the tips, {case.say('ratio', share.n, share.s)} of the diameter."


def _class_needs(case: Case) -> tuple[Need, ...]:
    needs = case.needs(*case.unknown(VESSEL_LENGTH, BLOCK, POWER))
    if case.propeller.blades not in CLASS_BLADES:
        needs = (*needs, ASK_BLADES)
    return needs if case.drive.is_twin is not None else (*needs, ASK_TWIN)


def _class_wanted(case: Case, diameter: UFloat) -> Wanted:
    read = {"length_m": VESSEL_LENGTH, "block_ratio": BLOCK, "power_w": POWER}
    figures = {name: case.surely(path) for name, path in read.items()}
    factor, factor_sum = add_up("Factor K", class_factor, "count", **figures)
    blades, letter = case.propeller.blades or 0, "e_m" if case.drive.is_twin else "a_m"

    def gap_of(diameter_m: float, k_factor: float) -> float:
        return float(getattr(class_rule(diameter_m, blades, k_factor), letter))

    gap = propagate(gap_of, diameter_m=diameter, k_factor=factor)
    summed = workings(
        "Gap that the class rule asks for",
        class_rule,
        "length",
        gap,
        diameter_m=diameter,
        blades=blades,
        k_factor=factor,
    )
    rests_on = (VESSEL_LENGTH, BLOCK, POWER, BLADES, TWIN)
    return Wanted(gap=gap, said="the class rule", sums=(factor_sum, summed), rests_on=rests_on)


def _weighed(case: Case, check: Check, gap: UFloat, wanted: Wanted) -> Check:
    told = case.say("length", wanted.gap.n, wanted.gap.s)
    least = Compared(label=f"Gap that {wanted.said} asks for", value=wanted.gap.n, u=wanted.gap.s, kind="length")
    check = replace(
        check,
        says=f"{check.says} {sentence(wanted.said)} asks for {told}.{_bands_kept(case, gap)}",
        compared=(*check.compared, least),
        sums=(*check.sums, *wanted.sums),
        rests_on=(*check.rests_on, *wanted.rests_on),
    )
    keeps = at_least(gap - wanted.gap, 0.0)
    if keeps:
        return replace(check, verdict=GOES_ON)
    if keeps is None:
        says = f"{check.says} Too close to call."
        return replace(check, says=says, needs=case.needs(DIAMETER, CLEARANCE))
    return _cut_down(case, check, wanted)


def _bands_kept(case: Case, gap: UFloat) -> str:
    """Which of the bands in use the gap keeps, so that one number is not read as a law."""
    diameter = case.surely(DIAMETER)
    kept = [band for band in handbook_rule(diameter.n) if gap.n >= float(band.gap_m)]
    if not kept:
        return " No band in use allows so little."
    return f" It keeps the {case.say('ratio', kept[-1].share_ratio, None)} band ({kept[-1].craft})."


def _cut_down(case: Case, check: Check, wanted: Wanted) -> Check:
    """Under the rule, yet clear of the hull: cut it down, or accept less, or another propeller."""
    diameter, room = case.surely(DIAMETER), case.surely(CLEARANCE)
    largest, summed = add_up(
        f"Largest diameter under {wanted.said}",
        largest_diameter,
        "length",
        hull_clearance_m=room,
        tip_ratio=wanted.gap.n / diameter.n,
    )
    check = replace(check, sums=(*check.sums, summed))
    to, off = case.say("length", largest.n, None), case.say("length", diameter.n - largest.n, None)
    is_below_all = room.n - diameter.n / 2 < min(BANDS.values()) * diameter.n
    if is_below_all and diameter.n - largest.n > case.limits.most_cut_ratio * diameter.n:
        remedy = f"Another propeller, of {to} at most: cutting {off} off this one would leave another propeller anyway."
        return replace(check, verdict=NO, remedy=remedy, work=ANOTHER)
    remedy = (
        f"Cut it down to {to} ({off} less), which is a new choice for the engine; "
        "or somebody accepts the smaller gap and signs for it: it is a matter of noise and shaking."
    )
    return replace(check, verdict=AFTER_WORK, remedy=remedy, work=CUT_DOWN)
