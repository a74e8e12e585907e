"""Sheets in the writing: kept box by box, so that two people may fill one and neither loses a figure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import and_, select
from sqlalchemy.orm import Session

from yardapp.bench.models import HalfDone, HalfDoneBox, Sheet
from yardapp.bench.services.keeping import known_of
from yardapp.bench.sums import Known
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who

LONGEST = 300
LONGER = {"outline": 12_000}  # points, pasted
MOST_BOXES = 4000
GONE = "There is no such sheet in the writing."
DONE = "This sheet was kept already. Correct it there, or begin a new one."
DROPPED = "This sheet was dropped. Take it up again first."


@dataclass(frozen=True, kw_only=True)
class InWriting:
    """One sheet in the writing, its propeller or shaft, and what was written into its boxes.

    `corrected`: the readings of the kept sheet that it corrects; a survey opens without them.
    """

    row: HalfDone
    item: gear.Item
    known: Known
    log: Sequence[HalfDoneBox] = ()
    corrected: Mapping[str, Any] | None = None

    @property
    def typed(self) -> dict[str, str]:
        """What stands in each box."""
        return typed_at(self.log)

    @property
    def writers(self) -> list[str]:
        """Everybody who wrote on it, whose it is first."""
        return list(dict.fromkeys([self.row.said_by, *(box.said_by for box in self.log)]))


def typed_at(log: Iterable[HalfDoneBox], version: int | None = None) -> dict[str, str]:
    """What stood in each box at a version, or stands there now."""
    return {box.name: box.typed for box in log if version is None or box.number <= version}


def begin_sheet(
    session: Session,
    who: Who,
    tag: str,
    method: str,
    boxes: Mapping[str, str],
    *,
    corrects: int | None = None,
    kind: str | None = "propeller",
) -> HalfDone:
    """Begin a sheet that is kept as it is written.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        Nothing of this kind here carries the tag.
    """
    who.must("record")
    item = gear.item_by_tag(session, who, tag, kind=kind)
    moment = now()
    half = HalfDone(
        item_id=item.id,
        method=method,
        person_id=who.person_id,
        said_by=who.name,
        begun=moment,
        touched=moment,
        version=0,
        is_dropped=False,
        corrects_id=corrects,
    )
    session.add(half)
    session.flush()  # its boxes name its number
    _write(session, who, half, {name: typed for name, typed in boxes.items() if typed})
    people.note(session, who, "began a sheet", "half_done", half.id, tag=item.tag, method=method)
    return half


def in_writing(session: Session, who: Who, half_done_id: int, *, since: int = 0) -> InWriting:
    """One sheet in the writing, with everything that was written on it since a version, oldest first.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        There is no such sheet.
    """
    who.must("record")
    chosen = (
        select(HalfDone, gear.Item, Sheet.readings, HalfDoneBox)
        .join(gear.Item, gear.Item.id == HalfDone.item_id)
        .outerjoin(Sheet, and_(Sheet.id == HalfDone.corrects_id, HalfDone.method != "survey"))
        .outerjoin(HalfDoneBox, and_(HalfDoneBox.half_done_id == HalfDone.id, HalfDoneBox.number > since))
        .where(HalfDone.id == half_done_id, gear.seen_by(who))
        .order_by(HalfDoneBox.number)
    )
    rows = session.execute(chosen).all()
    if not rows:
        raise NotFound(GONE)
    half, item, corrected, _ = rows[0]
    log = [box for *_, box in rows if box is not None]
    return InWriting(row=half, item=item, known=known_of(item), log=log, corrected=corrected)


def sheets_in_writing(session: Session, who: Who, tag: str | None = None, *, limit: int = 20) -> list[InWriting]:
    """Sheets that somebody began and nobody finished, newest first, of one propeller or of all; without their boxes."""
    if not who.may("record"):
        return []
    chosen = (
        select(HalfDone, gear.Item)
        .join(gear.Item, gear.Item.id == HalfDone.item_id)
        .where(HalfDone.sheet_id.is_(None), HalfDone.is_dropped.is_(False), gear.seen_by(who))
        .order_by(HalfDone.touched.desc(), HalfDone.id.desc())
        .limit(limit)
    )
    if tag is not None:
        chosen = chosen.where(gear.Item.tag == tag.strip().upper())
    return [InWriting(row=half, item=item, known=known_of(item)) for half, item in session.execute(chosen)]


def write_boxes(
    session: Session, who: Who, half_done_id: int, boxes: Mapping[str, str], seen: int
) -> tuple[HalfDone, list[HalfDoneBox]]:
    """Write what this person changed since the version `seen`; the last writer of a box has it.

    What they left as they saw it stays as it is now, whoever wrote it since. Gives the sheet, and all that was written
    since `seen`.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        There is no such sheet.
    Refused
        It was kept or dropped meanwhile, or a text is too long.
    """
    half = _held(session, who, half_done_id)
    log = list(_log(session, half))
    before, current = typed_at(log, seen), typed_at(log)
    changed = {name: typed for name, typed in boxes.items() if typed != before.get(name, "")}
    fresh = {name: typed for name, typed in changed.items() if typed != current.get(name, "")}
    _hold_size(fresh, current)
    written = _write(session, who, half, fresh)
    return half, [box for box in (*log, *written) if box.number > seen]


def drop_sheet(session: Session, who: Who, half_done_id: int, *, is_dropped: bool = True) -> HalfDone:
    """Put a sheet in the writing aside, or take it up again; nothing that was written is lost.

    Raises
    ------
    NotAllowed
        Only yard hands and the office measure.
    NotFound
        There is no such sheet.
    Refused
        It was kept meanwhile.
    """
    half = _locked(session, who, half_done_id)
    if half.sheet_id is not None:
        raise Refused(DONE)
    half.is_dropped, half.touched = is_dropped, now()
    people.note(session, who, "dropped a sheet" if is_dropped else "took up a sheet", "half_done", half.id)
    return half


def finish_sheet(session: Session, half: HalfDone, sheet_id: int) -> None:
    """What was in the writing became this sheet."""
    half.sheet_id, half.touched = sheet_id, now()


def _locked(session: Session, who: Who, half_done_id: int) -> HalfDone:
    who.must("record")
    chosen = select(HalfDone).join(gear.Item, gear.Item.id == HalfDone.item_id)
    found = session.scalar(chosen.where(HalfDone.id == half_done_id, gear.seen_by(who)).with_for_update(of=HalfDone))
    if found is None:
        raise NotFound(GONE)
    return found


def _held(session: Session, who: Who, half_done_id: int) -> HalfDone:
    """The sheet, to be written on by nobody else meanwhile."""
    half = _locked(session, who, half_done_id)
    if half.sheet_id is not None or half.is_dropped:
        raise Refused(DONE if half.sheet_id is not None else DROPPED)
    return half


def _log(session: Session, half: HalfDone) -> Sequence[HalfDoneBox]:
    chosen = select(HalfDoneBox).where(HalfDoneBox.half_done_id == half.id).order_by(HalfDoneBox.number)
    return session.scalars(chosen).all()


def _hold_size(fresh: Mapping[str, str], current: Mapping[str, str]) -> None:
    too_long = (len(typed) > LONGER.get(name, LONGEST) or len(name) > 60 for name, typed in fresh.items())
    long = next((name for name, is_long in zip(fresh, too_long, strict=True) if is_long), None)
    if long is not None:
        raise Refused(f"At most {LONGEST} characters.", long)
    if len(set(fresh) | set(current)) > MOST_BOXES:
        raise Refused("Too many boxes for one sheet.")


def _write(session: Session, who: Who, half: HalfDone, boxes: Mapping[str, str]) -> list[HalfDoneBox]:
    if not boxes:
        return []
    moment: datetime = now()
    rows = [
        HalfDoneBox(half_done_id=half.id, number=number, name=name, typed=typed, at=moment, said_by=who.name)
        for number, (name, typed) in enumerate(boxes.items(), half.version + 1)
    ]
    session.add_all(rows)
    half.version, half.touched = half.version + len(rows), moment
    return rows
