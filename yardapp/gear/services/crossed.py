"""Tags that may have crossed: what differs, since when, which may be the other one, and the swap in one act."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import and_, func, or_, select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.crossed import ASKED, U_SEEN, Difference, Seen, agreements, differences, last_agreed
from yardapp.gear.models import Event, Evidence, Item
from yardapp.gear.services.evidence import Said, add_evidence
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import lock, seen_by, tagged
from yardapp.gear.services.moves import leave
from yardapp.gear.services.search import ItemRow, listed, row_of
from yardapp.gear.services.settling import history_of, settle
from yardapp.gear.whereabouts import Whereabouts, now_of
from yardapp.people import services as people
from yardapp.people.services import Who

SHOWN = 12
REACH_M = 0.02


@dataclass(frozen=True, kw_only=True)
class Doubt:
    """What a look at the thing says of its tag: what differs, since when it may, and which may be the other one."""

    item: Item
    apart: Sequence[Difference]
    agreed: Sequence[str]
    since: datetime
    others: Sequence[ItemRow]


def look_at(session: Session, who: Who, tag: str, seen: Seen) -> Doubt:
    """Hold what is seen against what the register has under this tag. Two queries.

    Raises
    ------
    NotFound
        Nothing carries the tag, or this person may not know of it.
    """
    said = and_(Evidence.item_id == Item.id, Evidence.what.in_(ASKED))
    rows = session.execute(
        select(Item, Evidence).outerjoin(Evidence, said).where(Item.tag == tag.strip().upper(), seen_by(who))
    ).all()
    if not rows:
        raise NotFound(f"Nothing here carries the tag {tag}.")
    item = rows[0].Item
    apart = differences(seen, item)
    since = last_agreed(apart, [row.Evidence for row in rows if row.Evidence is not None], item.logged)
    others = session.execute(_like(item, seen, since, who)) if apart else ()
    return Doubt(
        item=item, apart=apart, agreed=agreements(seen, item), since=since, others=[row_of(row) for row in others]
    )


def _like(item: Item, seen: Seen, since: datetime, who: Who) -> Any:
    """Things that look as what is seen; those that were in one place with this one since then come first."""
    places = select(Event.place).where(Event.item_id == item.id, Event.at >= since, Event.place != "")
    met = select(Event.item_id).where(Event.at >= since, Event.place.in_(places))
    chosen = listed().where(Item.kind == item.kind, Item.id != item.id, Item.standing != "merged", seen_by(who))
    for what in ("hand", "blades"):
        wanted, column = getattr(seen, what), getattr(Item, what)
        if wanted is not None:
            chosen = chosen.where(or_(column == wanted, column.is_(None)))
    if seen.diameter_m is not None:
        near = Item.diameter_m.between(seen.diameter_m - REACH_M, seen.diameter_m + REACH_M)
        chosen = chosen.where(or_(near, Item.diameter_m.is_(None)))
    order: list[Any] = [Item.id.in_(met).desc(), Item.hand.is_(None), Item.blades.is_(None)]
    if seen.diameter_m is not None:
        order.append(func.abs(Item.diameter_m - seen.diameter_m))
    return chosen.order_by(*order, Item.id.desc()).limit(SHOWN)


def pair(session: Session, who: Who, tag: str, other_tag: str) -> tuple[Item, Item | None]:
    """Both things in one query; the other is None where nothing carries its tag.

    Raises
    ------
    NotFound
        Nothing carries the first tag, or this person may not know of it.
    """
    tags = [tag.strip().upper(), other_tag.strip().upper()]
    found = {item.tag: item for item in session.scalars(select(Item).where(Item.tag.in_(tags), seen_by(who)))}
    if tags[0] not in found:
        raise NotFound(f"Nothing here carries the tag {tag}.")
    return found[tags[0]], found.get(tags[1])


def swap_tags(
    session: Session,
    who: Who,
    tag: str,
    other_tag: str,
    *,
    second_id: int | None,
    seen: Seen,
    seen_at_other: Seen,
    since: datetime | None = None,
    why: str = "",
) -> tuple[Item, Item]:
    """Both tags are tied to the right thing again: one act, two names. Nothing is rewritten.

    Each thing then is where the other tag was said to be; what was written between `since` and now is marked as
    possibly the other's; what was seen at each is said of the right one from now on.

    Raises
    ------
    NotFound
        Nothing carries one of the tags.
    Refused
        The second name is missing or the same, nobody looked at the other one, what is seen there does not fit, or
        the two are of different kinds.
    """
    who.must("record")
    lock(session, Item.tag.in_((tag.strip().upper(), other_tag.strip().upper())))
    item, other = (tagged(session, who, one, for_change=True) for one in (tag, other_tag))
    second = _second(session, who, second_id)
    _must_fit(item, other, seen, seen_at_other)
    if since is not None and since > now():
        raise Refused("That day has not come yet.", "since_on")
    since = since or last_agreed(differences(seen, item), _said_of(session, item), item.logged)
    for one in (item, other):
        leave(session, who, one, note="tags swapped")
    there = [now_of(history_of(session, one)) or Whereabouts(standing="here", place=one.place) for one in (item, other)]
    first = _exchange(session, who, item, there[1], other_id=other.id, since=since, by_whom=second, note=why)
    _exchange(session, who, other, there[0], other_id=item.id, since=since, by_whom=second, note=why, with_id=first.id)
    settle(session, [item, other])
    add_evidence(session, who, other, *_said(seen))
    add_evidence(session, who, item, *_said(seen_at_other))
    people.note(session, who, "swapped tags", "item", item.id, other=other.tag, second=second)
    return item, other


def _second(session: Session, who: Who, second_id: int | None) -> str:
    """The second name: somebody else of the yard who is here."""
    found = next((one for one in people.people(session) if one.id == second_id and one.is_here), None)
    if found is None or found.role == "owner":
        raise Refused("Swapping tags takes two names. Who looked with you?", "second_id")
    if found.id == who.person_id:
        raise Refused("That is you. A second pair of eyes, please.", "second_id")
    return found.name


def _must_fit(item: Item, other: Item, seen: Seen, seen_at_other: Seen) -> None:
    if item.id == other.id or item.kind != other.kind:
        raise Refused("Tags cross between two things of one kind.", "other_tag")
    for one in (item, other):
        if one.merged_into_id is not None:
            raise Refused(f"{one.tag} is {one.place}. Use the tag that was kept.", "other_tag")
    if seen.is_empty or seen_at_other.is_empty:
        raise Refused(f"Look at {other.tag} too: hand, blades, size, or best its weight.", "other_hand")
    if not differences(seen, item) and not differences(seen_at_other, other):
        raise Refused("Each is as its own tag says: nothing that is seen speaks for a swap.", "other_hand")
    for where, look, has in ((item, seen, other), (other, seen_at_other, item)):
        apart = differences(look, has)
        if apart:
            names = " and ".join(one.what.removesuffix("_m").removesuffix("_kg") for one in apart)
            raise Refused(f"What is seen at {where.tag} is not {has.tag} either: {names} differs.", "other_hand")


def _said_of(session: Session, item: Item) -> list[Evidence]:
    return list(session.scalars(select(Evidence).where(Evidence.item_id == item.id)))


def _exchange(
    session: Session, who: Who, item: Item, there: Whereabouts, *, with_id: int | None = None, **said: Any
) -> Event:
    """It is where the other tag was said to be."""
    event = Event(
        kind="tags swapped",
        at=now(),
        standing=there.standing,
        drive_id=there.drive_id,
        drive=there.drive,
        place=there.place,
        due_on=there.due_on,
        with_id=with_id,
        **said,
    )
    return happened(session, who, item, event=event)


def _said(seen: Seen) -> list[Said]:
    """What was seen at a thing, as statements about it."""
    note = "seen when tags were swapped"
    said = []
    if seen.hand:
        said.append(Said(what="hand", basis="measured", word=seen.hand, note=note))
    if seen.blades:
        said.append(Said(what="blades", basis="measured", value=float(seen.blades), u_value=0.0, note=note))
    for what, u in U_SEEN.items():
        value = getattr(seen, what)
        if value is not None:
            said.append(Said(what=what, basis="measured", value=value, u_value=u, note=note))
    return said
