"""Boats: log them, rename them, sell them on. Every name and owner stays findable."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from sqlalchemy import ColumnElement, Select, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Happening, Vessel, VesselName
from yardapp.vessels.sizes import is_same, plain

LONGEST = {"kind": 40, "owner": 80, "length_m_typed": 40}
# What a change of each column is called in her history; the rest is a change of her record.
CALLED = {"name": "renamed", "owner": "changed hands", "owner_id": "account"}


def drives_of_owner(who: Who) -> Select[int]:
    """The numbers of the drives on this person's own boats, as a query to build on."""
    return select(Drive.id).join(Vessel, Vessel.id == Drive.vessel_id).where(Vessel.owner_id == who.person_id)


def may_see_vessel(who: Who) -> ColumnElement[bool]:
    """The clause that keeps an owner to their own boats."""
    return Vessel.id > 0 if who.may("see") else Vessel.owner_id == who.person_id


def vessel_by_id(session: Session, who: Who, vessel_id: int, *, for_change: bool = False) -> Vessel:
    """The boat of that number.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    chosen = select(Vessel).where(Vessel.id == vessel_id, may_see_vessel(who))
    vessel = session.scalar(chosen.with_for_update() if for_change else chosen)
    if vessel is None:
        raise NotFound("There is no such boat here.")
    return vessel


def log_vessel(
    session: Session,
    who: Who,
    *,
    name: str,
    kind: str = "",
    owner: str = "",
    owner_id: int | None = None,
    length_m: float | None = None,
    length_m_typed: str = "",
    block_ratio: float | None = None,
    note: str = "",
) -> Vessel:
    """Enter a boat once.

    Raises
    ------
    NotAllowed
        Only yard hands and the office enter boats; only the office links an account.
    Refused
        She has no name, or the account is no owner's.
    """
    who.must("record")
    vessel = Vessel(
        name=_named(name),
        kind=_short("kind", kind),
        owner=_short("owner", owner),
        owner_id=_account(session, who, owner_id),
        length_m=length_m,
        length_m_typed=_short("length_m_typed", length_m_typed),
        block_ratio=block_ratio,
        note=note.strip(),
        logged=now(),
    )
    session.add(vessel)
    session.flush()  # her name and her history name her number
    session.add(VesselName(vessel_id=vessel.id, name=vessel.name))
    happened(session, who, vessel.id, "logged")
    _reword(session, vessel)
    people.note(session, who, "logged", "vessel", vessel.id, name=vessel.name)
    return vessel


def _named(name: str) -> str:
    name = " ".join(name.split())
    if not name:
        raise Refused("What is she called? “Unnamed, blue hull” will do.", "name")
    return name[:80]


def _short(what: str, text: str) -> str:
    return " ".join(text.split())[: LONGEST[what]]


def _account(session: Session, who: Who, owner_id: int | None) -> int | None:
    """The account that is to open her: nobody's, or an owner's."""
    if not owner_id:
        return None
    who.must("people")
    person = people.person_by_id(session, owner_id)
    if person.role != "owner":
        raise Refused(f"{person.name} is {person.role} here, not an owner. Choose an owner.", "owner_id")
    return owner_id


def happened(
    session: Session,
    who: Who,
    vessel_id: int | None,
    kind: str,
    *,
    drive_id: int | None = None,
    note: str = "",
    before: Mapping[str, Any] | None = None,
) -> None:
    """Write one line of history, of a boat, a drive or both."""
    line = Happening(vessel_id=vessel_id, drive_id=drive_id, kind=kind, at=now(), note=note[:300])
    line.person_id, line.said_by, line.before = who.person_id, who.name, dict(before or {})
    session.add(line)
    session.flush()  # `_reword` reads the history back


def _reword(session: Session, vessel: Vessel) -> None:
    """What the search reads of a boat: every name and owner she has had."""
    names = session.scalars(select(VesselName.name).where(VesselName.vessel_id == vessel.id))
    befores = session.scalars(select(Happening.before).where(Happening.vessel_id == vessel.id))
    owners = [before["owner"] for before in befores if before.get("owner")]
    words = [vessel.name, *names, vessel.owner, *owners, vessel.kind]
    vessel.words = " ".join(dict.fromkeys(word for word in words if word))


def change_vessel(
    session: Session,
    who: Who,
    vessel_id: int,
    version: int,
    *,
    name: str | None = None,
    kind: str | None = None,
    owner: str | None = None,
    owner_id: int | None = None,
    length_m: float | None = None,
    length_m_typed: str | None = None,
    block_ratio: float | None = None,
    note: str | None = None,
) -> Vessel:
    """Change her record: a new name or owner is an event, and the old ones are still found.

    A word left out (None) stays as it is; `length_m` and `block_ratio` change only with `length_m_typed`; `owner_id` 0
    is nobody's account. Where she changes hands and no account is said, the old owner's opens her no more.

    Raises
    ------
    NotFound
        There is no such boat.
    Superseded
        Somebody saved her record since `version`, and it is not what is wanted here.
    Refused
        She has no name, the account is no owner's, or it is still the old owner's.
    """
    who.must("change")
    vessel = vessel_by_id(session, who, vessel_id, for_change=True)
    wanted = _words(name=name, kind=kind, owner=owner, note=note)
    if length_m_typed is not None and not is_same(length_m, vessel.length_m):
        wanted |= {"length_m": length_m, "length_m_typed": _short("length_m_typed", length_m_typed)}
    if length_m_typed is not None and not is_same(block_ratio, vessel.block_ratio):
        wanted["block_ratio"] = block_ratio
    before = _stood_before(vessel, wanted)
    if owner_id is not None and (owner_id or None) != vessel.owner_id:
        wanted["owner_id"] = _account(session, who, owner_id)
    elif "owner" in before:
        wanted["owner_id"] = _kept_account(session, vessel, wanted["owner"], is_said=owner_id is not None)
    _write(session, who, vessel, version, wanted)
    people.note(session, who, "changed", "vessel", vessel.id, what=sorted(before))
    return vessel


def _words(**said: str | None) -> dict[str, Any]:
    """The words that were said, each as its column keeps it."""
    kept: dict[str, Callable[[str], str]] = {"name": _named, "note": str.strip}
    heard = {what: text for what, text in said.items() if text is not None}
    return {what: kept[what](text) if what in kept else _short(what, text) for what, text in heard.items()}


def _stood_before(vessel: Vessel, wanted: Mapping[str, Any]) -> dict[str, Any]:
    return {what: getattr(vessel, what) for what, value in wanted.items() if getattr(vessel, what) != value}


def _kept_account(session: Session, vessel: Vessel, owner: str, *, is_said: bool) -> int | None:
    """She changes hands: an account stays only where somebody chose it and it is not the old owner's by name."""
    if not is_said or vessel.owner_id is None:
        return None
    account = people.person_by_id(session, vessel.owner_id)
    if account.name.casefold() == vessel.owner.casefold() != owner.casefold():
        raise Refused(f"That account is {account.name}'s. Choose the new owner's, or nobody.", "owner_id")
    return vessel.owner_id


def _write(session: Session, who: Who, vessel: Vessel, version: int, wanted: Mapping[str, Any]) -> None:
    before = _stood_before(vessel, wanted)
    if vessel.version != version and before:
        raise Superseded(vessel.version, _as_typed(vessel), _last_hand(session, vessel))
    if "name" in before:
        _rename(session, vessel, wanted["name"])
    for what, value in wanted.items():
        setattr(vessel, what, value)
    vessel.version += 1
    for kind, lines in _by_kind(before).items():
        happened(session, who, vessel.id, kind, before=lines)
    _reword(session, vessel)


def _by_kind(before: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """What stood before, gathered under what each change is called."""
    kinds: dict[str, dict[str, Any]] = {}
    for what, value in before.items():
        is_sold = what == "owner_id" and "owner" in before
        kinds.setdefault("changed hands" if is_sold else CALLED.get(what, "changed"), {})[what] = value
    return kinds


def _rename(session: Session, vessel: Vessel, name: str) -> None:
    borne = select(VesselName).where(VesselName.vessel_id == vessel.id, VesselName.until.is_(None))
    for current in session.scalars(borne):
        current.until = date.today()
    session.add(VesselName(vessel_id=vessel.id, name=name))


def _as_typed(vessel: Vessel) -> dict[str, str]:
    words = {what: getattr(vessel, what) for what in ("name", "kind", "owner", "note")}
    figures = {what: plain(what, getattr(vessel, what)) for what in ("length_m", "block_ratio")}
    return words | figures | {"owner_id": str(vessel.owner_id or 0)}


def _last_hand(session: Session, vessel: Vessel) -> str:
    trail = people.audit_of(session, "vessel", vessel.id, limit=1)
    return trail[0].name if trail else "Somebody"
