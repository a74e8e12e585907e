"""Coating before and after a job: tins in stock, how a coat looked at haul-out. Figures in SI."""

from datetime import date, datetime
from typing import Annotated, Literal

from pydantic import Field

from yardapp.api.bodies.base import Blade, Body, Line, Name, Reply, Words
from yardapp.api.bodies.happenings import Moment

Word = Literal["clean", "slime", "weed", "shell few", "shell many", "coating gone"]
Why = Annotated[str, Field(min_length=1, max_length=300, pattern=r"\S")]


class NewTin(Body):
    """One tin, kit or rest of one, as its system's sheet calls it."""

    product: Name
    part: Words = ""
    volume_m3: Annotated[float, Field(gt=0, le=1)]
    batch: Annotated[str, Field(max_length=40)] = ""
    expires_on: date | None = None
    opened_on: date | None = Field(None, description="Null: not opened yet.")
    place: Words = ""
    note: Line = ""


class TinKept(Reply):
    """One tin as it stands now: mixing takes from it."""

    id: int
    product: str
    part: str
    volume_m3: float
    batch: str
    expires_on: date | None
    opened_on: date | None
    place: str
    note: str


class Tins(Reply):
    """Product in stock, by name, what expires first first."""

    tins: list[TinKept]


class LookedAt(Body):
    """How one blade looked; `blade` null: a thing without blades."""

    blade: Blade | None = None
    word: Word


class NewRatings(Body):
    """How a coat looked at haul-out, blade by blade."""

    ratings: Annotated[list[LookedAt], Field(min_length=1, max_length=7)]
    at: Moment | None = None
    note: Line = ""


class NewWord(Body):
    """Another word in the place of a wrong one; the old row stays."""

    word: Word
    why: Why
    at: Moment | None = None
    note: Line = ""


class RatingStanding(Reply):
    """One rating that stands, and the row in whose place it stands."""

    id: int
    blade: int | None
    word: str
    at: datetime
    said_by: str
    note: str
    replaces_id: int | None
    why: str


class RatingsOfPiece(Reply):
    """How one coat looked, newest first."""

    piece_id: int
    ratings: list[RatingStanding]
