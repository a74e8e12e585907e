"""How a coating looked at haul-out: written down blade by blade, put right by a new row that names the old one."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.history import RATINGS
from yardapp.coating.models import Piece, Rating
from yardapp.coating.services.lasting import tag_of
from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear import services as gear
from yardapp.people import services as people
from yardapp.people.services import Who


def rate(
    session: Session,
    who: Who,
    piece_id: int,
    words: Mapping[int | None, str],
    *,
    at: datetime | None = None,
    note: str = "",
    picture: gear.Picture | None = None,
) -> list[Rating]:
    """Write down how a coating looked at haul-out, blade by blade (None: of a thing without blades).

    Raises
    ------
    NotFound
        There is no such piece.
    Refused
        Nothing was said, a word is none of the scale, or the day has not come.
    """
    who.must("record")
    piece = session.get(Piece, piece_id)
    if piece is None:
        raise NotFound("There is no such piece.")
    _must_be_said(words, at)
    rows = [_rating(who, piece_id, blade, word, at or now(), note, picture) for blade, word in words.items()]
    session.add_all(rows)
    session.flush()
    people.note(session, who, "rated", "coating piece", piece_id, words={str(key): word for key, word in words.items()})
    if picture is not None and (tag := tag_of(session, who, piece_id)):
        caption = f"Coating at haul-out: {', '.join(dict.fromkeys(words.values()))}"
        gear.attach_photo(session, who, gear.item_by_tag(session, who, tag), picture, caption)
    return rows


def _must_be_said(words: Mapping[int | None, str], at: datetime | None) -> None:
    if not words:
        raise Refused("How does it look? Say it of one blade at least.")
    if wrong := next((word for word in words.values() if word not in RATINGS), None):
        raise Refused(f"`{wrong}` is none of {', '.join(RATINGS)}.")
    if at is not None and at > now():
        raise Refused("That day has not come yet.", "at")


def _rating(
    who: Who,
    piece_id: int,
    blade: int | None,
    word: str,
    at: datetime,
    note: str,
    picture: gear.Picture | None,
    **more: Any,
) -> Rating:
    return Rating(
        piece_id=piece_id,
        blade=blade,
        word=word,
        at=at,
        noted=now(),
        person_id=who.person_id,
        said_by=who.name,
        note=" ".join(note.split())[:300],
        **{"photo": picture.sha256 if picture else "", **more},
    )


def rating_by_id(session: Session, who: Who, rating_id: int, *, even_replaced: bool = False) -> tuple[Rating, Piece]:
    """One rating that stands, and the piece that it is of; `even_replaced`: also one that does not stand any more.

    Raises
    ------
    NotFound
        There is no such rating, or it was put right already.
    """
    who.must("see")
    chosen = select(Rating, Piece).join(Piece, Piece.id == Rating.piece_id).where(Rating.id == rating_id)
    later = select(Rating.id).where(Rating.replaces_id == rating_id).exists()
    found = session.execute(chosen if even_replaced else chosen.where(~later)).one_or_none()
    if found is None:
        raise NotFound("There is no such rating, or it was put right already.")
    return found[0], found[1]


def correct_rating(
    session: Session,
    who: Who,
    rating_id: int,
    *,
    word: str,
    why: str,
    at: datetime | None = None,
    note: str = "",
) -> Rating:
    """Put another word in the place of a wrong one. The old row stays, with who put it right and why.

    Raises
    ------
    NotFound
        There is no such rating, or it was put right already.
    Refused
        No reason was given, the word is none of the scale, or the day has not come.
    """
    who.must("record")
    if not why.strip():
        raise Refused("Say why, in a few words: it is read years later.", "why")
    wrong, piece = rating_by_id(session, who, rating_id)
    _must_be_said({wrong.blade: word}, at)
    kept = {"photo": wrong.photo, "replaces_id": wrong.id, "why": " ".join(why.split())[:300]}
    row = _rating(who, piece.id, wrong.blade, word, at or wrong.at, note, None, **kept)
    session.add(row)
    session.flush()
    people.note(session, who, "corrected a rating", "coating piece", piece.id, number=wrong.id, word=word)
    return row
