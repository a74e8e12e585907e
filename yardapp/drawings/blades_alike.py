"""Blades held against each other: from above at their true places, and their tips' heights side by side."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import Point, circle, dimension, known, line, notes, sheet, words

MIDDLE_X, MIDDLE_Y, REACH = 170.0, 140.0, 104.0
FLOOR, TALL = 330.0, 32.0
LEFT, RIGHT = 44.0, 320.0


@dataclass(frozen=True, kw_only=True)
class BladeTip:
    """One blade's tip: how far its radius, place and height are off the others', with words; None: not read."""

    number: int
    is_odd: bool = False
    radius_ratio: float | None = None  # over the longest tip's
    place_rad: float | None = None
    place_label: str = ""
    track_m: float | None = None
    track_label: str = ""


def blades_alike(tips: Sequence[BladeTip], *, key: str = "alike") -> Markup:
    """Blades by number: where each tip stands against its even place, and how high against the others."""
    if not tips:
        said, below = notes(["Nothing read of any blade."], 24)
        return sheet(key, 340, below, title="Blades: not drawn", desc="Not read yet.", marks=said)
    has_track = any(known(tip.track_m) for tip in tips)
    told = ["Thin: where an even blade would stand."]
    told += ["Places drawn ten times as far off as they are."] if any(tip.place_rad for tip in tips) else []
    told += ["Heights against the others', drawn larger than they are."] if has_track else []
    said, below = notes(told, FLOOR + TALL + 40 if has_track else MIDDLE_Y + REACH + 50)
    marks = [*_round(tips), *(_heights(tips, key) if has_track else []), *said]
    odd = " and ".join(str(tip.number) for tip in tips if tip.is_odd)
    title = f"{len(tips)} blades against each other; {f'off: blade {odd}' if odd else 'none is off'}"
    return sheet(key, 340, below - 8, title=title, desc=" ".join([*map(_in_words, tips), *told]), marks=marks)


def _in_words(tip: BladeTip) -> str:
    said = ", ".join(part for part in (tip.track_label, tip.place_label) if part)
    return f"Blade {tip.number}: {said}." if said else ""


def _round(tips: Sequence[BladeTip]) -> list[str]:
    marks = [
        circle(MIDDLE_X, MIDDLE_Y, REACH, "thin dash", name="disc"),
        circle(MIDDLE_X, MIDDLE_Y, 0.2 * REACH, "line fillpaper", name="hub"),
    ]
    for place, tip in enumerate(tips):
        even = 2 * math.pi * place / len(tips)
        stands = even + 10 * (tip.place_rad or 0.0)
        reach = REACH * (tip.radius_ratio if tip.radius_ratio and known(tip.radius_ratio) else 1.0)
        marks.append(line([_at(even, 0.2 * REACH), _at(even, REACH)], "thin", name="even"))
        marks.append(line(_blade(stands, reach), "gap" if tip.is_odd else "line fillpaper", closed=True, name="blade"))
        x, y = _at(stands, REACH + 16)
        marks.append(words(x, y + 5, str(tip.number), anchor="middle", drawn="dim big"))
        x, y = _at(stands, 0.62 * REACH)
        marks.append(words(x, y + 5, tip.place_label, anchor="middle", drawn="dim halo"))
    return marks


def _at(turn_rad: float, reach: float) -> Point:
    return MIDDLE_X + reach * math.sin(turn_rad), MIDDLE_Y - reach * math.cos(turn_rad)


def _blade(turn_rad: float, reach: float) -> list[Point]:
    """A plain blade, for its place alone: a leaf from hub to tip."""
    return [
        _at(turn_rad - 0.25, 0.2 * REACH),
        _at(turn_rad - 0.3, 0.65 * reach),
        _at(turn_rad, reach),
        _at(turn_rad + 0.3, 0.65 * reach),
        _at(turn_rad + 0.25, 0.2 * REACH),
    ]


def _heights(tips: Sequence[BladeTip], key: str) -> list[str]:
    """Each tip's height against the mean of the others."""
    most = max((abs(tip.track_m) for tip in tips if tip.track_m is not None and known(tip.track_m)), default=0.0)
    step = (RIGHT - LEFT) / len(tips)
    marks = [line([(LEFT - 8, FLOOR), (RIGHT + 8, FLOOR)], "thin chain", name="others")]
    for place, tip in enumerate(tips):
        if tip.track_m is None or not known(tip.track_m):
            continue
        x, y = LEFT + (place + 0.5) * step, FLOOR - (TALL * tip.track_m / most if most else 0.0)
        label_y = min(y, FLOOR) - 10
        marks += [
            line([(x - 0.3 * step, y), (x + 0.3 * step, y)], "line heavy" if tip.is_odd else "line", name="tip"),
            dimension(key, (x, FLOOR), (x, y), name="track") if abs(FLOOR - y) > 4 else "",
            words(x, label_y, tip.track_label, anchor="middle", drawn="dim halo"),
            words(x, FLOOR + TALL + 20, f"blade {tip.number}", anchor="middle"),
        ]
    return marks
