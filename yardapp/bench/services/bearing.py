"""Play of a shaft in its bearing, beside the rival limits."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import wraps
from typing import Any

from yardapp.bench.repeating import Reading, repeatable
from yardapp.bench.rows import row_name
from yardapp.bench.services.keeping import Method
from yardapp.bench.sums import Figure, Known, Outcome, Sum, read, work_out
from yardapp.bench.tools import K
from yardapp.errors import Refused
from yardapp.formulas.shaft_run_out import bearing_play, play_from_lift
from yardapp.formulas.shafting import bearing_wear_limit
from yardapp.formulas.tables import table
from yardapp.gear import services as gear

BOUND = "No play at all can mean a shaft bound by misalignment: look at the wear pattern, and turn it by hand."
PATTERN = "Worn at the top of one end and the bottom of the other, the shaft is out of line."


@dataclass(frozen=True, kw_only=True)
class BearingReading(Reading):
    """The bearing's bore and the shaft in it, or the play itself. `u_` is k = 1."""

    bearing_bore_m: float | None = None
    u_bearing_bore_m: float | None = None
    shaft_m: float | None = None
    u_shaft_m: float | None = None
    lift_m: float | None = None  # of the shaft in its bearing, lowest to highest
    u_lift_m: float | None = None
    bearing: str | None = None  # which one


@repeatable
def bearing_of(reading: BearingReading, known: Known | None = None) -> Outcome:
    """Play, and what each policy says of it. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        A reading that is needed is missing.
    """
    shaft = read(reading, "shaft_m")
    if shaft is None:
        raise Refused("Read the shaft where it runs in the bearing: the limits hang on its size.", "shaft_m")
    play = _play(reading, shaft)
    limits = [(row, _limit(number, row["policy"], shaft)) for number, row in enumerate(table("bearing_wear"), 1)]
    return Outcome(
        answer="play_m",
        sums=(play, *(limit for _, limit in limits)),
        remarks=tuple(_remarks(play.figure)),
        more={"policies": [_policy(row, limit, play.figure) for row, limit in limits]},
    )


def _play(reading: BearingReading, shaft: Figure) -> Sum:
    lift, bore = read(reading, "lift_m"), read(reading, "bearing_bore_m")
    if lift is not None:
        return work_out("play_m", play_from_lift, lift_m=lift)
    if bore is None:
        raise Refused("Read the bearing's bore where it is widest, or how far the shaft lifts.", "bearing_bore_m")
    return work_out("play_m", bearing_play, bearing_bore_m=bore, shaft_m=shaft)


def _limit(number: int, policy: str, shaft: Figure) -> Sum:
    def limit(shaft_diameter_m: float) -> Any:
        return bearing_wear_limit(shaft_diameter_m, policy)

    wraps(bearing_wear_limit)(limit)
    return work_out(row_name("limit_m", number), limit, shaft_diameter_m=shaft)


def _policy(row: Mapping[str, str], limit: Sum, play: Figure) -> dict[str, Any]:
    """One policy: within, beyond, or too near to tell."""
    value, reach = play[0], K * ((play[1] or 0.0) ** 2 + (limit.u or 0.0) ** 2) ** 0.5
    verdict = "ask" if abs(value - limit.value) <= reach else "yes" if value < limit.value else "no"
    return {"policy": row["policy"], "limit_m": limit.value, "verdict": verdict, "source": row["source"]}


def _remarks(play: Figure) -> list[str]:
    return [BOUND] if play[0] <= K * (play[1] or 0.0) else [PATTERN]


def _statements(reading: BearingReading, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """Play belongs to shaft and bearing together: the sheet itself is the record."""
    return ()


BEARING = Method(
    name="bearing",
    reading=BearingReading,
    work_out=bearing_of,
    statements=_statements,
    tools=("bore_tool",),
    of="shaft",
)
