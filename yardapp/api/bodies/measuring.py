"""Readings taken at every blade, place or station; hubs and shafts; and what comes of them."""

from typing import Annotated

from pydantic import Field

from yardapp.api.bodies.base import Blade, Blades, Body, Figure, Line, Reply, with_sizes
from yardapp.api.bodies.items import BORE_SIZES
from yardapp.api.bodies.outcome import Outcome
from yardapp.api.sizes import Size

Metres = Annotated[float, Field(ge=0.0, le=20.0)]
Small = Annotated[float, Field(ge=0.0, le=0.6)]
Dial = Annotated[float, Field(ge=-0.1, le=0.1)]
Turn = Annotated[float, Field(gt=0.0, lt=6.283185307179586)]
PlusMinus = Annotated[float, Field(ge=0.0, le=1.0)]
Tag = Annotated[str, Field(min_length=1, max_length=20, pattern=r"^[^\x00-\x1f\x7f]*$")]
Count = Annotated[int, Field(ge=0, le=9999)]

HUB_SIZES = (
    *BORE_SIZES,
    Size("shaft_large_m", "length", "Shaft, large end", most=0.6),
    Size("shaft_taper", "taper", "Shaft, taper"),
    Size("shaft_length_m", "length", "Shaft, length of its taper", most=3.0),
)
SHAFT_END_SIZES = (
    Size("large_m", "length", "Large end of the taper", most=0.6),
    Size("small_m", "length", "Small end", most=0.6),
    Size("length_m", "length", "Length between the two", most=3.0),
    Size("keyway_width_m", "length", "Keyway, width", least=0.0, most=0.15),
    Size("keyway_depth_m", "length", "Keyway, depth at its side", least=0.0, most=0.1),
)
BEARING_SIZES = (
    Size("bearing_bore_m", "length", "Bore of the bearing, where it is widest", most=0.7),
    Size("shaft_m", "length", "Shaft in the bearing", least=0.005, most=0.6),
    Size("lift_m", "length", "How far the shaft lifts in the bearing", least=0.0, most=0.1),
)
AREA_SIZES = (
    Size("diameter_m", "length", "Diameter", least=0.1, most=12.0),
    Size("hub_diameter_m", "length", "Hub, diameter", most=1.5),
    Size("pitch_m", "length", "Pitch", least=0.05, most=12.0),
    Size("square_m", "length", "Side of a square of the paper", most=0.2),
    Size("root_width_m", "length", "Width at the tracing's foot", most=3.0),
    Size("root_gap_m", "length", "From the tracing's foot to the hub", least=0.0, most=1.0),
)


class TipRead(Body):
    """One blade, as far as it was read; metres and radians, the propeller lying face down."""

    blade: Blade
    height_m: Metres | None = Field(None, description="Of the tip above the table.")
    tip_radius_m: Metres | None = None
    spacing_rad: Turn | None = Field(None, description="To the next blade.")
    root_m: Metres | None = Field(None, description="Of a mark near the root above the table.")


class TipErrors(Body):
    """± of each kind of reading, k = 2."""

    height_m: PlusMinus | None = None
    tip_radius_m: PlusMinus | None = None
    spacing_rad: PlusMinus | None = None
    root_m: PlusMinus | None = None
    root_radius_m: PlusMinus | None = None


class AlikeReading(Body):
    """Every blade's tip, held against the others'."""

    blades: Blades
    tips: list[TipRead] = Field(min_length=1, max_length=7)
    root_radius_m: Metres | None = None
    heavy_blade: Blade | None = Field(None, description="The one that comes down, hung free.")
    balance: Line = ""
    plus_minus: TipErrors | None = None


class Odd(Reply):
    """The blade that differs in one quantity; `blade` null where one differs but nobody can say which."""

    what: str
    blade: int | None
    is_odd: bool
    off: float
    plus_minus: float
    others_agree: bool


class SpacingClass(Reply):
    """A class of ISO 484, and what is to be said of it."""

    quantity: str
    iso_class: str = Field(description="S, I, II, III or none; empty where the readings can't tell.")
    note: str


class AlikeOutcome(Outcome):
    """Blades held against each other."""

    odd: list[Odd]
    classes: list[SpacingClass]


class WidthRead(Body):
    """One width of a blade, round its curve, at one radius."""

    radius_m: Metres
    width_m: Metres


class PointRead(Body):
    """One point of an outline, in its order round the blade."""

    x_m: float = Field(ge=-3.0, le=3.0)
    y_m: float = Field(ge=-3.0, le=3.0)


class AreaWords(Body):
    """One blade's area: from widths at radii, squares counted on a tracing, or the points of its outline."""

    blades: Blades
    widths: list[WidthRead] | None = Field(None, max_length=10)
    whole: Count | None = Field(None, description="Squares wholly inside the tracing.")
    part: Count | None = Field(None, description="Squares that the outline cuts.")
    outline: list[PointRead] | None = Field(None, min_length=3, max_length=400)
    u_width: PlusMinus | None = Field(None, description="± of each radius and width, m, k = 2.")
    u_point: PlusMinus | None = Field(None, description="± of each coordinate, m, k = 2.")


AreaReading = with_sizes("AreaReading", AreaWords, AREA_SIZES)


class AreaOutcome(Outcome):
    """The blades' area."""

    area_ratio: Figure


class WearRead(Body):
    """One place along a shaft."""

    place: Annotated[str, Field(max_length=40, pattern=r"^[^\x00-\x1f\x7f]*$")] = ""
    along_m: Metres | None = None
    diameter_m: Small
    second_m: Small | None = Field(None, description="At right angles to the first.")


class WearErrors(Body):
    """± of each kind of reading, k = 2."""

    along_m: PlusMinus | None = None
    diameter_m: PlusMinus | None = None
    second_m: PlusMinus | None = None


class WearReading(Body):
    """Diameters along a shaft: where it runs, and where nothing wears it."""

    places: list[WearRead] = Field(min_length=1, max_length=8)
    plus_minus: WearErrors | None = None


class WearOutcome(Outcome):
    """How far a shaft is worn."""

    largest_wear: Figure


class StationRead(Body):
    """One station: the dial's full swing in one turn, or the dial at four quarters of it."""

    along_m: Metres | None = None
    swing_m: Annotated[float, Field(ge=0.0, le=0.1)] | None = None
    top_m: Dial | None = None
    starboard_m: Dial | None = None
    bottom_m: Dial | None = None
    port_m: Dial | None = None


class StationErrors(Body):
    """± of each kind of reading, k = 2."""

    along_m: PlusMinus | None = None
    swing_m: PlusMinus | None = None
    dial_m: PlusMinus | None = None


class RunOutReading(Body):
    """A dial along a shaft that turns on two supports."""

    stations: list[StationRead] = Field(min_length=1, max_length=7)
    plus_minus: StationErrors | None = None


class RunOutOutcome(Outcome):
    """How far a shaft is bent: half of the dial's swing."""

    bow: Figure


class ShaftEndWords(Body):
    """A shaft's end, as far as it was read."""

    thread: Annotated[str, Field(max_length=60, pattern=r"^[^\x00-\x1f\x7f]*$")] = ""


class BearingWords(Body):
    """A shaft in its bearing: bore and shaft, or how far it lifts."""

    bearing: Annotated[str, Field(max_length=60, pattern=r"^[^\x00-\x1f\x7f]*$")] = ""


ShaftEndReading = with_sizes("ShaftEndReading", ShaftEndWords, SHAFT_END_SIZES)
BearingReading = with_sizes("BearingReading", BearingWords, BEARING_SIZES)


class Held(Reply):
    """One figure beside a standard's, SI; null where the standard has none."""

    what: str
    read: float
    standard: float
    low: float | None
    high: float | None
    off: float
    is_within: bool


class Standard(Reply):
    """One standard shaft end, nearest first."""

    end: str
    source: str
    status: str
    thread: str
    is_it: bool
    held: list[Held]


class ShaftEndOutcome(Outcome):
    """A shaft's end: its taper where both ends and the length were read."""

    taper: Figure | None
    standards: list[Standard]


class Policy(Reply):
    """One of the rival limits of wear. verdict: yes within it, no beyond it, ask too near to tell."""

    policy: str
    limit_m: float
    verdict: str
    source: str


class BearingOutcome(Outcome):
    """Play on diameter, beside the rival limits."""

    play: Figure
    policies: list[Policy]
