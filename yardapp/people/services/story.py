"""What one person did: the audit trail as a timeline."""

from collections.abc import Callable
from typing import Any

from sqlalchemy import Integer, and_, bindparam, func
from sqlalchemy.orm import Session

from yardapp.people.models import Audit
from yardapp.people.services.accounts import person_by_id
from yardapp.people.who import Who
from yardapp.timelines import Asked, Moment, Strand, strand, woven

# How the things of other rooms are called, by the trail's word for them: a table to join, its number, and the name.
NAMED: dict[str, Callable[[], tuple[Any, Any, Any]]] = {}


def person_timeline(session: Session, who: Who, person_id: int, asked: Asked) -> tuple[str, list[Moment], str]:
    """Somebody's name, what they did, newest first, and where the next page goes on. Two queries.

    Raises
    ------
    NotFound
        There is no such person.
    NotAllowed
        The office sees what everybody did; all others, what they did themselves.
    """
    if who.person_id != person_id:
        who.must("people")
    row = person_by_id(session, person_id)
    moments, further = woven(session, _acts, (), {"person": person_id}, asked)
    return row.name, moments, further


def _acts() -> list[Strand]:
    """What somebody did, with the name of what it was done to."""
    names = {subject: make() for subject, make in NAMED.items()}
    joined = [
        (table, and_(Audit.subject == subject, number == Audit.subject_id))
        for subject, (table, number, _name) in names.items()
    ]
    acts = strand(
        "act",
        "acts",
        Audit,
        Audit.person_id == bindparam("person", type_=Integer()),
        joined=joined,
        said_by=Audit.device,
        kind=Audit.act,
        word=Audit.subject,
        tag=func.coalesce(*(name for _table, _number, name in names.values()), ""),
        place=Audit.subject_id,
    )
    return [acts]
