"""Things whose row says another place than their moves do: none, unless somebody wrote past the app."""

from collections import defaultdict
from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.gear.models import Event, Item
from yardapp.gear.whereabouts import in_order, now_of


def astray(session: Session, items: Sequence[Item]) -> list[Item]:
    """Those of the items that are not where their moves leave them; moves from before lines said so are not judged."""
    lines: dict[int, list[Event]] = defaultdict(list)
    for line in session.scalars(select(Event).where(Event.item_id.in_([item.id for item in items]))):
        lines[line.item_id].append(line)
    return [item for item in items if _is_astray(item, lines[item.id])]


def _is_astray(item: Item, lines: Sequence[Event]) -> bool:
    moves, there = in_order(lines), now_of(lines)
    if there is None or not moves[-1].standing:
        return False
    return (item.standing, item.aboard_id, item.place) != (there.standing, there.drive_id, there.place)
