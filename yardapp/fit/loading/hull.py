"""What is known of a hull's resistance, in order of trust: a typed curve, else the best method its figures allow."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from yardapp.fit.checks import readings_of_boat as boat
from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import Need
from yardapp.fit.checks.readings import VESSEL_LENGTH
from yardapp.fit.loading.parts import Array, Assumed, Lacking
from yardapp.formulas.hull import HullFigures, resistance
from yardapp.formulas.ranges import OutsideRange

SEA_KGPM3 = 1025.0
# Of the power at the propeller, the part that overcomes resistance: 0.45 to 0.55 in small craft. No source; ours.
PROPULSIVE, U_PROPULSIVE = 0.5, 0.05
# How far a method's resistance may be out, k = 1, as a share: no source; ours.
SPREAD = {
    "typed": 0.05,
    "Savitsky 1964": 0.10,
    "Delft 2008": 0.08,
    "Holtrop & Mennen 1982": 0.10,
    "Crouch": 0.15,
    "displacement handbook line": 0.15,
}
# Bare hulls: keel, rudder, shaft and air are added. No source; ours.
ADDED = {"Savitsky 1964": 1.15, "Delft 2008": 1.15, "Holtrop & Mennen 1982": 1.05}
BY_HANDBOOK = ("Crouch", "displacement handbook line")
# What resistance at a speed goes by: the weight itself, and length by about this power, as in the handbook's line.
LENGTH_POWER = 1.5
COARSE = np.linspace(0.3, 45.0, 400)
FINE = 41
FIGURES = {
    "mass_kg": boat.DISPLACEMENT,
    "waterline_m": VESSEL_LENGTH,
    "beam_m": boat.BEAM,
    "draught_m": boat.DRAUGHT,
    "wetted_m2": boat.WETTED,
    "waterplane_m2": boat.WATERPLANE,
    "prismatic_ratio": boat.PRISMATIC,
    "midship_ratio": boat.MIDSHIP,
    "waterplane_ratio": boat.WATERPLANE_RATIO,
    "lcb_m": boat.LCB,
    "lcf_m": boat.LCF,
    "chine_beam_m": boat.CHINE_BEAM,
    "deadrise_rad": boat.DEADRISE,
    "lcg_m": boat.LCG,
}
CURVE = Need(
    figure=boat.SPEED_POWER,
    says="Type in what is known of her speed and power: two pairs or more, of speed and power at it.",
)


class Hull(NamedTuple):
    """Resistance over speed, its spread as a share, and why this one."""

    speed_mps: Array
    resistance_n: Array
    u_share: float
    method: str
    why: str
    passed_over: Mapping[str, str]
    assumed: tuple[Assumed, ...]
    rests_on: tuple[str, ...]


def hull_curve(case: Case, screws: int) -> Hull | Lacking:
    """Resistance of the whole boat, or what there is too little of."""
    if case.drive.speed_power:
        return _typed(case, screws)
    figures = {name: case.known(path) for name, path in FIGURES.items()}
    said = {name: float(figure.n) for name, figure in figures.items() if figure is not None}
    if "mass_kg" not in said or "waterline_m" not in said:
        missing = case.needs(*case.unknown(boat.DISPLACEMENT, VESSEL_LENGTH))
        says = "Too little is known of her hull to say what engine, hull and propeller do together."
        return Lacking(says=says, needs=(*missing, CURVE))
    form = HullFigures(**said, volume_m3=said["mass_kg"] / SEA_KGPM3, kind=case.drive.planing_kind or "")
    weight, length = case.surely(boat.DISPLACEMENT), case.surely(VESSEL_LENGTH)
    u_read = float(np.hypot(weight.s / weight.n, LENGTH_POWER * length.s / length.n))
    return _by_method(form, u_read, tuple(FIGURES[name] for name in said))


def _by_method(form: HullFigures, u_read: float, rests_on: tuple[str, ...]) -> Hull | Lacking:
    try:
        coarse = resistance(COARSE, form, PROPULSIVE)
        speeds = _known_span(coarse.resistance_n, form)
        found = resistance(speeds, form, PROPULSIVE)
    except OutsideRange as refusal:
        return Lacking(says=f"No method suits this hull: {refusal}", needs=(CURVE,))
    share, assumed = float(np.hypot(SPREAD[found.method], u_read)), [_relation(found.method)]
    if found.method in BY_HANDBOOK:
        share = float(np.hypot(share, U_PROPULSIVE / PROPULSIVE))
        assumed.append(_propulsive())
    if found.method in ADDED:
        assumed.append(_added(found.method))
    resists = found.resistance_n * ADDED.get(found.method, 1.0)
    return Hull(speeds, resists, share, found.method, found.why, found.passed_over, tuple(assumed), rests_on)


def _known_span(resistance_n: Array, form: HullFigures) -> Array:
    """Speeds from the first to the last at which the method says something, the last found closely."""
    known = np.flatnonzero(np.isfinite(resistance_n))
    last = COARSE[known[-1]]
    beyond = np.linspace(last, COARSE[min(known[-1] + 1, COARSE.size - 1)] + 1e-9, FINE)
    closer = resistance(beyond, form, PROPULSIVE).resistance_n
    return np.linspace(COARSE[known[0]], beyond[np.flatnonzero(np.isfinite(closer))[-1]], FINE)


def _relation(method: str) -> Assumed:
    share = SPREAD[method]
    says = "What a method's resistance may be out by: no source, ours."
    return Assumed(
        label=f"Hull by {method}, times", value=1.0, low=1 - 2 * share, high=1 + 2 * share, kind="count", says=says
    )


def _propulsive() -> Assumed:
    low, high = PROPULSIVE - 2 * U_PROPULSIVE, PROPULSIVE + 2 * U_PROPULSIVE
    says = "Part of the power at the propeller that overcomes resistance: no source, ours."
    return Assumed(label="Propulsive efficiency", value=PROPULSIVE, low=low, high=high, kind="ratio", says=says)


def _added(method: str) -> Assumed:
    says = f"{method} gives the bare hull; keel, rudder, shaft and air are added: no source, ours."
    return Assumed(label="Added to the bare hull", value=ADDED[method] - 1, kind="ratio", says=says)


def _typed(case: Case, screws: int) -> Hull | Lacking:
    rows = np.asarray(case.drive.speed_power, float)
    if rows.ndim != 2 or len(rows) < 2 or not (np.all(rows > 0) and np.all(np.isfinite(rows))):
        return Lacking(says="Her curve of speed and power needs two pairs or more, all above zero.", needs=(CURVE,))
    if not np.all(np.diff(rows[:, 0]) > 0):
        return Lacking(says="In her curve of speed and power the speeds must rise.", needs=(CURVE,))
    if case.drive.speed_power_kind not in ("shaft", "effective"):
        says = "Say whether her curve's power is at the propeller's shaft or on a tow rope."
        need = Need(figure="drive.speed_power_kind", says=says)
        return Lacking(says="Where the power of her curve was taken is not known.", needs=(need,))
    return _typed_hull(rows, screws if case.drive.speed_power_kind == "shaft" else 0)


def _typed_hull(rows: Array, screws: int) -> Hull:
    """`screws` 0: power on a tow rope. Between the pairs the power goes by a power of the speed."""
    speeds = np.unique(np.concatenate([np.linspace(rows[0, 0], rows[-1, 0], FINE), rows[:, 0]]))
    power = np.exp(np.interp(np.log(speeds), np.log(rows[:, 0]), np.log(rows[:, 1])))
    share, assumed = SPREAD["typed"], [_relation("typed")]
    if screws:
        share = float(np.hypot(share, U_PROPULSIVE / PROPULSIVE))
        assumed.append(_propulsive())
    resists = power / speeds * (PROPULSIVE * screws if screws else 1.0)
    why = "speed and power were typed in, which beats any formula"
    return Hull(speeds, resists, share, "typed curve", why, {}, tuple(assumed), (boat.SPEED_POWER,))
