"""Boats."""

from datetime import date, datetime
from typing import Annotated, Any

from pydantic import Field

from yardapp.api.bodies.base import (
    NO_CONTROLS,
    Assumed,
    Body,
    Id,
    IdInAddress,
    IdOrNone,
    Limit,
    Name,
    Note,
    Reply,
    Words,
)
from yardapp.api.bodies.drives import Drive
from yardapp.api.bodies.items import ItemListed
from yardapp.api.sizes import Size

LENGTH = Size("length_m", "length", "Boat's length", least=1.5, most=400.0, assume="m")
Kind = Annotated[str, Field(max_length=40, pattern=NO_CONTROLS)]
LengthText = Annotated[str, Field(min_length=1, max_length=40)]
Length = Annotated[float, Field(ge=1.5, le=400)]
Block = Annotated[float, Field(ge=0.1, le=1)]


class NewVessel(Body):
    """A boat that is entered once."""

    name: Name
    kind: Kind = ""
    owner: Words = ""
    owner_id: Id | None = Field(None, description="The owner's own account, which then opens her.")
    length: LengthText | None = Field(None, description="Length on the waterline; a bare number is metres.")
    length_m: Length | None = Field(None, description="Length on the waterline, m.")
    block_ratio: Block | None = Field(None, description="Block coefficient.")
    note: Note = ""


class VesselChange(Body):
    """A boat as she should stand; what is left out stays, null is "not known"."""

    version: Id = Field(description="The version that this change was made on.")
    name: Name | None = None
    kind: Kind | None = None
    owner: Words | None = None
    owner_id: IdOrNone | None = Field(None, description="0 is nobody's account.")
    length: LengthText | None = None
    length_m: Length | None = None
    block_ratio: Block | None = None
    note: Note | None = None


class VesselPage(Body):
    """By name; `after` and `after_id` are what the page before gave."""

    after: Words = Field("", description="Go on from here: the `after` of the last page.")
    after_id: IdInAddress = Field(0, description="And its `after_id`, for boats of one name.")
    limit: Limit = Field(50, description="How many at most.")


class VesselListed(Reply):
    """One boat as a list shows it."""

    id: int
    name: str
    kind: str
    owner: str


class Vessels(Reply):
    """A page of boats, by name."""

    vessels: list[VesselListed]
    after: str | None = Field(description="From where the next page goes on; null on the last.")
    after_id: int | None


class Named(Reply):
    """A name that she bore, and until when; null for the present one."""

    name: str
    until: date | None


class HappenedToHer(Reply):
    """Something that happened to her, and what stood before."""

    id: int
    at: datetime
    said_by: str
    kind: str
    drive_id: int | None
    note: str
    before: dict[str, Any]


class Vessel(Reply):
    """A boat: her record, her names, her drives, the gear aboard, all that happened."""

    id: int
    version: int
    name: str
    kind: str
    owner: str
    owner_id: int | None
    length_m: float | None
    length_m_typed: str
    block_ratio: float | None
    note: str
    names: list[Named]
    drives: list[Drive]
    aboard: list[ItemListed]
    happenings: list[HappenedToHer]
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was just sent.")
