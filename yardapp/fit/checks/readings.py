"""Each figure by its trade name, what it may be at all, and how to read it."""

from yardapp.fit.checks.readings_of_boat import BOAT_READINGS, CUTTER, Reading
from yardapp.fit.figures import Figure

LARGE = "propeller.bore_large_m"
SMALL = "propeller.bore_small_m"
BORE_LENGTH = "propeller.bore_length_m"
ENDS = (LARGE, SMALL, BORE_LENGTH)
HUB_TAPER = "propeller.taper"
HUB_KEY_WIDTH = "propeller.keyway_width_m"
HUB_KEY_DEPTH = "propeller.keyway_depth_m"
HUB_LENGTH = "propeller.hub_length_m"
HUB_DIAMETER = "propeller.hub_diameter_m"
DIAMETER = "propeller.diameter_m"
BLADES = "propeller.blades"
HAND = "propeller.hand"
STAMPED_HAND = "propeller.hand_stamped"
KIND = "propeller.bore_kind"
DRIVE_HAND = "drive.hand"
SHAFT = "drive.shaft_diameter_m"
SHAFT_TAPER = "drive.taper"
TAPER_LENGTH = "drive.taper_length_m"
SHAFT_KEY_WIDTH = "drive.keyway_width_m"
SHAFT_KEY_DEPTH = "drive.keyway_depth_m"
HUB_SPACE = "drive.hub_space_m"
CLEARANCE = "drive.hull_clearance_m"
POWER = "drive.rated_power_w"
VESSEL_LENGTH = "drive.vessel_length_m"
BLOCK = "drive.block_ratio"
TWIN = "drive.is_twin"


_OF_THE_PAIR = {
    LARGE: Reading(
        "bore at its large end", "length", 0.005, 1.5, "Measure the bore at its large (forward) end, to 0.05 mm."
    ),
    SMALL: Reading(
        "bore at its small end", "length", 0.003, 1.5, "Measure the bore at its small (nut) end, to 0.05 mm."
    ),
    BORE_LENGTH: Reading(
        "length of the bore",
        "length",
        0.005,
        3.0,
        "Measure along the axis from end to end of the bore, to 0.5 mm.",
    ),
    HUB_TAPER: Reading(
        "taper of the hub",
        "taper",
        0.01,
        0.4,
        "Measure both ends of the bore, to 0.05 mm, and the length between them.",
    ),
    HUB_KEY_WIDTH: Reading(
        "width of the hub's keyway", "length", 0.001, 0.3, "Measure the width of the hub's keyway, to 0.05 mm."
    ),
    HUB_KEY_DEPTH: Reading(
        "depth of the hub's keyway",
        "length",
        0.0003,
        0.15,
        "Measure the depth of the hub's keyway at its side, to 0.1 mm.",
    ),
    HUB_LENGTH: Reading("length of the hub", "length", 0.005, 3.0, "Measure the hub from face to face, to 0.5 mm."),
    HUB_DIAMETER: Reading("diameter of the hub", "length", 0.008, 3.0, "Measure across the hub outside, to 1 mm."),
    DIAMETER: Reading("diameter of the propeller", "length", 0.05, 12.0, "Measure the propeller's diameter, to 2 mm."),
    SHAFT: Reading(
        "shaft at the large end of its taper",
        "length",
        0.005,
        1.5,
        "Measure the shaft at the large end of its taper, to 0.05 mm.",
    ),
    SHAFT_TAPER: Reading(
        "taper of the shaft",
        "taper",
        0.01,
        0.4,
        "Measure the shaft's taper at two places, to 0.05 mm, and how far they are apart.",
    ),
    TAPER_LENGTH: Reading(
        "length of the shaft's taper", "length", 0.005, 3.0, "Measure the length of the shaft's taper, to 0.5 mm."
    ),
    SHAFT_KEY_WIDTH: Reading(
        "width of the shaft's keyway", "length", 0.001, 0.3, "Measure the width of the shaft's keyway, to 0.05 mm."
    ),
    SHAFT_KEY_DEPTH: Reading(
        "depth of the shaft's keyway",
        "length",
        0.0003,
        0.15,
        "Measure the depth of the shaft's keyway at its side, to 0.1 mm.",
    ),
    HUB_SPACE: Reading(
        "room ahead of the taper",
        "length",
        0.0005,
        5.0,
        "Measure from the bearing's aft face to the large end of the taper, to 1 mm.",
    ),
    CLEARANCE: Reading(
        "room from shaft centre to hull",
        "length",
        0.03,
        15.0,
        "Measure from shaft centre to hull, square to the shaft, at the propeller.",
    ),
    POWER: Reading("rated power on one shaft", "power", 100.0, 1e8, "Read the engine's rated power off its plate."),
    VESSEL_LENGTH: Reading("length of the vessel", "length", 1.5, 500.0, "Give the vessel's length on the waterline."),
    BLOCK: Reading(
        "block coefficient", "ratio", 0.1, 1.0, "Give the block coefficient, from her lines or her displacement."
    ),
}
READINGS = _OF_THE_PAIR | BOAT_READINGS

# Taken where nobody said how well a figure was read: enough to name a taper, not to pass a fit. A plate's power is
# good to some 5 %, as tests of engines allow (from memory, low); speed and reduction are nearly what they say.
ASSUMED_SHARE = {"length": 0.005, "taper": 0.025, "power": 0.03, "rotation": 0.005, "count": 0.002}
ASSUMED_LEAST_M = 0.0005
ASSUMED_OTHER_SHARE = 0.05


def assumed_u(kind: str, value: float) -> float:
    """Standard uncertainty of a figure that came without one, in its own unit."""
    u = ASSUMED_SHARE.get(kind, ASSUMED_OTHER_SHARE) * value
    return max(u, ASSUMED_LEAST_M) if kind == "length" else u


def is_none_there(path: str, figure: Figure) -> bool:
    """Tell whether the figure says that somebody looked for a keyway or cutter and there is none: it is zero."""
    return path in (HUB_KEY_WIDTH, SHAFT_KEY_WIDTH, CUTTER) and figure.value == 0
