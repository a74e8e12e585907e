"""Change the record itself, and take an owner's proposal in."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from yardapp.errors import Refused, Superseded
from yardapp.gear.models import Item
from yardapp.gear.services.evidence import words_of
from yardapp.gear.services.happening import happened
from yardapp.gear.services.items import item_by_tag
from yardapp.gear.services.moves import Going, make_move, together
from yardapp.people import services as people
from yardapp.people.services import Who


def change_item(
    session: Session,
    who: Who,
    tag: str,
    version: int,
    *,
    place: str | None = None,
    note: str | None = None,
    is_for_sale: bool | None = None,
) -> Item:
    """Change the record itself: its place, its note, whether it is for sale. Figures change by evidence alone.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    Superseded
        Somebody saved this record since `version`.
    """
    who.must("change")
    item = item_by_tag(session, who, tag, for_change=True)
    wanted = _wanted(item, place, note, is_for_sale)
    if item.version != version and any(getattr(item, name) != value for name, value in wanted.items()):
        raise Superseded(item.version, _theirs(item, wanted), _last_hand(session, item))
    if wanted.get("place", item.place) != item.place:
        make_move(session, who, together(session, item), Going(kind="moved", place=wanted["place"]))
    else:
        item.version += 1
    item.note = wanted.get("note", item.note)
    if wanted.get("is_for_sale", item.is_for_sale) != item.is_for_sale:
        item.is_for_sale = not item.is_for_sale
        happened(session, who, item, "put up for sale" if item.is_for_sale else "no longer for sale")
    item.words = words_of(item)
    people.note(session, who, "changed", "item", item.id, **wanted)
    return item


def _wanted(item: Item, place: str | None, note: str | None, is_for_sale: bool | None) -> Mapping[str, Any]:
    wanted: dict[str, Any] = {} if note is None else {"note": note.strip()}
    if is_for_sale is not None:
        wanted["is_for_sale"] = is_for_sale
    if place is not None and item.standing != "here" and place.strip() not in ("", item.place):
        raise Refused(f"{item.tag} is {_elsewhere(item)}. Say with “Move” where it went.", "place")
    if place is not None and item.standing == "here":
        if not place.strip():
            raise Refused("Where is it? A rack, a bin, a corner of the shed.", "place")
        wanted["place"] = " ".join(place.split())[:120]
    return wanted


def _theirs(item: Item, wanted: Mapping[str, Any]) -> dict[str, str]:
    """What stands on the record now, box by box; what the form did not ask is no quarrel."""
    stands = {"place": item.place, "note": item.note}
    return stands | ({"is_for_sale": "yes" if item.is_for_sale else "no"} if "is_for_sale" in wanted else {})


def _elsewhere(item: Item) -> str:
    return "on a boat" if item.standing == "aboard" else item.place


def _last_hand(session: Session, item: Item) -> str:
    trail = people.audit_of(session, "item", item.id, limit=1)
    return trail[0].name if trail else "Somebody"


def accept_proposal(session: Session, who: Who, tag: str) -> Item:
    """Take an owner's proposal into the register.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    """
    who.must("change")
    item = item_by_tag(session, who, tag, for_change=True)
    item.is_proposed = False
    item.version += 1
    people.note(session, who, "accepted", "item", item.id)
    return item
