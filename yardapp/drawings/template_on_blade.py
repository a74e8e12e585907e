"""A template laid on a blade: the section unrolled, where it touches, and the gap at the other edge."""

import math

from markupsafe import Markup

from yardapp.drawings.sheet import Point, circle, dimension, known, line, notes, sheet, words

LEFT, WIDE, FLOOR = 40.0, 250.0, 190.0
GAP_AT_LEAST = 14.0  # a gap of tenths of a millimetre would not be seen: it is drawn wider, and said to be


def template_on_blade(
    template_rad: float | None,
    gap_m: float | None,
    width_m: float | None,
    *,
    template_label: str = "",
    gap_label: str = "",
    blade_label: str = "",
    key: str = "template",
) -> Markup:
    """Template and face at their angle to the disc; `gap_m` above zero stands at the leading edge.

    The trailing edge is at the left and lower: the propeller lies face down, the template under it.
    """
    if not (known(template_rad) and known(gap_m) and known(width_m)) or not width_m:
        said, below = notes(["Template, gap or width not read."], 24)
        return sheet(key, 340, below, title="Template on a blade: not drawn", desc="Not read yet.", marks=said)
    assert template_rad is not None
    assert gap_m is not None
    marks = _marks(template_rad, gap_m, (template_label, gap_label, blade_label), key)
    said, below = notes(["The gap is drawn wider than it is.", "Left: trailing edge. Right: leading edge."], FLOOR + 44)
    title = f"Template laid on the blade's face, gap {gap_label or 'as drawn'}"
    where = "leading" if gap_m >= 0 else "trailing"
    desc = f"The face touches the template at one edge; the gap stands at the {where} edge. The gap is drawn wider."
    return sheet(key, 340, below - 8, title=title, desc=desc, marks=[*marks, *said])


def _marks(template_rad: float, gap_m: float, labels: tuple[str, str, str], key: str) -> list[str]:
    run, rise = WIDE * math.cos(template_rad), WIDE * math.sin(template_rad)
    trailing, leading = (LEFT, FLOOR), (LEFT + run, FLOOR - rise)
    across = (-math.sin(template_rad), -math.cos(template_rad))
    off = GAP_AT_LEAST if gap_m else 0.0
    lifted = _moved(leading if gap_m >= 0 else trailing, across, off)
    face = [trailing, lifted] if gap_m >= 0 else [lifted, leading]
    at = leading if gap_m >= 0 else trailing
    template_label, gap_label, blade_label = labels
    return [
        line(
            [trailing, leading, (leading[0], FLOOR + 14), (trailing[0], FLOOR + 14)], "line", closed=True, name="body"
        ),
        line(face, "line heavy", name="face"),
        line([trailing, leading, lifted], "gap", closed=True, name="gap"),
        circle(*(trailing if gap_m >= 0 else leading), 4, "line fillpaper", name="touch"),
        dimension(key, at, lifted, name="gap size"),
        words(at[0] + (-10 if gap_m >= 0 else 12), at[1] - 30, gap_label, anchor="end" if gap_m >= 0 else "start"),
        words(LEFT + run / 2, FLOOR + 9, template_label, anchor="middle"),
        words(LEFT + run / 2 - 10, FLOOR - rise / 2 - 16, blade_label, anchor="end", drawn="dim halo"),
    ]


def _moved(point: Point, way: Point, far: float) -> Point:
    return point[0] + way[0] * far, point[1] + way[1] * far
