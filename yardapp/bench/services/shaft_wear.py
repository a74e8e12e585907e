"""Wear of a shaft: its diameter at several places, thickest against thinnest."""

from collections.abc import Mapping
from typing import Any

from yardapp import quantities
from yardapp.bench.repeating import repeatable
from yardapp.bench.rows import row_name, rows_read, rows_reading, work_out_rows
from yardapp.bench.services.keeping import Method
from yardapp.bench.sums import Figure, Known, Outcome, Sum, work_out
from yardapp.bench.tools import K
from yardapp.errors import Refused
from yardapp.formulas.repeats import stray
from yardapp.formulas.shaft_run_out import ovality, wear
from yardapp.gear import services as gear

MOST_PLACES = 8
FAR_OFF = 0.2
PLACES = tuple(f"place_{number}" for number in range(1, MOST_PLACES + 1))
WearReading = rows_reading("WearReading", ("along_m", "diameter_m", "second_m"), MOST_PLACES, words=PLACES)


@repeatable
def wear_of(reading: Any, known: Known | None = None) -> Outcome:
    """Wear at each place, and how far out of round it is. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        Fewer than two places were read, or a second diameter has no first.
    """
    first, second = (rows_read(reading, name, MOST_PLACES) for name in ("diameter_m", "second_m"))
    if len(first) < 2:
        empty = next(number for number in range(1, MOST_PLACES + 1) if number not in first)
        raise Refused("Read at two places or more: where it runs, and where nothing wears it.", _box(empty))
    alone = next((number for number in second if number not in first), None)
    if alone is not None:
        raise Refused("This place has a second diameter and no first.", _box(alone))
    thinnest = {number: min(figure, second.get(number, figure), key=_value) for number, figure in first.items()}
    sums = [*work_out_rows("worn_m", wear, "diameter_m", thinnest), *_ovals(first, second)]
    worst = max(sums[: len(first)], key=lambda one: one.value)
    largest = Sum(**{**worst.__dict__, "what": "largest_wear_m"})
    return Outcome(
        answer="largest_wear_m",
        sums=(largest, *sums),
        remarks=tuple(_remarks(reading, first, worst, known or Known())),
        more={"places": [_place(reading, number, figure) for number, figure in first.items()]},
    )


def _value(figure: Figure) -> float:
    return figure[0]


def _box(number: int) -> str:
    return row_name("diameter_m", number)


def _ovals(first: Mapping[int, Figure], second: Mapping[int, Figure]) -> list[Sum]:
    return [
        work_out(row_name("ovality_m", number), ovality, first_m=first[number], second_m=second[number])
        for number in second
    ]


def _place(reading: Any, number: int, figure: Figure) -> dict[str, Any]:
    return {
        "number": number,
        "place": getattr(reading, f"place_{number}") or "",
        "along_m": getattr(reading, row_name("along_m", number)),
        "diameter_m": figure[0],
    }


def _remarks(reading: Any, first: Mapping[int, Figure], worst: Sum, known: Known) -> list[str]:
    number = int(worst.what.split("_")[1])
    where = getattr(reading, f"place_{number}") or f"place {number}"
    said = [f"Most worn: {where}."]
    if worst.u is not None and worst.value <= K * worst.u:
        said = ["No wear that the readings could tell."]
    place = stray([value for value, _ in first.values()], FAR_OFF)
    if place is not None:
        astray = list(first)[place]
        others = [value for number, (value, _) in first.items() if number != astray]
        low, high = (quantities.show(end, "length") for end in (min(others), max(others)))
        said.append(f"Check place {astray}: {quantities.show(first[astray][0], 'length')}, the others {low} to {high}.")
    return said


def _statements(reading: Any, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """The shaft's diameter is where it is thickest: nothing wore it there."""
    first = rows_read(reading, "diameter_m", MOST_PLACES)
    value, u = max(first.values(), key=_value)
    return (gear.Said(what="diameter_m", basis="measured", value=value, u_value=u),)


WEAR = Method(
    name="wear",
    reading=WearReading,
    work_out=wear_of,
    statements=_statements,
    tools=("diameter_tool",),
    of="shaft",
)
