"""What may be typed of the area of a blade, by each way of reading it."""

from collections.abc import Mapping
from typing import Any, ClassVar

from wtforms.validators import InputRequired

from yardapp.bench.forms.boxes import BenchForm, blades_box, own_length, tool_box
from yardapp.bench.forms.points import PointsField
from yardapp.bench.forms.rows import RowsForm, add_rows, own_of, tools_of
from yardapp.fields import CountField
from yardapp.repeats import RepeatedLengthField

MOST_STATIONS = 10
WHOLE = {"diameter_m": "whole_tool", "hub_diameter_m": "whole_tool", "pitch_m": "whole_tool"}
REGISTER = "Empty: as the register has it"


class _WholeForm(BenchForm):
    blades = blades_box()
    diameter_m = RepeatedLengthField("Diameter", description=REGISTER, at_least=0.1, at_most=12.0, what="diameter")
    pitch_m = RepeatedLengthField("Pitch", description=REGISTER, at_least=0.05, at_most=12.0, what="pitch")
    whole_tool = tool_box("These read with", "tape", "steel rule")
    plus_minus_diameter_m = own_length("the diameter")
    plus_minus_pitch_m = own_length("the pitch")

    def reading(self) -> dict[str, Any]:
        """The count of blades goes with it."""
        return super().reading() | {"blades": self.blades.data}


class WidthsForm(_WholeForm, RowsForm):
    """Widths at radii, by tape round the blade's curve."""

    ABOUT = "Widths at radii"
    EACH = "station"
    MOST = MOST_STATIONS
    FEWEST = 5
    ROWS: ClassVar[dict[str, str]] = {"radius_m": "Radius", "width_m": "Width"}
    TOOL_OF: ClassVar[dict[str, str]] = tools_of(dict.fromkeys(ROWS, "width_tool"), MOST_STATIONS) | WHOLE
    OWN_OF: ClassVar[dict[str, str]] = own_of(ROWS, MOST_STATIONS)

    hub_diameter_m = RepeatedLengthField("Hub, diameter", description=REGISTER, at_most=1.5, what="hub")
    width_tool = tool_box("Widths read with", "tape", "steel rule")
    plus_minus_radius_m = own_length("the radii")
    plus_minus_width_m = own_length("the widths")
    plus_minus_hub_diameter_m = own_length("the hub")


add_rows(
    WidthsForm,
    {
        "radius_m": lambda label: RepeatedLengthField(label, at_most=6.0, what="radius"),
        "width_m": lambda label: RepeatedLengthField(label, at_most=6.0, what="width"),
    },
)


class _TracedForm(_WholeForm):
    root_width_m = RepeatedLengthField("Width at the tracing's foot", at_most=3.0, what="width")
    root_gap_m = RepeatedLengthField(
        "From its foot to the hub",
        description="0 where the tracing reaches the hub",
        at_least=0.0,
        at_most=1.0,
        what="gap",
    )
    width_tool = tool_box("These read with", "tape", "steel rule")
    plus_minus_root_width_m = own_length("the width at the foot")
    plus_minus_root_gap_m = own_length("the gap")


TRACED = {
    **{name: tool for name, tool in WHOLE.items() if name != "hub_diameter_m"},
    "root_width_m": "width_tool",
    "root_gap_m": "width_tool",
}


class SquaresForm(_TracedForm):
    """A rubbing traced on squared paper: squares counted."""

    ABOUT = "Rubbing, squares counted"
    BEGUN_BY = ("whole", "part")
    TOOL_OF: ClassVar[dict[str, str]] = {"square_m": "square_tool", **TRACED}

    whole = CountField("Whole squares", [InputRequired("Count the squares wholly inside.")], at_least=0, at_most=9999)
    part = CountField(
        "Cut squares", [InputRequired("Count the squares that the outline cuts.")], at_least=0, at_most=9999
    )
    square_m = RepeatedLengthField(
        "Side of a square", [InputRequired("How wide is a square of the paper?")], at_most=0.2, what="square"
    )
    square_tool = tool_box("Square read with", "steel rule", "caliper")
    plus_minus_square_m = own_length("the square's side")

    def reading(self) -> dict[str, Any]:
        """The counts go with it."""
        return super().reading() | {"whole": self.whole.data, "part": self.part.data}


class OutlineForm(_TracedForm):
    """A rubbing's outline, point by point."""

    ABOUT = "Rubbing, points of its outline"
    BEGUN_BY = ("outline",)
    TOOL_OF: ClassVar[dict[str, str]] = {"point_m": "point_tool", **TRACED}

    outline = PointsField(
        "Points of the outline, across and up, in mm",
        [InputRequired("Read points round the outline, two figures a line.")],
        description="Round the blade in their order; a line each, or pasted from a spreadsheet",
    )
    point_m = RepeatedLengthField("Point")
    point_tool = tool_box("Points read with", "steel rule", "tape")
    plus_minus_point_m = own_length("each coordinate")

    def reading(self) -> dict[str, Any]:
        """The points go with it; how well each was read is the tool's."""
        half_width = self.half_width("point_m")
        u_point = None if half_width is None else half_width / 2
        return super().reading() | {"outline": self.outline.data, "point_m": None, "u_point_m": u_point}

    def boxes(self) -> dict[str, Any]:
        """The points as typed stand beside the points as read; the tool too, though no one figure is its own."""
        typed = {"outline_typed": self.outline.typed, "point_m_tool": self.point_tool.data}
        return super().boxes() | {name: text for name, text in typed.items() if text}

    def retype(self, kept: Mapping[str, Any], note: str) -> None:
        """The points again as they were typed."""
        super().retype(kept, note)
        self.outline.typed = str(kept.get("outline_typed") or "")


AREA: dict[str, type[BenchForm]] = {"widths": WidthsForm, "squares": SquaresForm, "points": OutlineForm}
