"""Launches: the board, a boat's sheet, what is answered of it, who lets her go."""

from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import Field

from yardapp.api.bodies.base import NO_CONTROLS, Body, Hand, Id, Line, Name, Reply, Words
from yardapp.api.bodies.happenings import Moment

Answer = Literal["yes", "no", "ask"]
Release = Literal["to launch", "afloat", "to owner"]
Key = Annotated[str, Field(min_length=1, max_length=40, pattern=NO_CONTROLS)]
ListName = Annotated[str, Field(max_length=60, pattern=NO_CONTROLS)]
Why = Annotated[str, Field(min_length=1, max_length=300, pattern=NO_CONTROLS)]


class NewLaunch(Body):
    """A boat that is to go in; her lines are those of the list, by her drives where none is named."""

    vessel_id: Id
    planned: Moment = Field(description="The hour at which she is to go in; coating is judged by it.")
    list_name: ListName = ""


class NewHour(Body):
    """Another hour."""

    planned: Moment
    why: Line = ""


class NewAnswer(Body):
    """An answer to one line: yes, in order; no; ask, cannot tell. Of a figure its limit answers."""

    line: Key
    drive_id: Id | None = None
    answer: Answer | None = None
    figure: Annotated[float, Field(ge=0.0, le=1e6)] | None = Field(
        None, description="In SI: m, N m, a share of 1, ohm, revolutions a second."
    )
    note: Line = ""


class NewScan(Body):
    """The tag that was scanned at the shaft, and the hand that was seen."""

    line: Key = "propeller"
    drive_id: Id | None = None
    tag: Annotated[str, Field(min_length=1, max_length=200, pattern=NO_CONTROLS)]
    hand: Hand
    note: Line = ""


class NewGiven(Body):
    """Who has a line from here on."""

    line: Key
    drive_id: Id | None = None
    name: Name


class NewTakenBack(Body):
    """An answer, a scan or a release that no longer stands; it stays readable."""

    act_id: Id
    why: Why


class NewRelease(Body):
    """A release; with a reason it is an override, by name, of what is in the way."""

    release: Release
    override: Line = Field("", description="Why she may go although something is in the way; empty: no override.")
    note: Line = ""


class CallingOff(Body):
    """Why this launch is not to be."""

    why: Why


class StillOpen(Reply):
    """One line of a launch that is open, and who has it."""

    title: str
    part: str
    has: str
    verdict: str
    is_stop: bool
    due: datetime | None
    late: datetime | None


class OnBoard(Reply):
    """One boat with a launch date."""

    launch_id: int
    vessel_id: int
    boat: str
    planned: datetime
    days_left: int
    looked: datetime = Field(description="When its lines were last worked out for the board.")
    releases: list[str]
    next_release: str | None
    open: list[StillOpen]
    follow_ups: list[StillOpen]
    stops: list[str] = Field(description="Faults that stop her, by their keys.")


class Board(Reply):
    """Every launch that is not over, the soonest first."""

    launches: list[OnBoard]


class Found(Reply):
    """What the register itself says of a line."""

    verdict: str
    said: str
    by: str
    at: datetime | None
    room: str
    ref: str


class SheetLine(Reply):
    """One line as it stands: yes, no, ask (cannot tell) or open; only yes settles it."""

    line: str
    drive_id: int | None
    title: str
    part: str
    is_stop: bool
    verdict: str
    said: str
    by: list[str]
    at: datetime | None
    has: str
    settled_by: str
    signs: int
    found: list[Found]
    due: datetime | None
    late: datetime | None


class Act(Reply):
    """Something that somebody did for a launch."""

    id: int
    kind: str
    line: str
    drive_id: int | None
    answer: str
    tag: str
    hand: str | None
    figure: float | None
    note: str
    release: str
    takes_back_id: int | None
    at: datetime
    said_by: str


class Released(Reply):
    """A release that stands, the sheet as it was kept, and what differs since."""

    act_id: int
    release: str
    is_override: bool
    said_by: str
    at: datetime
    note: str
    app_version: str
    kept: dict[str, Any]
    changed: list[str]


class Sheet(Reply):
    """The sheet of one boat, worked out afresh."""

    id: int
    vessel_id: int
    boat: str
    planned: datetime
    list_name: str
    list_number: int
    is_over: bool
    is_called_off: bool
    next_release: str | None
    lines: list[SheetLine]
    releases: list[Released]
    acts: list[Act]


class Lift(Reply):
    """May she go in now: yes or no, and why."""

    may_go: bool
    why: str
    boat: str
    planned: datetime
    at: datetime


class ListedLine(Reply):
    """One line of a list."""

    key: str
    words: str
    part: str
    settled_by: str
    signer: str
    signs: int
    is_stop: bool
    is_each: bool
    sheet: str
    unit: str
    at_least: float | None
    at_most: float | None
    after: str
    after_h: int
    by_h: int


class LineList(Reply):
    """A list of lines in its newest version; 0 is as it came with the app."""

    name: str
    number: int
    lines: list[ListedLine]


class LineLists(Reply):
    """Every list."""

    lists: list[LineList]


class Policy(Reply):
    """What the yard goes by where the rules of the trade differ, and the rivals; "" while nothing is settled."""

    name: str
    choice: str
    said_by: str
    rivals: list[str]


class Policies(Reply):
    """Every question."""

    policies: list[Policy]


class YardFaultsAsked(Body):
    """Of one thing or one boat, with or without those that were closed."""

    tag: Words = ""
    vessel_id: Annotated[str, Field(max_length=9, pattern=r"^[0-9]*$")] = ""
    show: Literal["standing", "all"] = "standing"


class NewYardFault(Body):
    """A fault of one tagged thing, one drive or one boat: exactly one of the three."""

    severity: Literal["stop", "watch", "note"]
    what: Annotated[str, Field(min_length=1, max_length=120, pattern=NO_CONTROLS)]
    tag: Words = ""
    drive_id: Id | None = None
    vessel_id: Id | None = None
    place: Annotated[str, Field(max_length=120, pattern=NO_CONTROLS)] = ""
    evidence: Line = ""
    found: Literal["haul-out", "sheet", "looking", "trial"] = "looking"
    decides: Words = ""


class NewDecision(Body):
    """What is decided of a fault: who decides, that it is accepted until a day, accepted no longer, or closed."""

    kind: Literal["decides", "accepted", "acceptance ended", "closed"]
    name: Words = ""
    note: Line = Field("", description="Why it may stay, why no longer, or by what work it was closed.")
    until: Annotated[str, Field(max_length=10, pattern=r"^(\d{4}-\d{2}-\d{2})?$")] = Field(
        "", description="Of an acceptance: the day on which it is back."
    )


class Decision(Reply):
    """Something that was decided of a fault."""

    kind: str
    name: str
    note: str
    until: str
    at: datetime
    said_by: str


class YardFault(Reply):
    """One fault, of the bench or of the relaunch room."""

    key: str
    severity: str
    what: str
    place: str
    evidence: str
    tag: str
    drive_id: int | None
    vessel_id: int | None
    on: str
    is_open: bool
    is_accepted: bool
    decides: str
    at: datetime
    said_by: str
    decisions: list[Decision]


class YardFaults(Reply):
    """Faults, worst first."""

    faults: list[YardFault]
