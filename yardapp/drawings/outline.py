"""The outline of a blade seen from aft, from its share of area, pitch and hand."""

import math

from yardapp.drawings.sheet import Point

# Blade width c Z / (D AE/A0) at 0.2 R to 0.9 R; Oosterveld & van Oossanen 1975, Table 2.
WIDTHS_FROM_FOUR = (1.662, 1.882, 2.050, 2.152, 2.187, 2.144, 1.970, 1.582)
WIDTHS_OF_THREE = (1.633, 1.832, 2.000, 2.120, 2.186, 2.168, 2.127, 1.657)
STATIONS = 28
# How far the middle of the blade trails at the tip, as a share of the radius; our own, for the eye.
TRAIL = 0.2


def width(share: float, blades: int, area_ratio: float) -> float:
    """Width of one blade laid flat over the propeller's radius, at a share of the radius."""
    return 2 * _series(share, blades) * area_ratio / blades


def _series(share: float, blades: int) -> float:
    table = WIDTHS_FROM_FOUR if blades >= 4 else WIDTHS_OF_THREE
    if share >= 0.8:
        return _towards_tip(share, table[6], table[7])
    at = max(0.0, (share - 0.2) * 10)
    low = int(at)
    return table[low] + (at - low) * (table[low + 1] - table[low])


def _towards_tip(share: float, at_08: float, at_09: float) -> float:
    """A rounded tip through the widths at 0.8 R and 0.9 R: a sqrt(1 - x) + b (1 - x)."""
    root = (at_09 - at_08 / 2) / (math.sqrt(0.1) - math.sqrt(0.2) / 2)
    straight = (at_08 - root * math.sqrt(0.2)) / 0.2
    return root * math.sqrt(1 - share) + straight * (1 - share)


def blade(
    blades: int, area_ratio: float, pitch_ratio: float, hub_share: float, *, hand: str | None, radius: float
) -> list[Point]:
    """Corners of the blade that points up, seen from aft, round (0, 0), y downward; `radius` in the sheet's unit."""
    side = -1 if hand == "left" else 1
    trail = TRAIL if hand else 0.0
    # Stations close up towards the tip, where the outline turns.
    shares = [1 - (1 - hub_share) * (1 - number / STATIONS) ** 2 for number in range(STATIONS + 1)]
    ahead, behind = [], []
    for share in shares:
        half = width(share, blades, area_ratio) / 2
        middle = -trail * ((share - hub_share) / (1 - hub_share)) ** 2
        ahead.append(_seen(share, middle + half, pitch_ratio, side, radius))
        behind.append(_seen(share, middle - half, pitch_ratio, side, radius))
    return ahead + behind[-2::-1]


def _seen(share: float, along: float, pitch_ratio: float, side: int, radius: float) -> Point:
    """A point `along` the section, measured from the blade's own line, wound on the helix and seen along the shaft."""
    turn_rad = along * math.cos(math.atan2(pitch_ratio, math.pi * share)) / share
    return side * radius * share * math.sin(turn_rad), -radius * share * math.cos(turn_rad)
