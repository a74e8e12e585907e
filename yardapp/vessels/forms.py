"""What may be typed about boats and their drives."""

from collections.abc import Iterator
from typing import Any

from wtforms import RadioField, SelectField, StringField, TextAreaField
from wtforms.validators import InputRequired, Length

from yardapp.fields import LengthField, PowerField, RatioField, RotationField, TaperField
from yardapp.forms import YardForm, options
from yardapp.vessels.boxes import BoatLengthField, MergedForm, number_or_none, tidy, tidy_lines
from yardapp.vessels.pairs import EnginePairsField
from yardapp.vessels.sizes import USUAL, box_of

POSITIONS = [("centre", "Centre"), ("port", "Port"), ("starboard", "Starboard")]
HANDS = [("right", "Right hand: clockwise"), ("left", "Left hand: anticlockwise"), ("", "Not known")]
CLEARANCE_FROM = [("centre", "From the shaft's centre"), ("surface", "From the shaft's surface")]
BESIDE_THE_SHAFT = ("taper", "taper_length_m", "keyway_width_m", "keyway_depth_m", "hull_clearance_m")


class LogBoatForm(YardForm):
    """A boat, entered once; only her name is needed."""

    name = StringField(
        "Name",
        [InputRequired("What is she called? “Unnamed, blue hull” will do."), Length(max=80)],
        filters=[tidy],
    )
    kind = StringField("What she is", [Length(max=40)], filters=[tidy], description="Sloop, trawler, launch…")
    owner = StringField("Owner", [Length(max=80)], filters=[tidy])
    owner_id = SelectField(
        "Owner's account here",
        coerce=lambda value: number_or_none(value) or 0,
        validate_choice=False,
        description="Whoever has it sees this boat and what is on her, and no other.",
    )
    length_m = BoatLengthField("Length on the waterline", what="boat's length", at_least=1.5, at_most=400.0)
    block_ratio = RatioField(
        "Block coefficient",
        what="block coefficient",
        at_least=0.1,
        at_most=1.0,
        description="From her lines plan, where somebody has it. A rule for the room round the propeller asks for it.",
    )
    note = TextAreaField("Note", [Length(max=2000)], filters=[tidy_lines])


class ChangeBoatForm(MergedForm, LogBoatForm):
    """Her record; a new name or owner leaves the old one findable."""


class EngineForm(YardForm):
    """Engine and gear, and the hand that they ask for."""

    hand = RadioField("Propeller's hand", choices=options(HANDS), default="")
    engine = StringField(
        "Engine",
        [Length(max=80)],
        filters=[tidy],
        description="As its plate or its owner says: Fulmar 38, three cylinders",
    )
    rated_power_w = PowerField(
        "Rated power",
        what="rated power",
        at_least=200.0,
        at_most=20e6,
        description="Off the engine's plate, with its unit: hp, PS and kW differ.",
    )
    rated_speed_rps = RotationField(
        "Rated speed of the engine",
        what="rated speed",
        at_least=50 / 60,
        at_most=15000 / 60,
        description="Revolutions a minute of the engine, not of the shaft.",
    )
    reduction_ratio = RatioField(
        "Reduction of the gear",
        what="reduction",
        at_least=0.2,
        at_most=20.0,
        description="2.03:1 means that the engine turns 2.03 times for one turn of the shaft. Without a gear: 1.",
    )
    engine_curve = EnginePairsField(
        "Power at full throttle",
        [Length(max=2000)],
        description="From its maker's sheet, a pair a line, speeds rising: 1600 rpm, 14 kW. Left empty, one torque is "
        "taken at every speed, and that is said.",
    )


class ReEngineForm(MergedForm, EngineForm):
    """Another engine or gear in the same drive."""

    hand = RadioField(
        "Propeller's hand now",
        [InputRequired("Another gear may turn the shaft the other way: which hand does it ask for now?")],
        choices=options(HANDS),
    )


def _plus_minus(of: str, **bounds: Any) -> LengthField:
    return LengthField(f"± {of}", what="±", at_least=1e-7, at_most=1.0, **bounds)


class NewDriveForm(EngineForm):
    """All that is asked of a drive, entered once; only its position is needed."""

    position = RadioField(
        "Where it stands", [InputRequired("Centre, port or starboard?")], choices=options(POSITIONS), default="centre"
    )
    shaft_diameter_m = LengthField(
        "Shaft, large end",
        what="shaft diameter",
        at_least=0.005,
        at_most=1.5,
        description="Where its taper begins, at the bearing's end.",
    )
    plus_minus_shaft_diameter_m = _plus_minus("shaft")
    taper = TaperField(
        "Taper", at_least=0.01, description="1:16, 3/4 in per foot, or the full angle of the cone: 3.58 deg"
    )
    plus_minus_taper = RatioField("± N of 1:N", what="±", at_least=0.0001, at_most=20.0)
    taper_length_m = LengthField("Taper, length", what="taper length", at_least=0.005, at_most=3.0)
    plus_minus_taper_length_m = _plus_minus("taper length")
    keyway_width_m = LengthField(
        "Keyway, width",
        what="keyway width",
        at_least=0.0,
        at_most=0.3,
        description="0 when you looked and there is none.",
    )
    plus_minus_keyway_width_m = _plus_minus("keyway width")
    keyway_depth_m = LengthField(
        "Keyway, depth",
        what="keyway depth",
        at_least=0.0003,
        at_most=0.15,
        description="At its side, not in the middle.",
    )
    plus_minus_keyway_depth_m = _plus_minus("keyway depth")
    hub_space_m = LengthField(
        "Bearing to taper",
        what="room ahead of the taper",
        at_least=0.0005,
        at_most=5.0,
        description="From the bearing's aft face to the taper's large end: how far a hub can creep forward.",
    )
    plus_minus_hub_space_m = _plus_minus("bearing to taper")
    hull_clearance_m = LengthField(
        "Shaft to hull",
        what="room from shaft to hull",
        at_least=0.03,
        at_most=15.0,
        description="Square to the shaft, in the plane of the propeller.",
    )
    plus_minus_hull_clearance_m = _plus_minus("shaft to hull")
    hull_clearance_from = RadioField("Measured", choices=options(CLEARANCE_FROM), default="centre")
    note = TextAreaField("Note", [Length(max=2000)], filters=[tidy_lines])

    def validate(self, *args: Any, **options: Any) -> bool:
        """Each box by itself, then those that can't all be right."""
        is_fine = bool(super().validate(*args, **options))
        for box, said in [*self._wrong_plus_minus(), *self._wrong_together()]:
            box.errors = [*box.errors, said]
            is_fine = False
        return is_fine

    def _wrong_plus_minus(self) -> Iterator[tuple[Any, str]]:
        """A ± belongs to a size, and is smaller than it."""
        for name in USUAL:
            size, box = self._fields[name], self._fields[box_of(name)]
            if box.data is None or size.errors:
                continue
            if size.data is None:
                yield box, f"± of what? The box before it is empty: {size.label.text}."
            elif box.data >= (1 / size.data if name == "taper" else size.data):
                yield box, "That is as much as the size itself. How far may it be out?"

    def _wrong_together(self) -> Iterator[tuple[Any, str]]:
        shaft = self.shaft_diameter_m.data
        if shaft is None:
            return
        taper, length, width, depth, room = (self[name].data or 0.0 for name in BESIDE_THE_SHAFT)
        if taper * length >= shaft:
            yield self.taper_length_m, "Over that length this taper would come to a point. Look at the units."
        if width >= shaft:
            yield self.keyway_width_m, "That is wider than the shaft itself. Look at the units."
        if depth >= shaft / 2:
            yield self.keyway_depth_m, "That is deeper than the shaft's centre. Look at the units."
        if self.hull_clearance_from.data == "centre" and 0 < room <= shaft / 2:
            yield self.hull_clearance_m, "That is inside the shaft. From its centre, or from its surface?"


class ChangeDriveForm(MergedForm, NewDriveForm):
    """The same drive, read again."""


class MoveDriveForm(MergedForm):
    """The drive goes into another boat."""

    vessel_id = SelectField("Into which boat", coerce=number_or_none, validate_choice=False)
    position = RadioField(
        "Where it stands in her", [InputRequired("Centre, port or starboard?")], choices=options(POSITIONS)
    )
    note = StringField("Why, by whom", [Length(max=200)], filters=[tidy])


class UseDriveForm(YardForm):
    """The drive goes out of use, or comes back."""

    note = StringField("Why", [Length(max=300)], filters=[tidy])
