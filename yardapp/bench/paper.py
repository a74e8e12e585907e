"""A blank sheet to take along: what to read, room to write, and a picture of where to read it."""

from math import radians

from markupsafe import Markup

from yardapp import quantities
from yardapp.bench.sums import Known
from yardapp.drawings.helix import helix_triangle
from yardapp.drawings.propeller import from_aft
from yardapp.quantities import System

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


def lines(way: str, known: Known) -> list[tuple[str, ...]]:
    """The rows to write on."""
    heads = HEADS[way]
    blades = known.blades or MOST_BLADES
    counted = range(1, (blades // 2 if way == "across" else blades) + 1)
    first = "{} and ____" if way in ("across", "tips") else "{}"
    if way == "string":
        return [("Length once round", ROOM)]
    firsts = BORE if way == "bore" else [first.format(blade) for blade in counted]
    return [(first, *(ROOM for _ in heads[1:])) for first in firsts]


WRITE = "Write the unit beside each figure."
FIRST = "Blade 1 is the one nearest the keyway."


def known_rows(tag: str, known: Known, system: System) -> list[tuple[str, str]]:
    """The block at the top: whose sheet it is, and who reads, when."""
    size = quantities.both(known.diameter_m, "length", system) if known.diameter_m else ROOM
    return [
        ("Tag", tag),
        ("Diameter", size),
        ("Blades", str(known.blades or ROOM)),
        ("Hand", known.hand or ROOM),
        ("Read by", ROOM),
        ("Day", ROOM),
        ("Read with", ROOM),
    ]


def picture(method: str, known: Known) -> Markup | None:
    """Where to read, on a propeller like any other: shapes alone, no figures."""
    if method == "pitch":
        return helix_triangle(
            0.16,
            radians(40),
            0.034,
            base_label="swing",
            rise_label="as read",
            pitch_label="sought",
            turn_label="one turn",
        )
    if method == "bore":
        return None
    return from_aft(0.5, known.blades or 3, known.hand or "right", hub_diameter_m=0.1, diameter_label="diameter")
