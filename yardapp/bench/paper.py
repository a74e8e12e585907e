"""A blank sheet to take along: what to read, room to write, and a picture of where to read it."""

from collections.abc import Callable, Sequence
from math import radians

from markupsafe import Markup

from yardapp import quantities
from yardapp.bench.sums import Known
from yardapp.drawings.blade_outline import blade_outline, blade_widths
from yardapp.drawings.blades_alike import BladeTip, blades_alike
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.helix import helix_triangle
from yardapp.drawings.play import play_in_bearing
from yardapp.drawings.propeller import from_aft
from yardapp.drawings.shaft_line import ShaftPlace, shaft_bow, shaft_wear
from yardapp.drawings.survey_stations import survey_stations
from yardapp.drawings.template_on_blade import template_on_blade
from yardapp.quantities import System

USUAL_RADII, USUAL_STATIONS = (0.5, 0.6, 0.7, 0.8, 0.9), 5
ROOM = "_" * 16  # to write on
MOST_BLADES = 5  # lines where nobody has counted them yet
HEADS = {
    "rise": ("Blade", "Radius", "Rise", "Swing"),
    "edges": ("Blade", "Radius", "Leading edge", "Trailing edge", "Swing"),
    "angle": ("Blade", "Radius", "Blade angle"),
    "chord": ("Blade", "Radius", "Rise", "Chord of the gauge"),
    "template": ("Blade", "Radius", "Template", "Gap", "At which edge", "Width"),
    "radius": ("Blade", "Tip radius"),
    "string": ("What", "String round every tip"),
    "across": ("Tips", "Tip to opposite tip"),
    "tips": ("Tips", "Tip to tip"),
    "bore": ("What", "Read", "With which tool"),
    "widths": ("Station", "Radius", "Width round the curve"),
    "squares": ("What", "Read"),
    "points": ("Point", "Across", "Up"),
    "wear": ("Place", "Along the shaft", "Diameter", "At right angles"),
    "swing": ("Station", "Along the shaft", "Full swing of the dial"),
    "around": ("Station", "Along the shaft", "Top", "Right", "Bottom", "Left"),
    "shaft_end": ("What", "Read", "With which tool"),
    "bearing": ("Bearing", "Bore, widest", "Shaft in it", "Wear pattern"),
    "lift": ("Bearing", "Lift of the shaft", "Shaft in it", "Wear pattern"),
    "alike": ("Blade", "Height of tip", "Tip radius", "Angle to next", "Height of root mark"),
}
BORE = (
    "Kind: taper, parallel, pilot",
    "Large end, forward",
    "Small end",
    "Length between the two",
    "Keyway, width",
    "Keyway, depth at its side",
    "Hub, length",
    "Hub, diameter",
)

SHAFT_END = ("Large end, forward", "Small end", "Length between the two", "Keyway, width", "Keyway, depth", "Thread")
SQUARES = ("Whole squares", "Cut squares", "Side of a square", "Width at the foot", "From foot to hub")
LISTS = {"squares": SQUARES, "bore": BORE, "shaft_end": SHAFT_END, "string": ("Length once round",)}
COUNTED = {"widths": 10, "points": 24, "wear": 8, "swing": 7, "around": 7, "bearing": 3, "lift": 3}


def lines(way: str, known: Known) -> list[tuple[str, ...]]:
    """The rows to write on."""
    heads = HEADS[way]
    blades = known.blades or MOST_BLADES
    counted = range(1, COUNTED.get(way, blades // 2 if way == "across" else blades) + 1)
    first = "{} and ____" if way in ("across", "tips") else "{}"
    firsts = LISTS.get(way) or [first.format(number) for number in counted]
    return [(first, *(ROOM for _ in heads[1:])) for first in firsts]


WRITE = "Write the unit beside each figure."
FIRST = "Blade 1 is the one nearest the keyway."


def known_rows(tag: str, known: Known, system: System, of: str = "propeller") -> list[tuple[str, str]]:
    """The block at the top: whose sheet it is, and who reads, when."""
    size = quantities.both(known.diameter_m, "length", system) if known.diameter_m else ROOM
    whole = [("Blades", str(known.blades or ROOM)), ("Hand", known.hand or ROOM)] if of == "propeller" else []
    return [("Tag", tag), ("Diameter", size), *whole, ("Read by", ROOM), ("Day", ROOM), ("Read with", ROOM)]


def note_of(method: str, of: str) -> str:
    """What to mind while writing."""
    return WRITE if method == "bore" or of != "propeller" else f"{WRITE} {FIRST}"


def picture(method: str, way: str, known: Known) -> Markup | None:
    """Where to read, on a thing like any other: shapes alone, no figures."""
    drawn = PICTURES.get(way) or PICTURES.get(method)
    return drawn() if drawn else _propeller(known)


def survey_picture(known: Known, radii: Sequence[float], stations: int) -> Markup:
    """Where a survey reads, at its own radii and stations."""
    return survey_stations(radii or USUAL_RADII, stations or USUAL_STATIONS, blades=known.blades, hand=known.hand)


def _propeller(known: Known) -> Markup:
    return from_aft(0.5, known.blades or 3, known.hand or "right", hub_diameter_m=0.1, diameter_label="diameter")


def _helix() -> Markup:
    return helix_triangle(
        0.16,
        radians(40),
        0.034,
        base_label="swing",
        rise_label="as read",
        pitch_label="sought",
        turn_label="one turn",
    )


def _template() -> Markup:
    labels = {"template_label": "template", "gap_label": "gap", "blade_label": "blade's face"}
    return template_on_blade(radians(24), 0.002, 0.12, **labels)


def _bore() -> Markup:
    return bore_on_taper(None, None, None, 0.04, 1 / 12, 0.1, bore_label="large end left, small end right")


def _shaft_end() -> Markup:
    return bore_on_taper(0.04, 1 / 12, 0.1, None, None, None, shaft_label="large end left, small end right")


def _alike() -> Markup:
    return blades_alike([BladeTip(number=number, track_m=0.0, track_label="height") for number in range(1, 4)])


def _area() -> Markup:
    widths = ((0.08, 0.09), (0.13, 0.13), (0.19, 0.14), (0.24, 0.09))
    return blade_widths([(radius, width, "width") for radius, width in widths], 0.28, 0.05)


def _outline() -> Markup:
    corners = ((0.0, 0.0), (0.09, 0.0), (0.13, 0.08), (0.11, 0.18), (0.045, 0.23), (-0.02, 0.18), (-0.04, 0.08))
    return blade_outline(corners, label="area")


def _wear() -> Markup:
    places = ("gland", "bearing", "between")
    return shaft_wear([ShaftPlace(along_m=None, figure_m=0.0, label="diameter", name=place) for place in places])


def _run_out() -> Markup:
    swings = (0.5, 1.0, 0.6)
    return shaft_bow([ShaftPlace(along_m=None, figure_m=swing, label="swing") for swing in swings])


def _bearing() -> Markup:
    return play_in_bearing(0.001, play_label="play", bore_label="bore", shaft_label="shaft")


PICTURES: dict[str, Callable[[], Markup]] = {
    "pitch": _helix,
    "template": _template,
    "bore": _bore,
    "alike": _alike,
    "area": _area,
    "points": _outline,
    "squares": _outline,
    "wear": _wear,
    "run_out": _run_out,
    "shaft_end": _shaft_end,
    "bearing": _bearing,
}
