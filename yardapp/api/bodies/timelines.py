"""What happened, page by page; what was on a boat on a day; what a thing may have been before."""

from datetime import date, datetime
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from yardapp.api.bodies.base import NO_CONTROLS, Body, Limit, Reply
from yardapp.api.bodies.items import ItemListed
from yardapp.timeline_forms import YEARS


def _read(sent: object) -> object:
    """An address carries text alone."""
    try:
        return date.fromisoformat(sent) if isinstance(sent, str) else sent
    except ValueError:
        return sent


def _in_these_times(day: date) -> date:
    first, last = YEARS
    if not first <= day.year <= last:
        raise ValueError(f"lies outside the years {first} to {last}.")
    return day


Day = Annotated[date, BeforeValidator(_read), AfterValidator(_in_these_times)]
Key = Annotated[str, Field(max_length=120, pattern=NO_CONTROLS)]


class TimelineAsked(Body):
    """Between which days, both included, in the yard's own time; newest first."""

    since: Day | None = Field(None, description="From the beginning of this day.")
    until: Day | None = Field(None, description="To the end of this day.")
    after: Key = Field("", description="Go on from here: the `after` of the last page.")
    limit: Limit = Field(50, description="How many at most.")


class ItemTimelineAsked(TimelineAsked):
    """Which moments of a thing."""

    group: Literal["", "moves", "work", "figures", "photos", "faults", "coating"] = Field("", description="Empty: all.")


class BoatTimelineAsked(TimelineAsked):
    """Which moments of a boat."""

    group: Literal["", "moves", "work", "boat", "faults", "coating", "launch"] = Field("", description="Empty: all.")


class DriveTimelineAsked(TimelineAsked):
    """Which moments of a drive."""

    group: Literal["", "moves", "work", "boat", "faults", "coating"] = Field("", description="Empty: all.")


class MomentTold(Reply):
    """One thing that happened. What does not belong to its kind is empty or null."""

    strand: str = Field(description="Which table of the register tells of it.")
    id: int = Field(description="Its number there.")
    at: datetime
    said_by: str
    kind: str
    tag: str
    drive: str
    place: str
    note: str
    why: str
    by_whom: str
    cost: str
    other: str = Field(description="The tag of another thing, where two are in it.")
    word: str
    basis: str
    value: float | None = Field(description="SI.")
    u_value: float | None = Field(description="Standard uncertainty (k = 1), SI.")
    since: datetime | None
    due_on: date | None
    is_replaced: bool = Field(description="Whether it was undone or corrected later.")


class Timeline(Reply):
    """A page of what happened, newest first."""

    moments: list[MomentTold]
    after: str = Field(description="From where the next page goes on; empty on the last.")


class Done(Reply):
    """One thing that a person did."""

    at: datetime
    act: str
    subject: str = Field(description="What kind of thing it was done to.")
    subject_id: str
    name: str = Field(description="The tag or name of what it was done to; empty where it has none.")
    device: str


class PersonTimeline(Reply):
    """A page of what a person did, newest first."""

    name: str
    acts: list[Done]
    after: str = Field(description="From where the next page goes on; empty on the last.")


class DayAsked(Body):
    """One day."""

    day: Day = Field(description="As it stood at the end of this day, in the yard's own time.")


class ThereThen(Reply):
    """One thing that was on a drive, from when to when."""

    item: ItemListed
    since: datetime
    until: datetime | None = Field(description="Null: it still is.")


class DriveThen(Reply):
    """One drive that stood in her, and what was on it."""

    drive_id: int
    position: str
    items: list[ThereThen]


class AboardThen(Reply):
    """What was on a boat on a day. Sizes are as they are known now."""

    vessel_id: int
    boat: str
    day: date
    drives: list[DriveThen]


class MayBe(Reply):
    """A thing that may be the same, and why."""

    item: ItemListed
    is_gone: bool = Field(description="Sold, scrapped, lost or stolen.")
    is_serial: bool = Field(description="Whether it bears the same number.")
    agreed: list[str]
    changed: list[str]
    since: datetime | None = Field(description="Since when it is where the register has it.")


class SeenBefore(Reply):
    """Which things of the register this one may be, the likeliest first."""

    tag: str
    serials: list[str]
    found: list[MayBe]
