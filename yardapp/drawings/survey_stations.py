"""Where a survey reads a blade: rings at the radii, dots at the stations."""

from collections.abc import Sequence

from markupsafe import Markup

from yardapp.drawings.outline import blade, place
from yardapp.drawings.sheet import Point, circle, line, notes, sheet, words

MIDDLE_X, CENTRE_Y, RADIUS = 140.0, 262.0, 240.0
HUB_SHARE = 0.2
EDGE = 0.8  # how far towards the edges the outer stations lie
MOST_RINGS, MOST_STATIONS = 12, 12
NAMES_X, NAME_STEP = 262.0, 15.0


def survey_stations(
    radii: Sequence[float], stations: int, *, blades: int | None = None, hand: str | None = None, key: str = "stations"
) -> Markup:
    """One blade of a propeller that lies on the table, its radii as shares of the tip's; shapes alone, not to scale."""
    rings, count = list(radii)[:MOST_RINGS], min(max(stations, 2), MOST_STATIONS)
    shape = {"blades": min(max(blades or 3, 2), 7), "area_ratio": 0.6, "pitch_ratio": 0.9, "hub_share": HUB_SHARE}
    told = [
        "Heights up from the table at each dot, ring by ring. Station 1 stands at one edge; "
        "the others follow round the shaft, the same way on every blade."
    ]
    lines, below = notes(told, CENTRE_Y + RADIUS * HUB_SHARE + 24)
    outline = blade(*shape.values(), hand=hand, radius=RADIUS)  # type: ignore[arg-type]
    marks = [
        line([_on_sheet(corner) for corner in outline], "line fillpaper", closed=True, name="blade"),
        circle(MIDDLE_X, CENTRE_Y, RADIUS * HUB_SHARE, "line fillpaper", name="hub"),
        words(MIDDLE_X, CENTRE_Y + 5, "hub", anchor="middle"),
        *(mark for share in rings for mark in _ring(_dots(share, count, shape, hand), share, share == max(rings))),
        *_names({share: max(_dots(share, count, shape, hand))[1] for share in rings}),
        *lines,
    ]
    named = ", ".join(f"{share:g} R" for share in rings)
    title = f"Where a survey reads a blade: {count} stations at {named or 'no radius'}"
    return sheet(key, 340, below, title=title, desc=told[0], marks=marks, top=2)


def _dots(share: float, count: int, shape: dict[str, float], hand: str | None) -> list[Point]:
    """Where the stations of one radius lie; those of the tip itself just inside it."""
    parts = [EDGE * (2 * number / (count - 1) - 1) for number in range(count)]
    return [
        _on_sheet(place(min(share, 0.98), part, *shape.values(), hand=hand, radius=RADIUS))  # type: ignore[arg-type]
        for part in parts
    ]


def _ring(dots: Sequence[Point], share: float, is_last: bool) -> list[str]:
    """One radius: its line across the blade and its dots; the outermost has its stations numbered."""
    numbers = [words(x, y - 9, str(number), anchor="middle") for number, (x, y) in enumerate(dots, 1)]
    return [
        line(dots, "thin", name=f"ring {share:g}"),
        *(circle(x, y, 3.5, "line fillink", name=f"station {share:g}") for x, y in dots),
        *(numbers if is_last else []),
    ]


def _names(levels: dict[float, float]) -> list[str]:
    """Each radius by name in a column beside the blade, from the tip inward, none over another."""
    marks, above = [], -NAME_STEP
    for share, level in sorted(levels.items(), reverse=True):
        above = max(level + 5, above + NAME_STEP)
        marks.append(words(NAMES_X, above, f"{share:g} R"))
    return marks


def _on_sheet(corner: Point) -> Point:
    return MIDDLE_X + corner[0], CENTRE_Y + corner[1]
