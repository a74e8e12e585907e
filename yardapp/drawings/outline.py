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
    """The table read between its stations: freed of the rounded tip, sqrt(1 - x), it is smooth enough for a cubic."""
    table = WIDTHS_FROM_FOUR if blades >= 4 else WIDTHS_OF_THREE
    freed = [wide / math.sqrt(0.8 - 0.1 * number) for number, wide in enumerate(table)]
    freed = [2 * freed[0] - freed[1], *freed, 2 * freed[-1] - freed[-2], 3 * freed[-1] - 2 * freed[-2]]
    at = max(0.0, (share - 0.2) * 10)
    low = min(int(at), 7)
    return math.sqrt(1 - share) * _between(freed[low : low + 4], at - low)


def _between(four: list[float], part: float) -> float:
    """Between the middle two of four evenly spaced figures, the cubic of Catmull and Rom."""
    before, first, second, after = four
    slope_first, slope_second = (second - before) / 2, (after - first) / 2
    rise = second - first
    bend = 3 * rise - 2 * slope_first - slope_second
    twist = slope_first + slope_second - 2 * rise
    return first + part * (slope_first + part * (bend + part * twist))


def blade(
    blades: int, area_ratio: float, pitch_ratio: float, hub_share: float, *, hand: str | None, radius: float
) -> list[Point]:
    """Corners of the blade that points up, seen from aft, round (0, 0), y downward; `radius` in the sheet's unit."""
    # Stations close up towards the tip, where the outline turns.
    shares = [1 - (1 - hub_share) * (1 - number / STATIONS) ** 2 for number in range(STATIONS + 1)]
    ahead, behind = [], []
    for share in shares:
        ahead.append(place(share, 1, blades, area_ratio, pitch_ratio, hub_share, hand=hand, radius=radius))
        behind.append(place(share, -1, blades, area_ratio, pitch_ratio, hub_share, hand=hand, radius=radius))
    return ahead + behind[-2::-1]


def place(
    share: float,
    part: float,
    blades: int,
    area_ratio: float,
    pitch_ratio: float,
    hub_share: float,
    *,
    hand: str | None,
    radius: float,
) -> Point:
    """A point of that blade at a share of the radius; `part` goes from -1, its trailing edge, to 1, its leading one."""
    side, trail = (-1 if hand == "left" else 1), (TRAIL if hand else 0.0)
    middle = -trail * ((share - hub_share) / (1 - hub_share)) ** 2
    along = middle + part * width(share, blades, area_ratio) / 2
    return _seen(share, along, pitch_ratio, side, radius)


def _seen(share: float, along: float, pitch_ratio: float, side: int, radius: float) -> Point:
    """A point `along` the section, measured from the blade's own line, wound on the helix and seen along the shaft."""
    turn_rad = along * math.cos(math.atan2(pitch_ratio, math.pi * share)) / share
    return side * radius * share * math.sin(turn_rad), -radius * share * math.cos(turn_rad)
