"""What may be typed of a shaft: its diameters, its straightness, its end, its play in a bearing."""

from typing import Any, ClassVar

from wtforms import StringField
from wtforms.validators import InputRequired, Length

from yardapp.bench.forms.boxes import BenchForm, own_length, tool_box
from yardapp.bench.forms.rows import RowsForm, add_rows, own_of, tools_of
from yardapp.bench.rows import row_names
from yardapp.repeats import RepeatedLengthField

MOST_PLACES, MOST_STATIONS = 8, 7
QUARTERS = {"top_m": "Dial, top", "starboard_m": "Dial, right", "bottom_m": "Dial, bottom", "port_m": "Dial, left"}
ALONG = "From one and the same end of the shaft"


def _length(most: float, **said: Any) -> Any:
    return lambda label: RepeatedLengthField(label, at_most=most, **said)


class WearForm(RowsForm):
    """Diameters along the shaft: where it runs, and where nothing wears it."""

    ABOUT = "Diameters along it: where it runs, and where nothing wears it"
    EACH = "place"
    MOST = MOST_PLACES
    FEWEST = 4
    ROWS: ClassVar[dict[str, str]] = {
        "along_m": "Along the shaft",
        "diameter_m": "Diameter",
        "second_m": "At right angles",
    }
    TOOL_OF: ClassVar[dict[str, str]] = tools_of(
        {"along_m": "along_tool", "diameter_m": "diameter_tool", "second_m": "diameter_tool"}, MOST_PLACES
    )
    OWN_OF: ClassVar[dict[str, str]] = own_of(ROWS, MOST_PLACES)

    diameter_tool = tool_box("Diameters read with", "micrometer", "caliper")
    along_tool = tool_box("Places read with", "tape", "steel rule")
    plus_minus_along_m = own_length("the places")
    plus_minus_diameter_m = own_length("the diameters")
    plus_minus_second_m = own_length("the second diameters")

    def reading(self) -> dict[str, Any]:
        """What each place is called goes with it."""
        places = {f"place_{number}": self[f"place_{number}"].data or None for number in range(1, self.MOST + 1)}
        return super().reading() | places


add_rows(
    WearForm,
    {
        "along_m": _length(20.0, at_least=0.0, what="distance"),
        "diameter_m": _length(0.6, at_least=0.005, what="shaft diameter"),
        "second_m": _length(0.6, at_least=0.005, what="shaft diameter"),
    },
)
for _number in range(1, MOST_PLACES + 1):
    setattr(WearForm, f"place_{_number}", StringField(f"Where, place {_number}", [Length(max=40)]))


class SwingForm(RowsForm):
    """The dial's full swing at each station."""

    ABOUT = "Full swing of a dial along it"
    EACH = "station"
    MOST = MOST_STATIONS
    ROWS: ClassVar[dict[str, str]] = {"along_m": "Along the shaft", "swing_m": "Full swing"}
    TOOL_OF: ClassVar[dict[str, str]] = tools_of({"along_m": "along_tool", "swing_m": "dial_tool"}, MOST_STATIONS)
    OWN_OF: ClassVar[dict[str, str]] = own_of(ROWS, MOST_STATIONS)

    dial_tool = tool_box("Swing read with", "dial gauge")
    along_tool = tool_box("Stations read with", "tape", "steel rule")
    plus_minus_along_m = own_length("the stations")
    plus_minus_swing_m = own_length("the swings")


add_rows(
    SwingForm,
    {
        "along_m": _length(20.0, at_least=0.0, what="distance"),
        "swing_m": _length(0.1, at_least=0.0, what="swing"),
    },
)


DIALS = [name for quarter in QUARTERS for name in row_names(quarter, MOST_STATIONS)]


class AroundForm(RowsForm):
    """The dial at four quarters of one turn, at each station."""

    ABOUT = "Dial at four quarters of a turn"
    EACH = "station"
    MOST = MOST_STATIONS
    ROWS: ClassVar[dict[str, str]] = {"along_m": "Along the shaft", **QUARTERS}
    TOOL_OF: ClassVar[dict[str, str]] = tools_of(
        {"along_m": "along_tool", **dict.fromkeys(QUARTERS, "dial_tool")}, MOST_STATIONS
    )
    OWN_OF: ClassVar[dict[str, str]] = own_of(["along_m"], MOST_STATIONS) | dict.fromkeys(DIALS, "dial_m")

    dial_tool = tool_box("Dial", "dial gauge")
    along_tool = tool_box("Stations read with", "tape", "steel rule")
    plus_minus_along_m = own_length("the stations")
    plus_minus_dial_m = own_length("the dial")


add_rows(
    AroundForm,
    {
        "along_m": _length(20.0, at_least=0.0, what="distance"),
        **{quarter: _length(0.1, at_least=-0.1, what="dial reading") for quarter in QUARTERS},
    },
)


class ShaftEndForm(BenchForm):
    """Taper, thread and keyway; every box may stay empty but one."""

    ABOUT = "Taper, thread and keyway"
    BEGUN_BY = ("thread",)
    TOOL_OF: ClassVar[dict[str, str]] = {
        "large_m": "across_tool",
        "small_m": "across_tool",
        "length_m": "along_tool",
        "keyway_width_m": "across_tool",
        "keyway_depth_m": "along_tool",
    }

    large_m = RepeatedLengthField("Large end", description="Where the taper begins, forward", at_most=0.6, what="end")
    small_m = RepeatedLengthField("Small end", at_most=0.6, what="end")
    length_m = RepeatedLengthField(
        "Length between", description="Between the two readings, along the shaft", at_most=3.0, what="length"
    )
    keyway_width_m = RepeatedLengthField("Keyway, width", at_most=0.15, what="keyway")
    keyway_depth_m = RepeatedLengthField(
        "Keyway, depth", description="At its side; 0 when there is none", at_least=0.0, at_most=0.1, what="keyway"
    )
    thread = StringField("Thread", [Length(max=60)], description="As a thread gauge says: 7/8 in, 9 to the inch")
    across_tool = tool_box("Across read with", "micrometer", "caliper")
    along_tool = tool_box("Along and depth read with", "steel rule", "depth gauge", "caliper")
    plus_minus_large_m = own_length("the large end")
    plus_minus_small_m = own_length("the small end")
    plus_minus_length_m = own_length("the length between")
    plus_minus_keyway_width_m = own_length("the keyway's width")
    plus_minus_keyway_depth_m = own_length("the keyway's depth")

    def reading(self) -> dict[str, Any]:
        """The thread goes with it."""
        return super().reading() | {"thread": (self.thread.data or "").strip() or None}


class _BearingForm(BenchForm):
    bearing = StringField("Which bearing", [Length(max=60)], description="Bracket, stern tube aft, stern tube forward")
    shaft_m = RepeatedLengthField(
        "Shaft in the bearing",
        [InputRequired("Read the shaft where it runs in the bearing: the limits hang on its size.")],
        description="Where it runs, at its thinnest",
        at_least=0.005,
        at_most=0.6,
        what="shaft diameter",
    )
    plus_minus_shaft_m = own_length("the shaft")
    shaft_tool = tool_box("Shaft read with", "micrometer", "caliper")

    def reading(self) -> dict[str, Any]:
        """Which bearing goes with it."""
        return super().reading() | {"bearing": (self.bearing.data or "").strip() or None}


class BearingForm(_BearingForm):
    """Bore less shaft."""

    ABOUT = "Bore less shaft"
    TOOL_OF: ClassVar[dict[str, str]] = {"bearing_bore_m": "bore_tool", "shaft_m": "shaft_tool"}

    bearing_bore_m = RepeatedLengthField(
        "Bore of the bearing",
        [InputRequired("Read the bearing's bore where it is widest.")],
        description="Where it is widest, over two opposite lands",
        at_most=0.7,
        what="bore",
    )
    plus_minus_bearing_bore_m = own_length("the bore")
    bore_tool = tool_box("Bore read with", "caliper", "micrometer")


class LiftForm(_BearingForm):
    """How far the shaft lifts in its bearing."""

    ABOUT = "How far the shaft lifts"
    TOOL_OF: ClassVar[dict[str, str]] = {"lift_m": "bore_tool", "shaft_m": "shaft_tool"}

    lift_m = RepeatedLengthField(
        "Lift",
        [InputRequired("Lift the shaft at the bearing from bottom to top, and read how far it went.")],
        description="At the bearing, from where it lies to the top",
        at_least=0.0,
        at_most=0.1,
        what="play",
    )
    plus_minus_lift_m = own_length("the lift")
    bore_tool = tool_box("Lift read with", "dial gauge", "feeler gauge", "steel rule")


WEAR: dict[str, type[BenchForm]] = {"wear": WearForm}
RUN_OUT: dict[str, type[BenchForm]] = {"swing": SwingForm, "around": AroundForm}
SHAFT_END: dict[str, type[BenchForm]] = {"shaft_end": ShaftEndForm}
BEARING: dict[str, type[BenchForm]] = {"bearing": BearingForm, "lift": LiftForm}
