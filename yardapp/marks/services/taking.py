"""A reading by a table taken as evidence: by one tap, naming the table and its version."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.marks.models import Mark, Taken
from yardapp.marks.services.marks import record_mark
from yardapp.marks.services.reading import FIGURE_OF, becomes_evidence, measured_of, which
from yardapp.marks.services.shelf import shelf_now
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.stamps.tables import MarkRefused, Reading, read


def take_reading(session: Session, who: Who, tag: str, seen: str, chosen: str, *, spot: str = "") -> Taken:
    """Take one reading of a mark as evidence of basis *decoded*; a mark that was not kept yet is kept first.

    A mark has one reading: what was taken from it before is replaced, and stays in the history.

    Raises
    ------
    NotFound
        No propeller carries the tag, or this person may not know of it.
    NotAllowed
        Only yard hands and the office record; an owner may, on what they propose.
    Refused
        No table in use reads it so any more.
    """
    item = gear.item_by_tag(session, who, tag, kind="propeller", for_change=True)
    if not (item.is_proposed and item.logged_by == who.person_id):
        who.must("record")
    seen = " ".join(seen.split())
    reading = _reading(session, item, seen, chosen)
    mark = session.scalar(
        select(Mark).where(Mark.item_id == item.id, Mark.seen == seen).order_by(Mark.id.desc()).limit(1)
    ) or record_mark(session, who, item, seen, spot=spot)
    earlier = _earlier(session, who, item, mark)
    taken = _kept(session, who, mark, reading)
    _in_place(session, who, item, _said(reading, mark), earlier)
    people.note(session, who, "took a reading", "item", item.id, mark=mark.seen, read_as=reading.mark)
    return taken


def _reading(session: Session, item: gear.Item, seen: str, chosen: str) -> Reading:
    try:
        found = read(seen, shelf_now(session), measured_of(item)).found
    except MarkRefused as refusal:
        raise Refused(refusal.said, "stamp") from None
    reading = next((one for one in found if which(one) == chosen), None)
    if reading is None:
        raise Refused("The tables have changed since this page was opened: look at the readings again.", "stamp")
    return reading


def _kept(session: Session, who: Who, mark: Mark, reading: Reading) -> Taken:
    assert isinstance(reading.key, int)
    taken = Taken(
        mark_id=mark.id,
        version_id=reading.key,
        mark=reading.mark[:120],
        figures=dict(reading.figures),
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(taken)
    session.flush()
    return taken


def _earlier(session: Session, who: Who, item: gear.Item, mark: Mark) -> dict[str, int]:
    """What an earlier reading of this mark still says, by figure: the statement's number."""
    taken = select(Mark.id).join(Taken, Taken.mark_id == Mark.id).where(Mark.item_id == item.id, Mark.seen == mark.seen)
    marks = set(session.scalars(taken))
    if not marks:
        return {}
    return {
        line.kind: line.id
        for line in reversed(gear.item_page(session, who, item.tag).evidence)
        if line.basis == "decoded" and line.source == "mark" and line.source_id in marks
        if not line.is_replaced and not (line.value is None and line.word is None)
    }


def _in_place(session: Session, who: Who, item: gear.Item, said: list[gear.Said], earlier: dict[str, int]) -> None:
    """Keep what it says, in the place of what an earlier reading said; what only that one told is withdrawn."""
    new = {one.what: one for one in said}
    gear.add_evidence(session, who, item, *(one for what, one in new.items() if what not in earlier))
    for what, number in earlier.items():
        gear.correct_evidence(session, who, number, new.get(what), why="its mark was read anew")


def _said(reading: Reading, mark: Mark) -> list[gear.Said]:
    """What the reading says, by the register's names; series, years and serials stay in the reading."""
    note = f"{reading.table.name}, version {reading.table.version}, read as {reading.mark}"
    return [
        gear.Said(
            what=FIGURE_OF[name],
            basis="decoded",
            value=None if isinstance(value, str) or value is None else float(value),
            u_value=reading.u.get(name) if name.endswith("_m") or name == "area_ratio" else None,
            word=value if isinstance(value, str) else None,
            typed=mark.seen,
            source="mark",
            source_id=mark.id,
            note=note,
        )
        for name, value in reading.figures.items()
        if becomes_evidence(name, value)
    ]
