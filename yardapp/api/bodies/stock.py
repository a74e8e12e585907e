"""The register asked both ways: what goes on this drive, and on which drive this propeller goes."""

from typing import Annotated, Literal

from pydantic import Field

from yardapp.api.bodies.base import NO_CONTROLS, Body, Hand, IdInAddress, Reply
from yardapp.api.bodies.fit import Word

Band = Literal["8 %", "10 %", "15 %", "20 %", "class"]
Part = Annotated[str, Field(max_length=80, pattern=NO_CONTROLS)]
GO_ON = "Go on here: the `further` of the last page."


class StockAsked(Body):
    """What the stock is narrowed down by."""

    place: Part = Field("", description="Part of where it is.")
    boat: Part = Field("", description="Part of a name or owner of the boat that it is on or came off.")
    blades: Literal["2", "3", "4", "5", "6", "7"] | None = None
    aboard: Literal["yes", "no"] = Field("no", description="Those that are on boats too.")
    for_sale: Literal["yes", "no"] = Field("no", description="Only what is for sale.")
    any_bore: Literal["yes", "no"] = Field("no", description="Bores of quite another shaft too.")
    rule: Band = Field("15 %", description="The rule for room at the tips.")
    first: IdInAddress = Field(0, description=GO_ON)


class DrivesAsked(Body):
    """What the drives are narrowed down by."""

    boat: Part = Field("", description="Part of a boat's or an owner's name.")
    rule: Band = Field("15 %", description="The rule for room at the tips.")
    first: IdInAddress = Field(0, description=GO_ON)


class Counts(Reply):
    """How many of all that was ranked there are of each verdict, by what the list is ranked by."""

    goes_on: int
    goes_on_after_work: int
    cannot_tell: int
    does_not_go_on: int


class Judged(Reply):
    """One pair of a list, looked at by the judge: shaft and water."""

    verdict: Word
    lede: str
    works: list[str] = Field(description="Work that would make it go on, cheapest first.")
    from_h: float = Field(description="Hours of all that work, roughly, from: common practice, no source.")
    to_h: float
    needs: list[str] = Field(description="The readings that would settle what can't be told.")


class StockRow(Judged):
    """One propeller of the stock."""

    tag: str
    diameter_m: float | None
    pitch_m: float | None
    blades: int | None
    hand: Hand | None
    where: str
    is_for_sale: bool
    load_ratio: float | None = Field(
        description="Speed of the engine at full throttle, were there no governor, over its rated one; null where it "
        "can't be told."
    )


class Stock(Reply):
    """A page of the stock, in the order in which one would take it to the drive."""

    drive: str
    rows: list[StockRow]
    counts: Counts
    further: int | None = Field(description="From where the next page goes on; null on the last.")
    lacks: str = Field(description="Why the engine's load can't be told; empty where it can.")


class DriveRow(Judged):
    """One drive, and whose it is."""

    drive_id: int
    drive: str
    vessel_id: int
    owner: str
    hand: Hand | None
    shaft_diameter_m: float | None
    taper: float | None
    came_off: bool = Field(description="Whether the propeller came off it.")


class Takers(Reply):
    """A page of the drives, in the order in which one would try the propeller on them."""

    tag: str
    rows: list[DriveRow]
    counts: Counts
    further: int | None = Field(description="From where the next page goes on; null on the last.")
