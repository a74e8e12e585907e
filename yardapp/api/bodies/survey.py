"""A pitch survey: its readings, and what comes of them."""

from typing import Annotated, Any, Literal

from pydantic import Field, create_model

from yardapp.api.bodies.base import Blade, Blades, Body, Figure, Hand, Reply, with_sizes
from yardapp.api.bodies.outcome import Outcome
from yardapp.api.sizes import Size

SURVEY_SIZES = (
    Size("diameter_m", "length", "Diameter", least=0.05, most=12.0),
    Size("design_pitch_m", "length", "Pitch that it should have", most=20.0),
    Size("wanted_pitch_m", "length", "Pitch that a shop is to bring it to", most=20.0),
)
MOST_READINGS = 2016
IsoClass = Literal["S", "I", "II", "III"]
Millimetres = Annotated[float, Field(ge=0.0, le=100.0)]
Degrees = Annotated[float, Field(ge=0.0, le=30.0)]


class SurveyPoint(Body):
    """One reading: the face stands so high above the table at this angle, the propeller lying face down."""

    blade: Blade
    radius_ratio: float = Field(gt=0.0, le=1.0, description="Radius as a share of the tip's.")
    angle_deg: float = Field(ge=-720.0, le=720.0, description="About the shaft, degrees.")
    height_mm: float = Field(ge=-3000.0, le=3000.0, description="Above the table, mm.")


class SurveyErrors(Body):
    """How well heights and angles are read, at k = 2."""

    height_mm: Millimetres | None = None
    angle_deg: Degrees | None = None


class SurveyWords(Body):
    """A propeller's pitch, surveyed over blades, radii and stations. Within one radius, stations go one way."""

    blades: Blades | None = Field(None, description="How many it has; else the highest that was read.")
    hand: Hand | None = None
    counts: Literal["anticlockwise", "clockwise"] = Field("anticlockwise", description="The angles, seen from above.")
    readings: list[SurveyPoint] = Field(min_length=1, max_length=MOST_READINGS)
    common: SurveyErrors | None = Field(
        None, description="± that is the same at one station on every blade and radius: it does not average out."
    )
    wanted_class: IsoClass = "II"


_errors: Any = (SurveyErrors | None, Field(None, description="± of each height and angle: it averages out."))
_sized = with_sizes("SurveySizes", SurveyWords, SURVEY_SIZES)
SurveyReading = create_model("SurveyReading", __base__=_sized, __doc__=SurveyWords.__doc__, plus_minus=_errors)


class BladePitch(Reply):
    """The mean pitch of one blade; null where nothing of it was read."""

    blade: int
    pitch: Figure | None


class SectionPitch(Reply):
    """The mean pitch of one blade at one radius; null where it was not read or left out."""

    blade: int
    radius_ratio: float
    pitch: Figure | None


class EdgeMove(Reply):
    """What a shop must move, in m: above zero is up, off the table, the propeller lying face down."""

    blade: int
    radius_ratio: float
    leading_m: float
    trailing_m: float


_class: Any = {"class": (str | None, Field(description="S, I, II, III; none beyond III; null: can't be told."))}
QuantityClass = create_model("QuantityClass", __base__=Reply, quantity=(str, ...), note=(str, ...), **_class)


class SurveyParts(Reply):
    """What a survey says. Classes are null where the readings' ± is wider than the class."""

    pitch: Figure
    deviation: Figure | None = Field(description="Measured less what it should have.")
    blades: list[BladePitch]
    sections: list[SectionPitch]
    classes: list[QuantityClass]  # type: ignore[valid-type]
    overall: str | None
    scope: str
    shop_list: list[EdgeMove]
    warnings: list[str]


class SurveyOutcome(SurveyParts, Outcome):
    """A surveyed propeller, with every sum."""
