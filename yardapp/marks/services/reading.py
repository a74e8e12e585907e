"""Marks read by the yard's tables, with what was measured of the propeller that bears them."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session, aliased

from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.gear.figures import WORDS
from yardapp.marks.models import Mark, Taken
from yardapp.marks.services.shelf import COUNT, NEWEST, Key, shelf_now
from yardapp.people.services import Who
from yardapp.stamps.tables import (
    MarkRefused,
    Measured,
    OnHub,
    Reading,
    Readings,
    Shelf,
    Together,
    combine,
    read,
)

# What a mark tells to the register's own name for it; series, years and serials are no figures of the register.
FIGURE_OF = {
    "diameter_m": "diameter_m",
    "pitch_m": "pitch_m",
    "bore_m": "bore_large_m",
    "area_ratio": "area_ratio",
    "hand": "hand",
    "blades": "blades",
    "material": "material",
}
U_COLUMNS = ("u_diameter_m", "u_pitch_m", "u_bore_large_m", "u_area_ratio")
WORDS_OF = ("hand", "blades", "material")  # what has no ±
Known = dict[str, Measured | str | int]
Noted = tuple[str, str]  # a mark as seen, and whether it was struck first or later
MOST_TOGETHER = 6  # marks of one hub, the newest
EMPTY = Shelf(())


@dataclass(frozen=True, kw_only=True)
class MarkRow:
    """One mark of a propeller, and what was taken from it."""

    mark: Mark
    taken: Sequence[Taken] = ()


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a mark says by the yard's tables; `together` where other marks stand on the hub, read in `others`."""

    readings: Readings
    others: Sequence[Readings] = ()
    together: Sequence[Together] = ()


@dataclass(frozen=True, kw_only=True)
class MarksPage:
    """The marks of one propeller, newest first, what was measured of it, and how one of them reads now."""

    tag: str
    marks: Sequence[MarkRow]
    measured: Known
    asked: Asked | None = None


def read_mark(session: Session, seen: str, beside: str = "", newer: str = "") -> Asked:
    """Every reading of a mark by the tables in use; with a second mark, of the two together.

    `newer` is "first" or "second" where the hub shows which was struck later.

    Raises
    ------
    Refused
        It is no mark: empty, too long, or a bracket is not closed.
    """
    newest, count = session.execute(select(NEWEST, COUNT)).one()
    struck = {"first": ("later", "first"), "second": ("first", "later")}.get(newer, ("", ""))
    others = [(beside, struck[1])] if beside.strip() else []
    return _asked(session, (newest, count), (seen, struck[0]), others, {})


def read_kindly(session: Session, seen: str, beside: str = "", newer: str = "") -> Asked:
    """As `read_mark`; what is no mark has no readings, and says why."""
    refusal = _why_no_mark(seen)
    if refusal:
        return Asked(readings=Readings(seen, (), 0, refusal=refusal))
    return read_mark(session, seen, "" if _why_no_mark(beside) else beside, newer)


def marks_page(session: Session, who: Who, tag: str, seen: str = "") -> MarksPage:
    """The marks of a propeller, and how the one asked for, else its newest, reads by the tables in use.

    Raises
    ------
    NotFound
        No propeller carries the tag, or this person may not know of it.
    """
    twin = aliased(gear.Item)
    rows = session.execute(
        select(gear.Item, Mark, Taken, NEWEST, COUNT)
        .join(twin, or_(twin.id == gear.Item.id, twin.merged_into_id == gear.Item.id))
        .outerjoin(Mark, Mark.item_id == twin.id)
        .outerjoin(Taken, Taken.mark_id == Mark.id)
        .where(gear.Item.tag == tag.strip().upper(), gear.Item.kind == "propeller", gear.seen_by(who))
        .order_by(Mark.id.desc(), Taken.id.desc())
    ).all()
    if not rows:
        raise NotFound(f"No propeller here carries the tag {tag}.")
    item, _mark, _taken, newest, count = rows[0]
    marks = _rows([(mark, taken) for _item, mark, taken, *_key in rows if mark is not None])
    measured = measured_of(item)
    return MarksPage(
        tag=item.tag, marks=marks, measured=measured, asked=_of_hub(session, (newest, count), seen, marks, measured)
    )


def _of_hub(session: Session, key: Key, seen: str, marks: Sequence[MarkRow], measured: Known) -> Asked | None:
    """The mark asked for, else the newest, with all others of the hub; of one seen twice, as it was last noted."""
    struck: dict[str, str] = {}
    for one in marks:
        struck.setdefault(one.mark.seen, one.mark.struck)
    chosen = seen or next(iter(struck), "")
    if not chosen:
        return None
    others = [(other, noted) for other, noted in struck.items() if other != chosen][: MOST_TOGETHER - 1]
    return _asked_kindly(session, key, (chosen, struck.get(chosen, "")), others, measured)


def _rows(found: list[tuple[Mark, Taken | None]]) -> list[MarkRow]:
    by_id: dict[int, tuple[Mark, list[Taken]]] = {}
    for mark, taken in found:
        by_id.setdefault(mark.id, (mark, []))[1].extend([] if taken is None else [taken])
    return [MarkRow(mark=mark, taken=taken) for mark, taken in by_id.values()]


def measured_of(item: Any) -> Known:
    """What was measured of a propeller, or of its row, as readings are held against it; ± as standard uncertainties."""
    found: Known = {}
    for name, column in FIGURE_OF.items():
        value = getattr(item, column)
        if value is not None and item.known.get(column) == "measured":
            found[name] = value if name in WORDS_OF else Measured(value, getattr(item, f"u_{column}") or 0.0)
    return found


def _asked_kindly(session: Session, key: Key, mark: Noted, others: Sequence[Noted], measured: Known) -> Asked:
    """A mark that was kept long ago may be none that tables read; then it has no readings, and says why."""
    readable = [other for other in others if not _why_no_mark(other[0])]
    refusal = _why_no_mark(mark[0])
    if refusal:
        return Asked(readings=Readings(mark[0], (), 0, refusal=refusal))
    return _asked(session, key, mark, readable, measured)


def _why_no_mark(seen: str) -> str:
    """Why a text is no mark that can be read; nothing where it is one."""
    try:
        read(seen, EMPTY)
    except MarkRefused as refusal:
        return refusal.said
    return ""


def _asked(session: Session, key: Key, mark: Noted, others: Sequence[Noted], measured: Known) -> Asked:
    shelf = shelf_now(session, key)
    try:
        marks = [OnHub(read(seen, shelf, measured), struck) for seen, struck in (mark, *others)]
    except MarkRefused as refusal:
        raise Refused(refusal.said, "stamp") from None
    found = [one.readings for one in marks]
    return Asked(readings=found[0], others=found[1:], together=combine(*marks))


def becomes_evidence(name: str, value: object) -> bool:
    """Whether the register has such a figure, and its list such a word; all else stays with the reading."""
    words = WORDS.get(FIGURE_OF.get(name, ""), ())
    return name in FIGURE_OF and value is not None and (not words or value in words)


def which(reading: Reading) -> str:
    """A short name for one reading by one version of a table, so that a tap can say which was meant."""
    told = [(one.place, one.tells, str(one.value), one.words) for one in reading.told]
    return hashlib.sha256(repr((reading.key, reading.mark, told)).encode()).hexdigest()[:16]
