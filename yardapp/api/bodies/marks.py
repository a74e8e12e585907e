"""A stamp, read."""

from pydantic import Field

from yardapp.api.bodies.base import Body, Hand, Line, Reply


class MarkText(Body):
    """A mark as it stands on the hub."""

    text: Line = Field(description="22 x 18 RH; ? for a character that can't be read.")


class TableReading(Reply):
    """One way in which one table reads the mark; figures in SI by name."""

    maker: str
    title: str
    version: int
    mark: str = Field(description="What the mark is taken to be; ? where that stays open.")
    figures: dict[str, float | int | str]
    confused: list[str]
    why: list[str]


class MarkRead(Reply):
    """What the mark says when it is taken for plain sizes; null is what it does not say."""

    stamp: str
    why: str
    diameter_m: float | None
    pitch_m: float | None
    hand: Hand | None
    blades: int | None
    bore_m: float | None
    unit: str | None
    unit_assumed: bool
    possible_pitches: str
    unread: list[str]
    notes: list[str]
    by_tables: str = Field(description="One sentence about every reading by the yard's tables.")
    reading_count: int = Field(description="How many readings the tables allow; at most 200 of them are listed.")
    readings: list[TableReading] = Field(description="By the yard's tables, best first.")
