"""The board in the words of a page."""

from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Any

from yardapp.relaunch.services import BoardRow, StillOpen
from yardapp.relaunch.showing.words import RELEASED, SHAPES, counted, days_left, when

SHOWN = 6


def boat(row: BoardRow, href: str, fault_href: Callable[[str], str]) -> dict[str, Any]:
    """One boat: when, what is in the way and who has it."""
    # A fault that stops her is told by its own name; the line that it stands on would say it twice.
    lines = [one for one in row.in_the_way if not (row.stops and one.by == "faults")]
    return {
        "name": row.boat,
        "href": href,
        "when": when(row.planned),
        "left": days_left(row.days_left),
        "said": _said(row),
        "has": ", ".join(f"{who} {count}" for who, count in row.who_has_it.items()),
        "shape": "no" if row.in_the_way or row.stops else "yes",
        "lines": [_line(one) for one in lines[:SHOWN]],
        "more": max(0, len(lines) - SHOWN),
        "stops": [{"said": f"{fault.on}: {fault.what}", "href": fault_href(fault.key)} for fault in row.stops],
        "overridden": ", ".join(row.overridden),
    }


def _said(row: BoardRow) -> str:
    release = row.next_release
    if release is None:
        return f"All releases given; {counted(len(row.follow_ups), 'thing')} to look at afterwards"
    open_ = counted(len(row.open), "line")
    if not row.in_the_way and not row.stops:
        return f"Nothing in the way: may be {RELEASED[release]}" + (f"; {open_} open" if row.open else "")
    return f"Before she is {RELEASED[release]}: {len(row.in_the_way)} in the way, {open_} open"


def _line(one: StillOpen) -> dict[str, str]:
    return {"verdict": SHAPES[one.verdict], "label": one.title, "said": f"{one.has} has it"}


def due_rows(rows: Sequence[BoardRow], href: Callable[[int], str], now: datetime) -> list[dict[str, str]]:
    """What must be looked at after launches, the soonest first."""
    told = [(one, row) for row in rows for one in row.follow_ups]
    told.sort(key=lambda pair: pair[0].due or now)
    return [
        {
            "tag": row.boat,
            "href": href(row.launch_id),
            "size": one.title,
            "where": f"{one.has}; {_due(one, now)}",
            "flag": _flag(one, now),
        }
        for one, row in told
    ]


def _due(one: StillOpen, now: datetime) -> str:
    if one.due is None or one.late is None:
        return ""
    return f"from {when(one.due)}" if now < one.due else f"by {when(one.late)}"


def _flag(one: StillOpen, now: datetime) -> str:
    if one.late is not None and now > one.late:
        return "late"
    return "due" if one.due is not None and now >= one.due else ""
