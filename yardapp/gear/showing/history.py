"""What happened to a thing, as lines of a page."""

from collections.abc import Callable
from datetime import date
from typing import Any

from yardapp.filters import day
from yardapp.gear.figures import WORK
from yardapp.gear.services import ItemPage, Line
from yardapp.gear.showing.doubtful import possibly_of
from yardapp.gear.whereabouts import CAN_BE_UNDONE, MOVES, PLACE_NEEDED
from yardapp.timelines import Moment

SAID = {
    "to shop": "Went to the shop",
    "back from shop": "Came back from the shop",
    "back from loan": "Came back from the loan",
    "came back": "Came back to the yard",
    "joined set": "Came into a set",
    "left set": "Left its set",
    "chased": "Asked after",
}


def history_rows(page: ItemPage, href: Callable[[Line], str | None] = lambda _line: None) -> list[dict[str, Any]]:
    """What happened to the item, newest first; a move that was undone is struck through."""
    first = min((line.id for line in page.events), default=0)
    return [
        {
            "when": day(line.at),
            "who": line.said_by,
            "what": event_said(page, line),
            "note": "; ".join(filter(None, (line.note, line.why, _as_tag(page, line), possibly_of(page, line)))),
            "replaced": line.is_replaced,
            "href": href(line) if line.id != first and _can_be_undone(page, line) else None,
        }
        for line in page.events
    ]


def _can_be_undone(page: ItemPage, line: Line) -> bool:
    return line.kind in CAN_BE_UNDONE and not line.is_replaced and line.tag == page.item.tag


def _as_tag(page: ItemPage, line: Line) -> str:
    return f"written under {line.tag}" if line.tag and line.tag != page.item.tag else ""


def event_said(page: ItemPage, line: Line) -> str:
    """One line of history in words; of a move that was undone, which."""
    if line.kind == "undone":
        wrong = next((one for one in page.events if one.id == line.replaces_id), None)
        return f"Undone: {event_said(page, wrong)}, {day(wrong.at)}" if wrong else line_said(line)
    return line_said(line)


def line_said(line: Line | Moment) -> str:
    """One line of history in words, by itself."""
    if line.kind == "undone":
        return "A move was undone"
    if line.kind == "told apart":
        return f"Held beside {line.other}: they are two"
    if line.kind == "declined":
        return f"Declined by {line.by_whom}"
    if line.kind == "tags swapped":
        return f"Tags swapped with {line.other}; crossed perhaps since {day(line.since)}; also signed by {line.by_whom}"
    if line.kind in ("merged", "merged into"):
        return f"Found to be the same thing as {line.other}"
    if line.kind in WORK:
        return _work(line)
    return f"{_what(line)}{_put(line)}{_due(line.due_on)}"


def _work(line: Line | Moment) -> str:
    by, cost = f" by {line.by_whom}" if line.by_whom else "", f", {line.cost}" if line.cost else ""
    return f"{line.kind.capitalize()}{by}{cost}"


def _what(line: Line | Moment) -> str:
    what = SAID.get(line.kind, line.kind.capitalize())
    return f"{what} {line.drive}" if line.kind in ("came off", "went on") and line.drive else what


def _put(line: Line | Moment) -> str:
    if line.kind in ("logged", *PLACE_NEEDED) and line.place:
        return f"; put in {line.place}"
    is_said = line.kind in MOVES and line.place not in ("", line.kind)
    return f"; {line.place}" if is_said else ""


def _due(due_on: date | None) -> str:
    return f", expected back {day(due_on)}" if due_on else ""
