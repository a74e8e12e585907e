"""What engine, hull and propeller do together, in words, in a table, and as sums that can be opened."""

from yardapp.fit.checks.case import Case
from yardapp.fit.checks.check import Compared, Sum
from yardapp.fit.checks.readings import DIAMETER
from yardapp.fit.checks.readings_of_boat import PITCH
from yardapp.fit.checks.sums import measured, workings
from yardapp.fit.figures import Figure
from yardapp.fit.loading import Assumed, Loading
from yardapp.formulas.shafting import torque
from yardapp.formulas.sizing import working_point


def balance_says(case: Case, found: Loading) -> str:
    """Turns, speed, power, thrust; how far over or under; what an inch of pitch does."""
    say = case.say
    turns, rated = say("rotation", found.engine_speed_rps.value, found.engine_speed_rps.u), found.rated_speed_rps
    speed = say("speed", found.speed_mps.value, found.speed_mps.u)
    power = say("power", found.power_w.value, found.power_w.u)
    thrust = say("force", found.thrust_n.value, found.thrust_n.u)
    if found.is_governed:
        over = say("rotation", found.free_speed_rps.value, found.free_speed_rps.u)
        used = say("ratio", found.power_w.value / found.available_w, None)
        reaches = (
            f"At full throttle the engine comes to its governor, {say('rotation', rated, None)}: it takes {power}, "
            f"{used} of what there is; ungoverned it would turn {over}"
        )
    else:
        reaches = f"At full throttle the engine turns {turns} of {say('rotation', rated, None)} rated, taking {power}"
    return f"{reaches}. She makes {speed} on {thrust} of thrust. {_propped(case, found)}{_inch(case, found)}"


def _propped(case: Case, found: Loading) -> str:
    by = found.propped_ratio
    told = case.say("ratio", abs(by.value), by.u)
    return f"{'Over' if by.value > 0 else 'Under'}-propped by {told}."


def _inch(case: Case, found: Loading) -> str:
    if not found.steps:
        return ""
    one = min(found.steps, key=lambda step: (step.pitch_change_m < 0, -step.pitch_change_m))
    way = "more" if one.pitch_change_m > 0 else "less"
    change = case.say("rotation", round(60 * abs(one.engine_speed_change_rps)) / 60, None)
    than = "fewer" if one.engine_speed_change_rps < 0 else "more"
    return f" {case.say('length', abs(one.pitch_change_m), None)} {way} pitch would be {change} {than} in this boat."


def balance_compared(found: Loading) -> tuple[Compared, ...]:
    """The same as rows, and all that was assumed, with its spread."""
    rows = [
        _row("Engine at full throttle", found.engine_speed_rps, "rotation"),
        Compared(label="Rated speed", value=found.rated_speed_rps, kind="rotation"),
        Compared(label="At least, k = 2", value=found.low_rps, kind="rotation"),
        Compared(label="At most, k = 2", value=found.high_rps, kind="rotation"),
        _row("Speed", found.speed_mps, "speed"),
        _row("Power at the propeller", found.power_w, "power"),
        Compared(label="Power there is", value=found.available_w, kind="power"),
        _row("Thrust", found.thrust_n, "force"),
    ]
    for step in found.steps:
        rows.append(
            Compared(
                label=f"Engine speed for {1000 * step.pitch_change_m:+.4g} mm of pitch",
                value=found.free_speed_rps.value + step.engine_speed_change_rps,
                kind="rotation",
            )
        )
    if found.right_pitch_m is not None:
        rows.append(Compared(label="Pitch that would be right", value=found.right_pitch_m, kind="length"))
    return (*rows, *(_assumed(one) for one in found.premises.assumed))


def _row(label: str, figure: Figure, kind: str) -> Compared:
    return Compared(label=label, value=figure.value, u=figure.u, kind=kind)


def _assumed(one: Assumed) -> Compared:
    u = None if one.low is None or one.high is None else (one.high - one.low) / 4
    return Compared(label=f"Assumed: {one.label}", value=one.value, u=u, kind=one.kind, basis=one.says or None)


def balance_sums(case: Case, found: Loading) -> tuple[Sum, ...]:
    """The balance, to be checked: thrust and torque of the propeller at these speeds, and the engine's torque."""
    turns = found.shaft_speed_rps.value
    figures = {
        "shaft_speed_rps": turns,
        "advance_speed_mps": found.advance_speed_mps,
        "diameter_m": float(case.surely(DIAMETER).n),
        "pitch_ratio": float(case.surely(PITCH).n / case.surely(DIAMETER).n),
        "area_ratio": found.area_ratio,
        "blades": float(case.propeller.blades or 0),
    }
    point = working_point(**figures)
    taken, thrust = (measured(float(one), 0.0) for one in (point.torque_nm, point.thrust_n))
    given = measured(float(torque(found.available_w, turns)), 0.0)
    return (
        workings("Thrust there", working_point, "force", thrust, **figures),
        workings("Torque that the propeller takes there", working_point, "torque", taken, **figures),
        workings(
            "Torque that the engine brings there",
            torque,
            "torque",
            given,
            power_w=found.available_w,
            shaft_speed_rps=turns,
        ),
    )
