"""Photos of a thing, and what is drawn over them."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from yardapp.api.bodies.base import NO_CONTROLS, Body, Id, Reply, Words

Share = Annotated[float, Field(ge=0.0, le=1.0)]


class NewMark(Body):
    """An arrow, whose point is where it goes to, or a circle, round where it comes from.

    All in shares of the photo's width and height, from its upper left corner.
    """

    kind: Literal["arrow", "circle"]
    from_x_ratio: Share
    from_y_ratio: Share
    to_x_ratio: Share
    to_y_ratio: Share
    words: Words = Field("", description="What it shows.")


class MarkGone(Body):
    """A mark that is taken off the photo; the row that drew it stays."""

    mark_id: Id


class NewCaption(Body):
    """What a photo shows, said anew; what was said before stays."""

    caption: Annotated[str, Field(min_length=1, max_length=120, pattern=NO_CONTROLS)]


class FormerCaption(Reply):
    """What a photo was called before."""

    caption: str
    said_by: str
    at: datetime


class Mark(Reply):
    """An arrow or a circle that stands on a photo."""

    id: int
    kind: str
    from_x_ratio: float
    from_y_ratio: float
    to_x_ratio: float
    to_y_ratio: float
    words: str
    at: datetime
    said_by: str


class Photo(Reply):
    """A photo; the picture itself stays as it was taken."""

    id: int
    tag: str
    sha256: str
    width: int
    height: int
    at: datetime
    said_by: str
    caption: str
    former_captions: list[FormerCaption] = Field(description="Newest first; left out of lists.")
    marks: list[Mark]


class Photos(Reply):
    """All photos of a thing, oldest first, under each tag that it has had."""

    photos: list[Photo]
