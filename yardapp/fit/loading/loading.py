"""Engine, hull and propeller put together: rpm at full throttle with its band, and what pitch or diameter would do."""

from typing import NamedTuple

import numpy as np

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import Need
from yardapp.fit.checks.readings import BLADES, DIAMETER
from yardapp.fit.checks.readings_of_boat import AREA, PITCH, TRIAL, WHAT_KIND
from yardapp.fit.checks.words import listed, plain
from yardapp.fit.figures import DriveFigures, Figure, Limits, PropellerFigures
from yardapp.fit.loading.hull import CURVE
from yardapp.fit.loading.parts import Array, Lacking, Loading, Premises, Step, Unsure
from yardapp.fit.loading.premises import premises
from yardapp.fit.loading.reach import LEAST_BLADES, MOST_BLADES, meet
from yardapp.fit.loading.spread import Guises, guises, reached, scattered, spread
from yardapp.formulas.engine import engine_power
from yardapp.formulas.sizing import Meeting, repitch_limit

INCH_M = 0.0254
PITCH_STEPS_M = (INCH_M, -INCH_M, 0.025, -0.025)
PITCH_FAN = np.linspace(0.6, 1.4, 17)
DIAMETER_FAN = np.linspace(0.8, 1.0, 9)
# A fixed propeller whose blades nobody measured: small craft have 0.4 to 0.7 (common practice, no source).
AREA_ASSUMED, U_AREA_ASSUMED = 0.55, 0.08
FIXED = (None, "fixed")
ALLOYS = {
    "manganese bronze": "bronze",
    "aluminium bronze": "bronze",
    "bronze": "bronze",
    "aluminium": "aluminium",
    "stainless steel": "stainless",
    "stainless": "stainless",
}
ASK_BLADES = Need(figure=BLADES, says="Count the blades.")
RUN = Need(
    figure=TRIAL,
    says="Run her at full throttle, laden as she goes, and write down engine rpm and speed: that settles more than any "
    "sum.",
)
MAKER = Need(
    figure=WHAT_KIND, says="Ask the maker of the folding or feathering gear for its own table of rpm and power."
)


class _Known(NamedTuple):
    """The pair's figures that the sums go by."""

    premises: Premises
    propeller: tuple[Unsure, ...]
    blades: int
    material: str
    is_area_assumed: bool


def loading(propeller: PropellerFigures, drive: DriveFigures, limits: Limits | None = None) -> Loading | Lacking:
    """What engine, hull and propeller do together at full throttle, or what is missing to say it."""
    known = _known(propeller, drive, limits)
    return known if isinstance(known, Lacking) else _worked(known)


def scatter(
    propeller: PropellerFigures,
    drive: DriveFigures,
    *,
    count: int = 4000,
    seed: int = 1,
    limits: Limits | None = None,
) -> Array:
    """Free engine speeds, 1/s, of `count` such pairs drawn by chance; none where a figure lacks."""
    known = _known(propeller, drive, limits)
    if isinstance(known, Lacking):
        return np.empty(0)
    found = scattered(known.premises, known.propeller, known.blades, count=count, seed=seed)
    return np.asarray(found * known.premises.rated_speed_rps)


def _known(propeller: PropellerFigures, drive: DriveFigures, limits: Limits | None) -> _Known | Lacking:
    if propeller.kind not in FIXED:
        says = (
            f"The sums are those of fixed blades: for a {propeller.kind} propeller they do not hold and are left out."
        )
        return Lacking(says=says, needs=(RUN, MAKER))
    case = Case(propeller=propeller, drive=drive, rule="15 %", say=plain, limits=limits or Limits())
    lacks, found = _propeller_lacks(case), premises(drive, limits)
    if lacks is not None or isinstance(found, Lacking):
        each = [one for one in (lacks, found) if isinstance(one, Lacking)]
        needs = tuple(dict.fromkeys(need for one in each for need in one.needs))
        return Lacking(says=" ".join(one.says for one in each), needs=needs)
    area = case.known(AREA)
    of_propeller = (
        *(
            Unsure(name=path.split(".")[1], value=case.surely(path).n, u=case.surely(path).s, path=path)
            for path in (DIAMETER, PITCH)
        ),
        Unsure(name="area_ratio", value=AREA_ASSUMED, u=U_AREA_ASSUMED, path=AREA)
        if area is None
        else Unsure(name="area_ratio", value=area.n, u=area.s, path=AREA),
    )
    return _Known(found, of_propeller, propeller.blades or 0, propeller.material or "", area is None)


def _propeller_lacks(case: Case) -> Lacking | None:
    missing = case.unknown(DIAMETER, PITCH)
    labels = [{DIAMETER: "diameter", PITCH: "pitch"}[path] for path in missing]
    needs = case.needs(*missing)
    blades = case.propeller.blades
    if blades is None or not LEAST_BLADES <= blades <= MOST_BLADES:
        labels, needs = [*labels, "number of blades"], (*needs, ASK_BLADES)
    if not labels:
        return None
    says = f"Of the propeller the {listed(labels, 'and the')} {'is' if len(labels) == 1 else 'are'} not known."
    return Lacking(says=says, needs=needs)


def _worked(known: _Known) -> Loading | Lacking:
    worn = guises(known.premises, known.propeller, _others(known))
    free, ratio = reached(known.premises, worn, known.blades)
    if np.isnan(ratio[0]):
        return _nowhere(known)
    diameter, pitch, area = (one.value for one in known.propeller)
    held = free if ratio[0] <= 1 else meet(known.premises, [diameter], [pitch], [area], [known.blades])
    if np.isnan(held.speed_mps[0]):
        return _nowhere(known)
    return _told(known, worn, free, held, ratio)


def _nowhere(known: _Known) -> Lacking:
    slow, fast = (float(np.asarray(known.premises.hull.speed_mps)[i]) * 3600 / 1852 for i in (0, -1))
    says = (
        f"Between {slow:.1f} and {fast:.1f} kn, where the {known.premises.hull_method} holds, there is no speed at "
        "which engine, hull and this propeller agree: she goes past it, or the propeller lies outside the series."
    )
    return Lacking(says=says, needs=(CURVE, RUN))


def _others(known: _Known) -> dict[str, Array]:
    """Further propellers to look at in the same call: an inch of pitch, a fan of pitches, a fan of diameters."""
    diameter, pitch, _ = (one.value for one in known.propeller)
    pitches = np.concatenate([pitch + np.array(PITCH_STEPS_M), pitch * PITCH_FAN])
    return {
        "pitch_m": np.concatenate([pitches, np.full(DIAMETER_FAN.size, pitch)]),
        "diameter_m": np.concatenate([np.full(pitches.size, diameter), diameter * DIAMETER_FAN]),
    }


def _told(known: _Known, worn: Guises, free: Meeting, held: Meeting, ratio: Array) -> Loading:
    rated = known.premises.rated_speed_rps
    turning = spread(ratio, worn.unsure)
    engine = float(held.engine_speed_rps[0])
    rest = 1 + 2 * len(worn.unsure)
    steps = free.engine_speed_rps[rest : rest + len(PITCH_STEPS_M)] - free.engine_speed_rps[0]
    fans = ratio[rest + len(PITCH_STEPS_M) :]
    diameter, pitch, area = (one.value for one in known.propeller)
    return Loading(
        engine_speed_rps=Figure(value=engine, u=turning.u * rated),
        low_rps=min(turning.value - 2 * turning.u, 1.0) * rated,
        high_rps=min(turning.value + 2 * turning.u, 1.0) * rated,
        free_speed_rps=Figure(value=turning.value * rated, u=turning.u * rated),
        rated_speed_rps=rated,
        is_governed=turning.value > 1,
        shaft_speed_rps=Figure(value=float(held.shaft_speed_rps[0]), u=turning.u * float(held.shaft_speed_rps[0])),
        speed_mps=_with_u(held.speed_mps, free.speed_mps, worn),
        power_w=_with_u(held.power_w, free.power_w, worn),
        available_w=_available(known.premises, engine),
        thrust_n=_with_u(held.thrust_n, free.thrust_n, worn),
        efficiency=float(held.efficiency[0]),
        advance_speed_mps=float(held.speed_mps[0]) * (1 - float(np.asarray(known.premises.hull.wake_ratio))),
        propped_ratio=Figure(value=1 - turning.value, u=turning.u),
        steps=tuple(
            Step(pitch_change_m=change, engine_speed_change_rps=float(each))
            for change, each in zip(PITCH_STEPS_M, steps, strict=True)
            if not np.isnan(each)
        ),
        right_pitch_m=_crossing(pitch * PITCH_FAN, fans[: PITCH_FAN.size], known.premises.aim_ratio),
        repitch_limit_m=_limit(known.material),
        right_diameter_m=_crossing(diameter * DIAMETER_FAN, fans[PITCH_FAN.size :], known.premises.aim_ratio),
        is_area_assumed=known.is_area_assumed,
        area_ratio=area,
        shares=_shares(turning.parts),
        premises=known.premises,
    )


def _with_u(held: Array, free: Array, worn: Guises) -> Figure:
    """The figure under the governor, with the share that it is unsure by without one."""
    found = spread(free, worn.unsure)
    return Figure(value=float(held[0]), u=float(held[0]) * found.u / found.value)


def _available(found: Premises, engine_speed_rps: float) -> float:
    return float(engine_power(found.engine.curve, min(engine_speed_rps, found.rated_speed_rps))) * float(
        np.asarray(found.engine.kept_ratio)
    )


def _crossing(sizes: Array, ratios: Array, aim: float) -> float | None:
    """The size at which the engine would reach its aim; None where that lies outside the fan."""
    known = ~np.isnan(ratios)
    sizes, ratios = sizes[known][::-1], ratios[known][::-1]
    if ratios.size < 2 or not ratios[0] <= aim <= ratios[-1] or np.any(np.diff(ratios) <= 0):
        return None
    return float(np.interp(aim, ratios, sizes))


def _limit(material: str) -> float | None:
    alloy = ALLOYS.get(material.strip().lower())
    return None if alloy is None else repitch_limit(alloy)


def _shares(parts: dict[str, float]) -> tuple[tuple[str, float], ...]:
    total = sum(part**2 for part in parts.values()) or 1.0
    return tuple(sorted(((path, part**2 / total) for path, part in parts.items()), key=lambda one: -one[1]))
