"""A verdict kept as a dated record, and what has changed since."""

from datetime import datetime
from typing import Any

from pydantic import Field

from yardapp.api.bodies.base import Body, Id, Line, Reply
from yardapp.api.bodies.fit import Check, ItemTag, Word
from yardapp.api.bodies.fit import Pair as PairBody

RULE = PairBody.model_fields["rule"].annotation


class NewKept(Body):
    """A pair of the register whose verdict is to be kept as it stands now."""

    tag: ItemTag
    drive_id: Id
    rule: RULE = Field("15 %", description="The rule for room at the tips.")  # type: ignore[valid-type]
    note: Line = Field("", description="Why it is kept.")


class Premise(Reply):
    """One input of the verdict, then and now."""

    figure: str
    label: str
    then: Any = Field(description="A word, or value, u (standard uncertainty) and basis in SI; null for not known.")
    now: Any
    is_changed: bool
    is_weighed: bool = Field(description="Whether a check rested on it.")


class Kept(Reply):
    """A verdict of one day; it holds as long as its premises do."""

    id: int
    at: datetime
    said_by: str
    app_version: str
    tag: str
    drive_id: int
    drive: str
    rule: str
    note: str
    verdict: Word
    lede: str
    checks: list[Check]
    premises: list[Premise]
    perhaps_of: str | None = Field(description="The tag of the thing that was perhaps meant: tags hung crossed then.")
    holds: bool = Field(description="False as soon as one premise has changed.")
