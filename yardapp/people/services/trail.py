"""The audit trail, and the answers that a retry gets again."""

from datetime import timedelta
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.people.models import Audit, Once
from yardapp.people.who import Who

ANSWERS_KEPT = timedelta(days=30)


def note(session: Session, who: Who, act: str, subject: str, subject_id: int | None = None, **said: Any) -> None:
    """Write down who did what, from which device, in the same transaction as the act itself."""
    session.add(
        Audit(
            at=now(),
            person_id=who.person_id,
            name=who.name,
            device=who.device,
            act=act,
            subject=subject,
            subject_id=subject_id,
            said=said,
        )
    )


def audit_of(session: Session, subject: str, subject_id: int, limit: int = 100) -> list[Audit]:
    """What was done to one thing, newest first."""
    chosen = select(Audit).where(Audit.subject == subject, Audit.subject_id == subject_id)
    return list(session.scalars(chosen.order_by(Audit.id.desc()).limit(limit)))


def already_answered(session: Session, token: str) -> str | None:
    """The address that this form's first try was answered with, or None."""
    return session.scalar(select(Once.answer).where(Once.token == token))


def answered(session: Session, token: str, answer: str) -> None:
    """Keep the answer, so that a retry gets it again and saves nothing."""
    session.add(Once(token=token, at=now(), answer=answer))
    session.flush()  # a second request with the same token must fail here, not after its own writes are kept


def sweep_answers(session: Session) -> None:
    """Drop answers so old that no phone still retries them."""
    session.execute(delete(Once).where(Once.at < now() - ANSWERS_KEPT))
