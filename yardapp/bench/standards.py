"""Readings of a taper held against the standard shaft ends, ready to be kept with a sheet."""

from math import isnan, nan
from typing import Any

from yardapp.bench.sums import Figure
from yardapp.formulas.end_candidates import Candidate, end_candidates

CANDIDATES = 3


def standards(
    large: Figure | None = None,
    small: Figure | None = None,
    length: Figure | None = None,
    taper: Figure | None = None,
) -> list[dict[str, Any]]:
    """The nearest standard ends, each figure beside what the standard allows."""
    read = {"large_m": large, "small_m": small, "length_m": length, "taper": taper}
    values = {name: figure[0] if figure else nan for name, figure in read.items()}
    reach = {f"u_{name}": (figure[1] or 0.0) if figure else 0.0 for name, figure in read.items()}
    return [_kept(one) for one in end_candidates(**values, **reach, count=CANDIDATES)]


def _kept(one: Candidate) -> dict[str, Any]:
    """As JSON keeps it: what is not known is None."""
    return {
        "end": one.end.name,
        "source": one.end.source,
        "status": one.end.status,
        "thread": one.end.thread,
        "is_it": all(row.is_within for row in one.held),
        "held": [{name: _none(value) for name, value in row.__dict__.items()} for row in one.held],
    }


def _none(value: Any) -> Any:
    return None if isinstance(value, float) and isnan(value) else value
