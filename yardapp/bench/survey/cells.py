"""What was read, cell by cell, the same put in order, and what of it can't be so."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from typing import Any, NotRequired, TypedDict

import numpy as np
from numpy.typing import NDArray

from yardapp.bench.repeating import Reading


class Cell(TypedDict):
    """One reading: at this blade, radius and station the face stands so high at this angle. SI, and as typed."""

    blade: int
    radius_ratio: float
    station: int
    height_m: float
    angle_rad: float
    height_m_typed: NotRequired[str]
    angle_rad_typed: NotRequired[str]


@dataclass(frozen=True, kw_only=True)
class SurveyReading(Reading):
    """A pitch survey as it was read, propeller face down; heights count upward from the table. `u_` is k = 1.

    `counts` says which way the angles count, seen from above. `design_pitch_m` is what it should have, stamped or by
    design, or, with `is_design_known`, as the register knew it; `wanted_pitch_m` and `wanted_class` what a shop is to
    bring it to.
    """

    blades: int | None = None
    hand: str = ""
    counts: str = "anticlockwise"
    diameter_m: float | None = None
    u_diameter_m: float | None = None
    design_pitch_m: float | None = None
    is_design_known: bool | None = None
    wanted_pitch_m: float | None = None
    wanted_class: str = "II"
    u_height_m: float | None = None
    u_angle_rad: float | None = None
    u_common_height_m: float | None = None
    u_common_angle_rad: float | None = None
    cells: Sequence[Cell] = ()

    @property
    def has_errors(self) -> bool:
        """Whether anybody said how well heights and angles were read."""
        heights, angles = (self.u_height_m, self.u_common_height_m), (self.u_angle_rad, self.u_common_angle_rad)
        return any(u is not None for u in heights) and any(u is not None for u in angles)


@dataclass(frozen=True, kw_only=True)
class Fault:
    """Something that can't be, or hardly: where it is, and the figures that say so. `stops`: no sheet is kept on it."""

    kind: str  # twice, order, same angle, falls, hand, far, misread
    blade: int | None = None
    radius_ratio: float | None = None
    station: int | None = None
    figures: dict[str, Any] = field(default_factory=dict)
    stops: bool = False

    def kept(self) -> dict[str, Any]:
        """Ready for JSON."""
        return asdict(self)


@dataclass(frozen=True, kw_only=True)
class Table:
    """The readings in order: (blades, radii, stations), heights rising with the angle, NaN where nothing was read.

    `station_of`: which station of the sheet stands at each place, from 1.
    `climbs_anticlockwise`: which way the face climbs, seen from above, which is what the hand is; None: not read.
    `rises_with_angle` False: as read, the heights fell with the angle.
    """

    blades: int
    radii: tuple[float, ...]
    heights_m: NDArray[np.float64]
    angles_rad: NDArray[np.float64]
    station_of: NDArray[np.intp]
    rises_with_angle: bool
    climbs_anticlockwise: bool | None
    faults: tuple[Fault, ...]

    @property
    def hand(self) -> str:
        """The hand that the readings show."""
        if self.climbs_anticlockwise is None:
            return ""
        return "right" if self.climbs_anticlockwise else "left"
