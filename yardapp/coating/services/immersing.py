"""A boat went into the water, and with her every coat on what is aboard; a release that is taken back undoes it."""

from collections.abc import Sequence

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from yardapp.coating.models import CoatingAct, Job, Piece
from yardapp.coating.services.acting import Tap, act, add_undo
from yardapp.gear import services as gear
from yardapp.people.services import Who

LAUNCHED = "launched"


def boat_afloat(session: Session, who: Who, drive_ids: Sequence[int], launch_id: int) -> None:
    """Tell every finished coat on these drives that it is in the water from now on; told before, it stays as it was."""
    aboard = gear.kept_ids(gear.Item.aboard_id.in_(drive_ids))
    hers = or_(gear.under_any_tag(Piece.item_id, aboard), Piece.item_id.is_(None) & Job.drive_id.in_(drive_ids))
    dry = Piece.finished.is_not(None) & Piece.immersed.is_(None)
    jobs = select(Piece.job_id).join(Job, Job.id == Piece.job_id).where(hers, dry).distinct().order_by(Piece.job_id)
    for job_id in session.scalars(jobs).all():
        act(session, who, job_id, Tap(kind=LAUNCHED, figures={"launch": launch_id}))


def boat_not_afloat(session: Session, who: Who, launch_id: int) -> None:
    """Take back what the release afloat of that launch told the coats; what somebody said beside the boat stays."""
    told = select(CoatingAct).where(CoatingAct.kind == LAUNCHED, CoatingAct.figures["launch"].as_integer() == launch_id)
    for row in session.scalars(told.order_by(CoatingAct.id)).all():
        add_undo(session, who, row)
