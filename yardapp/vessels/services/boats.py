"""Boats: log them, rename them, sell them on, find them again under any name they bore."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import ColumnElement, Select, func, select
from sqlalchemy.orm import Session

from yardapp.db import now, words_like
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.vessels.models import Drive, Happening, Vessel, VesselName

PAGE = 50


@dataclass(frozen=True, kw_only=True)
class VesselRow:
    """One boat as a list shows it."""

    id: int
    name: str
    kind: str
    owner: str


@dataclass(frozen=True, kw_only=True)
class VesselPage:
    """Everything that a boat's own page shows of her, apart from the gear aboard."""

    vessel: Vessel
    drives: Sequence[Drive]
    names: Sequence[VesselName]
    happenings: Sequence[Happening]


def drives_of_owner(who: Who) -> Select[int]:
    """The numbers of the drives on this person's own boats, as a query to build on."""
    return select(Drive.id).join(Vessel, Vessel.id == Drive.vessel_id).where(Vessel.owner_id == who.person_id)


def may_see_vessel(who: Who) -> ColumnElement[bool]:
    """The clause that keeps an owner to their own boats."""
    return Vessel.id > 0 if who.may("see") else Vessel.owner_id == who.person_id


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
        Only yard hands and the office enter boats.
    Refused
        She has no name.
    """
    who.must("record")
    vessel = Vessel(
        name=_named(name),
        kind=kind.strip()[:40],
        owner=owner.strip()[:80],
        owner_id=owner_id,
        length_m=length_m,
        length_m_typed=length_m_typed,
        block_ratio=block_ratio,
        note=note.strip(),
        logged=now(),
    )
    session.add(vessel)
    session.flush()  # her name and her history name her number
    session.add(VesselName(vessel_id=vessel.id, name=vessel.name))
    _happened(session, who, vessel, "logged")
    _reword(session, vessel)
    people.note(session, who, "logged", "vessel", vessel.id, name=vessel.name)
    return vessel


def _named(name: str) -> str:
    name = " ".join(name.split())
    if not name:
        raise Refused("What is she called? “Unnamed, blue hull” will do.", "name")
    return name[:80]


def _happened(session: Session, who: Who, vessel: Vessel, kind: str, **before: object) -> None:
    session.add(
        Happening(
            vessel_id=vessel.id, kind=kind, at=now(), person_id=who.person_id, said_by=who.name, before=before
        )
    )
    session.flush()


def _reword(session: Session, vessel: Vessel) -> None:
    """What the search reads of a boat: every name and owner she has had."""
    names = session.scalars(select(VesselName.name).where(VesselName.vessel_id == vessel.id))
    befores = session.scalars(select(Happening.before).where(Happening.vessel_id == vessel.id))
    owners = [before["owner"] for before in befores if before.get("owner")]
    vessel.words = " ".join(dict.fromkeys([vessel.name, *names, vessel.owner, *owners, vessel.kind])).strip()


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

    A word left out (None) stays as it is; `length_m` and `block_ratio` change only with `length_m_typed`.

    Raises
    ------
    NotFound
        There is no such boat.
    Superseded
        Somebody saved her record since `version`.
    """
    who.must("change")
    vessel = _vessel(session, who, vessel_id, for_change=True)
    wanted = {"name": name, "kind": kind, "owner": owner, "note": note, "length_m_typed": length_m_typed}
    if vessel.version != version:
        raise Superseded(vessel.version, _as_typed(vessel), _last_hand(session, vessel))
    if name is not None and _named(name) != vessel.name:
        _rename(session, who, vessel, _named(name))
    if owner is not None and owner.strip() != vessel.owner:
        _happened(session, who, vessel, "changed hands", owner=vessel.owner, owner_id=vessel.owner_id)
        vessel.owner, vessel.owner_id = owner.strip()[:80], owner_id
    elif owner is not None:
        vessel.owner_id = owner_id
    for what in ("kind", "note"):
        if wanted[what] is not None:
            setattr(vessel, what, str(wanted[what]).strip())
    if length_m_typed is not None:
        vessel.length_m, vessel.length_m_typed, vessel.block_ratio = length_m, length_m_typed, block_ratio
    vessel.version += 1
    _reword(session, vessel)
    people.note(session, who, "changed", "vessel", vessel.id)
    return vessel


def _rename(session: Session, who: Who, vessel: Vessel, name: str) -> None:
    current = session.scalars(
        select(VesselName).where(VesselName.vessel_id == vessel.id, VesselName.until.is_(None))
    ).first()
    if current is not None:
        current.until = date.today()
    _happened(session, who, vessel, "renamed", name=vessel.name)
    vessel.name = name
    session.add(VesselName(vessel_id=vessel.id, name=name))
    session.flush()


def _as_typed(vessel: Vessel) -> dict[str, str]:
    return {
        "name": vessel.name,
        "kind": vessel.kind,
        "owner": vessel.owner,
        "length_m": vessel.length_m_typed,
        "note": vessel.note,
    }


def _last_hand(session: Session, vessel: Vessel) -> str:
    trail = people.audit_of(session, "vessel", vessel.id, limit=1)
    return trail[0].name if trail else "Somebody"


def _vessel(session: Session, who: Who, vessel_id: int, *, for_change: bool = False) -> Vessel:
    chosen = select(Vessel).where(Vessel.id == vessel_id, may_see_vessel(who))
    vessel = session.scalar(chosen.with_for_update() if for_change else chosen)
    if vessel is None:
        raise NotFound("There is no such boat here.")
    return vessel


def vessel_page(session: Session, who: Who, vessel_id: int) -> VesselPage:
    """All that her own page shows.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    vessel = _vessel(session, who, vessel_id)
    drives = session.scalars(select(Drive).where(Drive.vessel_id == vessel_id).order_by(Drive.position, Drive.id))
    names = session.scalars(select(VesselName).where(VesselName.vessel_id == vessel_id).order_by(VesselName.id))
    happened = session.scalars(
        select(Happening).where(Happening.vessel_id == vessel_id).order_by(Happening.id.desc()).limit(200)
    )
    return VesselPage(vessel=vessel, drives=drives.all(), names=names.all(), happenings=happened.all())


def boats(session: Session, who: Who, *, text: str = "", after: str = "", limit: int = PAGE) -> list[VesselRow]:
    """Boats by name, from the one after `after`, `limit` at a time."""
    chosen = select(Vessel.id, Vessel.name, Vessel.kind, Vessel.owner).where(may_see_vessel(who))
    if text:
        chosen = chosen.where(words_like(session, "vessels", Vessel, text))
    rows = session.execute(chosen.where(Vessel.name > after).order_by(Vessel.name, Vessel.id).limit(limit))
    return [VesselRow(id=row.id, name=row.name, kind=row.kind, owner=row.owner) for row in rows]


def search_vessels(session: Session, who: Who, words: Sequence[str], limit: int = 8) -> list[VesselRow]:
    """Boats any of whose names or owners hold every word; names that begin so come first."""
    if not words:
        return []
    chosen = select(Vessel.id, Vessel.name, Vessel.kind, Vessel.owner).where(may_see_vessel(who))
    for word in words:
        chosen = chosen.where(words_like(session, "vessels", Vessel, word))
    first = func.lower(Vessel.name).like(f"{words[0].lower()}%").desc()
    rows = session.execute(chosen.order_by(first, Vessel.name).limit(limit))
    return [VesselRow(id=row.id, name=row.name, kind=row.kind, owner=row.owner) for row in rows]
