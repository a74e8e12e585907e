"""A photo with what is drawn over it, and all photos of a thing to hold beside each other."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.models import Item, Photo
from yardapp.gear.photo_models import PhotoCaption, PhotoMark
from yardapp.gear.services.items import item_by_tag, seen_by
from yardapp.people import services as people
from yardapp.people.services import Who

KINDS = ("arrow", "circle")
TAKEN_AWAY = "taken away"
SHORTEST = 0.01


AnyRow = TypeVar("AnyRow", PhotoMark, PhotoCaption)


@dataclass(frozen=True, kw_only=True)
class PhotoPage:
    """One photo, what it is of, the marks that stand on it, and each caption after the first, oldest first."""

    item: Item
    photo: Photo
    marks: Sequence[PhotoMark]
    captions: Sequence[PhotoCaption] = ()

    @property
    def former_captions(self) -> list[tuple[str, str, datetime]]:
        """What it was called before, by whom, since when; newest first."""
        photo = self.photo
        given = [(photo.first_caption, photo.said_by, photo.at)]
        given += [(one.caption, one.said_by, one.at) for one in self.captions]
        return [one for one in reversed(given[:-1]) if one[0]]


def photo_page(session: Session, who: Who, photo_id: int) -> PhotoPage:
    """A photo with its marks and captions. Two queries.

    Raises
    ------
    NotFound
        There is no such photo, or this person may not see it.
    """
    rows = session.execute(
        select(Item, Photo, PhotoMark)
        .join(Photo, Photo.item_id == Item.id)
        .outerjoin(PhotoMark, PhotoMark.photo_id == Photo.id)
        .where(Photo.id == photo_id, seen_by(who))
        .order_by(PhotoMark.id)
    ).all()
    if not rows:
        raise NotFound("There is no such photo here.")
    marks = [row.PhotoMark for row in rows if row.PhotoMark is not None]
    gone = {mark.takes_away_id for mark in marks}
    standing = [mark for mark in marks if mark.kind in KINDS and mark.id not in gone]
    captions = session.scalars(
        select(PhotoCaption).where(PhotoCaption.photo_id == photo_id).order_by(PhotoCaption.id)
    ).all()
    return PhotoPage(item=rows[0].Item, photo=rows[0].Photo, marks=standing, captions=captions)


def photos_of(session: Session, who: Who, tag: str) -> tuple[Item, list[PhotoPage]]:
    """A thing and its photos with their marks, oldest first, under each tag that it has had. Two queries.

    Raises
    ------
    NotFound
        Nothing carries the tag, or this person may not know of it.
    """
    item = item_by_tag(session, who, tag)
    rows = session.execute(
        select(Item, Photo, PhotoMark)
        .join(Photo, Photo.item_id == Item.id)
        .outerjoin(PhotoMark, PhotoMark.photo_id == Photo.id)
        .where(or_(Item.id == item.id, Item.merged_into_id == item.id))
        .order_by(Photo.id, PhotoMark.id)
    ).all()
    gone = {row.PhotoMark.takes_away_id for row in rows if row.PhotoMark is not None}
    found: dict[int, tuple[Photo, list[PhotoMark]]] = {}
    for _item, photo, mark in rows:
        marks = found.setdefault(photo.id, (photo, []))[1]
        if mark is not None and mark.kind in KINDS and mark.id not in gone:
            marks.append(mark)
    return item, [PhotoPage(item=item, photo=photo, marks=marks) for photo, marks in found.values()]


def mark_photo(
    session: Session,
    who: Who,
    photo_id: int,
    *,
    kind: str,
    from_x_ratio: float,
    from_y_ratio: float,
    to_x_ratio: float,
    to_y_ratio: float,
    words: str = "",
) -> PhotoMark:
    """Draw an arrow (its point is where it goes to) or a circle (round where it comes from) over a photo.

    Raises
    ------
    NotFound
        There is no such photo.
    Refused
        It is neither, lies beside the photo, or is too short to be seen.
    """
    who.must("record")
    found = photo_page(session, who, photo_id)
    corners = {"from_x": from_x_ratio, "from_y": from_y_ratio, "to_x": to_x_ratio, "to_y": to_y_ratio}
    if kind not in KINDS:
        raise Refused("An arrow or a circle?", "kind")
    for name, ratio in corners.items():
        if not 0.0 <= ratio <= 1.0:
            raise Refused("It must lie on the photo: 0 to 100 %.", name)
    if max(abs(to_x_ratio - from_x_ratio), abs(to_y_ratio - from_y_ratio)) < SHORTEST:
        raise Refused("That is too short to be seen. Where does it end?", "to_x")
    mark = PhotoMark(
        photo_id=photo_id, kind=kind, words=words.strip()[:80], **{f"{name}_ratio": at for name, at in corners.items()}
    )
    _keep(session, who, mark)
    people.note(session, who, "marked a photo", "item", found.item.id, photo=photo_id)
    return mark


def take_mark_away(session: Session, who: Who, photo_id: int, mark_id: int) -> PhotoMark:
    """Take an arrow or a circle off a photo; the row that drew it stays.

    Raises
    ------
    NotFound
        No such mark stands on this photo.
    """
    who.must("record")
    wrong = next((mark for mark in photo_page(session, who, photo_id).marks if mark.id == mark_id), None)
    if wrong is None:
        raise NotFound("No such mark stands on this photo.")
    corners = dict.fromkeys(("from_x_ratio", "from_y_ratio", "to_x_ratio", "to_y_ratio"), 0.0)
    return _keep(session, who, PhotoMark(photo_id=photo_id, kind=TAKEN_AWAY, takes_away_id=wrong.id, **corners))


def caption_photo(session: Session, who: Who, photo_id: int, caption: str) -> PhotoCaption:
    """Say anew what a photo shows; what was said before stays to be read.

    Raises
    ------
    NotFound
        There is no such photo.
    Refused
        Nothing was said, or just what stands there already.
    """
    who.must("record")
    found = photo_page(session, who, photo_id)
    caption = " ".join(caption.split())[:120]
    if not caption:
        raise Refused("What does it show?", "caption")
    if caption == found.photo.caption:
        raise Refused("That is what it says already.", "caption")
    people.note(session, who, "captioned a photo", "item", found.item.id, photo=photo_id, was=found.photo.caption)
    return _keep(session, who, PhotoCaption(photo_id=photo_id, caption=caption))


def _keep(session: Session, who: Who, said: AnyRow) -> AnyRow:
    said.at, said.person_id, said.said_by = now(), who.person_id, who.name
    session.add(said)
    session.flush()  # the answer may name its number
    return said
