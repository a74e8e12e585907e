"""One item with everything that was ever said, done and photographed of it: two queries."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import ColumnElement, Integer, String, bindparam, cast, literal, null, or_, select, true, union_all
from sqlalchemy.orm import Session, aliased

from yardapp.errors import NotFound
from yardapp.gear.models import Event, Evidence, Item, Photo, Set
from yardapp.gear.services.items import seen_by
from yardapp.people.services import Who
from yardapp.vessels import services as vessels

# What other rooms tell on a thing's page, by name: each a column over Item, asked for in the page's own query.
TOLD: dict[str, Callable[[], ColumnElement[Any]]] = {}

# Made once: a new alias of a table this wide costs milliseconds.
KEPT, OTHER = aliased(Item), aliased(Item)


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of an item's story: a statement, an event or a photo."""

    row: str
    id: int
    at: datetime
    said_by: str
    kind: str
    value: float | None = None
    u_value: float | None = None
    word: str | None = None
    typed: str = ""
    basis: str = ""
    true_from: datetime | None = None
    source: str = ""
    source_id: int | None = None
    replaces_id: int | None = None
    why: str = ""
    note: str = ""
    place: str = ""
    drive: str = ""
    is_replaced: bool = False
    # Under which of its tags it was written, where the thing has had two.
    tag: str = ""
    standing: str = ""
    due_on: date | None = None
    with_id: int | None = None
    other: str = ""
    since: datetime | None = None
    by_whom: str = ""
    cost: str = ""


@dataclass(frozen=True, kw_only=True)
class ItemPage:
    """What an item's page shows."""

    item: Item
    aboard: str
    came_off: str
    lines: Sequence[Line] = field(default_factory=tuple)
    set_name: str = ""
    kept_tag: str = ""
    told: Mapping[str, Any] = field(default_factory=dict)

    @property
    def evidence(self) -> list[Line]:
        """The statements, newest first."""
        return [line for line in self.lines if line.row == "evidence"]

    @property
    def events(self) -> list[Line]:
        """What happened, newest first."""
        return [line for line in self.lines if line.row == "event"]

    @property
    def photos(self) -> list[Line]:
        """The photos, newest first; `word` is the picture's SHA-256."""
        return [line for line in self.lines if line.row == "photo"]

    def statement(self, line_id: int) -> Line | None:
        """The statement of that number."""
        return next((line for line in self.evidence if line.id == line_id), None)


def item_page(session: Session, who: Who, tag: str, kind: str | None = None, *, newest: int | None = None) -> ItemPage:
    """An item, of that kind when one is asked for, and its whole story; of the events perhaps the `newest` alone.

    Raises
    ------
    NotFound
        Nothing of this kind carries the tag, or this person may not know of it.
    """
    found = session.execute(
        _item_asked(tuple(TOLD)).where(
            Item.tag == tag.strip().upper(), seen_by(who), Item.kind == kind if kind else true()
        )
    ).first()
    if found is None:
        raise NotFound(f"No {kind or 'item'} here carries the tag {tag}.")
    return ItemPage(
        item=found[0],
        aboard=vessels.label_of(found.vessel, found.position) if found.position else "",
        came_off=vessels.label_of(found.off_vessel, found.off_position) if found.off_position else "",
        lines=_lines(session, found[0].id, newest),
        set_name=found.set_name or "",
        kept_tag=found.kept_tag or "",
        told={name: getattr(found, name) for name in TOLD},
    )


@lru_cache(maxsize=8)
def _item_asked(told: Sequence[str]) -> Any:
    """The query for an item and what all rooms tell of it, without which item: built once as well."""
    on, off = vessels.drive_names().subquery(), vessels.drive_names().subquery()
    off_names = (off.c.vessel.label("off_vessel"), off.c.position.label("off_position"))
    return (
        select(Item, on.c.vessel, on.c.position, *off_names, Set.name.label("set_name"), KEPT.tag.label("kept_tag"))
        .add_columns(*(TOLD[name]().label(name) for name in told))
        .outerjoin(on, on.c.drive_id == Item.aboard_id)
        .outerjoin(off, off.c.drive_id == Item.came_off_id)
        .outerjoin(Set, Set.id == Item.set_id)
        .outerjoin(KEPT, KEPT.id == Item.merged_into_id)
    )


def _lines(session: Session, item_id: int, newest: int | None) -> list[Line]:
    rows = session.execute(_parts(newest), {"item": item_id}).mappings().all()
    replaced = {(row["row"], row["replaces_id"]) for row in rows if row["replaces_id"] is not None}
    lines = [_line(row, (row["row"], row["id"]) in replaced) for row in rows]
    return sorted(lines, key=lambda line: (line.true_from or line.at, line.id), reverse=True)


@lru_cache(maxsize=8)
def _parts(newest: int | None) -> Any:
    """The query for all lines of the item that is given: built once, for building it takes longer than answering it."""
    item_id = bindparam("item", type_=Integer())
    return union_all(_statements(item_id), _events(item_id, newest), _photos(item_id))


def _line(row: Any, is_replaced: bool) -> Line:
    said = {name: value for name, value in row.items() if value is not None}
    return Line(**said, is_replaced=is_replaced)


def _of(table: Any, item_id: Any) -> Any:
    """The lines of a thing under each tag that it has had, and the tag."""
    return Item.id == table.item_id, or_(Item.id == item_id, Item.merged_into_id == item_id)


def _statements(item_id: Any) -> Any:
    join, mine = _of(Evidence, item_id)
    return (
        select(
            literal("evidence").label("row"),
            Evidence.id,
            Evidence.at,
            Evidence.said_by,
            Evidence.what.label("kind"),
            Evidence.value,
            Evidence.u_value,
            cast(Evidence.word, String).label("word"),
            Evidence.typed,
            Evidence.basis,
            Evidence.true_from,
            Evidence.source,
            Evidence.source_id,
            Evidence.replaces_id,
            Evidence.why,
            Evidence.note,
            literal("").label("place"),
            literal("").label("drive"),
            Item.tag,
            *_of_moves(None),
        )
        .join(Item, join)
        .where(mine)
    )


def _events(item_id: Any, newest: int | None) -> Any:
    """What happened; of a long history the newest, and what throws a doubt on the lines around it."""
    join, mine = _of(Event, item_id)
    rows = _bare("event", Event, Event.kind, Event.note, Event.place, Event.drive).join(Item, join).where(mine)
    if newest is None:
        return rows
    last = select(Event.id).join(Item, join).where(mine).order_by(Event.at.desc(), Event.id.desc()).limit(newest)
    return rows.where(or_(Event.id.in_(last), Event.kind == "tags swapped"))


def _photos(item_id: Any) -> Any:
    join, mine = _of(Photo, item_id)
    bare = _bare("photo", Photo, literal("photo"), Photo.caption, literal(""), literal(""), Photo.sha256)
    return bare.join(Item, join).where(mine)


def _of_moves(table: Any) -> list[Any]:
    """The columns that events alone have; nothing of the rest."""
    names = ("standing", "due_on", "with_id", "since", "by_whom", "cost")
    columns = [getattr(Event, name) for name in names]
    mine = [(column if table is Event else cast(null(), column.type)).label(column.key) for column in columns]
    tag = select(OTHER.tag).where(OTHER.id == Event.other_id).scalar_subquery()
    return [*mine, (tag if table is Event else cast(null(), String)).label("other")]


def _bare(row: str, table: Any, kind: Any, note: Any, place: Any, drive: Any, word: Any = None) -> Any:
    """The columns of a line that is no statement, in the same order as a statement's."""
    number, whole, moment = (
        cast(null(), Evidence.value.type),
        cast(null(), Evidence.id.type),
        cast(null(), Event.at.type),
    )
    return select(
        literal(row).label("row"),
        table.id,
        table.at,
        table.said_by,
        kind.label("kind"),
        number.label("value"),
        number.label("u_value"),
        (cast(null(), String) if word is None else word).label("word"),
        literal("").label("typed"),
        literal("").label("basis"),
        moment.label("true_from"),
        literal("").label("source"),
        whole.label("source_id"),
        (Event.undoes_id if table is Event else whole).label("replaces_id"),
        (Event.why if table is Event else literal("")).label("why"),
        note.label("note"),
        place.label("place"),
        drive.label("drive"),
        Item.tag,
        *_of_moves(table),
    )
