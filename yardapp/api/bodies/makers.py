"""Makers' tables, and what a propeller would be stamped."""

from datetime import datetime
from typing import Annotated, Any

from pydantic import Field, RootModel

from yardapp.api.bodies.base import Body, Hand, Id, IdInAddress, Line, Reply

# A table is judged by its own schema, which /marks/tables/schema publishes.
Document = Annotated[dict[str, Any], Field(description="One table, as /marks/tables/schema says.")]
Size = Annotated[float, Field(gt=0, le=100)]


class TableSchema(RootModel[dict[str, Any]]):
    """What a table's file must be: a JSON schema of draft 2020-12."""


class NewMakerTable(Body):
    """A table that is written once."""

    table: Document
    why: Line = Field("", description="Why, in a few words.")


class MakerTableChange(Body):
    """The table as it should stand."""

    version: Id = Field(description="The version that this change was made on.")
    table: Document
    why: Line = ""


class VersionAgain(Body):
    """An old version that should stand again."""

    version: Id = Field(description="The version that stands.")
    number: Id = Field(description="The version to bring back.")


class MakerTableUse(Body):
    """Whether marks are read by it."""

    version: Id = Field(description="The version that stands.")
    is_in_use: bool


class TwoVersions(Body):
    """Which two versions; left out: the one before the one that stands, and the one that stands."""

    before: IdInAddress | None = None
    after: IdInAddress | None = None


class MakerTableDiffers(Reply):
    """What one version says otherwise than another, in words."""

    before: int
    after: int
    changes: list[str]


class Proposal(Reply):
    """What the register proposes for one code; `value` in the unit, null where the evidence does not agree."""

    place: int = Field(description="From 1, as the pages count.")
    kind: str
    code: str
    value: float | str | None
    unit: str
    said: str
    of: list[str] = Field(description="The propellers that it rests on.")


class Proposals(Reply):
    """What the measured propellers teach about a table; a person writes it into the table, or nobody."""

    proposals: list[Proposal]
    left_out: bool = Field(description="Whether the register has older marks that were not gone by.")


class NewReread(Body):
    """Which version to hold against the one that stands; left out: the one before it."""

    before: Id | None = None


class RereadPaged(Body):
    """Which page of fifty."""

    page: IdInAddress = 1


class BriefReading(Reply):
    """The best reading in brief; no mark where the table does not read it."""

    count: int
    mark: str
    figures: dict[str, float | int | str]


class RereadMark(Reply):
    """One mark that reads differently."""

    tag: str
    seen: str
    before: BriefReading
    after: BriefReading
    taken_by: str = Field(description="Who took the old reading as evidence, empty if nobody did.")


class Reread(Reply):
    """All marks read by two versions: how far it is, and a page of those that read differently."""

    id: int
    table_id: int
    before: int
    after: int
    state: str
    done: int
    total: int
    differing: int
    page: int
    marks: list[RereadMark]


class MakerTableListed(Reply):
    """One table of the list."""

    id: int
    maker: str
    title: str
    version: int
    is_in_use: bool


class MakerTables(Reply):
    """Every table, by maker and title."""

    tables: list[MakerTableListed]


class MakerTableVersion(Reply):
    """One version: who wrote it, when and why."""

    version: int
    at: datetime
    said_by: str
    why: str


class MakerTable(Reply):
    """One table as it stands, and its versions, newest first."""

    id: int
    maker: str
    title: str
    version: int
    is_in_use: bool
    table: dict[str, Any]
    versions: list[MakerTableVersion]


class Wanted(Body):
    """The propeller that is looked for; at least one of its figures."""

    diameter_m: Size | None = None
    pitch_m: Size | None = None
    bore_m: Size | None = None
    blades: Annotated[int, Field(ge=1, le=9)] | None = None
    hand: Hand | None = None


class WouldSay(Reply):
    """A mark, ? or * for what was not asked; how far each size it says is off, in metres; what it can't say."""

    mark: str
    off: dict[str, float]
    untold: list[str]


class Stamped(Reply):
    """What one table would strike, closest first."""

    maker: str
    title: str
    version: int
    marks: list[WouldSay]


class Reversed(Reply):
    """What every table in use would strike, the closest first."""

    tables: list[Stamped]
