"""What comes of readings: sums that can be opened."""

from pydantic import Field

from yardapp.api.bodies.base import Assumed, Reply


class Went(Reply):
    """A figure that went into a sum."""

    name: str
    value: float
    plus_minus: float | None


class Sum(Reply):
    """One sum, to be opened: what came out, by which formula, from which figures."""

    what: str
    value: float
    plus_minus: float | None
    formula: str
    source: str
    inputs: list[Went]


class Outcome(Reply):
    """What comes of a reading. ± is k = 2, null where a reading came without one."""

    formula: str
    source: str
    sums: list[Sum]
    remarks: list[str]
    common: float | None = Field(None, description="Of the answer's ±, what every reading with these tools shares.")
    separate: float | None = Field(None, description="Of the answer's ±, what averages out as readings are added.")
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was sent.")
