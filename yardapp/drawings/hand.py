"""Which hand: the picture to hold beside a propeller that stands on its bench, bore upright."""

import math

from markupsafe import Markup

from yardapp.drawings.sheet import Point, circle, line, path, sheet

MIDDLE_X, MIDDLE_Y, REACH = 70.0, 66.0, 58.0
HUB_RADIUS, HUB_HALF = 15.0, 30.0
# A picture, not a propeller: the near blade stands at 45 degrees, so that its lean is seen at arm's length.
NEAR_HALF, NEAR_THICK = 30.0, 13.0
PITCH_RATIO = 1.6
WIDTHS = [(0.25, 0.5), (0.4, 0.72), (0.55, 0.88), (0.7, 0.94), (0.8, 0.9), (0.9, 0.72), (0.97, 0.42), (1.0, 0.0)]

SAID = {
    "right": ("Right hand", "The near blade leans like a slash, its right end higher: a right-hand propeller."),
    "left": ("Left hand", "The near blade leans like a backslash, its left end higher: a left-hand propeller."),
}


def hand_picture(hand: str, *, key: str = "") -> Markup:
    """A propeller with its bore upright; its near blade leans / for "right", \\ for "left"."""
    title, desc = SAID[hand]
    side = 1 if hand == "right" else -1
    marks = [
        line([(MIDDLE_X, 4), (MIDDLE_X, 128)], "thin chain"),
        *(line(_far_blade(turn_deg, side), "line fillpaper", closed=True) for turn_deg in (112, -112)),
        _hub(),
        _near_blade(side),
    ]
    return sheet(key or f"hand-{hand}", 140, 132, title=title, desc=desc, marks=marks)


def _hub() -> str:
    left, right = MIDDLE_X - HUB_RADIUS, MIDDLE_X + HUB_RADIUS
    top, bottom = MIDDLE_Y - HUB_HALF, MIDDLE_Y + HUB_HALF
    body = f"M{left} {top} V{bottom} A{HUB_RADIUS} 5 0 0 0 {right} {bottom} V{top} A{HUB_RADIUS} 5 0 0 0 {left} {top}Z"
    mouth = f"M{left} {top} A{HUB_RADIUS} 5 0 0 0 {right} {top} A{HUB_RADIUS} 5 0 0 0 {left} {top}Z"
    return "\n".join([path(body, "line fillshaft"), path(mouth, "line fillpaper"), circle(MIDDLE_X, top, 3.5, "hatch")])


def _near_blade(side: int) -> str:
    """The blade that points at us: seen on edge, a leaf leaning at 45 degrees."""
    across, up = side * NEAR_HALF * math.sqrt(0.5), NEAR_HALF * math.sqrt(0.5)
    bulge, rise = side * NEAR_THICK * math.sqrt(0.5), NEAR_THICK * math.sqrt(0.5)
    low, high = (MIDDLE_X - across, MIDDLE_Y + up), (MIDDLE_X + across, MIDDLE_Y - up)
    over, under = (MIDDLE_X - bulge, MIDDLE_Y - rise), (MIDDLE_X + bulge, MIDDLE_Y + rise)
    course = (
        f"M{low[0]:.2f} {low[1]:.2f} Q{over[0]:.2f} {over[1]:.2f} {high[0]:.2f} {high[1]:.2f}"
        f" Q{under[0]:.2f} {under[1]:.2f} {low[0]:.2f} {low[1]:.2f}Z"
    )
    return path(course, "line fillink", name="near blade")


def _far_blade(turn_deg: float, side: int) -> list[Point]:
    """Outline of a helical blade, turned round the axis from the one that faces us."""
    ahead = [_seen(share, width / 2, turn_deg, side) for share, width in WIDTHS]
    behind = [_seen(share, -width / 2, turn_deg, side) for share, width in reversed(WIDTHS)]
    return ahead + behind


def _seen(share: float, along: float, turn_deg: float, side: int) -> Point:
    """Where a point on the blade is seen; share of the radius, and share of the radius along the section."""
    slope_rad = math.atan2(PITCH_RATIO, math.pi * share)
    turn_rad = math.radians(turn_deg) + along * math.cos(slope_rad) / share
    return MIDDLE_X + side * REACH * share * math.sin(turn_rad), MIDDLE_Y - REACH * along * math.sin(slope_rad)
