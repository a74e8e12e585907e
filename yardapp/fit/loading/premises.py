"""Engine and hull of one drive, gathered once for any number of propellers."""

from dataclasses import replace
from functools import lru_cache

from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.readings import POWER, TWIN
from yardapp.fit.checks.readings_of_boat import HULL_KIND, RATED_SPEED, REDUCTION
from yardapp.fit.checks.words import plain
from yardapp.fit.figures import DriveFigures, Limits, PropellerFigures
from yardapp.fit.loading.full_throttle import FullThrottle, full_throttle
from yardapp.fit.loading.hull import Hull, hull_curve
from yardapp.fit.loading.parts import Assumed, Lacking, Premises, Unsure
from yardapp.fit.loading.water import Water, water
from yardapp.formulas.engine import kept_ratio
from yardapp.formulas.sizing import Drive, HullCurve

U_KEPT = 0.01
# What a real propeller's torque may differ from the series': no source, ours.
U_SERIES = 0.02
SERIES = "the series' likeness to this propeller"
LINE = "the losses in the line"
HULL = "the hull's resistance"
NO_PROPELLER = PropellerFigures()


def premises(drive: DriveFigures, limits: Limits | None = None) -> Premises | Lacking:
    """What engine and hull bring, with every spread; or what is missing, in the order in which one asks for it."""
    return _premises(drive, limits or Limits())


@lru_cache(maxsize=256)
def _premises(drive: DriveFigures, limits: Limits) -> Premises | Lacking:
    case = Case(propeller=NO_PROPELLER, drive=drive, rule="15 %", say=plain, limits=limits)
    around = water(case)
    screws = around.screws if isinstance(around, Water) else 1
    hull = hull_curve(case, screws)
    throttle = full_throttle(case)
    lacking = [found for found in (throttle, hull, around) if isinstance(found, Lacking)]
    if lacking:
        needs = tuple(dict.fromkeys(need for each in lacking for need in each.needs))
        return Lacking(says=" ".join(each.says for each in lacking), needs=needs)
    assert isinstance(throttle, FullThrottle)
    assert isinstance(hull, Hull)
    assert isinstance(around, Water)
    return _gathered(case, throttle, hull, around)


def _gathered(case: Case, throttle: FullThrottle, hull: Hull, around: Water) -> Premises:
    power, speed, gear = (case.surely(path) for path in (POWER, RATED_SPEED, REDUCTION))
    kept = float(kept_ratio(1, 2))
    engine = Drive(curve=throttle.curve, gear_ratio=gear.n, kept_ratio=kept)
    wake, deduction = (one.value for one in around.unsure)
    return Premises(
        engine=engine,
        free=replace(engine, curve=throttle.beyond),
        hull=HullCurve(
            speed_mps=hull.speed_mps,
            resistance_n=hull.resistance_n,
            wake_ratio=wake,
            deduction_ratio=deduction,
            screw_count=around.screws,
        ),
        rated_speed_rps=speed.n,
        aim_ratio=1 + case.limits.margin_ratio,
        unsure=(
            *_of_engine(power, speed, gear, kept),
            *around.unsure,
            _factor("resistance_factor", hull.u_share, HULL),
        ),
        assumed=(throttle.assumed, *_said_of_engine(kept, case.limits), *around.assumed, *hull.assumed),
        hull_method=hull.method,
        hull_why=hull.why,
        passed_over=hull.passed_over,
        rests_on=(POWER, RATED_SPEED, REDUCTION, *throttle.rests_on, HULL_KIND, TWIN, *hull.rests_on),
    )


def _factor(name: str, share: float, path: str) -> Unsure:
    return Unsure(name=name, value=1.0, u=share, path=path)


def _of_engine(power: UFloat, speed: UFloat, gear: UFloat, kept: float) -> tuple[Unsure, ...]:
    return (
        _factor("power_factor", power.s / power.n, POWER),
        _factor("speed_factor", speed.s / speed.n, RATED_SPEED),
        Unsure(name="gear_ratio", value=gear.n, u=gear.s, path=REDUCTION),
        Unsure(name="kept_ratio", value=kept, u=U_KEPT, path=LINE),
        _factor("series_factor", U_SERIES, SERIES),
    )


def _said_of_engine(kept: float, limits: Limits) -> tuple[Assumed, ...]:
    return (
        Assumed(
            label="Kept of the engine's power",
            value=kept,
            low=kept - 2 * U_KEPT,
            high=kept + 2 * U_KEPT,
            kind="ratio",
            says="One gearbox and two bearings: D. Gerr (from memory, high).",
        ),
        Assumed(
            label="Propeller", value="fixed blades of the Wageningen B-series", says="M. M. Bernitsas et al., 1981."
        ),
        Assumed(
            label="Torque of the real blades, times",
            value=1.0,
            low=1 - 2 * U_SERIES,
            high=1 + 2 * U_SERIES,
            kind="count",
            says="What a propeller may differ from the series by: no source, ours.",
        ),
        Assumed(
            label="Margin above the rated speed",
            value=limits.margin_ratio,
            kind="ratio",
            says="Aim of 100 to 103 % new and light, against weight and fouling (from memory, low to medium).",
        ),
        Assumed(label="Water", value="sea water, 1025 kg/m³"),
    )
