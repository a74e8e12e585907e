"""Straightness of a shaft: the dial's swing along it, and the bow that follows."""

from collections.abc import Mapping
from typing import Any

from yardapp.bench.repeating import repeatable
from yardapp.bench.rows import row_name, rows_read, rows_reading, work_out_all
from yardapp.bench.services.keeping import Method
from yardapp.bench.sums import Figure, Known, Outcome, Sum, read, work_out
from yardapp.bench.tools import K
from yardapp.errors import Refused
from yardapp.formulas.shaft_run_out import bend_offset, dial_swing, offset_from_quarters, out_of_round
from yardapp.gear import services as gear

MOST_STATIONS = 7
QUARTERS = ("top_m", "starboard_m", "bottom_m", "port_m")
RunOutReading = rows_reading("RunOutReading", ("along_m", "swing_m", *QUARTERS), MOST_STATIONS)
TWICE = "Run-out is the dial's full swing: the shaft's middle stands off by half of it."
NO_LIMIT = "No limit is held against it here: the makers of shaft, bearing and coupling say what they allow."


@repeatable
def run_out_of(reading: Any, known: Known | None = None) -> Outcome:
    """How far the shaft is bent at each station, and where most. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        Nothing was read, a quarter is missing, or stations are out of order.
    """
    _must_go_along(rows_read(reading, "along_m", MOST_STATIONS))
    sums: list[Sum] = []
    for number in range(1, MOST_STATIONS + 1):
        sums += _station(reading, number)
    offsets = [one for one in sums if one.what.startswith("offset_")]
    if not offsets:
        raise Refused("Turn it under the dial once and read the full swing, highest less lowest.", "swing_1_m")
    worst = max(offsets, key=lambda one: one.value)
    return Outcome(
        answer="bow_m",
        sums=(Sum(**{**worst.__dict__, "what": "bow_m"}), *sums),
        remarks=tuple(_remarks(worst, sums)),
        more={"stations": [_drawn(reading, one) for one in offsets]},
    )


def _must_go_along(along: Mapping[int, Figure]) -> None:
    """Stations are read in order from one end: one out of order is a slip."""
    last = -1.0
    for number, (value, _) in along.items():
        if value <= last:
            raise Refused(f"Station {number} does not lie beyond the one before it.", row_name("along_m", number))
        last = value


def _station(reading: Any, number: int) -> list[Sum]:
    """One station's swing and offset: from the swing as read, or from the dial at four quarters."""
    swing = read(reading, row_name("swing_m", number))
    if swing is not None:
        return [work_out(row_name("offset_m", number), bend_offset, swing_m=swing)]
    names = [row_name(quarter, number) for quarter in QUARTERS]
    quarters = {place: read(reading, name) for place, name in enumerate(names, 1)}
    given = {place: figure for place, figure in quarters.items() if figure is not None}
    if not given:
        return []
    if len(given) < len(names):
        missing = next(name for place, name in enumerate(names, 1) if place not in given)
        raise Refused("Read all four quarters of the turn, or the full swing alone.", missing)
    return [
        work_out_all(row_name("offset_m", number), offset_from_quarters, "dial_m", given),
        work_out_all(row_name("swung_m", number), dial_swing, "dial_m", given),
        work_out_all(row_name("out_of_round_m", number), out_of_round, "dial_m", given),
    ]


def _drawn(reading: Any, one: Sum) -> dict[str, Any]:
    number = int(one.what.split("_")[1])
    return {"number": number, "along_m": getattr(reading, row_name("along_m", number)), "offset_m": one.value}


def _remarks(worst: Sum, sums: list[Sum]) -> list[str]:
    said = [TWICE]
    if worst.u is not None and worst.value <= K * worst.u:
        said.append("Straight, as far as the readings can tell.")
    else:
        said.append(f"It stands off furthest at station {worst.what.split('_')[1]}.")
    round_off = [one for one in sums if one.what.startswith("out_of_round_")]
    if any(one.u is not None and one.value > K * one.u for one in round_off):
        said.append("Part of the swing is the shaft's own shape: out of round it is not bent.")
    return [*said, NO_LIMIT]


def _statements(reading: Any, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """The register keeps no figure of straightness: the sheet itself is the record."""
    return ()


RUN_OUT = Method(
    name="run_out", reading=RunOutReading, work_out=run_out_of, statements=_statements, tools=("dial_tool",), of="shaft"
)
