"""Condition of a propeller: faults where they were seen, closed by a new row; and how it rang."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import case, func, select
from sqlalchemy.orm import Session

from yardapp.bench.faults import HEARD, KINDS, SEVERITIES, SIDES
from yardapp.bench.models import Fault, FaultClosing, Ring
from yardapp.bench.services.keeping import known_of
from yardapp.bench.sums import Known
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.gear.services.story import TOLD
from yardapp.people import services as people
from yardapp.people.services import Who

WORST_FIRST = {severity: place for place, severity in enumerate(SEVERITIES)}
MOST_LISTED = 200


@dataclass(frozen=True, kw_only=True)
class FaultSaid:
    """A fault as it was seen: what, how bad, and where."""

    kind: str
    severity: str
    side: str
    blade: int | None = None
    radius_ratio: float | None = None
    size_m: float | None = None
    size_m_typed: str = ""
    note: str = ""
    reopens_id: int | None = None


@dataclass(frozen=True, kw_only=True)
class FaultRow:
    """One fault, and how it was closed."""

    fault: Fault
    closing: FaultClosing | None
    tag: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it still stands."""
        return self.closing is None


@dataclass(frozen=True, kw_only=True)
class Condition:
    """A propeller with every fault that was ever marked on it, and every ring test, newest first."""

    item: gear.Item
    known: Known
    faults: Sequence[FaultRow] = ()
    rings: Sequence[Ring] = ()

    @property
    def open(self) -> list[FaultRow]:
        """What still stands, worst first."""
        standing = [row for row in self.faults if row.is_open]
        return sorted(standing, key=lambda row: (WORST_FIRST[row.fault.severity], row.fault.number))

    @property
    def closed(self) -> list[FaultRow]:
        """What was put right, newest first."""
        return [row for row in self.faults if not row.is_open]


def condition_of(session: Session, who: Who, tag: str) -> Condition:
    """A propeller's condition.

    Raises
    ------
    NotFound
        No propeller here carries the tag.
    """
    found = session.execute(
        select(gear.Item, Fault, FaultClosing)
        .outerjoin(Fault, Fault.item_id == gear.Item.id)
        .outerjoin(FaultClosing, FaultClosing.fault_id == Fault.id)
        .where(gear.Item.tag == tag.strip().upper(), gear.Item.kind == "propeller", gear.seen_by(who))
        .order_by(Fault.number.desc())
    ).all()
    if not found:
        raise NotFound(f"No propeller here carries the tag {tag}.")
    item = found[0][0]
    rows = [FaultRow(fault=fault, closing=closing, tag=item.tag) for _, fault, closing in found if fault is not None]
    rings = session.scalars(select(Ring).where(Ring.item_id == item.id).order_by(Ring.id.desc())).all()
    return Condition(item=item, known=known_of(item), faults=rows, rings=rings)


def raise_fault(session: Session, who: Who, tag: str, said: FaultSaid, picture: gear.Picture | None = None) -> Fault:
    """Mark a fault on a propeller.

    Raises
    ------
    NotAllowed
        Only yard hands and the office mark faults.
    NotFound
        No propeller here carries the tag, or there is no such fault to reopen.
    Refused
        What, how bad or where makes no sense.
    """
    who.must("record")
    item = gear.item_by_tag(session, who, tag, kind="propeller", for_change=True)
    _must_make_sense(item, said)
    if said.reopens_id is not None:
        _must_be_closed(session, item, said.reopens_id)
    if picture is not None:
        gear.attach_photo(session, who, item, picture, f"fault: {KINDS[said.kind].lower()}")
    last = session.scalar(select(func.max(Fault.number)).where(Fault.item_id == item.id)) or 0
    is_on_hub = said.side == "hub"
    fault = Fault(
        item_id=item.id,
        number=last + 1,
        kind=said.kind,
        severity=said.severity,
        side=said.side,
        blade=None if is_on_hub else said.blade,
        radius_ratio=None if is_on_hub else said.radius_ratio,
        size_m=said.size_m,
        size_m_typed=said.size_m_typed[:60],
        note=said.note.strip()[:300],
        photo_sha256=picture.sha256 if picture else "",
        reopens_id=said.reopens_id,
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(fault)
    session.flush()  # the audit names its number
    people.note(session, who, "marked a fault", "fault", fault.id, tag=item.tag, kind=said.kind)
    return fault


def _must_make_sense(item: gear.Item, said: FaultSaid) -> None:
    for box, word, known in (("kind", said.kind, KINDS), ("severity", said.severity, SEVERITIES)):
        if word not in known:
            raise Refused(f"One of: {', '.join(known)}.", box)
    if said.side not in SIDES:
        raise Refused("On which side: the face looks aft, the back forward; or on the hub?", "side")
    if said.side == "hub":
        return
    if said.blade is None:
        raise Refused("On which blade? Count from the keyway.", "blade")
    if not 1 <= said.blade <= (item.blades or 7):
        raise Refused(f"There is no blade {said.blade}.", "blade")
    if said.radius_ratio is None or not 0 < said.radius_ratio <= 1:
        raise Refused("How far out? Tap the picture, or choose.", "radius_ratio")


def _must_be_closed(session: Session, item: gear.Item, fault_id: int) -> None:
    old = session.scalar(select(Fault.id).where(Fault.id == fault_id, Fault.item_id == item.id))
    if old is None:
        raise NotFound("There is no such fault here.")
    if session.scalar(select(FaultClosing.id).where(FaultClosing.fault_id == fault_id)) is None:
        raise Refused("That fault is still open.", "kind")


def fault_by_id(session: Session, who: Who, fault_id: int) -> FaultRow:
    """One fault.

    Raises
    ------
    NotFound
        There is no such fault, or this person may not know of it.
    """
    found = session.execute(
        select(Fault, FaultClosing, gear.Item.tag)
        .join(gear.Item, gear.Item.id == Fault.item_id)
        .outerjoin(FaultClosing, FaultClosing.fault_id == Fault.id)
        .where(Fault.id == fault_id, gear.seen_by(who))
    ).first()
    if found is None:
        raise NotFound("There is no such fault here.")
    fault, closing, tag = found
    return FaultRow(fault=fault, closing=closing, tag=tag)


def close_fault(session: Session, who: Who, fault_id: int, how: str) -> FaultClosing:
    """Say how a fault was put right, or why it no longer counts.

    Raises
    ------
    NotAllowed
        Only yard hands and the office close faults.
    NotFound
        There is no such fault.
    Refused
        It does not say how, or the fault is closed already.
    """
    who.must("record")
    row = fault_by_id(session, who, fault_id)
    gear.item_by_tag(session, who, row.tag, for_change=True)  # two who close it at once come one after the other
    if session.scalar(select(FaultClosing.id).where(FaultClosing.fault_id == fault_id)) is not None:
        raise Refused("That fault is closed already.", "how")
    if not how.strip():
        raise Refused("Say how it was put right, or why it no longer counts.", "how")
    closing = FaultClosing(
        fault_id=fault_id, how=how.strip()[:300], at=now(), person_id=who.person_id, said_by=who.name
    )
    session.add(closing)
    session.flush()  # a second closing must fail here
    people.note(session, who, "closed a fault", "fault", fault_id, tag=row.tag)
    return closing


def note_ring(session: Session, who: Who, tag: str, heard: str, blade: int | None = None, note: str = "") -> Ring:
    """Note how a propeller rang when it was tapped.

    Raises
    ------
    NotAllowed
        Only yard hands and the office note it.
    NotFound
        No propeller here carries the tag.
    Refused
        It says neither that it rang nor that it did not, or there is no such blade.
    """
    who.must("record")
    item = gear.item_by_tag(session, who, tag, kind="propeller", for_change=True)
    if heard not in HEARD:
        raise Refused("Did it ring clear, or was it a dull thud?", "heard")
    if blade is not None and not 1 <= blade <= (item.blades or 7):
        raise Refused(f"There is no blade {blade}.", "ring_blade")
    ring = Ring(
        item_id=item.id,
        heard=heard,
        blade=blade,
        note=note.strip()[:300],
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(ring)
    session.flush()  # the audit names its number
    people.note(session, who, "noted a ring test", "ring", ring.id, tag=item.tag, heard=heard)
    return ring


def _standing(column: Any) -> Any:
    """A column over the faults that still stand on a thing, as its own page asks for it."""
    closed = select(FaultClosing.id).where(FaultClosing.fault_id == Fault.id).exists()
    chosen = select(column).where(Fault.item_id == gear.Item.id, ~closed)
    return chosen.correlate(gear.Item).scalar_subquery()


# Worst first, as a number: a page of the register reads both figures with the thing itself.
TOLD["open_faults"] = lambda: _standing(func.count(Fault.id))
TOLD["worst_fault"] = lambda: _standing(func.min(case(WORST_FIRST, value=Fault.severity)))


def still_open(session: Session, who: Who, *, tag: str | None = None) -> list[FaultRow]:
    """Every fault that still stands on what this person may see, worst first; of one thing when a tag is given."""
    chosen = (
        select(Fault, gear.Item.tag)
        .join(gear.Item, gear.Item.id == Fault.item_id)
        .outerjoin(FaultClosing, FaultClosing.fault_id == Fault.id)
        .where(FaultClosing.id.is_(None), gear.seen_by(who))
        .order_by(Fault.id.desc())
        .limit(MOST_LISTED)
    )
    if tag is not None:
        chosen = chosen.where(gear.Item.tag == tag.strip().upper())
    rows = [FaultRow(fault=fault, closing=None, tag=its_tag) for fault, its_tag in session.execute(chosen)]
    return sorted(rows, key=lambda row: WORST_FIRST[row.fault.severity])
