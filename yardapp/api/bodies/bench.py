"""Readings at the bench and what comes of them."""

from datetime import datetime
from functools import reduce
from operator import or_
from typing import Annotated, Any, Literal

from pydantic import Field, RootModel, create_model

from yardapp.api.bodies.base import Blade, Blades, Body, Figure, Id, Line, Reply, with_sizes
from yardapp.api.bodies.items import BoreKind
from yardapp.api.bodies.measuring import HUB_SIZES, AlikeReading, AreaReading, Standard, Tag
from yardapp.api.bodies.outcome import Outcome, Sum
from yardapp.api.bodies.survey import SurveyParts, SurveyReading
from yardapp.api.sizes import Size

PITCH_SIZES = (
    Size("radius_m", "length", "Radius", most=6.0),
    Size("rise_m", "length", "Rise", least=-3.0, most=3.0),
    Size("leading_m", "length", "Height of the leading edge", least=0.0, most=3.0),
    Size("trailing_m", "length", "Height of the trailing edge", least=0.0, most=3.0),
    Size("swing_rad", "angle", "Swing"),
    Size("angle_rad", "angle", "Angle of the face to the plane of the disc", most=1.57),
    Size("chord_m", "length", "Chord of a straight gauge, between its two ends", most=3.0),
    Size("template_pitch_m", "length", "Pitch that a template is cut to", least=0.05, most=12.0),
    Size("gap_m", "length", "Gap between template and face", least=0.0, most=0.3),
    Size("width_m", "length", "Along the template, from where it touches to the gap", most=3.0),
)
DIAMETER_SIZES = (
    Size("tip_radius_m", "length", "Radius from the bore's centre to a tip", least=0.05, most=6.0),
    Size("shortest_m", "length", "Radius from the bore's centre to the shortest tip", least=0.05, most=6.0),
    Size("string_m", "length", "Length of a string once round every tip", least=0.1, most=40.0),
    Size("across_m", "length", "Distance from tip to opposite tip", least=0.1, most=12.0),
    Size("chord_m", "length", "Distance from one tip to another", least=0.05, most=12.0),
)


Several = Annotated[list[Annotated[float, Field(ge=-3.0, le=12.0)]], Field(min_length=2, max_length=30)]
REPEATS = "Figures sent here that were read several times over, by full name: each reading, SI. ± is then the tool's."


PitchFigure = Literal[
    "radius_m", "rise_m", "leading_m", "trailing_m", "swing_rad", "angle_rad", "chord_m", "template_pitch_m", "gap_m",
    "width_m",
]  # fmt: skip
COMMON = "Figures sent here, by full name, whose ± is one and the same on every blade, as of a template."


class Repeated(Body):
    """What may be read several times over."""

    repeats: dict[str, Several] | None = Field(None, max_length=8, description=REPEATS)


class PitchWords(Repeated):
    """One blade at one radius: a rise or both edges over a swing or a chord, the blade's angle, or a template's gap."""

    blade: Blade | None = Field(None, description="Which blade, counted from the keyway.")
    climbs: Literal["clockwise", "anticlockwise"] | None = Field(None, description="Which way it climbs, from above.")
    gap_at: Literal["leading", "trailing"] | None = Field(None, description="At which edge a template's gap is.")
    common: list[PitchFigure] | None = Field(None, max_length=8, description=COMMON)


class DiameterWords(Repeated):
    """A tip radius, straight across with an even number of blades, from tip to tip, or a string round all."""

    blades: Blades | None = None
    tips: Literal["far", "next"] | None = Field(None, description="Which two tips the chord joins.")


class BoreWords(Repeated):
    """Bore, keyway and hub, as far as they were read."""

    bore_kind: BoreKind | None = None
    shaft_tag: Tag | None = Field(None, description="The shaft that it is to go on, by its tag.")


PitchReading = with_sizes("PitchReading", PitchWords, PITCH_SIZES)
DiameterReading = with_sizes("DiameterReading", DiameterWords, DIAMETER_SIZES)
BoreReading = with_sizes("BoreReading", BoreWords, HUB_SIZES)


class SheetWords(Body):
    """What stands on every sheet that is kept."""

    note: Line = ""
    corrects: Id | None = Field(None, description="The sheet that this one takes the place of.")
    why: Line = Field("", description="On a correction, why.")


def sheet_of(method: str, reading: type[Body]) -> Any:
    """A reading that is kept."""
    named: Any = (Literal[method], ...)
    kept = create_model(f"{method.title().replace('_', '')}Sheet", __base__=(reading, SheetWords), method=named)
    kept.__doc__ = reading.__doc__
    return kept


SHEETS = {
    method: sheet_of(method, reading)
    for method, reading in (
        ("pitch", PitchReading),
        ("diameter", DiameterReading),
        ("bore", BoreReading),
        ("survey", SurveyReading),
        ("alike", AlikeReading),
        ("area", AreaReading),
    )
}


AnySheet: Any = reduce(or_, SHEETS.values())


class NewSheet(RootModel[Annotated[AnySheet, Field(discriminator="method")]]):
    """A sheet to be kept: the method, and its readings."""


class PitchOutcome(Outcome):
    """A pitch."""

    pitch: Figure


class DiameterOutcome(Outcome):
    """A diameter."""

    diameter: Figure


class Near(Reply):
    """The standards that the readings come nearest to."""

    taper: float | None
    end: str
    nearest: str
    source: str


class BoreOutcome(Outcome):
    """A bore: its taper where both ends and the length were read."""

    taper: Figure | None
    near: Near | None
    standards: list[Standard]


class KeptSheet(Reply):
    """A sheet as it was kept."""

    id: int
    tag: str
    method: str
    at: datetime
    said_by: str
    readings: dict[str, Any] = Field(description="By name, in SI; u_NAME is k = 1, NAME_typed what was typed.")
    figures: dict[str, Figure]
    sums: list[Sum]
    remarks: list[str]
    note: str
    replaces_id: int | None
    replaced_by: int | None
    why: str
    work_since: str | None = Field(description="Work since then that leaves it in doubt: it is of an earlier age.")
    worked_at: datetime | None
    perhaps_of: str | None = Field(description="The tag of the thing that was perhaps meant: tags hung crossed then.")
    survey: SurveyParts | None = Field(None, description="What a pitch survey says; null for any other method.")


class Sheets(Reply):
    """The sheets of one propeller, newest first."""

    sheets: list[KeptSheet]
