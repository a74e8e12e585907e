"""The rack map: bins as records, and what is in which."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import func, select, update
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.models import Bin, Item
from yardapp.gear.services.bins import key_of, label_of_bin
from yardapp.gear.services.search import ItemRow, listed, row_of
from yardapp.people import services as people
from yardapp.people.services import Who

AT_ONCE = 400  # bins that one form may make
SHOWN = 500


@dataclass(frozen=True, kw_only=True)
class BinRow:
    """One bin as the map shows it; `first_tag` is one of the things in it."""

    id: int
    rack: str
    shelf: str
    bin: str
    label: str
    is_in_use: bool
    count: int = 0
    first_tag: str = ""


@dataclass(frozen=True, kw_only=True)
class BinPage:
    """One bin and what is in it."""

    bin: Bin
    items: Sequence[ItemRow]


def add_bins(session: Session, who: Who, *, rack: str, shelves: int = 0, bins: int = 1) -> list[Bin]:
    """Put a rack on the map: so many shelves (0: no shelves) with so many bins each. Bins that are there stay.

    What is said to lie there already, in words, lies in the bin from now on.

    Raises
    ------
    NotAllowed
        Only yard hands and the office change the map.
    Refused
        The rack has no name, there are too many bins at once, or every one of them is on the map.
    """
    who.must("change")
    rack = " ".join(rack.split())[:40]
    if not key_of(rack):
        raise Refused("What is the rack called? A letter will do.", "rack")
    if not 1 <= max(shelves, 1) * bins <= AT_ONCE:
        raise Refused(f"Between one bin and {AT_ONCE} at once.", "bins")
    wanted = [(shelf, str(number)) for shelf in _shelves(shelves) for number in range(1, bins + 1)]
    made = [one for shelf, number in wanted if (one := _bin(session, who, rack, shelf, number)) is not None]
    if not made:
        raise Refused("Every one of these bins is on the map already.", "bins")
    _take_in(session, made)
    people.note(session, who, "added bins", "rack", 0, rack=rack, bins=len(made))
    return made


def _shelves(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)] or [""]


def _bin(session: Session, who: Who, rack: str, shelf: str, number: str) -> Bin | None:
    """A new bin, or one that comes into use again; None where it is on the map."""
    label = label_of_bin(rack, shelf, number)
    there = session.scalar(select(Bin).where(Bin.key == key_of(label)))
    if there is not None:
        was_in_use, there.is_in_use = there.is_in_use, True
        return None if was_in_use else there
    made = Bin(rack=rack, shelf=shelf, bin=number, label=label, key=key_of(label), made=now(), said_by=who.name)
    session.add(made)
    session.flush()  # things are put into it by its number
    return made


def _take_in(session: Session, bins: Sequence[Bin]) -> None:
    """What lies there in words lies in the bin."""
    places = session.scalars(select(Item.place).where(Item.standing == "here", Item.bin_id.is_(None)).distinct()).all()
    by_key: dict[str, list[str]] = {}
    for place in places:
        by_key.setdefault(key_of(place), []).append(place)
    for one in bins:
        if one.key in by_key:
            lying = Item.place.in_(by_key[one.key])
            session.execute(update(Item).where(lying, Item.standing == "here").values(bin_id=one.id))


def retire_bin(session: Session, who: Who, bin_id: int) -> Bin:
    """Take an empty bin off the map. Its printed label goes on answering.

    Raises
    ------
    NotFound
        There is no such bin.
    Refused
        Something is in it.
    """
    who.must("change")
    there = _bin_by_id(session, bin_id)
    count = session.scalar(select(func.count(Item.id)).where(Item.bin_id == bin_id)) or 0
    if count:
        raise Refused(f"{there.label} holds {count} thing{'s' if count > 1 else ''}. Put them somewhere else first.")
    there.is_in_use = False
    people.note(session, who, "retired", "bin", bin_id, label=there.label)
    return there


def _bin_by_id(session: Session, bin_id: int) -> Bin:
    there = session.get(Bin, bin_id)
    if there is None:
        raise NotFound("There is no such bin.")
    return there


def rack_map(session: Session, who: Who, *, rack: str = "") -> list[BinRow]:
    """Every bin in use with how much is in it, rack by rack.

    Raises
    ------
    NotAllowed
        Owners see their own gear, not the racks.
    """
    who.must("see")
    chosen = (
        select(Bin, func.count(Item.id).label("things"), func.min(Item.tag).label("first_tag"))
        .outerjoin(Item, Item.bin_id == Bin.id)
        .where(Bin.is_in_use)
        .group_by(Bin.id)
        .order_by(Bin.id)
    )
    rows = session.execute(chosen.where(Bin.rack == rack) if rack else chosen)
    return [_row(row.Bin, row.things, row.first_tag or "") for row in rows]


def _row(one: Bin, count: int = 0, first_tag: str = "") -> BinRow:
    return BinRow(
        id=one.id,
        rack=one.rack,
        shelf=one.shelf,
        bin=one.bin,
        label=one.label,
        is_in_use=one.is_in_use,
        count=count,
        first_tag=first_tag,
    )


def bin_page(session: Session, who: Who, bin_id: int) -> BinPage:
    """One bin and what is in it.

    Raises
    ------
    NotFound
        There is no such bin.
    """
    who.must("see")
    there = _bin_by_id(session, bin_id)
    found = session.execute(listed().where(Item.bin_id == bin_id).order_by(Item.kind, Item.tag).limit(SHOWN))
    return BinPage(bin=there, items=[row_of(row) for row in found])
