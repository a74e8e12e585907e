"""A propeller with numbered marks where its faults are, and places to tap."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from yardapp.drawings.outline import STATIONS, blade
from yardapp.drawings.sheet import Point, circle, line, notes, sheet, words

MIDDLE_X, MIDDLE_Y, TIP = 170.0, 168.0, 150.0
HUB_SHARE, AREA_RATIO, PITCH_RATIO = 0.19, 0.55, 0.8
LEAST_BLADES = 3
MARK, TOUCH = 11.0, 13.0
SHAPES = {"stop": "square: stop", "watch": "diamond: watch", "note": "circle: note"}


@dataclass(frozen=True, kw_only=True)
class FaultMark:
    """One fault on the picture. `blade` None: on the hub. `side` "face", "back" or "hub"."""

    number: int
    blade: int | None
    radius_ratio: float | None
    side: str
    severity: str
    label: str
    href: str = ""


def condition(
    blades: int | None,
    hand: str | None,
    marks: Sequence[FaultMark] = (),
    *,
    spots: Sequence[float] = (),
    spot_href: Callable[[int, float], str] | None = None,
    chosen: tuple[int, float] | None = None,
    key: str = "condition",
) -> Markup:
    """The propeller from aft, blade 1 on top and the next one clockwise; marks on the back are dashed.

    With `spots` (shares of the radius) each blade has places to tap, that lead to `spot_href(blade, share)`.
    """
    count = blades or LEAST_BLADES
    corners = blade(count, AREA_RATIO, PITCH_RATIO, HUB_SHARE, hand=hand, radius=TIP)
    told = _told(blades, marks)
    said, below = notes(told, MIDDLE_Y + TIP + 28)
    drawn = [
        *(
            line(_turned(corners, number, count), "line fillpaper", closed=True, name="blade")
            for number in range(count)
        ),
        circle(MIDDLE_X, MIDDLE_Y, HUB_SHARE * TIP, "line fillpaper", name="hub"),
        *(_number(corners, number, count) for number in range(count)),
        *_spots(corners, count, spots, spot_href, chosen),
        *(_mark(corners, count, mark) for mark in marks),
        *said,
    ]
    title = f"Propeller seen from aft with {len(marks)} fault{'' if len(marks) == 1 else 's'} marked"
    desc = " ".join([*(f"{mark.number}: {mark.label}." for mark in marks), *told])
    return sheet(key, 340, below - 8, title=title, desc=desc, marks=drawn)


def _told(blades: int | None, marks: Sequence[FaultMark]) -> list[str]:
    told = ["Blade 1 is the one nearest the keyway; seen from aft the next lie clockwise."]
    if not blades:
        told.append("Blade count not known: three are drawn.")
    shapes = [SHAPES[severity] for severity in SHAPES if any(mark.severity == severity for mark in marks)]
    if shapes:
        told.append(f"{', '.join(shapes)[:1].upper()}{', '.join(shapes)[1:]}. Dashed: on the back.")
    return told


def _turned(corners: Sequence[Point], number: int, count: int) -> list[Point]:
    """A blade turned clockwise to its place about the propeller's middle."""
    turn = 2 * math.pi * number / count
    cos, sin = math.cos(turn), math.sin(turn)
    return [(MIDDLE_X + x * cos - y * sin, MIDDLE_Y + x * sin + y * cos) for x, y in corners]


def _along(corners: Sequence[Point], share: float) -> Point:
    """The middle of a blade at a share of the radius, as its outline runs."""
    free = max(0.0, min(1.0, (1 - share) / (1 - HUB_SHARE)))
    at = STATIONS * (1 - math.sqrt(free))
    low = min(int(at), STATIONS - 1)
    first, second = (_middle(corners, number) for number in (low, low + 1))
    part = at - low
    x, y = first[0] + part * (second[0] - first[0]), first[1] + part * (second[1] - first[1])
    # Between two edges at one radius the straight middle lies nearer in.
    out = share * TIP / math.hypot(x, y)
    return x * out, y * out


def _middle(corners: Sequence[Point], number: int) -> Point:
    (x1, y1), (x2, y2) = corners[number], corners[2 * STATIONS - number]
    return (x1 + x2) / 2, (y1 + y2) / 2


def _at(corners: Sequence[Point], count: int, number: int, share: float) -> Point:
    return _turned([_along(corners, share)], number, count)[0]


def _number(corners: Sequence[Point], number: int, count: int) -> str:
    x, y = _turned([(0.0, -0.62 * HUB_SHARE * TIP)], number, count)[0]
    return words(x, y + 5, str(number + 1), anchor="middle")


def _spots(
    corners: Sequence[Point],
    count: int,
    spots: Sequence[float],
    href: Callable[[int, float], str] | None,
    chosen: tuple[int, float] | None,
) -> list[str]:
    drawn = []
    for number in range(count if href else 0):
        for share in spots:
            x, y = _at(corners, count, number, share)
            is_here = chosen is not None and chosen[0] == number + 1 and abs(chosen[1] - share) < 0.001
            dot = circle(x, y, 4.5, "line fillink" if is_here else "thin fillpaper", name="spot")
            address = href(number + 1, share) if href else ""
            name = f"blade {number + 1}, {share:g} of the radius"
            drawn.append(
                f'<a href="{escape(address)}" aria-label="{name}" data-blade="{number + 1}" data-radius="{share:g}">'
                f"{circle(x, y, TOUCH, 'touch')}{dot}</a>"
            )
    return drawn


def _mark(corners: Sequence[Point], count: int, mark: FaultMark) -> str:
    if mark.blade is None or mark.radius_ratio is None or not 1 <= mark.blade <= count:
        x, y = MIDDLE_X, MIDDLE_Y
    else:
        x, y = _at(corners, count, mark.blade - 1, mark.radius_ratio)
    drawn = "line fillpaper dash" if mark.side == "back" else "line fillpaper"
    shape = _shape(x, y, mark.severity, drawn)
    inside = f"{shape}{words(x, y + 5, str(mark.number), anchor='middle')}"
    if not mark.href:
        return inside
    return f'<a href="{escape(mark.href)}" aria-label="{mark.number}: {escape(mark.label)}">{inside}</a>'


def _shape(x: float, y: float, severity: str, drawn: str) -> str:
    if severity == "stop":
        square = [(x - MARK, y - MARK), (x + MARK, y - MARK), (x + MARK, y + MARK), (x - MARK, y + MARK)]
        return line(square, drawn, closed=True, name="stop")
    if severity == "watch":
        far = 1.35 * MARK
        return line([(x, y - far), (x + far, y), (x, y + far), (x - far, y)], drawn, closed=True, name="watch")
    return circle(x, y, MARK + 1, drawn, name="note")
