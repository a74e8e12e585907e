"""Marks that tell one propeller from all others: serial numbers, and on what else they were seen."""

import re
from collections.abc import Iterable

from sqlalchemy import ColumnElement, Select, select
from sqlalchemy.orm import InstrumentedAttribute

from yardapp.marks.models import Mark
from yardapp.stamps import decode

AT_MOST = 6
# Four or more characters with three figures among them, and no size that others bear too.
_NUMBERED = re.compile(r"(?=(?:[^0-9]*[0-9]){3})[A-Z0-9][A-Z0-9/-]{3,}")


def serials_in(text: str) -> list[str]:
    """The words of a mark that may be a serial number; sizes are none, nor is what could not be read in full."""
    words = re.split(r"[\s,;]+", text.upper())
    return [word for word in words if _NUMBERED.fullmatch(word) and not _is_size(word)]


def _is_size(word: str) -> bool:
    reading = decode(word)
    return reading.diameter_m is not None or reading.pitch_m is not None or (word.isdigit() and len(word) < 5)


def serials_among(marks: Iterable[str]) -> list[str]:
    """The serial numbers within what was seen on one thing."""
    return list(dict.fromkeys(serial for mark in marks for serial in serials_in(mark)))[:AT_MOST]


def seen_on(item_id: InstrumentedAttribute[int]) -> tuple[type[Mark], ColumnElement[bool]]:
    """What to join to a query over things, and on what, so that each mark on a thing is a row; `seen` is its text."""
    return Mark, Mark.item_id == item_id


def bearing(serials: Iterable[str]) -> Select[int]:
    """The numbers of the things on which one of these was seen as a mark of its own."""
    return select(Mark.item_id).where(Mark.seen.in_([*serials]))
