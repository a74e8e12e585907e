"""A retry on a weak network saves once: the Idempotency-Key and the answer that its first try got."""

import hashlib
import re

from flask import request
from sqlalchemy.orm import Session

from yardapp.api.problems import Unfit
from yardapp.people import services as people
from yardapp.people.services import Who

KEY = "Idempotency-Key"
LONGEST_KEY = 255
WRITTEN = re.compile(r"[\x21-\x7e]{1,255}")


class Retry:
    """What a key holds on to: this person, this address, this body."""

    def __init__(self, who: Who) -> None:
        key = request.headers.get(KEY)
        if key is not None and not WRITTEN.fullmatch(key):
            raise Unfit([(KEY, f"Is 1 to {LONGEST_KEY} letters, figures and signs, without a space.")])
        self.key = _digest(f"{who.person_id} {request.path} {key}".encode()) if key else ""
        self.body = _digest(request.get_data())

    def first_answer(self, session: Session) -> str | None:
        """The tag or number that the first try was answered with; None when this is the first.

        Raises
        ------
        Unfit
            The key came with another body before: what is in this one would be lost.
        """
        before = people.already_answered(session, self.key) if self.key else None
        if before is None:
            return None
        answer, _, body = before.rpartition(" ")
        if body != self.body:
            raise Unfit([(KEY, "Came with another body before. Take a new key for a new act.")])
        return answer

    def keep(self, session: Session, answer: str) -> None:
        """Hold on to the answer."""
        if self.key:
            people.answered(session, self.key, f"{answer} {self.body}")


def _digest(said: bytes) -> str:
    return hashlib.sha256(said).hexdigest()
