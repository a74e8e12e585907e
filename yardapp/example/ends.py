"""The shaft ends that this yard meets: keyway and taper by nominal size, as people would type them."""

from typing import NamedTuple


class ShaftEnd(NamedTuple):
    """Width and side depth of the keyway, and how long the taper is."""

    keyway_width: str
    keyway_depth: str
    taper_length: str


# SAE J755 for inch sizes (reference/shaft_tapers). Metric tapers are twice the diameter long here, which is this
# invented yard's own habit; their keyways are ISO/R 773.
ENDS = {
    "1 in": ShaftEnd("1/4 in", "1/8 in", "2 3/4 in"),
    "1 1/8 in": ShaftEnd("1/4 in", "1/8 in", "3 1/8 in"),
    "1 1/4 in": ShaftEnd("5/16 in", "4 mm", "3 1/2 in"),
    "1 3/8 in": ShaftEnd("5/16 in", "4 mm", "3 7/8 in"),
    "1 1/2 in": ShaftEnd("3/8 in", "4.8 mm", "4 1/4 in"),
    "1 3/4 in": ShaftEnd("7/16 in", "5.6 mm", "5 in"),
    "2 in": ShaftEnd("1/2 in", "6.4 mm", "5 3/4 in"),
    "2 1/4 in": ShaftEnd("9/16 in", "7.2 mm", "6 1/2 in"),
    "2 1/2 in": ShaftEnd("5/8 in", "8 mm", "7 1/4 in"),
    "2 3/4 in": ShaftEnd("5/8 in", "8 mm", "7 7/8 in"),
    "3 in": ShaftEnd("3/4 in", "7.9 mm", "8 5/8 in"),
    "25 mm": ShaftEnd("8 mm", "4 mm", "50 mm"),
    "30 mm": ShaftEnd("8 mm", "4 mm", "60 mm"),
    "35 mm": ShaftEnd("10 mm", "5 mm", "70 mm"),
    "40 mm": ShaftEnd("12 mm", "5 mm", "80 mm"),
    "45 mm": ShaftEnd("14 mm", "5.5 mm", "90 mm"),
    "50 mm": ShaftEnd("14 mm", "5.5 mm", "100 mm"),
    "80 mm": ShaftEnd("22 mm", "9 mm", "160 mm"),
}
