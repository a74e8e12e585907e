"""Coating: systems, jobs before and while they run, what is on each thing. Figures in SI; moments with their zone."""

from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, JsonValue

from yardapp.api.bodies.base import (
    Body,
    Id,
    IdInAddress,
    Limit,
    Line,
    Name,
    Note,
    Place,
    Reply,
    Words,
    _whole,
)
from yardapp.api.bodies.happenings import Moment

Kind = Literal["propeller", "shaft", "cutter", "bracket", "transducer", "other"]
ActKind = Literal[
    "started", "done", "tacky", "wet", "too dry", "weather", "stirring", "mixed", "left over", "remedied", "people",
    "launched", "note",
]  # fmt: skip
Celsius = Annotated[float, Field(ge=-45, le=60)]
Share = Annotated[float, Field(gt=0, le=1)]
StepNumber = Annotated[int, Field(ge=0, le=99), BeforeValidator(_whole)]
Coaters = Annotated[int, Field(ge=1, le=6), BeforeValidator(_whole)]
Clock = Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$", description="08:00")]
Fate = Literal["thrown out", "back in its tin", "used elsewhere"]
Seconds = Annotated[float, Field(gt=0, lt=86400)]


class JobsAsked(Body):
    """Which jobs: those that run, or those that are over."""

    show: Literal["running", "over"] = "running"
    before: IdInAddress | None = Field(None, description="Only jobs with a smaller number.")
    limit: Limit = 40


class NewPiece(Body):
    """One thing to be coated. A propeller's or shaft's tag is enough where its sizes are known; else its area."""

    kind: Kind
    name: Name = Field(description="Its tag, or what people call it.")
    area_m2: Annotated[float, Field(gt=0, le=100)] | None = None
    area_ratio: Annotated[float, Field(ge=0.1, le=1.6)] | None = Field(None, description="Blade area ratio.")
    length_m: Annotated[float, Field(gt=0, le=30)] | None = None
    diameter_m: Annotated[float, Field(gt=0, le=12)] | None = None
    allowed_by: Place | None = Field(None, description="Of a transducer: who said that its maker allows it.")
    allowed_on: date | None = Field(None, description="And when.")


class Break(Body):
    """A break of the day."""

    begins: Clock
    ends: Clock


class WorkingHours(Body):
    """When the yard works, on its own clock: nobody coats outside of it."""

    begins: Clock
    ends: Clock
    breaks: Annotated[list[Break], Field(max_length=4, default_factory=list)]
    weekends: bool = False


class NewJob(Body):
    """A job: what, on which system, by how many, how fast, by when."""

    system_id: Id
    pieces: Annotated[list[NewPiece], Field(min_length=1, max_length=24)]
    title: Words = ""
    drive_id: Id | None = None
    people: Coaters = 1
    way: Literal["brush", "roller"] = "brush"
    blade_s: Seconds = Field(description="One coat on one blade, s.")
    metal_c: Celsius = Field(description="Metal, as expected.")
    loss_ratio: Annotated[float, Field(ge=0, le=0.9)] = 0.2
    starts: Moment | None = None
    launches: Moment | None = None
    hours: WorkingHours | None = Field(None, description="Without them somebody coats at any hour.")
    note: Note = ""


class NewAct(Body):
    """One act beside the boat. `at` only where it is told late: the moment of the act itself."""

    kind: ActKind
    unit: Words = Field("", description="The blade or piece, by its key; empty for all of them.")
    step: StepNumber | None = Field(None, description="Number of the step in the system's sheet, from 0.")
    at: Moment | None = None
    air_c: Celsius | None = None
    metal_c: Celsius | None = None
    relative_humidity: Share | None = None
    wet_bulb_c: Celsius | None = None
    product: Words = ""
    batch: Annotated[str, Field(max_length=40)] = ""
    volume_m3: Annotated[float, Field(ge=0, le=1)] | None = None
    fate: Fate | None = Field(None, description="Of what is left over: what became of it.")
    people: Coaters | None = None
    note: Line = ""


class SystemShown(Reply):
    """A coating system in its newest version; `sheet` is all that it says."""

    id: int
    name: str
    version: int
    is_used: bool
    at: datetime
    said_by: str
    sheet: dict[str, JsonValue]


class Systems(Reply):
    """Every system of the yard, by name."""

    systems: list[SystemShown]


class NewSystem(Body):
    """A system's sheet, of the same shape as a sheet that is read."""

    sheet: dict[str, JsonValue]
    why: Line = ""


class JobListed(Reply):
    """One job of a list."""

    id: int
    title: str
    is_open: bool
    starts: datetime | None
    planned: datetime
    launches: datetime | None
    said_by: str
    system: str
    version: int = Field(description="Of the system, on which the job runs.")


class Jobs(Reply):
    """Jobs, newest first."""

    jobs: list[JobListed]


class ToDo(Reply):
    """One thing to do: from when, by when."""

    act: str
    name: str
    said: str
    unit: str
    label: str
    step: int | None
    from_at: datetime
    by: datetime | None


class UnitNow(Reply):
    """One blade or piece with its own clock."""

    key: str
    label: str
    phase: str
    step: int | None
    name: str
    coats: int
    opens: datetime | None
    shuts: datetime | None
    test: datetime | None


class FaultNow(Reply):
    """What went against the sheet, and the sheet's own remedy."""

    kind: str
    unit: str
    step: int
    at: datetime
    said: str
    remedy: str
    is_remedied: bool


class ActKept(Reply):
    """One act as it was kept; `noted` is when the server heard of it."""

    id: int
    kind: str
    unit: str
    step: int | None
    at: datetime
    noted: datetime
    is_late: bool
    said_by: str
    figures: dict[str, Any]
    note: str
    is_standing: bool


class JobNow(Reply):
    """A job as it stands at this moment of the server's clock."""

    id: int
    title: str
    is_open: bool
    version: int = Field(description="Rises with every act.")
    at: datetime
    now: ToDo | None
    then: ToDo | None
    units: list[UnitNow]
    weather: str
    weather_why: list[str]
    faults: list[FaultNow]
    warnings: list[str]
    water_from: datetime | None
    changes_at: datetime | None = Field(description="When something changes by itself, if nobody acts.")
    acts: list[ActKept]


class RatingKept(Reply):
    """How it looked at haul-out."""

    id: int
    blade: int | None
    word: str
    at: datetime
    said_by: str
    note: str


class Coating(Reply):
    """One coating of one thing."""

    job_id: int
    piece_id: int
    system: str
    version: int
    way: str
    foul_release: bool = Field(description="Later paint will not hold on it.")
    finished: datetime | None
    immersed: datetime | None
    ended: datetime | None
    metal_low_c: float | None
    metal_high_c: float | None
    windows_met: bool | None
    ratings: list[RatingKept]
    perhaps_of: str | None = Field(description="The tag of the thing that was perhaps meant: tags hung crossed then.")


class Coatings(Reply):
    """Everything that was coated onto one thing, newest first."""

    tag: str
    is_slippery: bool = Field(description="What is on it now is a foul-release coat: later paint will not hold.")
    coatings: list[Coating]
