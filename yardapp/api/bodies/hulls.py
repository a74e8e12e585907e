"""What is known of a hull: weight, lines, speed and power."""

from typing import Annotated, Any, Literal

from pydantic import Field

from yardapp.api.bodies.base import Assumed, Body, Figure, Id, Reply, with_sizes
from yardapp.api.sizes import Size
from yardapp.vessels.services import HULL_KINDS, PLANING_KINDS, POWER_TAKEN

HullKind: Any = Literal[tuple(HULL_KINDS)]
PlaningKind: Any = Literal[tuple(PLANING_KINDS)]
PowerTaken: Any = Literal[tuple(POWER_TAKEN)]
Pair = Annotated[list[Annotated[float, Field(gt=0, le=1e9)]], Field(min_length=2, max_length=2)]
SpeedPower = Annotated[list[Pair], Field(max_length=60)]
HULL_SIZES = (
    Size("displacement_kg", "mass", "Displacement, laden", least=20.0, most=1e8),
    Size("beam_m", "length", "Beam on the waterline", least=0.05, most=400.0, assume="m"),
    Size("draught_m", "length", "Draught of the hull without keel", least=0.05, most=400.0, assume="m"),
    Size("wetted_m2", "area", "Wetted surface", least=0.5, most=1e5),
    Size("waterplane_m2", "area", "Area of the waterplane", least=0.3, most=1e5),
    Size("prismatic_ratio", "number", "Prismatic coefficient", least=0.1, most=1.0),
    Size("midship_ratio", "number", "Midship coefficient", least=0.1, most=1.0),
    Size("waterplane_ratio", "number", "Waterplane coefficient", least=0.1, most=1.0),
    Size("lcb_m", "length", "Centre of buoyancy, aft of the fore end", least=0.05, most=400.0, assume="m"),
    Size("lcf_m", "length", "Centre of the waterplane, aft of the fore end", least=0.05, most=400.0, assume="m"),
    Size("chine_beam_m", "length", "Beam over the chines", least=0.05, most=400.0, assume="m"),
    Size("deadrise_rad", "angle", "Deadrise", least=0.0, most=0.87),
    Size("lcg_m", "length", "Centre of gravity, forward of the transom", least=0.05, most=400.0, assume="m"),
)


class HullWords(Body):
    """A hull as it should stand; what is left out stays, null is "not known"."""

    version: Id = Field(description="The version of the boat's record that this change was made on.")
    hull_kind: HullKind | None = None
    planing_kind: PlaningKind | None = None
    speed_power: SpeedPower | None = Field(None, description="Pairs of speed, m/s, and power, W, speeds rising.")
    speed_power_kind: PowerTaken | None = None


HullChange = with_sizes("HullChange", HullWords, HULL_SIZES)


class Hull(Reply):
    """What is known of a hull."""

    vessel_id: int
    version: int
    hull_kind: str | None
    planing_kind: str | None
    speed_power: list[list[float]] = Field(description="Pairs of speed, m/s, and power, W.")
    speed_power_kind: str | None
    figures: dict[str, Figure] = Field(description="By their full name; what is not known is left out.")
    typed: dict[str, str] = Field(description="What was typed, by the name of its box.")
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was just sent.")
