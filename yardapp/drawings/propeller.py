"""The propeller seen from aft, drawn to scale from its own figures."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.outline import blade
from yardapp.drawings.sheet import Point, arrow_ends, circle, dimension, known, line, notes, path, sheet, words

WIDE = 340.0
MIDDLE_X, MIDDLE_Y, TIP = 170.0, 158.0, 125.0
# Drawn, and said to be so, where the propeller's own figure is not known.
USUAL_AREA_RATIO, USUAL_PITCH_RATIO, USUAL_HUB_SHARE = 0.55, 0.8, 0.19


@dataclass(frozen=True)
class _Figures:
    diameter_m: float | None
    blades: int | None
    hand: str | None
    hub_diameter_m: float | None
    bore_m: float | None
    pitch_m: float | None
    area_ratio: float | None

    def share(self, length_m: float | None) -> float | None:
        """A length over the propeller's diameter, where both are known."""
        if length_m is None or self.diameter_m is None or not (known(length_m) and known(self.diameter_m)):
            return None
        return length_m / self.diameter_m

    @property
    def hub_share(self) -> float:
        share = self.share(self.hub_diameter_m)
        return USUAL_HUB_SHARE if share is None else share


def from_aft(
    diameter_m: float | None,
    blades: int | None,
    hand: str | None,
    *,
    hub_diameter_m: float | None = None,
    bore_m: float | None = None,
    pitch_m: float | None = None,
    area_ratio: float | None = None,
    diameter_label: str = "",
    key: str = "propeller",
) -> Markup:
    """The propeller from aft, its hand "right" or "left"; what is not known is left out or dashed, and said."""
    given = _Figures(diameter_m, blades, hand, hub_diameter_m, bore_m, pitch_m, area_ratio)
    missing, below = notes(_missing(given), 336 if known(diameter_m) else 310)
    marks = [
        circle(MIDDLE_X, MIDDLE_Y, TIP, "thin dash", name="disc"),
        circle(MIDDLE_X, MIDDLE_Y, 0.7 * TIP, "thin dot", name="0.7 R"),
        *_blades(given),
        *_hub(given),
        words(86, 98, "0.7 R", turn_deg=-52, anchor="middle", drawn="dim halo"),
        *_turning(hand, key),
        *_diameter(diameter_m, diameter_label, key),
        *missing,
    ]
    title = f"Propeller seen from aft: {_in_words(given, diameter_label)}"
    return sheet(key, WIDE, below - 8, title=title, desc=_desc(given), marks=marks)


def _blades(given: _Figures) -> list[str]:
    if not given.blades:
        return []
    pitch_ratio = given.share(given.pitch_m) or USUAL_PITCH_RATIO
    area_ratio = given.area_ratio if given.area_ratio and known(given.area_ratio) else None
    corners = blade(
        given.blades,
        area_ratio or USUAL_AREA_RATIO,
        pitch_ratio,
        min(0.9 * given.hub_share, 0.5),
        hand=given.hand,
        radius=TIP,
    )
    drawn = "line fillpaper" if area_ratio else "line fillpaper dash"
    turns = [2 * math.pi * number / given.blades for number in range(given.blades)]
    return [line(_turned(corners, turn_rad), drawn, closed=True, name="blade") for turn_rad in turns]


def _turned(corners: list[Point], turn_rad: float) -> list[Point]:
    """A blade turned clockwise about the propeller's middle."""
    cos, sin = math.cos(turn_rad), math.sin(turn_rad)
    return [(MIDDLE_X + x * cos - y * sin, MIDDLE_Y + x * sin + y * cos) for x, y in corners]


def _hub(given: _Figures) -> list[str]:
    measured = given.share(given.hub_diameter_m) is not None
    bore_share = given.share(given.bore_m)
    reach = max(24, TIP * given.hub_share + 8)
    marks = [
        circle(MIDDLE_X, MIDDLE_Y, TIP * given.hub_share, "line fillpaper" + ("" if measured else " dash"), name="hub")
    ]
    if bore_share is not None:
        marks.append(circle(MIDDLE_X, MIDDLE_Y, TIP * bore_share, "line hatch", name="bore"))
    marks.append(line([(MIDDLE_X - reach, MIDDLE_Y), (MIDDLE_X + reach, MIDDLE_Y)], "thin chain"))
    marks.append(line([(MIDDLE_X, MIDDLE_Y - reach), (MIDDLE_X, MIDDLE_Y + reach)], "thin chain"))
    return marks


def _turning(hand: str | None, key: str) -> list[str]:
    """The way it turns going ahead, seen from aft: right hand clockwise."""
    if hand == "right":
        course, at, anchor, said = "M232 24 A 150 150 0 0 1 288 62", 332.0, "end", "RH"
    elif hand == "left":
        course, at, anchor, said = "M108 24 A 150 150 0 0 0 52 62", 8.0, "start", "LH"
    else:
        return []
    return [
        path(course, "thin", name="turning", arrows=arrow_ends(key, start=False)),
        words(at, 26, said, anchor=anchor, drawn="dim big"),
        words(at, 44, "ahead", anchor=anchor),
    ]


def _diameter(diameter_m: float | None, label: str, key: str) -> list[str]:
    if not known(diameter_m):
        return []
    left, right = MIDDLE_X - TIP, MIDDLE_X + TIP
    return [
        line([(left, MIDDLE_Y), (left, 316)], "thin"),
        line([(right, MIDDLE_Y), (right, 316)], "thin"),
        dimension(key, (left, 308), (right, 308), name="diameter"),
        words(MIDDLE_X, 303, label, anchor="middle", drawn="dim big"),
    ]


def _missing(given: _Figures) -> list[str]:
    said = [
        (known(given.diameter_m), "Diameter not known: not to scale."),
        (bool(given.blades), "Blade count not known: no blades drawn."),
        (given.hand in ("right", "left"), "Hand not known."),
    ]
    dashed = [
        name
        for name, is_known in (
            ("blade width", known(given.area_ratio) or not given.blades),
            ("hub", given.share(given.hub_diameter_m) is not None),
        )
        if not is_known
    ]
    lines = [told for is_known, told in said if not is_known]
    if dashed:
        lines.append(f"Dashed, not measured: {', '.join(dashed)}.")
    return lines


def _in_words(given: _Figures, diameter_label: str) -> str:
    blades = f"{given.blades} blades" if given.blades else "blade count not known"
    hand = f"{given.hand} hand" if given.hand else "hand not known"
    size = diameter_label or ("diameter as drawn" if known(given.diameter_m) else "diameter not known")
    return f"{blades}, {hand}, {size}"


def _desc(given: _Figures) -> str:
    turn = {"right": "clockwise", "left": "anticlockwise"}.get(given.hand or "")
    turning = f"Going ahead it turns {turn}. " if turn else ""
    shape = "The curve of the blades' edges is ours; their width follows the area ratio."
    return " ".join([turning + shape, *_missing(given)])
