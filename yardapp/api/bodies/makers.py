"""Makers' tables, and what a propeller would be stamped."""

from datetime import datetime
from typing import Annotated, Any

from pydantic import Field

from yardapp.api.bodies.base import Body, Hand, Id, Line, Reply

# A table is judged by its own schema, which /marks/tables/schema.json publishes.
Document = Annotated[dict[str, Any], Field(description="One table, as /marks/tables/schema.json says.")]
Size = Annotated[float, Field(gt=0, le=100)]


class NewMakerTable(Body):
    """A table that is written once."""

    table: Document
    why: Line = Field("", description="Why, in a few words.")


class MakerTableChange(Body):
    """The table as it should stand."""

    version: Id = Field(description="The version that this change was made on.")
    table: Document
    why: Line = ""


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
