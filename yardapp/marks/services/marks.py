"""What can be done with marks: read them, keep them as seen, and take what they say as evidence."""

from __future__ import annotations  # gear and marks call each other: names of gear are looked up when used

import math
from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.marks.models import Mark
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.stamps import PlainReading, decode

__all__ = ["PlainReading", "decode", "marks_of", "marks_of_tag", "record_mark", "record_mark_of", "statements"]

STRUCK = ("", "first", "later")  # than the other marks of its hub; "" where nobody saw


def record_mark(
    session: Session,
    who: Who,
    item: gear.Item,
    seen: str,
    *,
    spot: str = "",
    struck: str = "",
    picture: gear.Picture | None = None,
) -> Mark:
    """Keep a mark as it was seen, with what it says as evidence of basis *stamped*, and its photo.

    Raises
    ------
    NotAllowed
        Only yard hands and the office record; an owner may, on what they propose.
    Refused
        Nothing was typed, or far too much.
    """
    seen = " ".join(seen.split())
    if not seen or len(seen) > 80:
        raise Refused("A mark has 1 to 80 characters; ? for one that can't be read.", "stamp")
    if struck not in STRUCK:
        raise Refused("A mark was struck first, or later, or that is not known.", "struck")
    reading = decode(seen)
    mark = Mark(
        item_id=item.id,
        seen=seen,
        spot=spot[:40],
        struck=struck,
        photo_sha256=picture.sha256 if picture else "",
        reading=_kept(reading),
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(mark)
    session.flush()  # its statements name its number
    stamp = gear.Said(what="stamp", basis="stamped", word=seen, source="mark", source_id=mark.id, note=spot)
    gear.add_evidence(session, who, item, stamp, *statements(reading, seen, mark.id))
    if picture is not None:
        gear.attach_photo(session, who, item, picture, f"mark: {seen}")
    return mark


def _kept(reading: PlainReading) -> dict[str, object]:
    return {
        "diameter_m": reading.diameter_m,
        "pitch_m": reading.pitch_m,
        "hand": reading.hand,
        "blades": reading.blades,
        "bore_m": reading.bore_m,
        "unit": reading.unit,
        "unit_assumed": reading.unit_assumed,
        "why": reading.why,
        "possible_pitches": reading.possible_pitches,
        "unread": list(reading.unread),
        "notes": list(reading.notes),
    }


def statements(reading: PlainReading, seen: str, mark_id: int | None = None) -> list[gear.Said]:
    """What a reading says, as evidence; a stamped size is taken to be good to half of its last step."""
    sizes = {
        "diameter_m": reading.diameter_m,
        "pitch_m": reading.pitch_m,
        "bore_large_m": reading.bore_m,
    }
    said = [
        gear.Said(
            what=what, basis="stamped", value=size, u_value=_u(size), typed=seen, source="mark", source_id=mark_id
        )
        for what, size in sizes.items()
        if size is not None
    ]
    if reading.hand:
        said.append(
            gear.Said(what="hand", basis="stamped", word=reading.hand, typed=seen, source="mark", source_id=mark_id)
        )
    if reading.blades:
        blades = float(reading.blades)
        said.append(
            gear.Said(what="blades", basis="stamped", value=blades, typed=seen, source="mark", source_id=mark_id)
        )
    return said


def _u(size_m: float) -> float:
    """A stamp is rounded to a step: its standard uncertainty is step / √12 (GUM, 4.3.7, a rectangle)."""
    for step in (0.0254, 0.0127, 0.00635, 0.01, 0.005, 0.001):
        if math.isclose(size_m / step, round(size_m / step), abs_tol=1e-6):
            return step / math.sqrt(12)
    return 0.0005 / math.sqrt(12)


def marks_of(session: Session, item_id: int) -> Sequence[Mark]:
    """The marks seen on one item, under each of its tags, newest first."""
    return session.scalars(
        select(Mark).where(gear.under_any_tag(Mark.item_id, [item_id])).order_by(Mark.id.desc())
    ).all()


def marks_of_tag(session: Session, who: Who, tag: str) -> Sequence[Mark]:
    """The marks seen on the propeller that carries `tag`, newest first.

    Raises
    ------
    NotFound
        No propeller carries it, or this person may not know of it.
    """
    return marks_of(session, gear.item_by_tag(session, who, tag, kind="propeller").id)


def record_mark_of(
    session: Session,
    who: Who,
    tag: str,
    seen: str,
    *,
    spot: str = "",
    struck: str = "",
    picture: gear.Picture | None = None,
) -> Mark:
    """Keep a mark of the propeller that carries `tag`.

    Raises
    ------
    NotAllowed, NotFound, Refused
        As `record_mark` and `marks_of_tag` do.
    """
    item = gear.item_by_tag(session, who, tag, kind="propeller", for_change=True)
    mark = record_mark(session, who, item, seen, spot=spot, struck=struck, picture=picture)
    people.note(session, who, "recorded a mark", "item", item.id, seen=mark.seen)
    return mark
