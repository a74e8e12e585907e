"""The data sheets of a system as they came: a PDF or a photo, attached and never taken off."""

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.models import CoatingSystem, SystemDocument
from yardapp.db import now
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who


def attach_document(session: Session, who: Who, system_id: int, paper: gear.KeptPaper) -> SystemDocument:
    """Attach a kept file to a system, at the version that is its newest.

    Raises
    ------
    NotFound
        There is no such system.
    """
    who.must("change")
    system = session.get(CoatingSystem, system_id)
    if system is None:
        raise NotFound("There is no such coating system.")
    row = SystemDocument(
        system_id=system_id,
        number=system.version,
        sha256=paper.sha256,
        kind=paper.kind,
        name=paper.name,
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(row)
    session.flush()
    people.note(session, who, "attached a data sheet", "coating system", system_id, name=paper.name)
    return row


def documents_of(session: Session, who: Who, system_id: int) -> Sequence[SystemDocument]:
    """Every data sheet of a system, newest first."""
    who.must("see")
    chosen = select(SystemDocument).where(SystemDocument.system_id == system_id).order_by(SystemDocument.id.desc())
    return session.scalars(chosen).all()


def document_by_name(session: Session, who: Who, sha256: str) -> SystemDocument:
    """The data sheet of that number.

    Raises
    ------
    NotFound
        There is none.
    """
    who.must("see")
    found = session.scalar(select(SystemDocument).where(SystemDocument.sha256 == sha256).limit(1))
    if found is None:
        raise NotFound("There is no such data sheet here.")
    return found
