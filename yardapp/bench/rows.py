"""One reading taken at several blades, places or stations: `height_1_m`, `height_2_m`, … and sums over all of them."""

import inspect
from collections.abc import Callable, Mapping, Sequence
from dataclasses import field, make_dataclass
from typing import Any

import numpy as np
from uncertainties import nominal_value, std_dev, ufloat

from yardapp.bench.repeating import Reading
from yardapp.bench.sums import Figure, Input, Sum, read, source_of
from yardapp.formulas.uncertainty import propagate

MOST_BLADES = 7


def row_name(name: str, number: int) -> str:
    """`height_m` at the second blade is `height_2_m`."""
    base, _, unit = name.rpartition("_")
    return f"{base}_{number}_{unit}"


def row_names(name: str, most: int) -> tuple[str, ...]:
    """The names of all rows of one figure."""
    return tuple(row_name(name, number) for number in range(1, most + 1))


def rows_reading(
    title: str, rows: Sequence[str], most: int, *, figures: Sequence[str] = (), words: Sequence[str] = ()
) -> Any:
    """A reading class with so many rows of each figure, some single figures, and words; each figure has its `u_`."""
    names = [*(one for name in rows for one in row_names(name, most)), *figures]
    numbers = [(one, float | None, field(default=None)) for name in names for one in (name, f"u_{name}")]
    said: list[tuple[str, Any, Any]] = [(name, Any, field(default=None)) for name in words]
    return make_dataclass(title, [*numbers, *said], bases=(Reading,), frozen=True, kw_only=True)


def rows_read(reading: Any, name: str, most: int) -> dict[int, Figure]:
    """What was read of one figure, by the row's number."""
    found = {number: read(reading, row_name(name, number)) for number in range(1, most + 1)}
    return {number: figure for number, figure in found.items() if figure is not None}


def work_out_rows(
    what: str, formula: Callable[..., Any], name: str, rows: Mapping[int, Figure], **others: Any
) -> list[Sum]:
    """Put all rows of one figure through a formula that gives a figure for each; `what` is numbered likewise.

    Raises
    ------
    OutsideRange
        As the formula does.
    """
    parameter = next(iter(inspect.signature(formula).parameters))
    names = {row_name(name, number): figure for number, figure in rows.items()}

    def at(place: int) -> Callable[..., float]:
        return lambda **given: float(formula(**{parameter: np.array([given[one] for one in names]), **others})[place])

    return [work_out_named(row_name(what, number), formula, at(place), names) for place, number in enumerate(rows)]


def work_out_all(what: str, formula: Callable[..., Any], name: str, rows: Mapping[int, Figure], **others: Any) -> Sum:
    """Put all rows of one figure through a formula that gives one figure.

    Raises
    ------
    OutsideRange
        As the formula does.
    """
    parameter = next(iter(inspect.signature(formula).parameters))
    names = {row_name(name, number): figure for number, figure in rows.items()}

    def whole(**given: float) -> float:
        return float(formula(**{parameter: np.array([given[one] for one in names]), **others}))

    return work_out_named(what, formula, whole, names)


def work_out_named(
    what: str, formula: Callable[..., Any], one: Callable[..., float], figures: Mapping[str, Figure]
) -> Sum:
    """Put figures by name through `one`, which calls `formula` in its own way.

    Raises
    ------
    OutsideRange
        As the formula does.
    """
    came = propagate(one, **{name: ufloat(value, u) if u else value for name, (value, u) in figures.items()})
    is_known = all(u is not None for _, u in figures.values())
    return Sum(
        what=what,
        value=float(nominal_value(came)),
        u=float(std_dev(came)) if is_known else None,
        formula=f"{formula.__module__}.{formula.__qualname__}",
        source=source_of(formula),
        inputs=tuple(Input(name=name, value=value, u=u) for name, (value, u) in figures.items()),
    )
