"""What may be typed of blades that should be alike."""

from typing import Any, ClassVar

from wtforms import SelectField, StringField
from wtforms.validators import InputRequired, Length

from yardapp.bench.forms.boxes import BenchForm, blades_box, own_angle, own_length, tool_box
from yardapp.bench.forms.rows import RowsForm, add_rows, own_of, tools_of
from yardapp.bench.rows import MOST_BLADES
from yardapp.forms import options
from yardapp.repeats import RepeatedAngleField, RepeatedLengthField

READ_WITH = {
    "height_m": "height_tool",
    "root_m": "height_tool",
    "tip_radius_m": "radius_tool",
    "spacing_rad": "spacing_tool",
}
HEAVY = [("", "Didn't look, or none"), *((str(blade), f"Blade {blade}") for blade in range(1, MOST_BLADES + 1))]


class AlikeForm(RowsForm):
    """Every blade's tip: how high, how far out, how far round; as far as it was read."""

    ABOUT = "Track, rake, spacing and tip radius of every blade"
    ROWS: ClassVar[dict[str, str]] = {
        "height_m": "Height of the tip",
        "tip_radius_m": "Tip radius",
        "spacing_rad": "Angle to the next blade",
        "root_m": "Height of the root mark",
    }
    TOOL_OF: ClassVar[dict[str, str]] = tools_of(READ_WITH, MOST_BLADES) | {"root_radius_m": "radius_tool"}
    OWN_OF: ClassVar[dict[str, str]] = own_of(READ_WITH, MOST_BLADES)

    blades = blades_box(InputRequired("Count the blades: each is held against the others."))
    root_radius_m = RepeatedLengthField("Radius of the root marks", at_most=6.0, what="radius")
    height_tool = tool_box("Heights read with", "height gauge", "steel rule", "depth gauge")
    radius_tool = tool_box("Radii read with", "steel rule", "tape")
    spacing_tool = tool_box("Angles read with", "degree ring", "protractor", "swing template")
    plus_minus_height_m = own_length("the tips' heights")
    plus_minus_root_m = own_length("the root marks' heights")
    plus_minus_tip_radius_m = own_length("the tip radii")
    plus_minus_spacing_rad = own_angle("the angles")
    plus_minus_root_radius_m = own_length("the root marks' radius")
    heavy_blade = SelectField("Hung free, which blade comes down?", choices=options(HEAVY), default="")
    balance = StringField("Static balance, in words", [Length(max=120)])

    def reading(self) -> dict[str, Any]:
        """The count of blades goes with it, and what was seen of its balance."""
        heavy = self.heavy_blade.data
        said = {"blades": self.blades.data, "heavy_blade": int(heavy) if heavy else None}
        return super().reading() | said | {"balance": (self.balance.data or "").strip() or None}


def _length(most: float, **said: Any) -> Any:
    return lambda label: RepeatedLengthField(label, at_most=most, **said)


add_rows(
    AlikeForm,
    {
        "height_m": _length(6.0, at_least=0.0, what="height"),
        "tip_radius_m": _length(6.0, at_least=0.05, what="tip radius"),
        "spacing_rad": lambda label: RepeatedAngleField(label, default_unit="deg", what="angle"),
        "root_m": _length(6.0, at_least=0.0, what="height"),
    },
)

ALIKE: dict[str, type[BenchForm]] = {"alike": AlikeForm}
