"""What each figure of a sheet is called, and how it reads."""

import re
from collections.abc import Iterable
from typing import Any

from yardapp import quantities
from yardapp.filters import kind_of
from yardapp.quantities import System

LABELS = {
    "diameter_m": "Diameter",
    "tip_radius_m": "Tip radius",
    "shortest_m": "Shortest tip radius",
    "wear_m": "Shortest tip behind the longest",
    "across_m": "Tip to opposite tip",
    "chord_m": "Straight from point to point",
    "string_m": "String round the tips",
    "pitch_m": "Pitch",
    "blades_pitch_m": "Pitch, mean of the blades read",
    "pitch_ratio": "Pitch over diameter",
    "rise_m": "Rise",
    "leading_m": "Leading edge, height",
    "trailing_m": "Trailing edge, height",
    "swing_rad": "Swing",
    "angle_rad": "Blade angle",
    "radius_m": "Radius of the mark",
    "template_pitch_m": "Template, its pitch",
    "gap_m": "Gap",
    "width_m": "Width that it spans",
    "bore_large_m": "Bore, large end",
    "bore_small_m": "Bore, small end",
    "bore_length_m": "Bore, length between",
    "large_m": "Large end",
    "small_m": "Small end",
    "length_m": "Length between",
    "taper": "Taper",
    "taper_angle_rad": "Angle, side to side",
    "keyway_width_m": "Keyway, width",
    "keyway_depth_m": "Keyway, depth",
    "hub_length_m": "Hub, length",
    "hub_diameter_m": "Hub, diameter",
    "shaft_large_m": "Shaft, large end",
    "shaft_taper": "Shaft, taper",
    "shaft_length_m": "Shaft, length of its taper",
    "set_up_m": "Set-up, past the shaft's large end",
    "overhang_m": "Hub past the taper's end",
    "parting_m": "The tapers part by",
    "metal_m": "Still to be bored away",
    "wall_m": "Wall left",
    "bore_m": "Bore",
    "hub_taper": "Hub, taper",
    "bore_taper": "Bore, taper",
    "taper_length_m": "Shaft, length of its taper",
    "station_m": "From the large end",
    "blades": "Blades",
    "spread_m": "Track of the tips, highest to lowest",
    "height_m": "Height of the tip",
    "tip_height_m": "Height of the tip",
    "root_m": "Height of the root mark",
    "root_height_m": "Height of the root mark",
    "root_radius_m": "Radius of the root marks",
    "track_m": "Height against the others",
    "rake_m": "Rake, aft of the root mark",
    "rake_angle_rad": "Angle of rake",
    "tip_off_m": "Tip radius against the others",
    "spacing_rad": "Angle to the next blade",
    "closing_rad": "Off a full turn",
    "spacing_off_rad": "Off an even share",
    "place_rad": "Off its even place",
    "largest_wear_m": "Wear, at most",
    "bow_m": "Off its line, at most",
    "play_m": "Play, on diameter",
    "along_m": "Along the shaft",
    "second_m": "Diameter at right angles",
    "first_m": "Diameter",
    "worn_m": "Wear",
    "ovality_m": "Out of round",
    "swing_m": "Dial's full swing",
    "top_m": "Dial, top",
    "starboard_m": "Dial, right",
    "bottom_m": "Dial, bottom",
    "port_m": "Dial, left",
    "dial_m": "Dial",
    "offset_m": "Off its line",
    "swung_m": "Dial's full swing",
    "out_of_round_m": "Out of round",
    "bearing_bore_m": "Bore of the bearing",
    "shaft_m": "Shaft in the bearing",
    "shaft_diameter_m": "Shaft in the bearing",
    "lift_m": "Lift of the shaft",
    "limit_m": "Limit",
    "area_ratio": "Blade area ratio, expanded",
    "expanded_area_m2": "Expanded area, all blades",
    "projected_area_m2": "Projected area, all blades",
    "projected_ratio": "Projected area ratio",
    "traced_area_m2": "Area traced, one blade",
    "traced_m2": "Area traced, one blade",
    "blade_area_m2": "Area of one blade",
    "area_m2": "Area",
    "whole_count": "Whole squares",
    "part_count": "Cut squares",
    "part_ratio": "Share of a cut square",
    "square_m": "Side of a square",
    "point_count": "Points",
    "point_m": "Each coordinate",
    "root_width_m": "Width at the tracing's foot",
    "root_gap_m": "From its foot to the hub",
}
WORDS = {
    "blade": "Blade",
    "blades": "Blades",
    "climbs": "Climbs, seen from above",
    "gap_at": "Gap at",
    "tips": "Which tips",
    "bore_kind": "Kind of bore",
    "heavy_blade": "Hung free, comes down: blade",
    "balance": "Static balance",
    "shaft_tag": "Shaft",
    "thread": "Thread",
    "whole": "Whole squares",
    "part": "Cut squares",
    "bearing": "Bearing",
    **{f"place_{number}": f"Place {number}" for number in range(1, 9)},
}
SAID = {
    "gap_at": {"leading": "the leading edge", "trailing": "the trailing edge"},
    "tips": {"far": "the two furthest apart", "next": "neighbours"},
}
# A reading that was taken several times over, once a blade or a place: `height_2_m`, `bore_3_rad`.
NUMBERED = re.compile(r"(?P<base>.+)_(?P<number>\d+)_(?P<unit>m|rad)")
EACH = "blade"  # what a number counts, unless EACH_OF says otherwise
EACH_OF = {
    **dict.fromkeys(("worn_m", "ovality_m", "second_m", "diameter_m"), "place"),
    **dict.fromkeys(("radius_m", "width_m"), "station"),
    **dict.fromkeys(("swing_m", "offset_m", "swung_m", "out_of_round_m"), "station"),
    **dict.fromkeys(("along_m", "top_m", "starboard_m", "bottom_m", "port_m"), "number"),
    "dial_m": "quarter",
    "limit_m": "policy",
    "metal_m": "end",
}


def label_of(name: str) -> str:
    """What a figure is called: `height_2_m` is "Height of the tip, blade 2"."""
    numbered = NUMBERED.fullmatch(name)
    if name in LABELS or numbered is None:
        return LABELS[name]
    whole = f"{numbered['base']}_{numbered['unit']}"
    return f"{LABELS[whole]}, {EACH_OF.get(whole, EACH)} {numbered['number']}"


def is_named(name: str) -> bool:
    """Whether a name is a figure's."""
    numbered = NUMBERED.fullmatch(name)
    return name in LABELS or (numbered is not None and f"{numbered['base']}_{numbered['unit']}" in LABELS)


def in_order(names: Iterable[str]) -> list[str]:
    """The names that are figures', in the order in which a page shows them."""
    return sorted(filter(is_named, names), key=_place)


def _place(name: str) -> tuple[int, int]:
    numbered = NUMBERED.fullmatch(name)
    if name in LABELS or numbered is None:
        return _rank(name), 0
    return _rank(f"{numbered['base']}_{numbered['unit']}"), int(numbered["number"])


def _rank(name: str) -> int:
    return list(LABELS).index(name)


def figure(name: str, value: Any, system: System, u: float | None = None) -> str:
    """One figure by its name; a plain count where the name has no unit."""
    if name == "blades":
        return f"{value:.0f}"
    return quantities.show(value, kind_of(name), system, u=u)
