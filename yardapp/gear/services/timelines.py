"""Timelines of an item, a boat and a drive, and what was on a boat on a day."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Integer, bindparam, exists, or_, select
from sqlalchemy.orm import Session, aliased

from yardapp.db import UtcTime
from yardapp.gear.figures import WORK
from yardapp.gear.models import Event, Evidence, Item, Photo
from yardapp.gear.services.items import seen_by, tagged
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.timelines import Asked, Moment, Strand, strand, told_of, woven
from yardapp.vessels.services.stays import Stay, happenings_strand, stays_in, stays_of_drive

WORKED = (*WORK, "declined")


@dataclass(frozen=True, kw_only=True)
class Timeline:
    """What happened to one thing, boat or drive, a page of it, and where the next page goes on."""

    of: Any
    moments: Sequence[Moment]
    further: str


def item_timeline(session: Session, who: Who, tag: str, asked: Asked) -> Timeline:
    """All that happened to a thing under each tag that it has had. Two queries.

    Raises
    ------
    NotFound
        Nothing carries the tag, or this person may not know of it.
    """
    mine = select(Item.id).where(Item.tag == tag.strip().upper(), seen_by(who))
    both = select(Item.id, Item.tag).where(or_(Item.id.in_(mine), Item.merged_into_id.in_(mine)))
    found = session.execute(both).all()
    item = next((one for one in found if one.tag == tag.strip().upper()), None) or tagged(session, who, tag)
    ids = [one.id for one in found]
    given = {"items": ids} | {f"item_{number}": one for number, one in enumerate(ids)}
    moments, further = woven(session, _of_items, (len(ids),), given, asked)
    return Timeline(of=item, moments=moments, further=further)


def _of_items(count: int) -> list[Strand]:
    """Of a thing under so many tags."""
    mine = [one for number in range(count) for one in _of_item(_number(f"item_{number}"))]
    return [*mine, *told_of("item", bindparam("items", expanding=True))]


def _number(name: str) -> Any:
    return bindparam(name, type_=Integer())


def _of_item(item_id: Any) -> list[Strand]:
    replacing = aliased(Evidence)
    return [
        _events("moved", Event.item_id == item_id, Event.kind.not_in(WORKED)),
        _events("worked", Event.item_id == item_id, Event.kind.in_(WORKED)),
        strand(
            "read",
            "figures",
            Evidence,
            Evidence.item_id == item_id,
            joined=[(Item, Item.id == Evidence.item_id)],
            kind=Evidence.what,
            tag=Item.tag,
            value=Evidence.value,
            u_value=Evidence.u_value,
            word=Evidence.word,
            basis=Evidence.basis,
            note=Evidence.note,
            why=Evidence.why,
            is_replaced=exists().where(replacing.replaces_id == Evidence.id),
        ),
        strand(
            "photo",
            "photos",
            Photo,
            Photo.item_id == item_id,
            joined=[(Item, Item.id == Photo.item_id)],
            tag=Item.tag,
            note=Photo.caption,
            word=Photo.sha256,
        ),
    ]


def _events(group: str, *where: ColumnElement[bool]) -> Strand:
    undoing, other = aliased(Event), aliased(Item)
    return strand(
        group,
        "work" if group == "worked" else "moves",
        Event,
        *where,
        joined=[(Item, Item.id == Event.item_id), (other, other.id == Event.other_id)],
        kind=Event.kind,
        tag=Item.tag,
        drive=Event.drive,
        place=Event.place,
        note=Event.note,
        why=Event.why,
        by_whom=Event.by_whom,
        cost=Event.cost,
        other=other.tag,
        since=Event.since,
        due_on=Event.due_on,
        is_replaced=exists().where(undoing.undoes_id == Event.id),
    )


def _on_drives(spells: tuple[tuple[bool, bool], ...]) -> list[Strand]:
    """What came on and off drives, and was done there, while each stood in that boat: has it a begin, an end?"""
    found = []
    for number, (has_begin, has_end) in enumerate(spells):
        here = [Event.drive_id == _number(f"drive_{number}")]
        here += [Event.at >= bindparam(f"begin_{number}", type_=UtcTime())] if has_begin else []
        here += [Event.at < bindparam(f"end_{number}", type_=UtcTime())] if has_end else []
        found += [_events("moved", *here, Event.kind.not_in(WORKED)), _events("worked", *here, Event.kind.in_(WORKED))]
    return found


def _spells(stays: Sequence[Stay]) -> tuple[tuple[tuple[bool, bool], ...], dict[str, Any]]:
    """Which ends each stay has, and what they are, by name."""
    given: dict[str, Any] = {}
    for number, stay in enumerate(stays):
        ends = {f"drive_{number}": stay.drive_id, f"begin_{number}": stay.since, f"end_{number}": stay.until}
        given |= {name: one for name, one in ends.items() if one is not None}
    return tuple((stay.since is not None, stay.until is not None) for stay in stays), given


def boat_timeline(session: Session, who: Who, vessel_id: int, asked: Asked) -> Timeline:
    """All that happened to a boat, her drives while they stood in her, and what went on and off. Two queries.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    vessel, stays = stays_in(session, who, vessel_id)
    spells, given = _spells(stays)
    given |= {"vessel": vessel_id, "vessels": [vessel_id]}
    given["drives"] = sorted({stay.drive_id for stay in stays if stay.until is None})
    moments, further = woven(session, _of_boat, (who.may("see"), spells), given, asked)
    return Timeline(of=vessel, moments=moments, further=further)


def _of_boat(is_all: bool, spells: tuple[tuple[bool, bool], ...]) -> list[Strand]:
    return [
        happenings_strand(is_all=is_all, vessel_id=_number("vessel")),
        *told_of("vessel", bindparam("vessels", expanding=True)),
        *told_of("drive", bindparam("drives", expanding=True)),
        *_on_drives(spells),
    ]


def drive_timeline(session: Session, who: Who, drive_id: int, asked: Asked) -> Timeline:
    """All that happened to a drive; an owner sees what happened to it in the owner's own boat. Two queries.

    Raises
    ------
    NotFound
        There is no such drive, or this person may not know of it.
    """
    drive, vessel, stays = stays_of_drive(session, who, drive_id)
    spells, given = _spells(stays)
    given |= {"drive": drive_id, "drives": [drive_id]} | ({} if who.may("see") else {"vessel": vessel.id})
    moments, further = woven(session, _of_drive, (who.may("see"), spells), given, asked)
    return Timeline(of=(drive, vessel), moments=moments, further=further)


def _of_drive(is_all: bool, spells: tuple[tuple[bool, bool], ...]) -> list[Strand]:
    only = None if is_all else _number("vessel")
    return [
        happenings_strand(is_all=is_all, drive_id=_number("drive"), vessel_id=only),
        *told_of("drive", bindparam("drives", expanding=True)),
        *_on_drives(spells),
    ]


def _named() -> tuple[Any, Any, Any]:
    item = aliased(Item)
    return item, item.id, item.tag


people.NAMED["item"] = _named
