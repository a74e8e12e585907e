"""Moments, releases and verdicts as a person reads them."""

from datetime import datetime

from yardapp.filters import clock, day
from yardapp.relaunch.lines import AFLOAT, FOLLOW_UP, TO_LAUNCH, TO_OWNER
from yardapp.relaunch.settling import ASK, NO, OPEN, YES

PART_TITLES = {
    TO_LAUNCH: "Before the slings",
    AFLOAT: "In the slings, afloat",
    TO_OWNER: "Under way",
    FOLLOW_UP: "Afterwards",
}
RELEASE_ACTS = {TO_LAUNCH: "Release to launch", AFLOAT: "Release afloat", TO_OWNER: "Release to her owner"}
RELEASED = {TO_LAUNCH: "released to launch", AFLOAT: "released afloat", TO_OWNER: "released to her owner"}
# The shapes of the yard's verdicts, for lines: full, hollow diamond, dotted ring, half.
SHAPES = {YES: "yes", NO: "no", ASK: "ask", OPEN: "work"}
STATES = {YES: "In order", NO: "Not in order", ASK: "Cannot tell", OPEN: "Open"}
DID = {
    "planned": "Planned",
    "answered": "Answered",
    "scanned": "Tag scanned",
    "given": "Given to somebody",
    "taken back": "Taken back",
    "released": "Released",
    "overridden": "Released by override",
    "called off": "Called off",
}


def when(moment: datetime) -> str:
    """`Sat 28 Nov 2026, 10:00`, in the yard's own time."""
    return f"{moment.astimezone():%a} {day(moment)}, {clock(moment)}"


def days_left(days: int) -> str:
    """How long until then, in whole days."""
    if days == 0:
        return "today"
    if days == 1:
        return "tomorrow"
    return f"in {days} days" if days > 0 else f"{-days} day{'s' if days < -1 else ''} ago"


def counted(number: int, noun: str) -> str:
    """`1 line`, `7 lines`."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def names(by: tuple[str, ...]) -> str:
    """`Finn Marsh and Ivy Lund`."""
    return " and ".join(by)
