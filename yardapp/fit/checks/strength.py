"""Does the shaft bear it: torsion, whirl of its longest span, and the key."""

from dataclasses import replace

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import AFTER_WORK, ANOTHER_SHAFT, BEARING, CANNOT_TELL, GOES_ON, NO, Check, Compared, Need
from yardapp.fit.checks.groups import STRENGTH
from yardapp.fit.checks.readings import POWER, SHAFT, SHAFT_KEY_DEPTH, SHAFT_KEY_WIDTH
from yardapp.fit.checks.readings_of_boat import ALLOY, ENGINE_CURVE, KEY_LENGTH, RATED_SPEED, REDUCTION, SAFETY, SPAN
from yardapp.fit.checks.sums import add_up, measured, workings
from yardapp.fit.checks.weighing import at_least, at_most
from yardapp.fit.loading.full_throttle import strongest
from yardapp.fit.loading.parts import Lacking
from yardapp.formulas.engine import kept_ratio
from yardapp.formulas.shafting import (
    ShaftMaterial,
    first_critical_speed,
    key_stress,
    shaft_diameter_required,
    shaft_materials,
    torque,
)

TORSION_SOURCE = (
    "D. Gerr, Boat Mechanical Systems Handbook, formula 1-2, with the yield in torsion of the alloy's own table row; "
    "safety factor 2 light petrol yacht, 3 average, 5 to 6 pilot and patrol, 7.5 inspected passenger (same)."
)
WHIRL_SOURCE = (
    "First critical speed of a shaft hinged at both bearings (any text on vibration); 0.7 to 0.8 of it is ordinary "
    "practice (secondary). A propeller overhung behind the bearing lowers it."
)
KEY_SOURCE = (
    "Mechanics, as if the key carried all of the torque: on a taper the cone carries most. Against the yield in "
    "torsion of the shaft's alloy, for a key of the same metal, and twice that in bearing (no source, ours)."
)
BRIEF_OF_ALLOYS = {f"{one.alloy}, {one.condition}": one for one in shaft_materials()}
LEAST_RATIO = 0.7  # below it nobody worries


def shaft_alloys() -> tuple[str, ...]:
    """The names under which a shaft's metal is known here."""
    return tuple(BRIEF_OF_ALLOYS)


ASK_ALLOY = Need(
    figure=ALLOY, says="Find out what metal the shaft is, and its condition: stamp, bill, or a metal tester."
)


def _alloy(case: Case) -> ShaftMaterial | None:
    return BRIEF_OF_ALLOYS.get(case.drive.shaft_alloy or "")


def check_torsion(case: Case) -> Check:
    """Shaft diameter against what its torque, its metal and the safety factor ask for."""
    paths, alloy = (POWER, RATED_SPEED, REDUCTION, SHAFT), _alloy(case)
    if case.unknown(*paths) or alloy is None:
        return _lacking(case, "torsion", TORSION_SOURCE, paths)
    gear, shaft = case.surely(REDUCTION), case.surely(SHAFT)
    engine = strongest(case)
    if isinstance(engine, Lacking):
        return _misread(case, "torsion", TORSION_SOURCE, engine, paths)
    power, speed, of_curve = engine
    safety, whose = _safety(case)
    least, summed = add_up(
        "Least diameter in torsion",
        shaft_diameter_required,
        "length",
        power_w=power * float(kept_ratio(1, 2)),
        shaft_speed_rps=speed / gear,
        torsional_yield_pa=alloy.torsional_yield_pa,
        safety_factor=safety,
    )
    check = Check(
        name="torsion",
        group=STRENGTH,
        verdict=CANNOT_TELL,
        says=f"{case.drive.shaft_alloy}: {case.tell(SHAFT)}, and {case.say('length', least.n, least.s)} is asked for "
        f"with a safety factor of {safety:g} ({whose}).",
        source=f"{TORSION_SOURCE} Metal: {alloy.source} ({alloy.status}).",
        compared=(*case.compared(SHAFT), Compared(label="Least diameter", value=least.n, u=least.s, kind="length")),
        sums=(summed,),
        rests_on=(*paths, *of_curve, ALLOY, SAFETY),
    )
    bears = at_least(shaft - least, 0.0)
    if bears is None:
        return replace(check, says=f"{check.says} Too close to call.", needs=case.needs(POWER, SHAFT))
    if bears:
        return replace(check, verdict=GOES_ON)
    says = f"{check.says} The shaft is too thin for the engine, whatever propeller it bears."
    remedy = f"Another shaft: of {case.say('length', least.n, None)} at least in this metal, or of a stronger one."
    return replace(check, verdict=NO, says=says, remedy=remedy, work=ANOTHER_SHAFT)


def _safety(case: Case) -> tuple[float, str]:
    factor = case.known(SAFETY)
    if factor is None:
        return case.limits.safety_factor, "the yard's setting: none was chosen for her"
    return float(factor.n), "chosen for her"


def _lacking(case: Case, name: str, source: str, paths: tuple[str, ...]) -> Check:
    """What is not known, the alloy among it."""
    check = case.lacking(name, source, *paths) if case.unknown(*paths) else None
    if check is None:
        check = case.cannot_tell(name, "What metal the shaft is, is not known.", source, *paths)
    elif _alloy(case) is None:
        check = replace(check, says=f"{check.says} Nor what metal the shaft is.")
    needs = (*check.needs, ASK_ALLOY) if _alloy(case) is None else check.needs
    return replace(check, needs=needs, group=STRENGTH)


def _misread(case: Case, name: str, source: str, found: Lacking, paths: tuple[str, ...]) -> Check:
    """An engine whose curve and plate don't agree: neither is taken."""
    check = case.cannot_tell(name, found.says, source, *paths)
    return replace(check, needs=found.needs, group=STRENGTH, rests_on=(*paths, ENGINE_CURVE))


def check_whirl(case: Case) -> Check:
    """The shaft's speed against the first critical speed of its longest span."""
    paths, alloy = (RATED_SPEED, REDUCTION, SHAFT, SPAN), _alloy(case)
    if case.unknown(*paths) or alloy is None:
        return _lacking(case, "critical speed", WHIRL_SOURCE, paths)
    speed, gear, shaft, span = (case.surely(path) for path in paths)
    critical, summed = add_up(
        "First critical speed",
        first_critical_speed,
        "rotation",
        diameter_m=shaft,
        span_m=span,
        modulus_pa=alloy.modulus_pa,
        density_kgpm3=alloy.density_kgpm3,
    )
    turns = speed / gear
    ratio = turns / critical
    check = Check(
        name="critical speed",
        group=STRENGTH,
        verdict=CANNOT_TELL,
        says=f"The longest span, {case.tell(SPAN)}, whirls at {case.say('rotation', critical.n, critical.s)}; the "
        f"shaft turns {case.say('rotation', turns.n, turns.s)}, {case.say('ratio', ratio.n, ratio.s)} of it.",
        source=WHIRL_SOURCE,
        compared=(
            *case.compared(SPAN),
            Compared(label="Shaft over critical speed", value=ratio.n, u=ratio.s, kind="ratio"),
        ),
        sums=(summed,),
        rests_on=(*paths, ALLOY),
    )
    keeps = at_most(ratio, case.limits.most_critical_ratio)
    if keeps is None:
        return replace(check, says=f"{check.says} Too close to call.", needs=case.needs(SPAN, SHAFT))
    if keeps:
        near = " That is in the band of 0.7 to 0.8 where some stop." if ratio.n > LEAST_RATIO else ""
        return replace(check, verdict=GOES_ON, says=f"{check.says}{near}")
    remedy = "A bearing between, or a stouter shaft: as it is the shaft may whip at full throttle."
    return replace(check, verdict=AFTER_WORK, remedy=remedy, work=BEARING)


def check_key(case: Case) -> Check:
    """Mean stresses in the key, were it alone to carry the torque."""
    paths, alloy = (POWER, RATED_SPEED, REDUCTION, SHAFT, SHAFT_KEY_WIDTH, SHAFT_KEY_DEPTH, KEY_LENGTH), _alloy(case)
    if case.has_none(SHAFT_KEY_WIDTH):
        says = "The shaft has no keyway: it drives by its push-up alone, and these sums say nothing of that."
        return replace(
            case.cannot_tell("key", says, KEY_SOURCE, SHAFT_KEY_WIDTH, missing=(SHAFT_KEY_WIDTH,)), group=STRENGTH
        )
    if case.unknown(*paths) or alloy is None:
        return _lacking(case, "key", KEY_SOURCE, paths)
    engine = strongest(case)
    if isinstance(engine, Lacking):
        return _misread(case, "key", KEY_SOURCE, engine, paths)
    figures = _in_the_key(case, engine[0].n, engine[1].n)
    stress = key_stress(**figures)
    shear, bearing = float(stress.shear_pa), float(stress.bearing_pa)
    allowed = alloy.torsional_yield_pa / _safety(case)[0]
    check = Check(
        name="key",
        group=STRENGTH,
        verdict=GOES_ON,
        says=f"If the key carried it all: {case.say('pressure', shear, None)} in shear, "
        f"{case.say('pressure', bearing, None)} in bearing; {case.say('pressure', allowed, None)} and "
        f"{case.say('pressure', 2 * allowed, None)} are kept to.",
        source=KEY_SOURCE,
        compared=(
            *case.compared(SHAFT_KEY_WIDTH, SHAFT_KEY_DEPTH, KEY_LENGTH),
            Compared(label="Shear in the key", value=shear, kind="pressure"),
            Compared(label="Bearing on the key", value=bearing, kind="pressure"),
        ),
        sums=(workings("Shear in the key", key_stress, "pressure", measured(shear, 0.0), **figures),),
        rests_on=(*paths, *engine[2], ALLOY),
    )
    if shear <= allowed and bearing <= 2 * allowed:
        return check
    says = f"{check.says} The key alone would not: the cone must carry it, so the fit must be blued and drawn up well."
    return replace(check, says=says)


def _in_the_key(case: Case, power: float, speed: float) -> dict[str, float]:
    """What the key's sum goes by: the torque at the shaft, and the key as high as both keyways."""
    paths = (REDUCTION, SHAFT, SHAFT_KEY_WIDTH, SHAFT_KEY_DEPTH, KEY_LENGTH)
    gear, shaft, width, depth, length = (float(case.surely(path).n) for path in paths)
    return {
        "torque_nm": float(torque(power * float(kept_ratio(1, 2)), speed / gear)),
        "shaft_diameter_m": shaft,
        "width_m": width,
        "height_m": 2 * depth,
        "length_m": length,
    }
