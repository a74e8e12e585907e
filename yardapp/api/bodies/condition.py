"""Faults of a propeller, how it rang, the tools of the bench, and two sheets side by side."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from yardapp.api.bodies.base import Blade, Body, Figure, Id, Line, Reply, with_sizes
from yardapp.api.sizes import Size

FAULT_SIZES = (Size("size_m", "length", "Size: how long, wide or deep", most=3.0),)
Kind = Literal["bend", "crack", "nick", "pitting", "pink", "thin edge", "loose bush", "other"]
Severity = Literal["stop", "watch", "note"]
Side = Literal["face", "back", "hub"]


class FaultWords(Body):
    """A fault as it was seen. On the hub neither blade nor radius is asked."""

    kind: Kind
    severity: Severity
    side: Side
    blade: Blade | None = None
    radius_ratio: Annotated[float, Field(gt=0.0, le=1.0)] | None = Field(None, description="Over the tip's radius.")
    note: Line = ""
    reopens_id: Id | None = Field(None, description="A fault that was closed and is there again.")


NewFault = with_sizes("NewFault", FaultWords, FAULT_SIZES)


class FaultClosing(Body):
    """How a fault was put right, or why it no longer counts."""

    how: Annotated[str, Field(min_length=1, max_length=300, pattern=r"^[^\x00-\x1f\x7f]*$")]


class Closed(Reply):
    """How and when a fault was closed."""

    how: str
    at: datetime
    said_by: str


class Fault(Reply):
    """One fault, and how it was closed; null while it stands open."""

    id: int
    tag: str
    number: int
    kind: str
    severity: str
    side: str
    blade: int | None
    radius_ratio: float | None
    size: Figure | None
    size_typed: str
    note: str
    photo_sha256: str
    reopens_id: int | None
    at: datetime
    said_by: str
    closed: Closed | None


class NewRing(Body):
    """What was heard when it was hung free and tapped."""

    heard: Literal["rings", "dull"]
    blade: Blade | None = None
    note: Line = ""


class Ring(Reply):
    """One ring test."""

    id: int
    heard: str
    blade: int | None
    note: str
    at: datetime
    said_by: str


class Condition(Reply):
    """All faults of one propeller, newest first, and how it rang."""

    faults: list[Fault]
    rings: list[Ring]


class Faults(Reply):
    """Every fault that stands open, worst first."""

    faults: list[Fault]


class Tool(Reply):
    """One tool of the bench; its ± is k = 2."""

    name: str
    plus_minus: float
    unit: str
    is_common: bool = Field(description="Whether its error is the same at every reading, as of a template.")
    source: str
    is_used: bool


class Tools(Reply):
    """The yard's list of tools."""

    tools: list[Tool]


class Difference(Reply):
    """One figure of two sheets, SI. `agrees` null: neither says how well it was read."""

    what: str
    first: float
    second: float
    apart: float
    allowed: float
    agrees: bool | None


class Comparison(Reply):
    """Two sheets of one thing by one method; the answer's difference first."""

    first_id: int
    second_id: int
    is_one_age: bool = Field(description="False where work was done between them.")
    is_one_person: bool
    is_one_place: bool = Field(description="False where they read different blades, bearings or marks.")
    differences: list[Difference]
