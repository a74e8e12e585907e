"""One blade laid flat: its widths at radii, or the outline of a rubbing."""

from collections.abc import Sequence

from markupsafe import Markup

from yardapp.drawings.sheet import Point, dimension, line, notes, sheet, words

MIDDLE, TOP, TALL, WIDE = 150.0, 20.0, 240.0, 200.0


def blade_widths(
    stations: Sequence[tuple[float, float, str]], tip_m: float, hub_m: float, *, key: str = "widths"
) -> Markup:
    """Widths (radius, width, label) from the hub up to the tip; root and tip pieces are shaded."""
    if not stations:
        said, below = notes(["No width read."], 24)
        return sheet(key, 340, below, title="Blade: not drawn", desc="Not read yet.", marks=said)
    scale = min(TALL / (tip_m - hub_m), WIDE / max(width for _, width, _ in stations))
    floor = TOP + (tip_m - hub_m) * scale

    def at(radius_m: float, across_m: float) -> Point:
        return MIDDLE + across_m * scale, floor - (radius_m - hub_m) * scale

    left = [at(radius, -width / 2) for radius, width, _ in stations]
    right = [at(radius, width / 2) for radius, width, _ in stations]
    first, last = stations[0], stations[-1]
    root = [at(hub_m, -first[1] / 2), at(hub_m, first[1] / 2), right[0], left[0]]
    marks = [
        line([*left, at(tip_m, 0.0), *reversed(right)], "line fillpaper", closed=True, name="blade"),
        line(root, "gap", closed=True, name="root piece"),
        line([left[-1], at(tip_m, 0.0), right[-1]], "gap", closed=True, name="tip piece"),
        *(line([a, b], "thin", name="width") for a, b in zip(left, right, strict=True)),
        *(words(MIDDLE + WIDE / 2 + 8, y + 5, label) for (_, y), (_, _, label) in zip(right, stations, strict=True)),
    ]
    said, below = notes(["Shaded: the pieces to hub and tip, reckoned from the widths beside them."], floor + 34)
    desc = f"Widths at {len(stations)} radii, up to {last[2] or 'the last'}. Root and tip pieces are included."
    return sheet(key, 340, below - 8, title="One blade laid flat, by its widths", desc=desc, marks=[*marks, *said])


def blade_outline(points: Sequence[tuple[float, float]], *, label: str = "", key: str = "outline") -> Markup:
    """The closed outline of a rubbing, to scale."""
    if len(points) < 3:
        said, below = notes(["No outline read."], 24)
        return sheet(key, 340, below, title="Outline: not drawn", desc="Not read yet.", marks=said)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide, tall = max(xs) - min(xs) or 1.0, max(ys) - min(ys) or 1.0
    scale = min((340 - 40) / wide, TALL / tall)
    floor = TOP + tall * scale
    corners = [(20 + (x - min(xs)) * scale, floor - (y - min(ys)) * scale) for x, y in points]
    right = 20 + wide * scale
    marks = [
        line(corners, "line hatch", closed=True, name="outline"),
        dimension(key, (20, floor + 14), (right, floor + 14), name="wide"),
        words((20 + right) / 2, floor - tall * scale / 2, label, anchor="middle", drawn="dim halo"),
    ]
    return sheet(
        key,
        340,
        floor + 34,
        title=f"Outline of one blade, {len(points)} points",
        desc=f"Area {label or 'as drawn'}. Straight lines from point to point.",
        marks=marks,
    )
