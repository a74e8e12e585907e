"""Photos of a thing, and the arrows and circles over them."""

from typing import Any

from flask import g

from yardapp.api.bodies import photos as bodies
from yardapp.api.door import Act, creates, reads
from yardapp.errors import NotFound, Refused
from yardapp.gear import services

CORNERS = ("from_x", "from_y", "to_x", "to_y")


def _shown(one: services.PhotoPage) -> bodies.Photo:
    photo = one.photo
    return bodies.Photo(
        id=photo.id,
        tag=one.item.tag,
        sha256=photo.sha256,
        width=photo.width,
        height=photo.height,
        at=photo.at,
        said_by=photo.said_by,
        caption=photo.caption,
        former_captions=[
            bodies.FormerCaption(caption=said, said_by=who, at=at) for said, who, at in one.former_captions
        ],
        marks=[bodies.Mark.model_validate(mark, from_attributes=True) for mark in one.marks],
    )


@reads("/items/{tag}/photos", reply=bodies.Photos)
def photos(act: Act, tag: str) -> bodies.Photos:
    """All photos of a thing, oldest first, with what is drawn over them."""
    return bodies.Photos(photos=[_shown(one) for one in services.photos_of(act.session, act.who, tag)[1]])


@reads("/photos/{photo_id}", reply=bodies.Photo)
def photo(act: Act, photo_id: int) -> bodies.Photo:
    """One photo, with what is drawn over it."""
    return _shown(services.photo_page(act.session, act.who, photo_id))


def _marked(act: Act, key: str, photo_id: int) -> bodies.Photo:
    return photo(act, photo_id)


@creates("/photos/{photo_id}/marks", body=bodies.NewMark, reply=bodies.Photo, at="/photos/{photo_id}", shows=_marked)
def mark_photo(act: Act, said: bodies.NewMark, photo_id: int) -> str:
    """Draw an arrow or a circle over a photo."""
    g.sent_as = {name: f"{name}_ratio" for name in CORNERS}
    drawn: dict[str, Any] = said.model_dump()
    return str(services.mark_photo(act.session, act.who, photo_id, **drawn).id)


@creates(
    "/photos/{photo_id}/marks-away", body=bodies.MarkGone, reply=bodies.Photo, at="/photos/{photo_id}", shows=_marked
)
def take_mark_away(act: Act, said: bodies.MarkGone, photo_id: int) -> str:
    """Take an arrow or a circle off a photo; the row that drew it stays."""
    services.photo_page(act.session, act.who, photo_id)
    try:
        return str(services.take_mark_away(act.session, act.who, photo_id, said.mark_id).id)
    except NotFound as refusal:
        raise Refused(str(refusal), "mark_id") from None


@creates(
    "/photos/{photo_id}/captions", body=bodies.NewCaption, reply=bodies.Photo, at="/photos/{photo_id}", shows=_marked
)
def caption_photo(act: Act, said: bodies.NewCaption, photo_id: int) -> str:
    """Say anew what a photo shows; what was said before stays to be read."""
    return str(services.caption_photo(act.session, act.who, photo_id, said.caption).id)
