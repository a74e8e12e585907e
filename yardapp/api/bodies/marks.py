"""A stamp, read; the marks of a propeller, and what is taken from them."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from yardapp.api.bodies.base import NO_CONTROLS, Body, Hand, Line, Reply

Mark = Annotated[str, Field(min_length=1, max_length=80, pattern=NO_CONTROLS)]
Spot = Annotated[str, Field(max_length=40, pattern=NO_CONTROLS)]
Struck = Literal["", "first", "later"]
STRUCK = "Whether it was struck first or later than the hub's other marks; empty where nobody saw."


class MarkText(Body):
    """A mark as it stands on the hub."""

    text: Line = Field(description="22 x 18 RH; ? for a character that can't be read.")
    beside: Line = Field("", description="A second mark on the same hub.")
    newer: Literal["", "first", "second"] = Field("", description="Which of the two is newer, where the hub shows it.")


class TableReading(Reply):
    """One way in which one table reads the mark; figures in SI by name."""

    maker: str
    title: str
    version: int
    mark: str = Field(description="What the mark is taken to be; ? where that stays open.")
    figures: dict[str, float | int | str]
    confused: list[str]
    why: list[str]
    which: str = Field(description="Its name, by which it is taken.")
    ruled_out: list[str] = Field(description="The figures by which what was measured rules it out.")


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
    together: "Hub | None" = Field(description="With the second mark; null where there is none, or no table reads it.")


class HubConflict(Reply):
    """One figure that two marks tell differently; `newer` is the newer mark, empty where that is not known."""

    figure: str
    first: str
    first_value: float | int | str
    second: str
    second_value: float | int | str
    newer: str
    since: str


class Hub(Reply):
    """The marks of one hub read together, best way alone: one reading of each, and what holds now."""

    readings: list[TableReading]
    figures: dict[str, float | int | str]
    conflicts: list[HubConflict]


class TakenReading(Reply):
    """A reading that somebody took as evidence."""

    mark: str
    figures: dict[str, float | int | str]
    at: datetime
    said_by: str


class KeptMark(Reply):
    """One mark as it was seen."""

    stamp: str
    spot: str
    struck: str = Field(description=STRUCK)
    photo_sha256: str
    at: datetime
    said_by: str
    taken: list[TakenReading]


class PropellerMarks(Reply):
    """The marks of one propeller, newest first; how the newest reads now, held against what is measured."""

    tag: str
    marks: list[KeptMark]
    stamp: str | None = Field(description="The mark that the readings are of.")
    by_tables: str = Field(description="One sentence about every reading: the tape rules out 4 of 6.")
    readings: list[TableReading]
    together: Hub | None


class NewMark(Body):
    """A mark as it stands on the hub."""

    stamp: Mark = Field(description="? for a character that can't be read, * for a run, [B8] for B or 8.")
    spot: Spot = Field("", description="Where on it.")
    struck: Struck = Field("", description=STRUCK)


class TakeReading(Body):
    """Which reading of which mark."""

    stamp: Mark
    which: Annotated[str, Field(min_length=1, max_length=16, pattern=NO_CONTROLS)] = Field(
        description="As the reading itself is called in `which`."
    )
    spot: Spot = ""
