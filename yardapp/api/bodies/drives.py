"""Drives: engine, gear, shaft line, and the room for a propeller."""

from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import Field

from yardapp.api.bodies.base import (
    Assumed,
    Body,
    Figure,
    Hand,
    Id,
    IdInAddress,
    Limit,
    Note,
    Reply,
    Words,
    with_sizes,
)
from yardapp.api.bodies.hulls import SpeedPower
from yardapp.api.sizes import Size
from yardapp.vessels.services import BEHIND, SHAFT_ALLOYS

Position = Literal["centre", "port", "starboard"]
From = Literal["centre", "surface"]
DRIVE_SIZES = (
    Size("rated_power_w", "power", "Rated power", least=200.0, most=20e6),
    Size("rated_speed_rps", "rotation", "Engine speed at rated power", least=50 / 60, most=15000 / 60),
    Size("reduction_ratio", "number", "Reduction", least=0.2, most=20.0),
    Size("shaft_diameter_m", "length", "Shaft diameter at the large end of its taper", least=0.005, most=1.5),
    Size("taper", "taper", "Taper", least=0.01),
    Size("taper_length_m", "length", "Taper, length", least=0.005, most=3.0),
    Size("keyway_width_m", "length", "Keyway, width", least=0.0, most=0.3),
    Size("keyway_depth_m", "length", "Keyway, depth at its side", least=0.0003, most=0.15),
    Size("hub_space_m", "length", "Room from the bearing's aft face to the taper's large end", least=0.0005, most=5.0),
    Size("hull_clearance_m", "length", "Room from shaft to hull, square to the shaft", least=0.03, most=15.0),
    Size("safety_factor", "number", "Safety factor of the shaft in torsion", least=1.0, most=20.0),
    Size("shaft_span_m", "length", "Longest span between two bearings", least=0.05, most=20.0),
    Size("key_length_m", "length", "Key, length that bears", least=0.005, most=2.0),
    Size("thread_length_m", "length", "Thread behind the taper's small end", least=0.005, most=1.0),
    Size("nut_length_m", "length", "Both nuts and the lock, face to face", least=0.003, most=1.0),
    Size("cutter_length_m", "length", "What a cutter takes of the shaft; 0 without one", least=0.0, most=1.0),
    Size("bearing_diameter_m", "length", "Bearing's housing, across its aft end", least=0.01, most=3.0),
    Size("rudder_distance_m", "length", "Taper's large end aft to the rudder, at 0.7 R", least=0.02, most=10.0),
    Size("ahead_distance_m", "length", "Taper's large end forward to deadwood, at 0.7 R", least=0.005, most=10.0),
    Size("aperture_length_m", "length", "Aperture, fore and aft at the shaft", least=0.05, most=10.0),
    Size("shaft_depth_m", "length", "Waterline to the shaft's centre at the propeller", least=0.05, most=30.0),
    Size("old_mass_kg", "mass", "Weight of the propeller that was on it", least=0.1, most=1e5),
)
WORDS = ("position", "engine", "hand", "hull_clearance_from", "note", "shaft_alloy", "behind", "engine_curve")
Alloy: Any = Literal[SHAFT_ALLOYS]
Behind: Any = Literal[tuple(BEHIND)]
EngineCurve = Annotated[
    SpeedPower, Field(description="Pairs of engine speed, rev/s, and power at full throttle, W, speeds rising.")
]


class DriveWords(Body):
    """A drive of a boat. Each figure is optional, as text under its plain name or in SI under its full one."""

    vessel_id: Id
    position: Position = "centre"
    engine: Words = ""
    hand: Hand | None = Field(None, description="The hand of propeller that this drive wants.")
    hull_clearance_from: From = Field("centre", description="Where on the shaft the hull clearance begins.")
    shaft_alloy: Alloy | None = Field(None, description="Metal of the shaft and its condition.")
    behind: Behind | None = Field(None, description="Rudder behind one screw, or what stands beside two.")
    engine_curve: EngineCurve | None = None
    note: Note = ""


class DriveChangeWords(Body):
    """A drive as it should stand; what is left out stays, null is "not known"."""

    version: Id = Field(description="The version that this change was made on.")
    position: Position | None = None
    engine: Words | None = None
    hand: Hand | None = None
    hull_clearance_from: From | None = None
    shaft_alloy: Alloy | None = None
    behind: Behind | None = None
    engine_curve: EngineCurve | None = None
    note: Note | None = None


NewDrive = with_sizes("NewDrive", DriveWords, DRIVE_SIZES)
DriveChange = with_sizes("DriveChange", DriveChangeWords, DRIVE_SIZES)


class DrivePage(Body):
    """By number; `after` is what the page before gave."""

    after: IdInAddress = Field(0, description="Go on from here: the `after` of the last page.")
    limit: Limit = Field(50, description="How many at most.")


class Drive(Reply):
    """One drive as it stands."""

    id: int
    version: int
    label: str
    vessel_id: int | None
    position: Position
    is_in_use: bool
    engine: str
    hand: Hand | None
    hull_clearance_from: From
    shaft_alloy: str | None
    behind: str | None
    engine_curve: list[list[float]] = Field(description="Pairs of engine speed, rev/s, and power, W.")
    figures: dict[str, Figure] = Field(description="By their full name; what is not known is left out.")
    typed: dict[str, str] = Field(description="What was typed, by the name of its box.")
    note: str
    changed: datetime
    assumed: list[Assumed] = Field([], description="Units that had to be assumed in what was just sent.")


class Drives(Reply):
    """A page of drives, by number."""

    drives: list[Drive]
    after: int | None = Field(description="From where the next page goes on; null on the last.")
