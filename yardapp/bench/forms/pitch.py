"""What may be typed on a pitch sheet, by each way of reading it."""

from typing import Any, ClassVar

from wtforms import RadioField
from wtforms.validators import InputRequired

from yardapp.bench.forms.boxes import BenchForm, own_angle, own_length, tool_box
from yardapp.fields import CountField
from yardapp.forms import options
from yardapp.repeats import RepeatedAngleField, RepeatedLengthField

RADIUS = "From the bore's centre to the mark on the blade"
SWING = "Read the swing off the ring."


def _needed_radius(said: str) -> RepeatedLengthField:
    return RepeatedLengthField(
        "Radius of the mark", [InputRequired(said)], description=RADIUS, at_most=6.0, what="radius"
    )


class _PitchForm(BenchForm):
    blade = CountField("Blade", at_least=1, at_most=7, what="blade")
    radius_m = RepeatedLengthField("Radius of the mark", description=RADIUS, at_most=6.0, what="radius")
    plus_minus_radius_m = own_length("the radius")
    radius_tool = tool_box("Radius read with", "steel rule", "tape")

    def reading(self) -> dict[str, Any]:
        """Which blade goes with it."""
        return super().reading() | {"blade": self.blade.data}


class _SwingForm(_PitchForm):
    swing_rad = RepeatedAngleField(
        "Swing",
        [InputRequired(SWING)],
        default_unit="deg",
        description="How far round, between the two points",
        what="swing",
    )
    plus_minus_swing_rad = own_angle("the swing")
    swing_tool = tool_box("Swing read with", "degree ring", "swing template")


class _RiseForm(_PitchForm):
    rise_m = RepeatedLengthField(
        "Rise",
        [InputRequired("Read the rise off the height gauge.")],
        description="How far the face climbs between the two points",
        at_least=-3.0,
        at_most=3.0,
        what="rise",
    )
    plus_minus_rise_m = own_length("the rise")
    rise_tool = tool_box("Rise read with", "height gauge", "depth gauge", "steel rule")
    climbs = RadioField(
        "Seen from above, the blade climbs",
        choices=options([("anticlockwise", "Anticlockwise"), ("clockwise", "Clockwise"), ("", "Didn't look")]),
        default="",
    )

    def reading(self) -> dict[str, Any]:
        """Which way it climbs goes with it."""
        return super().reading() | {"climbs": self.climbs.data or ""}


class RiseForm(_RiseForm, _SwingForm):
    """The rise itself over a swing."""

    TOOL_OF: ClassVar[dict[str, str]] = {"radius_m": "radius_tool", "rise_m": "rise_tool", "swing_rad": "swing_tool"}
    ABOUT = "Rise over a swing"


class ChordForm(_RiseForm):
    """The rise along a straight gauge."""

    TOOL_OF: ClassVar[dict[str, str]] = {"radius_m": "radius_tool", "rise_m": "rise_tool", "chord_m": "chord_tool"}
    ABOUT = "Rise along a straight gauge"

    radius_m = _needed_radius("At what radius? A chord spans more of a small circle than of a large one.")
    chord_m = RepeatedLengthField(
        "Chord of the gauge",
        [InputRequired("How far apart are the gauge's two ends?")],
        description="Straight from one end of the gauge to the other, seen along the shaft; both ends at the radius",
        at_most=3.0,
        what="chord",
    )
    plus_minus_chord_m = own_length("the chord")
    chord_tool = tool_box("Chord read with", "chord gauge", "steel rule", "caliper")


class EdgesForm(_SwingForm):
    """The height of both edges over the swing between them."""

    TOOL_OF: ClassVar[dict[str, str]] = {
        "radius_m": "radius_tool",
        "leading_m": "rise_tool",
        "trailing_m": "rise_tool",
        "swing_rad": "swing_tool",
    }
    ABOUT = "Heights of both edges"

    leading_m = RepeatedLengthField(
        "Leading edge, height",
        [InputRequired("Read the height of the leading edge above the table.")],
        at_least=0.0,
        at_most=3.0,
        what="height",
    )
    plus_minus_leading_m = own_length("the leading edge")
    trailing_m = RepeatedLengthField(
        "Trailing edge, height",
        [InputRequired("Read the height of the trailing edge above the table.")],
        at_least=0.0,
        at_most=3.0,
        what="height",
    )
    plus_minus_trailing_m = own_length("the trailing edge")
    rise_tool = tool_box("Heights read with", "height gauge", "depth gauge", "steel rule")


class AngleForm(_PitchForm):
    """The blade's own angle at the mark."""

    TOOL_OF: ClassVar[dict[str, str]] = {"radius_m": "radius_tool", "angle_rad": "angle_tool"}
    ABOUT = "Angle of the blade"

    radius_m = _needed_radius("At what radius? By angle alone there is no pitch.")
    angle_rad = RepeatedAngleField(
        "Blade angle",
        [InputRequired("Read the angle off the protractor.")],
        default_unit="deg",
        description="Between the face and the table, along the arc at the mark",
        at_most=1.57,
        what="blade angle",
    )
    plus_minus_angle_rad = own_angle("the angle")
    angle_tool = tool_box("Angle read with", "protractor", "inclinometer")


class TemplateForm(_PitchForm):
    """A template of known pitch laid on the face: the gap at one edge."""

    TOOL_OF: ClassVar[dict[str, str]] = {
        "radius_m": "radius_tool",
        "template_pitch_m": "template_tool",
        "gap_m": "gap_tool",
        "width_m": "radius_tool",
    }
    ABOUT = "Template and gap"

    radius_m = _needed_radius("At what radius was it laid on?")
    template_pitch_m = RepeatedLengthField(
        "Pitch of the template",
        [InputRequired("What pitch is the template cut to, at this radius?")],
        at_least=0.05,
        at_most=12.0,
        what="pitch",
    )
    plus_minus_template_pitch_m = own_length("the template's pitch")
    template_tool = tool_box("Template", "pitch template")
    gap_m = RepeatedLengthField(
        "Gap",
        [InputRequired("Read the gap with a feeler; 0 where the template touches all along.")],
        description="Between template and face at the open edge, square to the template; 0 for none",
        at_least=0.0,
        at_most=0.3,
        what="gap",
    )
    plus_minus_gap_m = own_length("the gap")
    gap_at = RadioField(
        "The gap is at the",
        choices=options([("leading", "Leading edge"), ("trailing", "Trailing edge"), ("", "No gap")]),
        default="",
        description="At the leading edge the blade is steeper than the template, at the trailing edge flatter",
    )
    gap_tool = tool_box("Gap read with", "feeler gauge", "caliper", "steel rule")
    width_m = RepeatedLengthField(
        "Width",
        [InputRequired("Read along the template, from where it touches to where the gap is.")],
        description="Along the template, from where it touches to where the gap was read",
        at_most=3.0,
        what="width",
    )
    plus_minus_width_m = own_length("the width")

    def reading(self) -> dict[str, Any]:
        """At which edge the gap is goes with it."""
        return super().reading() | {"gap_at": self.gap_at.data or ""}


PITCH: dict[str, type[BenchForm]] = {
    "rise": RiseForm,
    "edges": EdgesForm,
    "angle": AngleForm,
    "chord": ChordForm,
    "template": TemplateForm,
}
