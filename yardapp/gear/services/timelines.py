"""Timelines of an item, a boat and a drive, and what was on a boat on a day."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from sqlalchemy import ColumnElement, Integer, and_, bindparam, exists, false, or_, select
from sqlalchemy.orm import Session, aliased

from yardapp.db import UtcTime
from yardapp.gear.figures import WORK
from yardapp.gear.models import Event, Evidence, Item, Photo
from yardapp.gear.services.aboard import ever_on, was_on
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
        _events(Event.item_id == item_id),
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


def _events(*where: ColumnElement[bool]) -> Strand:
    undoing, other = aliased(Event), aliased(Item)
    told = strand(
        "event",
        "",
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
    return replace(told, split={"moves": Event.kind.not_in(WORKED), "work": Event.kind.in_(WORKED)})


Ends = tuple[bool, bool]  # has a stay a begin, an end?


def _stood(number: int, ends: Ends, drive_id: Any, at: Any) -> ColumnElement[bool]:
    """Whether that was the drive of a stay, and the moment within it."""
    begin, end = (bindparam(f"{name}_{number}", type_=UtcTime()) for name in ("begin", "end"))
    after = [at >= begin] if ends[0] else []
    before = [at < end] if ends[1] else []
    return and_(drive_id == _number(f"drive_{number}"), *after, *before)


def _on_drives(spells: tuple[Ends, ...]) -> list[Strand]:
    """What came on and off drives, and was done there, while each stood in that boat."""
    return [_events(_stood(number, ends, Event.drive_id, Event.at)) for number, ends in enumerate(spells)]


def _of_drives(spells: tuple[Ends, ...]) -> list[Strand]:
    """What other rooms tell of drives, and of all things that were on them, while each stood in that boat."""
    drives: Any = bindparam("drives", expanding=True)
    ever = select(ever_on(drives).cte("ever_on"))
    on = [partial(_stood, number, ends) for number, ends in enumerate(spells)]
    of_them = [
        replace(one, rows=one.rows.where(or_(false(), *(stood(one.drive_id, one.at) for stood in on))))
        for one in told_of("drive", drives)
    ]
    return [*of_them, *(_while_on(one, on) for one in told_of("item", ever))]


def _while_on(one: Strand, on: Sequence[Any]) -> Strand:
    """Of a strand of things what was told while each was on one of these drives, with its tag."""

    tag = select(Item.tag).where(Item.id == one.item_id).scalar_subquery().label("tag")
    columns = [tag if column.key == "tag" else column for column in one.rows.selected_columns]
    return replace(one, rows=one.rows.with_only_columns(*columns), sifted=partial(was_on, on))


def _spells(stays: Sequence[Stay]) -> tuple[tuple[Ends, ...], dict[str, Any]]:
    """Which ends each stay has, and what they are, by name."""
    given: dict[str, Any] = {}
    for number, stay in enumerate(stays):
        ends = {f"drive_{number}": stay.drive_id, f"begin_{number}": stay.since, f"end_{number}": stay.until}
        given |= {name: one for name, one in ends.items() if one is not None}
    given["drives"] = sorted({stay.drive_id for stay in stays})
    return tuple((stay.since is not None, stay.until is not None) for stay in stays), given


def boat_timeline(session: Session, who: Who, vessel_id: int, asked: Asked) -> Timeline:
    """All that happened to a boat, to her drives while they stood in her, and to her parts while on her. Two queries.

    Raises
    ------
    NotFound
        There is no such boat, or this person may not know of her.
    """
    vessel, stays = stays_in(session, who, vessel_id)
    spells, given = _spells(stays)
    given |= {"vessel": vessel_id, "vessels": [vessel_id]}
    moments, further = woven(session, _of_boat, (who.may("see"), spells), given, asked)
    return Timeline(of=vessel, moments=moments, further=further)


def _of_boat(is_all: bool, spells: tuple[Ends, ...]) -> list[Strand]:
    return [
        happenings_strand(is_all=is_all, vessel_id=_number("vessel")),
        *told_of("vessel", bindparam("vessels", expanding=True)),
        *_of_drives(spells),
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
    given |= {"drive": drive_id} | ({} if who.may("see") else {"vessel": vessel.id})
    moments, further = woven(session, _of_drive, (who.may("see"), spells), given, asked)
    return Timeline(of=(drive, vessel), moments=moments, further=further)


def _of_drive(is_all: bool, spells: tuple[Ends, ...]) -> list[Strand]:
    only = None if is_all else _number("vessel")
    return [
        happenings_strand(is_all=is_all, drive_id=_number("drive"), vessel_id=only),
        *_of_drives(spells),
        *_on_drives(spells),
    ]


def _named() -> tuple[Any, Any, Any]:
    item = aliased(Item)
    return item, item.id, item.tag


people.NAMED["item"] = _named
