"""A reading by a table taken as evidence: by one tap, naming the table and its version."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.marks.models import Mark, Taken
from yardapp.marks.services.marks import record_mark
from yardapp.marks.services.reading import FIGURE_OF, measured_of, which
from yardapp.marks.services.shelf import shelf_now
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.stamps.tables import MarkRefused, Reading, read


def take_reading(session: Session, who: Who, tag: str, seen: str, chosen: str, *, spot: str = "") -> Taken:
    """Take one reading of a mark as evidence of basis *decoded*; a mark that was not kept yet is kept first.

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
    taken = _kept(session, who, mark, reading)
    gear.add_evidence(session, who, item, *_said(reading, mark))
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


def _said(reading: Reading, mark: Mark) -> list[gear.Said]:
    """What the reading says, by the register's names; years, serials and materials stay in the reading."""
    note = f"{reading.table.name}, version {reading.table.version}, read as {reading.mark}"
    said = []
    for name, value in reading.figures.items():
        what = FIGURE_OF.get(name)
        if what is None or value is None:
            continue
        number = None if isinstance(value, str) else float(value)
        said.append(
            gear.Said(
                what=what,
                basis="decoded",
                value=number,
                u_value=reading.u.get(name) if name.endswith("_m") or name == "area_ratio" else None,
                word=value if isinstance(value, str) else None,
                typed=mark.seen,
                source="mark",
                source_id=mark.id,
                note=note,
            )
        )
    return said
