"""Times at a temperature, read from the rows of the sheet; where it has no row there is no time."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from yardapp.coating.system import Product, Step, System, TimeAt, WindowAt
from yardapp.errors import OutsideRange
from yardapp.formulas.coating import pot_life, waiting_time


@dataclass(frozen=True, kw_only=True)
class Times:
    """A window at one temperature: wait so long, and start before so long; None: the sheet names no latest."""

    earliest_s: float
    latest_s: float | None


def span_said(rows: Sequence[TimeAt] | Sequence[WindowAt]) -> str:
    """What the rows reach over: "the sheet gives 10 to 30 °C"."""
    if not rows:
        return "the sheet gives no times"
    low, high = rows[0].temperature_c, rows[-1].temperature_c
    return f"the sheet gives {low:g} °C only" if low == high else f"the sheet gives {low:g} to {high:g} °C"


def pot_life_s(product: Product, temperature_c: float) -> float | None:
    """How long the mix is good, induction included; None where the sheet names none.

    Raises
    ------
    OutsideRange
        The sheet has no row so cold or so warm.
    """
    return _life_s(product.pot_life, temperature_c) if product.pot_life else None


def cure_s(system: System, temperature_c: float) -> float | None:
    """Wait from the last stroke to the water; None where the sheet names none.

    Raises
    ------
    OutsideRange
        The sheet has no row so cold or so warm.
    """
    return _wait_s(system.cure, temperature_c) if system.cure else None


def window_s(step: Step, temperature_c: float) -> Times | None:
    """The window after a step; None where no rows stand for it (by touch alone, or no window at all).

    Raises
    ------
    OutsideRange
        The sheet has no row so cold or so warm.
    """
    return _times(step.window.rows, temperature_c) if step.window and step.window.rows else None


# A page asks for the same few rows at the same few temperatures all day long.
@lru_cache(maxsize=4096)
def _life_s(rows: tuple[TimeAt, ...], temperature_c: float) -> float:
    _hold(rows, temperature_c)
    return _whole_ms(pot_life(temperature_c, *_columns(rows)))


@lru_cache(maxsize=4096)
def _wait_s(rows: tuple[TimeAt, ...], temperature_c: float) -> float:
    _hold(rows, temperature_c)
    return _whole_ms(waiting_time(temperature_c, *_columns(rows)))


@lru_cache(maxsize=4096)
def _times(rows: tuple[WindowAt, ...], temperature_c: float) -> Times:
    _hold(rows, temperature_c)
    at_c = [row.temperature_c for row in rows]
    earliest_s = _whole_ms(waiting_time(temperature_c, at_c, [row.earliest_s for row in rows]))
    latest = [row.latest_s for row in rows if row.latest_s is not None]
    if not latest:
        return Times(earliest_s=earliest_s, latest_s=None)
    return Times(earliest_s=earliest_s, latest_s=_whole_ms(pot_life(temperature_c, at_c, latest)))


def _whole_ms(duration_s: ArrayLike) -> float:
    """A time in whole milliseconds: at a row it is the row, not a hair beside it."""
    return round(float(np.asarray(duration_s)), 3)


def _columns(rows: Sequence[TimeAt]) -> tuple[list[float], list[float]]:
    return [row.temperature_c for row in rows], [row.time_s for row in rows]


def _hold(rows: Sequence[TimeAt] | Sequence[WindowAt], temperature_c: float) -> None:
    if not rows[0].temperature_c <= temperature_c <= rows[-1].temperature_c:
        raise OutsideRange("metal_c", f"must lie where the data sheet has rows: {span_said(rows)}.", temperature_c)
