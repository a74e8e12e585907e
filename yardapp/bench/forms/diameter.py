"""What may be typed on a diameter sheet, by each way of reading it."""

from typing import Any, ClassVar

from wtforms import RadioField
from wtforms.validators import InputRequired

from yardapp.bench.forms.boxes import BenchForm, blades_box, own_length, tool_box
from yardapp.forms import options
from yardapp.repeats import RepeatedLengthField

TOOLS = ("tape", "steel rule")
COUNT_THEM = "Count the blades: the sum hangs on it."


class RadiusForm(BenchForm):
    """From the bore's centre to the furthest tip: right for every number of blades."""

    TOOL_OF: ClassVar[dict[str, str]] = {"tip_radius_m": "tip_tool", "shortest_m": "tip_tool"}
    ABOUT = "Tip radius"

    tip_radius_m = RepeatedLengthField(
        "Tip radius",
        [InputRequired("Read from the bore's centre to the furthest tip.")],
        description="From the bore's centre to the furthest tip, square to the shaft",
        at_least=0.05,
        at_most=6.0,
        what="tip radius",
    )
    shortest_m = RepeatedLengthField(
        "Shortest tip radius",
        description="To the most worn tip; tips wear, and a shop asks",
        at_least=0.05,
        at_most=6.0,
        what="tip radius",
    )
    plus_minus_tip_radius_m = own_length("the radius")
    plus_minus_shortest_m = own_length("the shortest radius")
    tip_tool = tool_box("Read with", *TOOLS)


class _CountedForm(BenchForm):
    blades = blades_box(InputRequired(COUNT_THEM))

    def reading(self) -> dict[str, Any]:
        """The blades go with it."""
        return super().reading() | {"blades": self.blades.data}


class AcrossForm(_CountedForm):
    """Straight across, where a tip stands opposite another."""

    TOOL_OF: ClassVar[dict[str, str]] = {"across_m": "tip_tool"}
    ABOUT = "Straight across"

    across_m = RepeatedLengthField(
        "Tip to opposite tip",
        [InputRequired("Read over the bore's centre to the tip opposite.")],
        description="Over the bore's centre; even numbers of blades alone",
        at_least=0.1,
        at_most=12.0,
        what="diameter",
    )
    plus_minus_across_m = own_length("the reading")
    tip_tool = tool_box("Read with", *TOOLS, "caliper")


class TipsForm(_CountedForm):
    """From one tip to another that does not stand opposite."""

    TOOL_OF: ClassVar[dict[str, str]] = {"chord_m": "tip_tool"}
    ABOUT = "Tip to tip"

    chord_m = RepeatedLengthField(
        "Tip to tip",
        [InputRequired("Read the straight line from tip to tip.")],
        description="A straight line from one tip to the other",
        at_least=0.05,
        at_most=12.0,
        what="distance",
    )
    plus_minus_chord_m = own_length("the reading")
    tips = RadioField(
        "Which two tips",
        choices=options([("far", "The two furthest apart"), ("next", "Neighbours")]),
        validate_choice=False,
        description="On three blades it is the same",
    )
    tip_tool = tool_box("Read with", *TOOLS)

    def reading(self) -> dict[str, Any]:
        """Which tips goes with it."""
        return super().reading() | {"tips": self.tips.data or ""}


class StringForm(_CountedForm):
    """A string pulled taut round every tip."""

    TOOL_OF: ClassVar[dict[str, str]] = {"string_m": "tip_tool"}
    ABOUT = "String round the tips"

    string_m = RepeatedLengthField(
        "String round the tips",
        [InputRequired("Pull a string taut round every tip, and read its length.")],
        description="Once round all the tips, straight from each to the next; three blades or more",
        at_least=0.1,
        at_most=40.0,
        what="string",
    )
    plus_minus_string_m = own_length("the string")
    tip_tool = tool_box("Read with", "string", "tape")


DIAMETER: dict[str, type[BenchForm]] = {
    "radius": RadiusForm,
    "across": AcrossForm,
    "tips": TipsForm,
    "string": StringForm,
}
