"""What may be typed when a size is tried."""

from typing import Any

from wtforms import HiddenField, RadioField, SelectField, StringField
from wtforms.validators import Length, NumberRange, Optional

from yardapp.fields import CountField, LengthField, PowerField, RatioField, RotationField, TaperField
from yardapp.fit.typed import WAYS
from yardapp.fit.verdict import RULES
from yardapp.forms import YardForm, options

HANDS = [("right", "Right hand"), ("left", "Left hand"), ("", "Not looked at yet")]
WANTS = [("right", "Right hand"), ("left", "Left hand"), ("", "Not known")]
BORES = [("taper", "Tapered"), ("parallel", "Parallel"), ("pilot", "A pilot, still to be bored"), ("", "Not looked")]
READ_WITH = [(way, reach.said) for way, reach in WAYS.items()]
CLASS_RULE = "the class rule for ships"


def number_or_none(value: Any) -> int | None:
    """The chosen number; an empty choice is none."""
    return int(value) if str(value or "").isdigit() and int(value) < 2**31 else None


def rule_choices() -> list[tuple[str, str]]:
    """The rules for room at the tips, in words."""
    return [(rule, CLASS_RULE if rule == "class" else f"{rule} of the diameter") for rule in RULES]


class TryForm(YardForm):
    """A propeller and a shaft, each typed or chosen; no box is needed."""

    tag = StringField("Its tag, if it has one", [Length(max=20)], description="P-0412. Then nothing more of it.")
    hand = RadioField("Hand, by look", choices=options(HANDS), default="")
    stamp = StringField(
        "Stamp, as it stands on the hub", [Length(max=80)], description="22 x 18 RH; ? for what is worn"
    )
    diameter_m = LengthField("Diameter", what="propeller diameter", at_least=0.1, at_most=12.0)
    pitch_m = LengthField("Pitch", what="pitch", at_least=0.05, at_most=12.0)
    blades = CountField("Blades", [Optional(), NumberRange(min=2, max=7, message="Two to seven blades.")])
    bore_kind = RadioField("Bore", choices=options(BORES), default="")
    bore_large_m = LengthField("Bore, large end", what="bore", at_most=0.6)
    bore_small_m = LengthField("Bore, small end", what="bore", at_most=0.6)
    bore_length_m = LengthField("Length between", what="length of the bore", at_most=1.5)
    taper = TaperField("Taper", description="Or leave it to both ends and the length.")
    keyway_width_m = LengthField("Keyway, width", what="keyway width", at_least=0.0, at_most=0.15)
    keyway_depth_m = LengthField("Keyway, depth", what="keyway depth", at_least=0.0003, at_most=0.1)
    hub_length_m = LengthField("Hub, length", what="length of the hub", at_most=1.5)
    hub_diameter_m = LengthField("Hub, diameter", what="diameter of the hub", at_most=1.5)
    way = RadioField("Read with", choices=options(READ_WITH), default="caliper")

    drive_id = SelectField("Boat and shaft", coerce=number_or_none, validate_choice=False)
    shaft_hand = RadioField("Propeller it wants", choices=options(WANTS), default="")
    shaft_diameter_m = LengthField("Shaft, large end", what="shaft diameter", at_least=0.005, at_most=1.5)
    shaft_taper = TaperField("Shaft's taper", at_least=0.01)
    taper_length_m = LengthField("Taper, length", what="taper length", at_least=0.005, at_most=3.0)
    shaft_keyway_width_m = LengthField("Shaft's keyway, width", what="keyway width", at_least=0.0, at_most=0.3)
    shaft_keyway_depth_m = LengthField("Shaft's keyway, depth", what="keyway depth", at_least=0.0003, at_most=0.15)
    hub_space_m = LengthField("Bearing to taper", what="room ahead of the taper", at_least=0.0005, at_most=5.0)
    hull_clearance_m = LengthField("Shaft's centre to hull", what="room to the hull", at_least=0.03, at_most=15.0)
    rated_power_w = PowerField("Rated power", what="rated power", at_least=200.0, at_most=20e6)
    rated_speed_rps = RotationField("Rated speed of the engine", at_least=50 / 60, at_most=15000 / 60)
    reduction_ratio = RatioField("Reduction of the gear", what="reduction", at_least=0.2, at_most=20.0)
    shaft_way = RadioField("Read with", choices=options(READ_WITH), default="caliper")

    rule = SelectField("Room at the tips by", choices=options(rule_choices()), default="15 %", validate_choice=False)
    place = StringField("Where it lies", [Length(max=120)], description="For logging it. Empty: seen, not fetched yet.")


class KeepForm(YardForm):
    """A verdict to be kept as it stands."""

    rule = HiddenField()
    note = StringField("Why it is kept", [Length(max=300)], description="For the surveyor; before the re-bore")
