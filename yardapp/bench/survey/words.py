"""What a survey says, in sentences: warnings, and why there is no class."""

from collections.abc import Mapping
from typing import Any

from yardapp import quantities
from yardapp.bench.tools import K
from yardapp.quantities import System

CLIMBS = {"right": "anticlockwise", "left": "clockwise"}
QUANTITIES = {
    "local_pitch": "Local pitch",
    "mean_pitch_of_section": "Mean pitch of a section",
    "mean_pitch_of_blade": "Mean pitch of a blade",
    "mean_pitch_of_propeller": "Mean pitch of the propeller",
}
BEYOND = "none"


def place_of(blade: int | None, radius_ratio: float | None = None, station: int | None = None) -> str:
    """`blade 2, 0.6 R, station 3`."""
    said = [f"blade {blade}", f"{radius_ratio:g} R" if radius_ratio else "", f"station {station}" if station else ""]
    return ", ".join(part for part in said if part)


def length(value: float, system: System) -> str:
    """A pitch or a height in a warning, no longer than needed to find it."""
    return quantities.show(value, "length", system)


def fault_said(fault: Mapping[str, Any], system: System = "mm") -> str:
    """One thing that can't be, or hardly, as it is told at once."""
    return _SAID[fault["kind"]](fault, system)


def _place(fault: Mapping[str, Any]) -> str:
    return place_of(fault["blade"], fault["radius_ratio"], fault["station"])


def _far(fault: Mapping[str, Any], system: System) -> str:
    value, low, high = (length(fault["figures"][name], system) for name in ("value_m", "low_m", "high_m"))
    unit = value.rpartition(" ")[2]
    others = low if low == high else f"{low.removesuffix(f' {unit}')} to {high}"
    return f"Check {_place(fault)}: {value}, the others {others}."


def _misread(fault: Mapping[str, Any], system: System) -> str:
    height = length(fault["figures"]["height_m"], system)
    return f"Check {_place(fault)}: at {height} the pitch jumps up on one side and down on the other. Read it again."


def _twice(fault: Mapping[str, Any], system: System) -> str:
    return f"{_place(fault).capitalize()} was read twice. Keep one of the two."


def _order(fault: Mapping[str, Any], system: System) -> str:
    angle = quantities.show(fault["figures"]["angle_rad"], "angle")
    return f"Check {_place(fault)}: {angle} is out of order, the other angles go one way along the blade."


def _same_angle(fault: Mapping[str, Any], system: System) -> str:
    angle = quantities.show(fault["figures"]["angle_rad"], "angle")
    return f"Check {_place(fault)}: two stations of this radius stand at one angle, {angle}."


def _falls(fault: Mapping[str, Any], system: System) -> str:
    return f"Check {_place(fault)}: its face falls where the others climb. Are its stations the wrong way round?"


def _hand(fault: Mapping[str, Any], system: System) -> str:
    said, seen = fault["figures"]["said"], fault["figures"]["seen"]
    return (
        f"The face climbs {CLIMBS[seen]}, seen from above: that is a {seen}-hand propeller, whichever face is up. "
        f"It is said to be {said}-hand, and the rise has the wrong sign for that. Do the angles count the other way?"
    )


_SAID = {
    "far": _far,
    "misread": _misread,
    "twice": _twice,
    "order": _order,
    "same angle": _same_angle,
    "falls": _falls,
    "hand": _hand,
}


def class_note(row: Mapping[str, Any], system: System = "mm") -> str:
    """Why a quantity has its class, or none."""
    if row["wide_m"] is None:
        return "Not read."
    wide, off = (quantities.show(abs(row[name]), "length", system) for name in ("wide_m", "deviation_m"))
    seems = "class III" if row["seems"] == BEYOND else f"class {row['seems']}"
    if row["allowed_m"] is None:
        return f"{off} off at most, and class III asks nothing of it."
    allowed = quantities.show(row["allowed_m"], "length", system)
    if not row["is_certain"]:
        return f"No class: the readings' ± {wide} is wider than the ± {allowed} of {seems}."
    if row["seems"] == BEYOND:
        return f"Beyond class III: {off} off, where it allows {allowed}."
    return f"{off} off at most, where {seems} allows {allowed}; read within ± {wide}."


def error_note(kept: Mapping[str, Any], system: System = "mm") -> str:
    """What of the ± is common to all readings, and what is not."""
    separate, common = kept["separate_u_m"], kept["common_u_m"]
    if separate is None:
        return "Nobody said how well heights and angles were read: no ±, and no class."
    said = quantities.show(K * separate, "length", system)
    if not common:
        return f"± {said} from readings that err each for itself: it averages out over the stations, radii and blades."
    return (
        f"Of the ±, {quantities.show(K * common, 'length', system)} is common to every blade and does not average out; "
        f"{said} is left of what errs for each reading by itself."
    )
