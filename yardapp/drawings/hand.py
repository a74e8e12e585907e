"""Which hand: the picture to hold beside a propeller that stands on its bench, bore upright."""

import math

from markupsafe import Markup

from yardapp.drawings.sheet import Point, circle, line, path, sheet, words

TOP, MIDDLE, REACH = 14.0, 66.0, 54.0
HUB_RADIUS, HUB_HALF = 15.0, 27.0
# A picture, not a propeller: coarse pitch and wide blades, so that the lean is seen at arm's length.
PITCH_RATIO = 1.5
WIDTHS = [(0.25, 0.62), (0.4, 0.84), (0.55, 0.98), (0.7, 1.0), (0.85, 0.86), (0.95, 0.55), (1.0, 0.0)]

SAID = {
    "right": ("Right hand", "The near blade leans like a slash, its right end higher: a right-hand propeller."),
    "left": ("Left hand", "The near blade leans like a backslash, its left end higher: a left-hand propeller."),
}


def hand_picture(hand: str, *, key: str = "") -> Markup:
    """A propeller with its bore upright; its near blade leans / for "right", \\ for "left"."""
    title, desc = SAID[hand]
    side = 1 if hand == "right" else -1
    marks = [
        line([(70, 6), (70, 126)], "thin chain"),
        *(line(_blade(turn_deg, side), "line fillpaper", closed=True) for turn_deg in (115, -115)),
        _hub(),
        line(_blade(0, side), "line hatch heavy", closed=True, name="near blade"),
        words(70, 148, title, anchor="middle", drawn="dim big"),
    ]
    return sheet(key or f"hand-{hand}", 140, 156, title=title, desc=desc, marks=marks)


def _hub() -> str:
    left, right, top, bottom = 70 - HUB_RADIUS, 70 + HUB_RADIUS, MIDDLE - HUB_HALF, MIDDLE + HUB_HALF
    body = f"M{left} {top} V{bottom} A{HUB_RADIUS} 5 0 0 0 {right} {bottom} V{top} A{HUB_RADIUS} 5 0 0 0 {left} {top}Z"
    mouth = f"M{left} {top} A{HUB_RADIUS} 5 0 0 0 {right} {top} A{HUB_RADIUS} 5 0 0 0 {left} {top}Z"
    return "\n".join([path(body, "line fillshaft"), path(mouth, "line fillpaper"), circle(70, top, 3.5, "thin hatch")])


def _blade(turn_deg: float, side: int) -> list[Point]:
    """Outline of a helical blade, turned round the axis from the one that faces us."""
    ahead = [_seen(share, width / 2, turn_deg, side) for share, width in WIDTHS]
    behind = [_seen(share, -width / 2, turn_deg, side) for share, width in reversed(WIDTHS)]
    return ahead + behind


def _seen(share: float, along: float, turn_deg: float, side: int) -> Point:
    """Where a point on the blade is seen; share of the radius, and share of the radius along the section."""
    slope_rad = math.atan2(PITCH_RATIO, math.pi * share)
    turn_rad = math.radians(turn_deg) + along * math.cos(slope_rad) / share
    return 70 + side * REACH * share * math.sin(turn_rad), MIDDLE - REACH * along * math.sin(slope_rad)
