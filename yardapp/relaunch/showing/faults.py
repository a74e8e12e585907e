"""Faults in the words of a page."""

from datetime import date
from typing import Any

from yardapp.filters import day
from yardapp.relaunch.services import FOUND, SEVERITIES, FaultNow

FLAGS = {"stop": "stop", "watch": "watch", "note": "note"}
DECIDED = {
    "decides": "Decides",
    "accepted": "Accepted",
    "acceptance ended": "Accepted no longer",
    "closed": "Closed",
}


def listed(fault: FaultNow, href: str, on: date) -> dict[str, str]:
    """A fault as one row of a list."""
    place = f", {fault.place}" if fault.place else ""
    return {
        "tag": fault.on,
        "href": href,
        "size": f"{fault.what}{place}",
        "where": "; ".join(part for part in (_aboard(fault), _standing(fault, on)) if part),
        "flag": "closed" if fault.closing else "look again" if fault.is_back(on) else FLAGS[fault.severity],
    }


def _aboard(fault: FaultNow) -> str:
    return f"on {fault.aboard}" if fault.tag and fault.aboard else "ashore" if fault.tag else ""


def _standing(fault: FaultNow, on: date) -> str:
    given, closed = fault.acceptance, fault.closing
    if closed is not None:
        return f"closed {day(closed.at)} by {closed.said_by}: {closed.note}"
    if given is not None and fault.is_accepted(on):
        return f"accepted by {given.name} until {day(given.until)}"
    return f"{fault.decides} decides" if fault.decides else f"{fault.said_by}, {day(fault.at)}"


def told(fault: FaultNow) -> list[tuple[str, str]]:
    """A fault's own block."""
    found = {"bench": "On the bench", **FOUND}.get(fault.found, fault.found)
    rows = [
        ("Fault of", fault.on),
        ("What", fault.what),
        ("How bad", SEVERITIES[fault.severity]),
        ("Found", f"{found}, {day(fault.at)}, {fault.said_by}"),
        ("Who decides", fault.decides or "nobody named"),
    ]
    if fault.tag:
        rows.append(("Now", fault.aboard or "ashore"))
    more = [("Where", fault.place), ("What shows it", fault.evidence)]
    return [*rows, *((label, said) for label, said in more if said)]


def decisions(fault: FaultNow) -> list[dict[str, Any]]:
    """What was decided of it, newest first."""
    return [
        {
            "when": day(one.at),
            "who": one.said_by,
            "what": ", ".join(part for part in (DECIDED[one.kind], one.name, _until(one.until)) if part),
            "note": one.note,
        }
        for one in reversed(fault.decisions)
    ]


def _until(until: date | None) -> str:
    return f"until {day(until)}" if until else ""
