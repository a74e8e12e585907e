"""What the engine gives at full throttle: its maker's curve where somebody typed it in, else its rated point."""

from typing import NamedTuple

import numpy as np
from uncertainties import UFloat

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import Need
from yardapp.fit.checks.readings import POWER
from yardapp.fit.checks.readings_of_boat import ENGINE_CURVE, RATED_SPEED, REDUCTION
from yardapp.fit.checks.words import listed
from yardapp.fit.loading.parts import Array, Assumed, Lacking
from yardapp.formulas.engine import LEAST_OF_RATED, PowerCurve, power_curve, power_curve_from_rating

# How far above its rating the engine is followed when one asks what it would do without its governor.
BEYOND = 1.6
# A curve and a plate that differ by more are not of one engine, or one of them is misread: no source, ours.
MOST_APART = 0.1
ASK_CURVE = Need(
    figure=ENGINE_CURVE,
    says="Take the engine's power at full throttle off its maker's sheet: speeds rising, up to the rated one, a power "
    "at each.",
)


class FullThrottle(NamedTuple):
    """The curve up to the governor, the same followed beyond it, and what it takes for granted."""

    curve: PowerCurve
    beyond: PowerCurve
    assumed: Assumed
    rests_on: tuple[str, ...]


def full_throttle(case: Case) -> FullThrottle | Lacking:
    """The engine of the case, or what of it is missing or contradicts itself."""
    missing = case.unknown(POWER, RATED_SPEED, REDUCTION)
    if missing:
        labels = {POWER: "rated power", RATED_SPEED: "rated speed", REDUCTION: "reduction"}
        said = listed([labels[path] for path in missing], "and the")
        verb = "is" if len(missing) == 1 else "are"
        return Lacking(says=f"Of the engine the {said} {verb} not known.", needs=case.needs(*missing))
    power, speed = float(case.surely(POWER).n), float(case.surely(RATED_SPEED).n)
    if case.drive.engine_curve:
        return _typed(case, power, speed)
    return FullThrottle(*_followed(power_curve_from_rating(power, speed)), FROM_THE_RATING, ())


FROM_THE_RATING = Assumed(
    label="Engine at full throttle",
    value="the torque of its rating, at every speed near it",
    says="From one rated point; common practice, no source.",
)


def _typed(case: Case, power: float, speed: float) -> FullThrottle | Lacking:
    rows = sane_rows(case)
    if rows is None:
        says = "The engine's curve needs two pairs of speed and power or more, above zero, speeds rising."
        return Lacking(says=says, needs=(ASK_CURVE,))
    turns, powers = rows.T
    if turns[-1] < speed * (1 - 1e-6):
        return Lacking(says="The engine's curve ends below its rated speed.", needs=(ASK_CURVE,))
    at_rated = 2 * np.pi * speed * float(np.interp(speed, turns, powers / (2 * np.pi * turns)))
    if abs(at_rated / power - 1) > MOST_APART:
        told = (case.say("power", at_rated, None), case.say("power", power, None))
        says = f"The engine's curve gives {told[0]} at its rated speed, its plate says {told[1]}: one is misread."
        return Lacking(says=says, needs=(ASK_CURVE, *case.needs(POWER)))
    return FullThrottle(*_followed(_up_to(turns, powers, speed, at_rated)), _of_rows(case, turns), (ENGINE_CURVE,))


def sane_rows(case: Case) -> Array | None:
    """The typed curve as rows of speed and power; None where it is none."""
    rows = np.asarray(case.drive.engine_curve, float)
    is_fine = rows.ndim == 2 and len(rows) > 1 and bool(np.all(rows > 0) and np.all(np.isfinite(rows)))
    return rows if is_fine and np.all(np.diff(rows[:, 0]) > 0) else None


def _up_to(turns: Array, powers: Array, speed: float, at_rated: float) -> PowerCurve:
    """The rows below the governor, and the torque of the first kept for what lies below it."""
    below = turns < speed * (1 - 1e-6)
    kept, given = turns[below], powers[below]
    least = LEAST_OF_RATED * speed
    if kept.size == 0 or kept[0] > least:
        first = (kept[0], given[0]) if kept.size else (speed, at_rated)
        kept, given = np.insert(kept, 0, least), np.insert(given, 0, least * first[1] / first[0])
    return power_curve(np.append(kept, speed), np.append(given, at_rated))


def _followed(curve: PowerCurve) -> tuple[PowerCurve, PowerCurve]:
    """The curve, and the same beyond the governor at the torque that it ends with."""
    turns, powers = curve.engine_speed_rps, curve.power_w
    return curve, power_curve(np.append(turns, BEYOND * turns[-1]), np.append(powers, BEYOND * powers[-1]))


def _of_rows(case: Case, turns: Array) -> Assumed:
    low, high = (case.say("rotation", float(one), None) for one in (turns[0], turns[-1]))
    return Assumed(
        label="Engine at full throttle",
        value=f"the curve that was typed in, {len(turns)} points from {low} to {high}",
        says="Its maker's sheet. Below its first point that point's torque is taken; beyond the rated speed, the "
        "torque there.",
    )


def strongest(case: Case) -> tuple[UFloat, UFloat, tuple[str, ...]] | Lacking:
    """Power and speed at which the engine turns hardest: of its curve where one was typed, else of its rating."""
    power, speed = case.surely(POWER), case.surely(RATED_SPEED)
    found = full_throttle(case)
    if isinstance(found, Lacking):
        return found
    if not found.rests_on:
        return power, speed, ()
    hardest = int(np.argmax(found.curve.torque_nm))
    share = float(found.curve.power_w[hardest]) / power.n
    return power * share, speed * (float(found.curve.engine_speed_rps[hardest]) / speed.n), found.rests_on
