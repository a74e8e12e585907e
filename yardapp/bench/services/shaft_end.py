"""A shaft's end: its taper, thread and keyway, and the standard ends nearest to it."""

from dataclasses import dataclass

from yardapp.bench.repeating import Reading, repeatable
from yardapp.bench.services.keeping import Method
from yardapp.bench.standards import standards
from yardapp.bench.sums import Known, Outcome, Sum, read, work_out
from yardapp.errors import Refused
from yardapp.formulas.taper import taper_angle, taper_from_ends
from yardapp.gear import services as gear

FIGURES = ("large_m", "small_m", "length_m", "keyway_width_m", "keyway_depth_m")
SWAPPED = "The small end is not below the large end. Swap the two: the large end is the forward one."
# What each reading is called in the register; the taper's length and not its ends alone fix the cone.
STATED = {
    "large_m": "diameter_m",
    "length_m": "taper_length_m",
    "keyway_width_m": "keyway_width_m",
    "keyway_depth_m": "keyway_depth_m",
}


@dataclass(frozen=True, kw_only=True)
class ShaftEndReading(Reading):
    """What was read of a shaft's end, as far as it was. `u_` is k = 1."""

    large_m: float | None = None
    u_large_m: float | None = None
    small_m: float | None = None
    u_small_m: float | None = None
    length_m: float | None = None
    u_length_m: float | None = None
    keyway_width_m: float | None = None
    u_keyway_width_m: float | None = None
    keyway_depth_m: float | None = None
    u_keyway_depth_m: float | None = None
    thread: str | None = None  # as it was found with a thread gauge: `7/8 in, 9 to the inch`


@repeatable
def shaft_end_of(reading: ShaftEndReading, known: Known | None = None) -> Outcome:
    """Taper with its ± where both ends and the length were read, and the nearest standard ends. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        Nothing was read, or the small end is not below the large end.
    """
    if not reading.thread and all(getattr(reading, name) is None for name in FIGURES):
        raise Refused("Nothing was read yet. One box will do.", "large_m")
    sums = _taper(reading)
    large, small, length = (read(reading, name) for name in FIGURES[:3])
    found = standards(large, small, length, sums[0].figure if sums else None)
    return Outcome(answer="taper", sums=tuple(sums), remarks=tuple(_remarks(reading, found)), more={"standards": found})


def _taper(reading: ShaftEndReading) -> list[Sum]:
    large, small, length = (read(reading, name) for name in FIGURES[:3])
    if large and small and small[0] >= large[0]:
        raise Refused(SWAPPED, "small_m")
    if not (large and small and length):
        return []
    taper = work_out("taper", taper_from_ends, large_m=large, small_m=small, length_m=length)
    if taper.value >= 1:
        raise Refused("The ends differ by more than the length between them. Read all three again.", "length_m")
    return [taper, work_out("taper_angle_rad", taper_angle, taper=taper.figure)]


def _remarks(reading: ShaftEndReading, found: list[dict[str, object]]) -> list[str]:
    standard = str(found[0]["thread"]) if found and found[0]["is_it"] else ""
    if reading.thread and standard:
        return [f"Thread found: {reading.thread}. The standard end has {standard}."]
    return [f"Thread found: {reading.thread}."] if reading.thread else []


def _statements(reading: ShaftEndReading, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """Each figure as read, and the taper as worked out."""
    figures = [(what, *figure) for name, what in STATED.items() if (figure := read(reading, name)) is not None]
    if outcome.value is not None:
        figures.append(("taper", outcome.value, outcome.u))
    return tuple(gear.Said(what=what, basis="measured", value=value, u_value=u) for what, value, u in figures)


SHAFT_END = Method(
    name="shaft_end",
    reading=ShaftEndReading,
    work_out=shaft_end_of,
    statements=_statements,
    tools=("across_tool",),
    of="shaft",
)
