"""What may be asked of a pair, group by group, and what a person who asks nothing in particular gets asked."""

from yardapp.fit.figures import DriveFigures, Limits, PropellerFigures

SHAFT, SEAT, WATER, AROUND = "shaft", "seat", "water", "around"
CONDITION, ENGINE, BLADES, STRENGTH = "condition", "engine", "blades", "strength"
GEOMETRY = (SHAFT, WATER)
EVERYTHING = (SHAFT, SEAT, WATER, AROUND, CONDITION, ENGINE, BLADES, STRENGTH)  # in the order of refusal
DETAILS = (SEAT, AROUND)
POWER = (ENGINE, BLADES, STRENGTH)

_HULL = (
    "hull_kind",
    "planing_kind",
    "displacement_kg",
    "beam_m",
    "draught_m",
    "wetted_m2",
    "prismatic_ratio",
    "chine_beam_m",
    "deadrise_rad",
    "lcg_m",
    "speed_power",
)
# Figures of a group's own: whoever gives one wants it weighed. Rated power, length and block coefficient belong to the
# rule for room at the tips too, so they alone ask nothing of the engine.
OWN = {
    SEAT: ("thread_length_m", "nut_length_m", "cutter_length_m", "bearing_diameter_m"),
    AROUND: ("rudder_distance_m", "ahead_distance_m", "aperture_length_m", "old_mass_kg"),
    CONDITION: ("open_faults",),
    ENGINE: _HULL,
    BLADES: _HULL,
    STRENGTH: ("shaft_alloy", "safety_factor", "shaft_span_m", "key_length_m"),
}


def asked_by(propeller: PropellerFigures, drive: DriveFigures) -> tuple[str, ...]:
    """The geometry, and each further group of which a figure of its own was given."""
    given = {name for side in (propeller, drive) for name, figure in vars(side).items() if figure not in (None, ())}
    if propeller.open_faults == () or _is_stale(propeller):
        given.add("open_faults")
    return tuple(group for group in EVERYTHING if group in GEOMETRY or given & set(OWN[group]))


NOT_LISTED = ("age",)  # a list does not read when each was measured


def asked_in_lists(propeller: PropellerFigures) -> tuple[str, ...]:
    """What a list is ranked by: the geometry, and a fault that bars it; that nobody looked keeps nothing off a list."""
    return (*GEOMETRY, CONDITION) if propeller.open_faults else GEOMETRY


def _is_stale(propeller: PropellerFigures) -> bool:
    """Whether the last measurement is too old to be let pass; that there is one, or a coating, asks nothing."""
    age = propeller.measured_age_s
    return age is not None and age.value > Limits().most_age_s
