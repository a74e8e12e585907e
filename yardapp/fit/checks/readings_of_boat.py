"""Figures of engine, hull and shaft line by their trade names: what each may be at all, and how it is read."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Reading:
    """What a figure is called, its kind, the bounds beyond which it was misread, and how it is read."""

    label: str
    kind: str
    least: float
    most: float
    how: str


PITCH = "propeller.pitch_m"
AREA = "propeller.area_ratio"
MASS = "propeller.mass_kg"
AGE = "propeller.measured_age_s"
FAULTS = "propeller.open_faults"
METAL = "propeller.material"
WHAT_KIND = "propeller.kind"
RATED_SPEED = "drive.rated_speed_rps"
REDUCTION = "drive.reduction_ratio"
THREAD = "drive.thread_length_m"
NUTS = "drive.nut_length_m"
CUTTER = "drive.cutter_length_m"
BEARING_DIAMETER = "drive.bearing_diameter_m"
RUDDER = "drive.rudder_distance_m"
AHEAD = "drive.ahead_distance_m"
APERTURE = "drive.aperture_length_m"
DEPTH = "drive.shaft_depth_m"
OLD_MASS = "drive.old_mass_kg"
ALLOY = "drive.shaft_alloy"
SAFETY = "drive.safety_factor"
SPAN = "drive.shaft_span_m"
KEY_LENGTH = "drive.key_length_m"
HULL_KIND = "drive.hull_kind"
DISPLACEMENT = "drive.displacement_kg"
BEAM = "drive.beam_m"
DRAUGHT = "drive.draught_m"
WETTED = "drive.wetted_m2"
WATERPLANE = "drive.waterplane_m2"
PRISMATIC = "drive.prismatic_ratio"
MIDSHIP = "drive.midship_ratio"
WATERPLANE_RATIO = "drive.waterplane_ratio"
LCB = "drive.lcb_m"
LCF = "drive.lcf_m"
CHINE_BEAM = "drive.chine_beam_m"
DEADRISE = "drive.deadrise_rad"
LCG = "drive.lcg_m"
SPEED_POWER = "drive.speed_power"
ENGINE_CURVE = "drive.engine_curve"
TRIAL = "drive.trial"

WIDTHS = (
    "Measure the blade area: widths of a blade laid flat at 0.3, 0.5, 0.7 and 0.9 of the radius, round its curve, to "
    "2 mm."
)
LINES = "Take it off her lines plan."
BOAT_READINGS = {
    PITCH: Reading(
        "pitch", "length", 0.03, 12.0, "Measure the pitch on the bench: rise and swing at 0.7 of the radius."
    ),
    AREA: Reading("blade area ratio", "ratio", 0.1, 1.5, WIDTHS),
    MASS: Reading("weight of the propeller", "mass", 0.1, 1e5, "Weigh the propeller, to a twentieth."),
    AGE: Reading("age of the last measurement", "duration", 0.0, 1e10, "Put it on the bench and measure it again."),
    RATED_SPEED: Reading(
        "engine's rated speed", "rotation", 0.5, 300.0, "Read the engine's rated speed off its plate."
    ),
    REDUCTION: Reading("reduction of the gear", "count", 0.1, 30.0, "Read the reduction off the gearbox's plate."),
    THREAD: Reading(
        "thread behind the taper", "length", 0.005, 1.0, "Measure the thread behind the taper's small end, to 1 mm."
    ),
    NUTS: Reading("nuts and lock", "length", 0.003, 1.0, "Measure both nuts and the lock, face to face, to 1 mm."),
    CUTTER: Reading(
        "cutter ahead of the hub", "length", 0.001, 1.0, "Measure how much of the shaft the cutter takes, to 1 mm."
    ),
    BEARING_DIAMETER: Reading(
        "bearing's housing", "length", 0.01, 3.0, "Measure across the bearing's housing at its aft end, to 1 mm."
    ),
    RUDDER: Reading(
        "room aft to the rudder",
        "length",
        0.02,
        10.0,
        "Measure from the taper's large end aft to the rudder, along the shaft, at 0.7 of the propeller's radius.",
    ),
    AHEAD: Reading(
        "room forward of the blades",
        "length",
        0.005,
        10.0,
        "Measure from the taper's large end forward to the deadwood or strut, along the shaft, at 0.7 of the "
        "propeller's radius.",
    ),
    APERTURE: Reading(
        "length of the aperture", "length", 0.05, 10.0, "Measure the aperture fore and aft at the shaft, to 2 mm."
    ),
    DEPTH: Reading(
        "depth of the shaft under water",
        "length",
        0.05,
        30.0,
        "Measure from the waterline down to the shaft's centre at the propeller, laden as she goes, to 20 mm.",
    ),
    OLD_MASS: Reading("weight of the old propeller", "mass", 0.1, 1e5, "Weigh the propeller that came off."),
    SAFETY: Reading("safety factor", "count", 1.0, 20.0, "Choose the safety factor for what she does."),
    SPAN: Reading(
        "longest span between bearings",
        "length",
        0.05,
        30.0,
        "Measure the longest stretch of shaft between two bearings, middle to middle, to 10 mm.",
    ),
    KEY_LENGTH: Reading(
        "length of the key", "length", 0.005, 2.0, "Measure the length of the key that bears, to 1 mm."
    ),
    DISPLACEMENT: Reading(
        "displacement", "mass", 20.0, 1e8, "Weigh her: the crane's or the travel lift's load cell tells it."
    ),
    BEAM: Reading("beam on the waterline", "length", 0.3, 80.0, LINES),
    DRAUGHT: Reading("draught of the hull without keel", "length", 0.05, 30.0, LINES),
    WETTED: Reading("wetted surface", "area", 0.5, 5e4, LINES),
    WATERPLANE: Reading("area of the waterplane", "area", 0.3, 5e4, LINES),
    PRISMATIC: Reading("prismatic coefficient", "ratio", 0.3, 1.0, LINES),
    MIDSHIP: Reading("midship coefficient", "ratio", 0.3, 1.0, LINES),
    WATERPLANE_RATIO: Reading("waterplane coefficient", "ratio", 0.3, 1.0, LINES),
    LCB: Reading("centre of buoyancy", "length", 0.3, 500.0, LINES),
    LCF: Reading("centre of the waterplane", "length", 0.3, 500.0, LINES),
    CHINE_BEAM: Reading("beam over the chines", "length", 0.3, 30.0, LINES),
    DEADRISE: Reading("deadrise", "angle", 0.0, 0.87, LINES),
    LCG: Reading("centre of gravity from the transom", "length", 0.2, 200.0, LINES),
}
