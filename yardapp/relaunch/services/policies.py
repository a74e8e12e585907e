"""What the yard goes by where the rules of the trade differ."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.relaunch.models import Policy
from yardapp.relaunch.policies import QUESTIONS
from yardapp.relaunch.services.allowed import must_be_office


@dataclass(frozen=True, kw_only=True)
class Chosen:
    """What the yard goes by, since when, on whose word."""

    name: str
    choice: str
    why: str
    at: datetime
    said_by: str


def policies(session: Session) -> dict[str, Chosen]:
    """What was chosen last of each question that has been settled."""
    newest = select(func.max(Policy.id)).group_by(Policy.name)
    return {row.name: _chosen(row) for row in session.scalars(select(Policy).where(Policy.id.in_(newest)))}


def _chosen(row: Policy) -> Chosen:
    return Chosen(name=row.name, choice=row.choice, why=row.why, at=row.at, said_by=row.said_by)


def choices(session: Session) -> Mapping[str, str]:
    """The same as plain words, for the lines of a sheet; what nobody settled says so."""
    chosen = policies(session)
    return {name: chosen[name].choice if name in chosen else "not settled by this yard" for name in QUESTIONS}


def set_policy(session: Session, who: Who, name: str, choice: str, why: str = "") -> Chosen:
    """Settle what the yard goes by from here on; what it went by before stays readable.

    Raises
    ------
    NotAllowed
        Only the office settles it.
    NotFound
        There is no such question.
    Refused
        That is none of the rival rules.
    """
    must_be_office(who, "settles what the yard goes by")
    if name not in QUESTIONS:
        raise NotFound("There is no such question.")
    if not QUESTIONS[name].has(choice):
        raise Refused("One of the rules of the list.", "choice")
    row = Policy(
        name=name, choice=choice, why=" ".join(why.split())[:300], at=now(), person_id=who.person_id, said_by=who.name
    )
    session.add(row)
    session.flush()
    people.note(session, who, "settled a policy", "policy", row.id, name=name, choice=choice)
    return _chosen(row)
