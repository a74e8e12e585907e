"""Are the blades large enough for their load: criteria side by side, and how fast the tips go."""

from dataclasses import dataclass, replace
from math import sqrt

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import ANOTHER, CANNOT_TELL, GOES_ON, NO, Check, Compared, Sum
from yardapp.fit.checks.groups import BLADES as GROUP
from yardapp.fit.checks.readings import BLADES, DIAMETER
from yardapp.fit.checks.readings_of_boat import AREA, DEPTH, PITCH, RATED_SPEED, REDUCTION, WHAT_KIND
from yardapp.fit.checks.sums import add_up, measured, workings
from yardapp.fit.checks.weighing import at_least
from yardapp.fit.checks.words import listed
from yardapp.fit.loading import Lacking, Loading
from yardapp.formulas.cavitation import (
    blade_load,
    blade_pressure,
    blade_pressure_limit,
    burrill_limit,
    keller_area_ratio,
    tip_speed,
    tip_speed_band,
)
from yardapp.formulas.ranges import OutsideRange

AREA_SOURCE = (
    "Keller 1966 as in Holtrop & Mennen 1982; Burrill & Emerson 1943, 1963 by a named fit (mostly from memory); blade "
    "pressure: D. Gerr, Propeller Handbook (from memory, high). They don't always agree; one of them, chosen by the "
    "yard, decides."
)
SPEED_SOURCE = "Common practice, from memory, low confidence: a warning, never a limit; there is no standard."
SINGLE_K, TWIN_K = 0.2, 0.05
MORE = "Another propeller, with more blade area: wider blades, or one more."


@dataclass(frozen=True, kw_only=True)
class Criterion:
    """What one criterion asks for, as an area ratio, and the sum that shows it."""

    name: str
    wanted_ratio: float
    sums: tuple[Sum, ...]


def check_area(case: Case, found: Loading | Lacking) -> Check:
    """Blade area against Keller, Burrill and the handbook's pressure."""
    paths = (AREA, DEPTH)
    if isinstance(found, Lacking):
        says = f"What thrust the blades must bear is not known. {found.says}"
        needs = tuple(dict.fromkeys((*case.needs(*case.unknown(*paths)), *found.needs)))
        check = case.cannot_tell("blade area", says, AREA_SOURCE, *paths)
        return replace(check, needs=needs, group=GROUP, rests_on=(*paths, WHAT_KIND))
    if case.unknown(*paths):
        return replace(case.lacking("blade area", AREA_SOURCE, *paths), group=GROUP)
    criteria, left_out = _criteria(case, found)
    area = case.surely(AREA)
    check = Check(
        name="blade area",
        group=GROUP,
        verdict=CANNOT_TELL,
        says=_says(case, criteria, left_out),
        source=AREA_SOURCE,
        compared=(*case.compared(*paths), *(_row(one) for one in criteria)),
        sums=tuple(one for each in criteria for one in each.sums),
        rests_on=(*paths, DIAMETER, PITCH, BLADES, *found.premises.rests_on),
    )
    deciding = next((one for one in criteria if one.name.startswith(case.limits.area_criterion)), None)
    if deciding is None:
        says = f"{check.says} {case.limits.area_criterion}, which decides here, has no answer."
        return replace(check, says=says, needs=case.needs(AREA))
    wanted = measured(deciding.wanted_ratio, deciding.wanted_ratio * _u_share(found))
    return _weighed(case, check, at_least(area - wanted, 0.0), deciding)


def _u_share(found: Loading) -> float:
    """How far the load may be out, as a share: thrust, and turns twice."""
    thrust = (found.thrust_n.u or 0.0) / found.thrust_n.value
    turns = 2 * (found.shaft_speed_rps.u or 0.0) / found.shaft_speed_rps.value
    return sqrt(thrust**2 + turns**2)


def _weighed(case: Case, check: Check, is_enough: bool | None, deciding: Criterion) -> Check:
    says = f"{check.says} {deciding.name} decides."
    if is_enough is None:
        return replace(check, says=f"{says} Too close to call.", needs=case.needs(AREA, DEPTH))
    if is_enough:
        return replace(check, verdict=GOES_ON, says=f"{says} The blades are large enough.")
    says = f"{says} The blades are too small for their load: they would cavitate, lose thrust and wear."
    return replace(check, verdict=NO, says=says, remedy=MORE, work=ANOTHER)


def _says(case: Case, criteria: tuple[Criterion, ...], left_out: list[str]) -> str:
    has = case.surely(AREA)
    asks = listed([f"{one.name} for {one.wanted_ratio:.2f}" for one in criteria])
    answers = {one.wanted_ratio <= has.n for one in criteria}
    says = f"The blade area ratio is {case.say('count', has.n, None)}; asked for: {asks}."
    if len(answers) > 1:
        says += " The criteria differ."
    return f"{says} {' '.join(left_out)}".strip()


def _row(one: Criterion) -> Compared:
    return Compared(label=f"Asked for by {one.name}", value=one.wanted_ratio, kind="count")


def _criteria(case: Case, found: Loading) -> tuple[tuple[Criterion, ...], list[str]]:
    kept, left_out = [], []
    for work in (_keller, _burrill, _pressure):
        try:
            kept.append(work(case, found))
        except OutsideRange as refusal:
            left_out.append(f"{work.__name__.strip('_').capitalize()} is left out: {refusal}")
    return tuple(kept), left_out


def _keller(case: Case, found: Loading) -> Criterion:
    figures = {
        "thrust_n": found.thrust_n.value,
        "diameter_m": float(case.surely(DIAMETER).n),
        "blades": float(case.propeller.blades or 0),
        "shaft_depth_m": float(case.surely(DEPTH).n),
        "allowance_ratio": TWIN_K if case.drive.is_twin else SINGLE_K,
    }
    wanted = float(keller_area_ratio(**figures))
    summed = workings("Least area ratio by Keller", keller_area_ratio, "count", measured(wanted, 0.0), **figures)
    return Criterion(name="Keller", wanted_ratio=wanted, sums=(summed,))


def _burrill(case: Case, found: Loading) -> Criterion:
    line, area = case.limits.burrill_line, float(case.surely(AREA).n)
    figures = {
        "thrust_n": found.thrust_n.value,
        "shaft_speed_rps": found.shaft_speed_rps.value,
        "advance_speed_mps": found.advance_speed_mps,
        "diameter_m": float(case.surely(DIAMETER).n),
        "pitch_ratio": float(case.surely(PITCH).n / case.surely(DIAMETER).n),
        "area_ratio": area,
        "shaft_depth_m": float(case.surely(DEPTH).n),
    }
    load = blade_load(**figures)
    sigma, tau = float(load.cavitation_number), float(load.thrust_loading_ratio)
    most = float(burrill_limit(sigma, line))
    loaded = workings("Thrust loading", blade_load, "count", measured(tau, 0.0), **figures)
    limit = workings(
        f"Most by Burrill, line {line}", burrill_limit, "count", measured(most, 0.0), cavitation_number=sigma, line=line
    )
    return Criterion(name=f"Burrill (line {line})", wanted_ratio=area * tau / most, sums=(loaded, limit))


def _pressure(case: Case, found: Loading) -> Criterion:
    area, diameter = float(case.surely(AREA).n), float(case.surely(DIAMETER).n)
    figures = {
        "power_w": found.power_w.value,
        "efficiency_ratio": found.efficiency,
        "advance_speed_mps": found.advance_speed_mps,
        "developed_m2": area * 3.141592653589793 / 4 * diameter**2,
    }
    most_by = {"advance_speed_mps": found.advance_speed_mps, "shaft_depth_m": float(case.surely(DEPTH).n)}
    pressure, most = float(blade_pressure(**figures)), float(blade_pressure_limit(**most_by))
    loaded = workings("Pressure on the blades", blade_pressure, "pressure", measured(pressure, 0.0), **figures)
    limit = workings("Most by the handbook", blade_pressure_limit, "pressure", measured(most, 0.0), **most_by)
    return Criterion(name="the handbook's pressure", wanted_ratio=area * pressure / most, sums=(loaded, limit))


def check_tip_speed(case: Case, found: Loading | Lacking) -> Check:
    """How fast the tips go at full throttle, or at the rated speed where nothing is known of the hull."""
    if isinstance(found, Lacking):
        return _at_rated(case)
    diameter = case.known(DIAMETER)
    if diameter is None:
        return replace(case.lacking("tip speed", SPEED_SOURCE, DIAMETER), group=GROUP)
    turns = measured(found.shaft_speed_rps.value, found.shaft_speed_rps.u or 0.0)
    speed, summed = add_up("Tip speed", tip_speed, "speed", shaft_speed_rps=turns, diameter_m=diameter)
    return _banded(case, float(speed.n), summed, (DIAMETER, *found.premises.rests_on), "at full throttle")


def _at_rated(case: Case) -> Check:
    paths = (DIAMETER, RATED_SPEED, REDUCTION)
    if case.unknown(*paths):
        return replace(case.lacking("tip speed", SPEED_SOURCE, *paths), group=GROUP)
    diameter, speed, gear = (case.surely(path) for path in paths)
    tips, summed = add_up("Tip speed", tip_speed, "speed", shaft_speed_rps=speed / gear, diameter_m=diameter)
    return _banded(case, float(tips.n), summed, paths, "if the engine comes to its rated speed")


def _banded(case: Case, speed_mps: float, summed: Sum, rests_on: tuple[str, ...], when: str) -> Check:
    band = tip_speed_band(speed_mps)
    return Check(
        name="tip speed",
        group=GROUP,
        verdict=GOES_ON,
        says=f"The tips go at {speed_mps:.0f} m/s {when}: {band}. That is a warning, not a limit.",
        source=SPEED_SOURCE,
        compared=case.compared(DIAMETER),
        sums=(summed,),
        rests_on=rests_on,
    )
