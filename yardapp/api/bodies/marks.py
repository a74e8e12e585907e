"""A stamp, read."""

from pydantic import Field

from yardapp.api.bodies.base import Body, Hand, Line, Reply


class MarkText(Body):
    """A mark as it stands on the hub."""

    text: Line = Field(description="22 x 18 RH; ? for a character that can't be read.")


class MarkRead(Reply):
    """What the mark says when it is taken for plain sizes; null is what it does not say."""

    stamp: str
    why: str
    diameter_m: float | None
    pitch_m: float | None
    hand: Hand | None
    blades: int | None
    bore_m: float | None
    unit: str | None
    unit_assumed: bool
    possible_pitches: str
    unread: list[str]
    notes: list[str]
