"""What is on some drives and what came off them, in one query."""

from collections.abc import Sequence

from sqlalchemy import and_, or_
from sqlalchemy.orm import Session

from yardapp.gear.models import Item
from yardapp.gear.services.items import seen_by
from yardapp.gear.services.search import ItemRow, listed, row_of
from yardapp.people.services import Who


def on_and_off(
    session: Session, who: Who, drive_ids: Sequence[int], limit: int = 100
) -> tuple[dict[int, list[ItemRow]], list[ItemRow]]:
    """What each of these drives carries now, and what came off them and lies elsewhere, newest first."""
    on: dict[int, list[ItemRow]] = {drive_id: [] for drive_id in drive_ids}
    off: list[ItemRow] = []
    # Not `aboard_id IS NULL`, the same by a check of the table: SQLite would read everything ashore along that index.
    came_off = and_(Item.came_off_id.in_(drive_ids), Item.standing != "aboard")
    chosen = listed().add_columns(Item.aboard_id).where(or_(Item.aboard_id.in_(drive_ids), came_off), seen_by(who))
    # Whatever is aboard comes first, so that a long past can't crowd it out.
    for row in session.execute(chosen.order_by(Item.aboard_id.is_(None), Item.kind, Item.id.desc()).limit(limit)):
        (off if row.aboard_id is None else on[row.aboard_id]).append(row_of(row))
    return on, off
