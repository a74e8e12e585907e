"""A wrong move undone: by a new line that names it and why, never by taking it away."""

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from yardapp.errors import NotFound, Refused
from yardapp.gear.models import Event, Item
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import lock
from yardapp.gear.services.settling import history_of, must_have_been_free, settle, then
from yardapp.gear.whereabouts import CAN_BE_UNDONE, after, around, in_order, may_follow
from yardapp.people import services as people
from yardapp.people.services import Who


def undo_move(session: Session, who: Who, event_id: int, *, why: str) -> Item:
    """Undo a wrong move, and what moved with it, by new lines that name it and why; the places are derived again.

    Raises
    ------
    NotFound
        There is no such move, or this person may not know of it.
    Refused
        No reason was given, it is no move, it was undone before, or what was written since builds on it.
    """
    who.must("record")
    wrong = session.get(Event, event_id)
    if wrong is None:
        raise NotFound("There is no such move.")
    if not why.strip():
        raise Refused("Say why, in a few words: it is read years later.", "why")
    if wrong.kind not in CAN_BE_UNDONE:
        raise Refused(f"“{wrong.kind}” is not a move. Only a move can be undone.", "why")
    act = _act_of(session, wrong)
    lock(session, Item.id.in_([event.item_id for event in act]))
    items = [_undo(session, who, event, why) for event in act]
    settle(session, items)
    for item in items:
        must_have_been_free(session, item, history_of(session, item))
    people.note(session, who, "undid", "item", wrong.item_id, move=wrong.kind)
    return next(item for item in items if item.id == wrong.item_id)


def _act_of(session: Session, wrong: Event) -> list[Event]:
    """The move and all that moved with it."""
    leader = wrong.with_id or wrong.id
    chosen = select(Event).where(or_(Event.id == leader, Event.with_id == leader), Event.kind == wrong.kind)
    return list(session.scalars(chosen.order_by(Event.id)))


def _undo(session: Session, who: Who, wrong: Event, why: str) -> Item:
    item = session.get_one(Item, wrong.item_id)
    lines = history_of(session, item)
    if any(line.undoes_id == wrong.id for line in lines):
        raise Refused("That move was undone before.", "why")
    rest = [line for line in in_order(lines) if line.id != wrong.id]
    if lines[0].id == wrong.id or not rest:
        raise Refused(f"That is where the history of {item.tag} begins. Write down a move instead.", "why")
    before, following = around(rest, wrong.at)
    if (
        following
        and before
        and not may_follow(following.kind, after(before))
        and may_follow(following.kind, after(wrong))
    ):
        raise Refused(f"Undo the later move first. {then(item, following)}", "why")
    happened(
        session, who, item, "undone", undoes_id=wrong.id, why=why[:300], drive=wrong.drive, drive_id=wrong.drive_id
    )
    return item
