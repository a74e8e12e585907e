"""What may be typed of a hull and of a shaft line."""

from wtforms import RadioField, SelectField
from wtforms.validators import Length

from yardapp.fields import AngleField, AreaField, LengthField, MassField, RatioField
from yardapp.forms import options
from yardapp.vessels.boxes import BoatLengthField, MergedForm
from yardapp.vessels.hull_words import BEHIND, HULL_KINDS, PLANING_KINDS, POWER_TAKEN, SHAFT_ALLOYS
from yardapp.vessels.pairs import PairsField

NOT_KNOWN = ("", "Not known")


def _size(label: str, description: str = "", *, at_least: float = 0.001, at_most: float = 20.0) -> LengthField:
    return LengthField(label, what=label.lower(), at_least=at_least, at_most=at_most, description=description)


def _boat_size(label: str, description: str = "") -> BoatLengthField:
    return BoatLengthField(label, what=label.lower(), at_least=0.05, at_most=400.0, description=description)


def _share(label: str, description: str = "") -> RatioField:
    return RatioField(label, what=label.lower(), at_least=0.1, at_most=1.0, description=description)


class HullForm(MergedForm):
    """What is known of her hull; every box may stay empty."""

    hull_kind = RadioField("Her hull", choices=options([*HULL_KINDS.items(), NOT_KNOWN]), default="")
    displacement_kg = MassField(
        "Displacement",
        at_least=20.0,
        at_most=1e8,
        description="Laden as she goes. The travel lift's load cell tells it.",
    )
    length_m = BoatLengthField("Length on the waterline", what="boat's length", at_least=1.5, at_most=400.0)
    speed_power = PairsField(
        "Speed and power",
        [Length(max=2000)],
        description="A pair a line, speeds rising: 5 kn, 6 kW. What was measured or drawn beats any formula.",
    )
    speed_power_kind = RadioField("That power is", choices=options([*POWER_TAKEN.items(), NOT_KNOWN]), default="")
    block_ratio = _share("Block coefficient")
    beam_m = _boat_size("Beam on the waterline")
    draught_m = _boat_size("Draught of the hull", "Without the keel.")
    prismatic_ratio = _share("Prismatic coefficient")
    midship_ratio = _share("Midship coefficient")
    waterplane_ratio = _share("Waterplane coefficient")
    wetted_m2 = AreaField("Wetted surface", at_least=0.5, at_most=1e5, description="Without keel and rudder.")
    waterplane_m2 = AreaField("Area of the waterplane", at_least=0.3, at_most=1e5)
    lcb_m = _boat_size("Centre of buoyancy", "Aft of the waterline's fore end.")
    lcf_m = _boat_size("Centre of the waterplane", "Aft of the waterline's fore end.")
    planing_kind = SelectField(
        "How fast a kind of planing boat", choices=options([NOT_KNOWN, *PLANING_KINDS.items()]), default=""
    )
    chine_beam_m = _boat_size("Beam over the chines")
    deadrise_rad = AngleField(
        "Deadrise", at_least=0.0, at_most=0.87, description="At the middle of her length: 15 deg."
    )
    lcg_m = _boat_size("Centre of gravity", "Forward of the transom.")


class ShaftLineForm(MergedForm):
    """What the shaft line bears, and the room round hub and blades; every box may stay empty."""

    shaft_alloy = SelectField(
        "Metal of the shaft",
        choices=options([NOT_KNOWN, *((alloy, alloy) for alloy in SHAFT_ALLOYS)]),
        default="",
    )
    safety_factor = RatioField(
        "Safety factor",
        what="safety factor",
        at_least=1.0,
        at_most=20.0,
        description="2 light petrol yacht, 3 average, 5 to 6 pilot and patrol. Left empty the yard's setting is taken.",
    )
    shaft_span_m = _size("Longest span", "Between two bearings, middle to middle.")
    key_length_m = _size("Key, length", "As much of it as bears.", at_most=2.0)
    thread_length_m = _size("Thread", "Behind the taper's small end.", at_most=1.0)
    nut_length_m = _size("Nuts and lock", "Both nuts and the lock together, face to face.", at_most=1.0)
    cutter_length_m = _size(
        "Cutter", "What it takes of the shaft ahead of the hub; 0 when there is none.", at_least=0.0
    )
    bearing_diameter_m = _size("Bearing's housing", "Across its aft end.", at_most=3.0)
    rudder_distance_m = _size("Taper to rudder", "From the taper's large end aft, at 0.7 of the propeller's radius.")
    ahead_distance_m = _size("Taper to deadwood or strut", "From the taper's large end forward, at the same height.")
    aperture_length_m = _size("Aperture", "Fore and aft at the shaft.")
    shaft_depth_m = _size("Shaft under water", "Waterline to shaft's centre at the propeller, laden.", at_most=30.0)
    old_mass_kg = MassField("Weight of the old propeller", at_least=0.1, at_most=1e5)
    behind = SelectField("Behind or beside it", choices=options([NOT_KNOWN, *BEHIND.items()]), default="")
