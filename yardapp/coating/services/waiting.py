"""What else a rest may go onto: pieces of other jobs on the same system that nobody has begun to coat."""

from collections.abc import Collection
from dataclasses import replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.coating.models import CoatingAct, Job, Piece, SystemVersion
from yardapp.coating.pieces import Piece as PlannedPiece
from yardapp.coating.services.stories import as_planned

MOST = 40


def waiting_pieces(
    session: Session, system_id: int, *, without: int | None = None, but: Collection[int] = ()
) -> tuple[PlannedPiece, ...]:
    """The small ones first: a rest rarely does a whole propeller.

    `without`: the job that has the rest; `but`: items that are coated in it themselves.
    """
    begun = select(CoatingAct.job_id).where(CoatingAct.job_id == Job.id, CoatingAct.step.is_not(None)).exists()
    chosen = (
        select(Piece, Job.title)
        .join(Job, Job.id == Piece.job_id)
        .join(SystemVersion, SystemVersion.id == Job.system_version_id)
        .where(SystemVersion.system_id == system_id, Job.is_open, Piece.finished.is_(None), ~begun)
        .order_by(Piece.area_m2, Piece.id)
        .limit(MOST)
    )
    rows = session.execute(chosen if without is None else chosen.where(Job.id != without)).all()
    return tuple(_called(as_planned(piece), title) for piece, title in rows if piece.item_id not in but)


def _called(piece: PlannedPiece, title: str) -> PlannedPiece:
    return piece if piece.label in title else replace(piece, label=f"{piece.label} ({title})")
