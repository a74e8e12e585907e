"""What may be typed on a bore sheet; every box may stay empty but one."""

from typing import Any, ClassVar

from wtforms import RadioField, StringField
from wtforms.validators import Length

from yardapp.bench.forms.boxes import BenchForm, own_length, tool_box
from yardapp.fields import TaperField
from yardapp.forms import options
from yardapp.repeats import RepeatedLengthField

KINDS = [("taper", "Taper"), ("parallel", "Parallel"), ("pilot", "Pilot"), ("", "Didn't look")]


class BoreForm(BenchForm):
    """Bore, keyway and hub."""

    TOOL_OF: ClassVar[dict[str, str]] = {
        "bore_large_m": "across_tool",
        "bore_small_m": "across_tool",
        "bore_length_m": "along_tool",
        "keyway_width_m": "across_tool",
        "keyway_depth_m": "along_tool",
        "hub_length_m": "along_tool",
        "hub_diameter_m": "across_tool",
        "shaft_large_m": "across_tool",
        "shaft_length_m": "along_tool",
    }
    ON_SHAFT = ("shaft_tag", "shaft_large_m", "shaft_taper", "shaft_length_m")
    ABOUT = "Bore, keyway and hub"
    BEGUN_BY = ("bore_kind",)

    bore_kind = RadioField("Kind of bore", choices=options(KINDS), default="")
    bore_large_m = RepeatedLengthField(
        "Large end", description="The forward one; of a parallel bore, the bore", at_most=0.6, what="bore"
    )
    bore_small_m = RepeatedLengthField("Small end", at_most=0.6, what="bore")
    bore_length_m = RepeatedLengthField(
        "Length between", description="Between the two readings, along the shaft", at_most=1.5, what="length"
    )
    keyway_width_m = RepeatedLengthField("Keyway, width", at_most=0.15, what="keyway")
    keyway_depth_m = RepeatedLengthField(
        "Keyway, depth", description="At its side; 0 when there is none", at_least=0.0, at_most=0.1, what="keyway"
    )
    hub_length_m = RepeatedLengthField("Hub, length", at_most=1.5, what="hub")
    hub_diameter_m = RepeatedLengthField("Hub, diameter", at_most=1.5, what="hub")
    across_tool = tool_box("Across read with", "caliper", "steel rule")
    along_tool = tool_box("Along and depth read with", "steel rule", "depth gauge", "caliper")
    plus_minus_bore_large_m = own_length("the large end")
    plus_minus_bore_small_m = own_length("the small end")
    plus_minus_bore_length_m = own_length("the length between")
    plus_minus_keyway_width_m = own_length("the keyway's width")
    plus_minus_keyway_depth_m = own_length("the keyway's depth")
    plus_minus_hub_length_m = own_length("the hub's length")
    plus_minus_hub_diameter_m = own_length("the hub's diameter")

    shaft_tag = StringField(
        "Shaft, by its tag", [Length(max=20)], description="S-0003; its figures come from the register"
    )
    shaft_large_m = RepeatedLengthField(
        "Shaft, large end", description="Or as it is typed here", at_most=0.6, what="shaft"
    )
    shaft_taper = TaperField("Shaft, taper")
    shaft_length_m = RepeatedLengthField("Shaft, length of its taper", at_most=3.0, what="length")
    plus_minus_shaft_large_m = own_length("the shaft's large end")
    plus_minus_shaft_length_m = own_length("the shaft's taper length")

    def reading(self) -> dict[str, Any]:
        """The kind of bore goes with it, and which shaft it is meant for; a taper that was typed counts as exact."""
        taper = self.shaft_taper.data
        on_shaft = {"shaft_taper": taper, "u_shaft_taper": None if taper is None else 0.0}
        tag = (self.shaft_tag.data or "").strip().upper() or None
        return super().reading() | on_shaft | {"bore_kind": self.bore_kind.data or None, "shaft_tag": tag}


BORE: dict[str, type[BenchForm]] = {"bore": BoreForm}
