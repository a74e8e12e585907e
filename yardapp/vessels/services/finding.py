"""Boats in a list, and found again under any name they bore."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import and_, func, or_, select
from sqlalchemy.orm import Session

from yardapp.db import words_like
from yardapp.people.services import Who
from yardapp.vessels.models import Vessel
from yardapp.vessels.services.boats import may_see_vessel

PAGE = 50


@dataclass(frozen=True, kw_only=True)
class VesselRow:
    """One boat as a list shows it."""

    id: int
    name: str
    kind: str
    owner: str


def _listed(session: Session, who: Who, words: Sequence[str]) -> Any:
    chosen = select(Vessel.id, Vessel.name, Vessel.kind, Vessel.owner).where(may_see_vessel(who))
    return chosen.where(*(words_like(session, "vessels", Vessel, word) for word in words))


def _rows(session: Session, chosen: Any) -> list[VesselRow]:
    rows = session.execute(chosen)
    return [VesselRow(id=row.id, name=row.name, kind=row.kind, owner=row.owner) for row in rows]


def boats(
    session: Session, who: Who, *, text: str = "", after: str = "", after_id: int = 0, limit: int = PAGE
) -> list[VesselRow]:
    """Boats by name, `limit` at a time, from the one after `after`; of several so named, after number `after_id`."""
    chosen, by = _listed(session, who, text.split()[:6]), func.lower(Vessel.name)
    if after:
        there = func.lower(after)
        chosen = chosen.where(or_(by > there, and_(by == there, Vessel.id > after_id)))
    return _rows(session, chosen.order_by(by, Vessel.id).limit(limit))


def search_vessels(session: Session, who: Who, words: Sequence[str], limit: int = 8) -> list[VesselRow]:
    """Boats any of whose names or owners hold every word; names that begin so come first."""
    if not words:
        return []
    first = func.lower(Vessel.name).startswith(words[0].lower(), autoescape=True).desc()
    return _rows(session, _listed(session, who, words).order_by(first, Vessel.name).limit(limit))
