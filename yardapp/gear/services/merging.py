"""One thing that was logged twice: one tag is kept and shows both histories, the other leads to it."""

from collections.abc import Callable

from sqlalchemy import update
from sqlalchemy.orm import Session

from yardapp.errors import NotFound, Refused
from yardapp.gear.figures import KINDS
from yardapp.gear.models import Event, Item
from yardapp.gear.services.evidence import refresh
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import lock, tagged
from yardapp.gear.services.moves import Going, leave, make_move
from yardapp.gear.services.settling import history_of, settle
from yardapp.people import services as people
from yardapp.people.services import Who

# What other rooms hold against laying a tag down: each says why it must not be yet, or nothing.
AGAINST: list[Callable[[Session, Who, str], str]] = []

# Which move brings the kept one to where the other was said to be: (from, to) -> kind.
BRINGS = {("here", "here"): "moved", ("aboard", "here"): "came off", ("here", "aboard"): "went on"}


def merge_items(
    session: Session, who: Who, kept_tag: str, other_tag: str, *, why: str, is_where_the_other_is: bool = False
) -> Item:
    """Say that two tags hang on one thing: `kept_tag` stays, and not a line of either is lost.

    Raises
    ------
    NotFound
        Nothing carries the tag that is to be kept.
    Refused
        Nothing carries the other, they are one tag, or things of two kinds, no reason was given, the place of the other
        can't be taken over, or another room holds something against it: an open fault keeps a boat ashore.
    """
    who.must("change")
    lock(session, Item.tag.in_((kept_tag.strip().upper(), other_tag.strip().upper())))
    kept = tagged(session, who, kept_tag, for_change=True)
    other = _other(session, who, other_tag)
    _must_be_one_thing(kept, other, why)
    for said in filter(None, (against(session, who, other.tag) for against in AGAINST)):
        raise Refused(said, "other_tag")
    going = _going(kept, other) if is_where_the_other_is else None
    leave(session, who, other, note="logged twice")
    first = happened(session, who, kept, "merged", other_id=other.id, note=why)
    _lay_down(session, who, kept, other, first, why)
    if going is not None:
        leave(session, who, kept, note="logged twice")
        make_move(session, who, [kept], going)
    if other.came_off_id is not None and kept.came_off_id is None:
        kept.came_off_id = other.came_off_id
    kept.version += 1
    for item in (kept, other):
        refresh(session, item)
    people.note(session, who, "merged", "item", kept.id, other=other.tag)
    return kept


def _other(session: Session, who: Who, tag: str) -> Item:
    if not tag.strip():
        raise Refused("Which other tag hangs on it?", "other_tag")
    try:
        return tagged(session, who, tag, for_change=True)
    except NotFound as refusal:
        raise Refused(str(refusal), "other_tag") from None


def _must_be_one_thing(kept: Item, other: Item, why: str) -> None:
    if kept.id == other.id:
        raise Refused(f"{kept.tag} is one tag. Which other one hangs on the same thing?", "other_tag")
    if kept.kind != other.kind:
        raise Refused(f"{other.tag} is another kind of thing ({KINDS[other.kind].label.lower()}).", "other_tag")
    for item in (kept, other):
        if item.merged_into_id is not None:
            raise Refused(f"{item.tag} was merged before: it is {item.place}.", "other_tag")
    if not why.strip():
        raise Refused("Say how you know, in a few words: it is read years later.", "why")


def _going(kept: Item, other: Item) -> Going | None:
    """The move that brings the kept one to where the other is said to be."""
    if (kept.standing, kept.aboard_id, kept.place) == (other.standing, other.aboard_id, other.place):
        return None
    kind = BRINGS.get((kept.standing, other.standing))
    if kind is None:
        where = "on a boat" if other.standing == "aboard" else other.place
        raise Refused(f"{other.tag} is {where}. Write down first where the thing really is, then merge.", "where")
    return Going(kind=kind, place=other.place, drive_id=other.aboard_id)


def _lay_down(session: Session, who: Who, kept: Item, other: Item, first: Event, why: str) -> None:
    """The other tag leads to the kept one from now on, and so does every tag that led to it."""
    event = Event(
        kind="merged into",
        at=first.at,
        standing="merged",
        place=f"the same as {kept.tag}",
        other_id=kept.id,
        with_id=first.id,
        note=why,
    )
    other.standing, other.merged_into_id = "merged", kept.id
    other.aboard_id = other.bin_id = other.due_on = None
    happened(session, who, other, event=event)
    session.execute(update(Item).where(Item.merged_into_id == other.id).values(merged_into_id=kept.id))
    settle(session, [other])


def part_again(session: Session, who: Who, tag: str, *, why: str) -> Item:
    """Two tags were merged by mistake: the other stands for itself again, where it was.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Refused
        It was not merged, no reason was given, or another is on its shaft line by now.
    """
    who.must("change")
    other = tagged(session, who, tag, for_change=True)
    if other.merged_into_id is None:
        raise Refused(f"{other.tag} stands for itself.", "why")
    if not why.strip():
        raise Refused("Say why, in a few words: it is read years later.", "why")
    kept = session.get_one(Item, other.merged_into_id, with_for_update=True)
    for item, its_other in ((kept, other), (other, kept)):
        _undo(session, who, item, its_other, why)
    other.standing, other.merged_into_id = "here", None
    settle(session, [other])
    for item in (kept, other):
        refresh(session, item)
    people.note(session, who, "parted again", "item", other.id, kept=kept.tag)
    return other


def _undo(session: Session, who: Who, item: Item, other: Item, why: str) -> None:
    """Undo the newest line by which this one was merged with that one."""
    lines = history_of(session, item)
    undone = {line.undoes_id for line in lines}
    merged = [line for line in lines if line.kind in ("merged", "merged into") and line.id not in undone]
    wrong = next((line for line in reversed(merged) if line.other_id == other.id), None) or next(iter(merged), None)
    if wrong is not None:
        happened(session, who, item, "undone", undoes_id=wrong.id, why=why[:300], other_id=other.id)
