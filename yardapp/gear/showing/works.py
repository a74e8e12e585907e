"""A piece of work in the words of a page: before and after side by side."""

from typing import Any

from yardapp.filters import day
from yardapp.gear.figures import FIGURES
from yardapp.gear.services import Work
from yardapp.gear.showing.figures import said_in
from yardapp.quantities import System

NOT_SAID = "not said"


def work_shown(work: Work, system: System) -> dict[str, Any]:
    """One piece of work: heading, what was said, its figures as found and as left, its papers."""
    event = work.event
    is_declined = event.kind == "declined"
    by = f" by {event.by_whom}" if event.by_whom else ""
    whats = [what for what in FIGURES if what in work.found or what in work.left]
    return {
        "heading": f"{event.kind.capitalize()}{by}",
        "when": day(event.at),
        "who": event.said_by,
        "offered": event.note if is_declined else "",
        "note": event.why if is_declined else event.note,
        "cost": event.cost,
        "rows": [
            (FIGURES[what].label, _said(work.found.get(what), system), _said(work.left.get(what), system))
            for what in whats
        ],
        "papers": list(work.papers.values()),
    }


def _said(row: Any, system: System) -> str:
    return said_in(row.what, row.value, row.u_value, row.word, system) if row is not None else NOT_SAID
