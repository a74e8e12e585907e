"""The sheet a drawing is drawn on: lines, words, dimensions and notes as SVG text."""

import math
import textwrap
from collections.abc import Iterable, Sequence

from markupsafe import Markup, escape

Point = tuple[float, float]

# Characters of a note that fit on a sheet 340 wide at the size of `dim`.
NOTE_WIDTH = 46
NOTE_STEP = 18


def sheet(
    key: str, width: float, height: float, *, title: str, desc: str, marks: Iterable[str], top: float = 0
) -> Markup:
    """One drawing from `top` down, with its title and description; `key` keeps its ids apart from other drawings'."""
    body = Markup("\n").join(Markup(mark) for mark in marks if mark)
    # A picture hides its parts from a screen reader; with links in it, it is a group.
    role = "group" if "<a " in body else "img"
    return Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 {top} {width} {height}" role="{role}"'
        ' aria-labelledby="{key}-title {key}-desc"><title id="{key}-title">{title}</title>'
        '<desc id="{key}-desc">{desc}</desc><defs><marker id="{key}-arrow" markerWidth="9" markerHeight="9" refX="8"'
        ' refY="4.5" orient="auto-start-reverse" markerUnits="userSpaceOnUse"><path d="M0 1 L8 4.5 L0 8Z"'
        ' class="fillink"/></marker></defs>\n{body}\n</svg>'
    ).format(
        key=key,
        role=role,
        width=figure(width),
        height=figure(height - top),
        top=figure(top),
        title=title,
        desc=desc,
        body=body,
    )


def figure(number: float) -> str:
    """A coordinate, to a hundredth and no longer than needed."""
    text = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def points(corners: Iterable[Point]) -> str:
    """Corners as the inside of a path."""
    return " L".join(f"{figure(x)} {figure(y)}" for x, y in corners)


def line(corners: Iterable[Point], drawn: str = "line", *, closed: bool = False, name: str = "") -> str:
    """A line through corners; `name` tells a test which one it is."""
    return path(f"M{points(corners)}{'Z' if closed else ''}", drawn, name=name)


def path(course: str, drawn: str = "line", *, name: str = "", arrows: str = "") -> str:
    """A path; `arrows` are attributes from `arrow_ends`."""
    told = f' data-name="{escape(name)}"' if name else ""
    return f'<path d="{course}" class="{drawn}"{told}{arrows}/>'


def circle(x: float, y: float, radius: float, drawn: str = "line", *, name: str = "") -> str:
    """A circle."""
    told = f' data-name="{escape(name)}"' if name else ""
    return f'<circle cx="{figure(x)}" cy="{figure(y)}" r="{figure(radius)}" class="{drawn}"{told}/>'


def words(x: float, y: float, text: str, *, anchor: str = "start", turn_deg: float = 0, drawn: str = "dim") -> str:
    """A label; nothing when there is nothing to say."""
    if not text:
        return ""
    turned = f' transform="rotate({figure(turn_deg)} {figure(x)} {figure(y)})"' if turn_deg else ""
    placed = f'x="{figure(x)}" y="{figure(y)}"'
    return f'<text {placed} text-anchor="{anchor}" class="{drawn}"{turned}>{escape(text)}</text>'


def arrow_ends(key: str, *, start: bool = True) -> str:
    """Attributes that put an arrow on a path's end, and on its start too."""
    first = f' marker-start="url(#{key}-arrow)"' if start else ""
    return f'{first} marker-end="url(#{key}-arrow)"'


def dimension(key: str, start: Point, end: Point, *, name: str = "") -> str:
    """A dimension line; when too short for two arrows between its ends, they point inward from outside."""
    (x1, y1), (x2, y2) = start, end
    long = math.hypot(x2 - x1, y2 - y1)
    if long >= 20:
        return path(f"M{points([start, end])}", "thin", name=name, arrows=arrow_ends(key))
    run = (1.0, 0.0) if long == 0 else ((x2 - x1) / long, (y2 - y1) / long)
    before, after = (x1 - 16 * run[0], y1 - 16 * run[1]), (x2 + 16 * run[0], y2 + 16 * run[1])
    arrows = arrow_ends(key, start=False)
    return "\n".join(
        [
            path(f"M{points([start, end])}", "thin", name=name),
            path(f"M{points([before, start])}", "thin", arrows=arrows),
            path(f"M{points([after, end])}", "thin", arrows=arrows),
        ]
    )


def notes(said: Sequence[str], y: float, *, x: float = 8) -> tuple[list[str], float]:
    """Notes under a drawing, wrapped, and how far down they reach."""
    lines = [part for note in said for part in textwrap.wrap(note, NOTE_WIDTH)]
    marks = [words(x, y + NOTE_STEP * number, text) for number, text in enumerate(lines)]
    return marks, y + NOTE_STEP * len(lines)


def known(number: float | None) -> bool:
    """Whether a figure was given: neither None nor NaN."""
    return number is not None and not math.isnan(number)
