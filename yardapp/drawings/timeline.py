"""Each blade against time: when it was coated, when its window opens and shuts, and now."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from yardapp.drawings.sheet import line, sheet, words

LEFT, RIGHT, TOP, STEP, HIGH = 78.0, 328.0, 16.0, 38.0, 20.0
FILLS = {"coat": "line hatch", "window": "line window", "past": "thin dash none"}


@dataclass(frozen=True, kw_only=True)
class Bar:
    """A span of time in seconds from any one moment: "coat", "window" or "past" (a window that was missed)."""

    start_s: float
    end_s: float
    kind: str


@dataclass(frozen=True, kw_only=True)
class TimeRow:
    """One blade, or one thing, and its spans."""

    label: str
    bars: Sequence[Bar]


def timeline(
    rows: Sequence[TimeRow],
    *,
    now_s: float | None = None,
    now_label: str = "",
    ticks: Sequence[tuple[float, str]] = (),
    title: str = "Each blade against time",
    key: str = "timeline",
) -> Markup:
    """Rows on one scale of time; filled is a coat, open is its window, the upright line is now."""
    first, last = _span(rows, now_s)
    floor = TOP + STEP * len(rows)
    marks = [mark for number, row in enumerate(rows) for mark in _row(row, TOP + STEP * number, first, last)]
    marks += [line([(LEFT, floor), (RIGHT, floor)], "thin")]
    for at_s, label in ticks:
        x = _x(at_s, first, last)
        marks += [line([(x, floor), (x, floor + 5)], "thin"), words(x, floor + 20, label, anchor="middle")]
    if now_s is not None:
        x = _x(now_s, first, last)
        marks += [line([(x, 6), (x, floor + 6)], "now", name="now")]
        marks += [words(x, floor + (40 if ticks else 24), now_label, anchor="middle", drawn="dim big")]
    desc = "Filled: coat. Open: its window. Upright line: now. " + "; ".join(row.label for row in rows) + "."
    return sheet(key, 340, floor + (48 if ticks else 32), title=title, desc=desc, marks=marks)


def _span(rows: Sequence[TimeRow], now_s: float | None) -> tuple[float, float]:
    moments = [moment for row in rows for bar in row.bars for moment in (bar.start_s, bar.end_s)]
    moments += [now_s] if now_s is not None else []
    first, last = (min(moments), max(moments)) if moments else (0.0, 1.0)
    return first, last if last > first else first + 1.0


def _x(at_s: float, first: float, last: float) -> float:
    return LEFT + (at_s - first) / (last - first) * (RIGHT - LEFT)


def _row(row: TimeRow, top: float, first: float, last: float) -> list[str]:
    marks = [words(0, top + 16, row.label, drawn="dim big")]
    for bar in row.bars:
        left, right = _x(bar.start_s, first, last), _x(bar.end_s, first, last)
        corners = [(left, top), (right, top), (right, top + HIGH), (left, top + HIGH)]
        marks.append(line(corners, FILLS[bar.kind], closed=True, name=f"{row.label} {bar.kind}"))
    return marks
