"""What is asked of a heap: the propeller that one looks for."""

from wtforms import RadioField
from wtforms.validators import Optional

from yardapp.fields import CountField, LengthField
from yardapp.forms import YardForm, options


class ReverseForm(YardForm):
    """The sizes that a propeller should have; what is not asked stays blank."""

    diameter_m = LengthField("Diameter", [Optional()])
    pitch_m = LengthField("Pitch", [Optional()])
    bore_m = LengthField("Bore", [Optional()])
    blades = CountField("Blades", [Optional()])
    hand = RadioField(
        "Hand",
        choices=options([("", "either"), ("right", "right"), ("left", "left")]),
        default="",
        validate_choice=False,
    )

    class Meta:
        """A question changes nothing, so it needs no token and may stand in an address."""

        csrf = False

    def wanted(self) -> dict[str, float | int | str]:
        """What is asked, by the marks' own names."""
        asked = {name: self[name].data for name in ("diameter_m", "pitch_m", "bore_m", "blades")}
        said: dict[str, float | int | str] = {name: value for name, value in asked.items() if value is not None}
        return said | ({"hand": self.hand.data} if self.hand.data in ("right", "left") else {})
