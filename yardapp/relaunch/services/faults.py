"""Raise a fault on a thing, a drive or a boat; say who decides; accept it until a day; close it by work."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.bench import services as bench
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.relaunch.models import FaultAct, YardFault
from yardapp.relaunch.services.allowed import must_be_office
from yardapp.relaunch.services.fault_rows import SEVERITIES, FaultNow, fault_rows, today
from yardapp.vessels import services as vessels

FOUND = {"haul-out": "At haul-out", "sheet": "On a sheet", "looking": "By looking", "trial": "Under way"}


@dataclass(frozen=True, kw_only=True)
class FaultSaid:
    """A fault as it was found: on which one thing, where on it, how bad, and what shows it."""

    severity: str
    what: str
    tag: str = ""
    drive_id: int | None = None
    vessel_id: int | None = None
    place: str = ""
    evidence: str = ""
    found: str = "looking"
    decides: str = ""


def raise_fault(session: Session, who: Who, said: FaultSaid, picture: gear.Picture | None = None) -> YardFault:
    """Write down a fault of a tagged thing, a drive or a boat.

    Raises
    ------
    NotAllowed
        Only yard hands and the office write faults down.
    NotFound
        There is no such thing, drive or boat.
    Refused
        It says not what is wrong, how bad, or on what; or on more than one thing.
    """
    who.must("record")
    _must_make_sense(said)
    item = gear.item_by_tag(session, who, said.tag) if said.tag.strip() else None
    if said.drive_id is not None:
        vessels.drive_by_id(session, who, said.drive_id)
    if said.vessel_id is not None:
        vessels.vessel_by_id(session, who, said.vessel_id)
    fault = YardFault(
        item_id=item.id if item else None,
        drive_id=said.drive_id,
        vessel_id=said.vessel_id,
        severity=said.severity,
        what=_line(said.what, 120),
        place=_line(said.place, 120),
        evidence=_line(said.evidence),
        found=said.found,
        photo_sha256=picture.sha256 if picture else "",
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(fault)
    session.flush()  # what is decided of it names its number
    if item is not None and picture is not None:
        gear.attach_photo(session, who, item, picture, f"fault: {fault.what}")
    people.note(session, who, "raised a fault", "yard fault", fault.id, severity=said.severity, what=fault.what)
    if said.decides.strip():
        _decided(session, who, f"y{fault.id}", "decides", name=said.decides)
    return fault


def _must_make_sense(said: FaultSaid) -> None:
    if not said.what.strip():
        raise Refused("What is wrong? A few words.", "what")
    if said.severity not in SEVERITIES:
        raise Refused(f"One of: {', '.join(SEVERITIES)}.", "severity")
    if said.found not in FOUND:
        raise Refused(f"Found how? One of: {', '.join(FOUND)}.", "found")
    on = [bool(said.tag.strip()), said.drive_id is not None, said.vessel_id is not None]
    if sum(on) != 1:
        raise Refused("On what is it: one tagged thing, one drive, or one boat?", "tag")


def _line(text: str, longest: int = 300) -> str:
    return " ".join(text.split())[:longest]


def fault_by_key(session: Session, who: Who, key: str) -> FaultNow:
    """One fault, of the room's own or of the bench's.

    Raises
    ------
    NotFound
        There is no such fault, or this person may not know of it.
    """
    found = fault_rows(session, who, key=key)
    if not found:
        raise NotFound("There is no such fault here.")
    return found[0]


def faults(
    session: Session, who: Who, *, vessel_id: int | None = None, tag: str = "", with_closed: bool = False
) -> list[FaultNow]:
    """Every fault that stands in the yard, on one boat and what is on her, or on one thing; worst first."""
    on = None if vessel_id is None else [vessel_id]
    return fault_rows(session, who, vessel_ids=on, tag=tag, with_closed=with_closed)


def _against_merging(session: Session, who: Who, tag: str) -> str:
    """A fault hangs on a tag, and keeps a boat ashore: it must not go under with it."""
    count = len(faults(session, who, tag=tag))
    some = f"{count} open fault{'s' if count > 1 else ''}"
    return f"{tag} has {some}. Mark them on the tag that is kept and close them here, first." if count else ""


gear.AGAINST.append(_against_merging)


def say_who_decides(session: Session, who: Who, key: str, name: str) -> FaultNow:
    """Name the person who decides what becomes of a fault.

    Raises
    ------
    NotAllowed
        Only yard hands and the office say so.
    NotFound
        There is no such fault.
    Refused
        Nobody was named, or the fault is closed.
    """
    who.must("record")
    _must_stand(session, who, key)
    if not name.strip():
        raise Refused("Who decides?", "name")
    _decided(session, who, key, "decides", name=name)
    return fault_by_key(session, who, key)


def accept_fault(session: Session, who: Who, key: str, *, name: str, why: str, until: date | None) -> FaultNow:
    """Let a fault stand until a day, on somebody's name; on that day it is back.

    Raises
    ------
    NotAllowed
        Only the office writes an acceptance down.
    NotFound
        There is no such fault.
    Refused
        Name, reason or day is missing, the day has come already, or the fault is closed.
    """
    must_be_office(who, "accepts a fault")
    _must_stand(session, who, key)
    if not name.strip():
        raise Refused("Who accepts it? A name.", "name")
    if not why.strip():
        raise Refused("Why may it stay as it is?", "why")
    if until is None or until <= today():
        raise Refused("On which day to come is it looked at again?", "until")
    _decided(session, who, key, "accepted", name=name, note=why, until=until)
    return fault_by_key(session, who, key)


def end_acceptance(session: Session, who: Who, key: str, why: str) -> FaultNow:
    """Accept a fault no longer: it is back at once.

    Raises
    ------
    NotAllowed
        Only the office ends an acceptance.
    NotFound
        There is no such fault.
    Refused
        It is not accepted, or no reason was given.
    """
    must_be_office(who, "ends an acceptance")
    if _must_stand(session, who, key).acceptance is None:
        raise Refused("It is not accepted.", "why")
    if not why.strip():
        raise Refused("Why no longer?", "why")
    _decided(session, who, key, "acceptance ended", note=why)
    return fault_by_key(session, who, key)


def close_fault(session: Session, who: Who, key: str, how: str) -> FaultNow:
    """Say by what work a fault was put right, or why it no longer counts.

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
    _must_stand(session, who, key, box="how")
    if not how.strip():
        raise Refused("Say how it was put right, or why it no longer counts.", "how")
    if key.startswith("b"):
        bench.close_fault(session, who, int(key[1:]), how)
    else:
        _decided(session, who, key, "closed", note=how)
    return fault_by_key(session, who, key)


def _must_stand(session: Session, who: Who, key: str, box: str = "") -> FaultNow:
    fault = fault_by_key(session, who, key)
    if key.startswith("y"):  # two who decide at once come one after the other
        session.execute(select(YardFault.id).where(YardFault.id == int(key[1:])).with_for_update())
        fault = fault_by_key(session, who, key)
    if fault.closing is not None:
        raise Refused("That fault is closed already.", box)
    return fault


def _decided(
    session: Session, who: Who, key: str, kind: str, *, name: str = "", note: str = "", until: date | None = None
) -> None:
    number = int(key[1:])
    act = FaultAct(
        fault_id=number if key.startswith("y") else None,
        bench_fault_id=number if key.startswith("b") else None,
        kind=kind,
        name=_line(name, 80),
        note=_line(note),
        until=until,
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(act)
    session.flush()  # whoever asks next must find it
    people.note(session, who, f"fault {kind}", "yard fault", number, key=key, name=act.name)
