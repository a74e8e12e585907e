"""What is on each thing, how long it has lasted, how it looked each time it came out of the water."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from yardapp.coating.exchange import from_json
from yardapp.coating.history import RATINGS, Coated
from yardapp.coating.history import Rating as ToldRating
from yardapp.coating.models import CoatingSystem, Job, Piece, Rating, SystemVersion
from yardapp.coating.system import System
from yardapp.errors import NotFound
from yardapp.gear import services as gear
from yardapp.people.services import Who

MOST = 5000
GONE = RATINGS[-1]


@dataclass(frozen=True, kw_only=True)
class CoatRow:
    """One coating of one thing, with how it looked since."""

    piece: Piece
    job_id: int
    job: str
    is_open: bool
    way: str
    system: System
    system_name: str
    version: int
    ratings: Sequence[Rating] = field(default_factory=tuple)  # those that stand, newest first
    crossed_out: Sequence[tuple[Rating, Rating]] = field(default_factory=tuple)  # each with the one in its place
    ended: datetime | None = None
    perhaps_of: str | None = None  # the thing that was perhaps coated: tags may have hung crossed then

    @property
    def coated(self) -> Coated | None:
        """The same as the arithmetic of lives takes it; None while it is not finished."""
        if self.piece.finished is None:
            return None
        return Coated(
            item=str(self.piece.item_id or f"piece {self.piece.id}"),
            system=self.system_name,
            version=self.version,
            way=self.way,
            finished_s=self.piece.finished.timestamp(),
            immersed_s=_seconds(self.piece.immersed),
            ended_s=_seconds(self.ended),
            metal_low_c=self.piece.metal_low_c,
            metal_high_c=self.piece.metal_high_c,
            windows_met=self.piece.windows_met,
            foul_release=self.piece.foul_release,
        )

    @property
    def told_ratings(self) -> list[ToldRating]:
        """How it looked, as the arithmetic takes it."""
        return [
            ToldRating(blade=one.blade, word=one.word, at_s=one.at.timestamp(), who=one.said_by) for one in self.ratings
        ]


def _seconds(moment: datetime | None) -> float | None:
    return None if moment is None else moment.timestamp()


@dataclass(frozen=True, kw_only=True)
class History:
    """Everything that was ever coated onto one thing, newest first. `tag` is "" for a thing without one."""

    name: str
    tag: str
    kind: str
    blades: int
    rows: Sequence[CoatRow]

    @property
    def last(self) -> CoatRow | None:
        """What is on it now, as far as the register knows."""
        return next((row for row in self.rows if row.piece.finished is not None), None)

    @property
    def is_slippery(self) -> bool:
        """Whether later paint will not hold on it."""
        last = self.last
        return last is not None and last.piece.foul_release and last.ended is None


def history_of(session: Session, who: Who, tag: str) -> History:
    """The coating history of a tagged thing.

    Raises
    ------
    NotFound
        Nothing carries the tag, or this person may not know of it.
    """
    item = gear.item_by_tag(session, who, tag)
    rows = _rows(session, gear.under_any_tag(Piece.item_id, [item.id]))
    return History(name=item.tag, tag=item.tag, kind=item.kind, blades=item.blades or 0, rows=rows)


def history_of_piece(session: Session, who: Who, piece_id: int) -> History:
    """The coating history of a thing without a tag: what was done to it in one job.

    Raises
    ------
    NotFound
        There is no such piece.
    """
    who.must("see")
    rows = _rows(session, Piece.id == piece_id)
    if not rows:
        raise NotFound("There is no such piece.")
    piece = rows[0].piece
    return History(name=piece.label, tag="", kind=piece.kind, blades=piece.blades, rows=rows)


def tag_of(session: Session, who: Who, piece_id: int) -> str:
    """The tag of the thing that a piece is; "" where it has none.

    Raises
    ------
    NotFound
        There is no such piece.
    """
    who.must("see")
    found = session.get(Piece, piece_id)
    if found is None:
        raise NotFound("There is no such piece.")
    if found.item_id is None:
        return ""
    return session.scalar(select(gear.Item.tag).where(gear.Item.id == found.item_id)) or ""


def _rows(session: Session, chosen: Any, limit: int = MOST) -> list[CoatRow]:
    """Coatings, newest first, each with its ratings: two queries."""
    # The tag was read when the job was planned, and again when its last coat went on.
    crossed = [gear.perhaps_of(Piece.item_id, at) for at in (Piece.finished, Job.planned)]
    found = session.execute(
        select(Piece, Job, SystemVersion, CoatingSystem.name, func.coalesce(*crossed))
        .join(Job, Job.id == Piece.job_id)
        .join(SystemVersion, SystemVersion.id == Job.system_version_id)
        .join(CoatingSystem, CoatingSystem.id == SystemVersion.system_id)
        .where(chosen)
        .order_by(Piece.id.desc())
        .limit(limit)
    ).all()
    ratings = _ratings(session, [row[0].id for row in found])
    sheets: dict[int, System] = {}
    rows = [_row(row, ratings.get(row[0].id, ()), sheets) for row in found]
    return _ended(rows)


def _ratings(session: Session, piece_ids: Sequence[int]) -> dict[int, list[Rating]]:
    """Of each piece, newest first."""
    found: dict[int, list[Rating]] = {}
    if piece_ids:
        chosen = select(Rating).where(Rating.piece_id.in_(piece_ids)).order_by(Rating.at.desc(), Rating.id.desc())
        for rating in session.scalars(chosen):
            found.setdefault(rating.piece_id, []).append(rating)
    return found


def _row(row: Any, ratings: Sequence[Rating], sheets: dict[int, System]) -> CoatRow:
    piece, job, version, name, perhaps_of = row
    later = {one.replaces_id: one for one in ratings if one.replaces_id is not None}
    standing = [one for one in ratings if one.id not in later]
    system = sheets.get(version.id) or sheets.setdefault(version.id, from_json(version.sheet))
    return CoatRow(
        piece=piece,
        job_id=job.id,
        job=job.title,
        is_open=job.is_open,
        way=job.way,
        system=system,
        system_name=name,
        version=version.number,
        ratings=standing,
        crossed_out=[(one, later[one.id]) for one in ratings if one.id in later],
        ended=min((one.at for one in standing if one.word == GONE), default=None),
        perhaps_of=perhaps_of,
    )


def _ended(rows: Sequence[CoatRow]) -> list[CoatRow]:
    """A coat's life ends when the next one is finished on the same thing, or when it was found gone."""
    after: dict[int, datetime] = {}
    told = []
    for row in rows:  # newest first
        item_id = row.piece.item_id
        ends = [one for one in (row.ended, after.get(item_id) if item_id else None) if one is not None]
        told.append(CoatRow(**{**vars(row), "ended": min(ends, default=None)}))
        if item_id is not None and row.piece.finished is not None:
            after[item_id] = row.piece.finished
    return told


def coatings(session: Session, who: Who) -> list[CoatRow]:
    """Every finished coating of the yard, the newest 5000."""
    who.must("see")
    return _rows(session, Piece.finished.is_not(None))
