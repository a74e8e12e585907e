"""What happened, newest first, out of many tables at once: strands of one shape, woven, paged by the last moment."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Date,
    Double,
    Integer,
    Select,
    String,
    and_,
    bindparam,
    cast,
    inspect,
    literal,
    null,
    or_,
    select,
    union_all,
)
from sqlalchemy.orm import Session
from sqlalchemy.sql.util import find_tables

from yardapp.db import UtcTime

PAGE = 50
MANY = 10**9
MOST_DIGITS = 10  # a row's number fits into 32 bits: it has fewer
TEXTS = ("kind", "tag", "drive", "place", "note", "why", "by_whom", "cost", "other", "word", "basis")


@dataclass(kw_only=True, slots=True)
class Moment:
    """One thing that happened; which of the rest is filled depends on the strand."""

    strand: str
    id: int
    at: datetime
    said_by: str
    kind: str = ""
    tag: str = ""
    drive: str = ""
    place: str = ""
    note: str = ""
    why: str = ""
    by_whom: str = ""
    cost: str = ""
    other: str = ""
    word: str = ""
    basis: str = ""
    value: float | None = None
    u_value: float | None = None
    since: datetime | None = None
    due_on: Any = None
    is_replaced: bool = False

    @property
    def key(self) -> str:
        """Where the next page goes on: a moment on a page names itself."""
        return f"{self.at.isoformat()}~{self.strand}~{self.id}"


@dataclass(frozen=True, kw_only=True)
class Strand:
    """One table's share: which rows, when each was, and its number in the table. `name` says whose words it is in.

    Of which thing and which drive a row is stands in the first of its tables that says so; None: none does.
    Where one table's rows are of several groups, `split` says which are of each.
    `sifted` asks what is too dear to be asked of every row: of the newest, one after the other, until a page is full.
    """

    name: str
    group: str
    rows: Select[Any]
    at: Any
    id: Any
    item_id: Any = None
    drive_id: Any = None
    split: Mapping[str, ColumnElement[bool]] = field(default_factory=dict)
    sifted: Callable[[Any, Any], ColumnElement[bool]] | None = None


@dataclass(frozen=True, kw_only=True)
class Asked:
    """Which moments: of one group or all, from a moment on, up to another, after the last one that was shown."""

    group: str = ""
    since: datetime | None = None
    until: datetime | None = None
    after: str = ""
    limit: int = PAGE


# What other rooms have to tell of a thing, a boat or a drive, by ("item" | "vessel" | "drive", strand's name):
# each makes strands out of the numbers of the things, boats or drives.
TOLD: dict[tuple[str, str], Callable[[Any], list[Strand]]] = {}


def strand(
    name: str, group: str, table: Any, *where: ColumnElement[bool], joined: Sequence[Any] = (), **columns: Any
) -> Strand:
    """A table's share: `columns` are those of `Moment`, each the table's own or empty where left out.

    A table that is `joined` need not have a row, unless it is asked about: SQLite begins with it only if it must.
    """
    at, said_by = (columns.get(name) if name in columns else getattr(table, name) for name in ("at", "said_by"))
    since, due_on = columns.get("since"), columns.get("due_on")
    chosen = [
        literal(name).label("strand"),
        table.id.label("id"),
        _named("at", at),
        _named("said_by", said_by),
        *(cast(columns.get(text, literal("")), String).label(text) for text in TEXTS),
        *(cast(columns.get(number, null()), Double).label(number) for number in ("value", "u_value")),
        _named("since", cast(null(), UtcTime()) if since is None else since),
        _named("due_on", cast(null(), Date) if due_on is None else due_on),
        _named("is_replaced", columns.get("is_replaced", literal(False))),
    ]
    rows = select(*chosen).select_from(table)
    for target, clause in joined:
        rows = rows.join(target, clause, isouter=not _is_asked_about(target, where))
    tables = [table, *(target for target, _clause in joined)]
    about = {name: _first_of(tables, name) for name in ("item_id", "drive_id")}
    return Strand(name=name, group=group, rows=rows.where(*where), at=at, id=table.id, **about)


def _named(name: str, column: Any) -> Any:
    return column.label(name)


def _is_asked_about(target: Any, where: Sequence[ColumnElement[bool]]) -> bool:
    return any(inspect(target).selectable in find_tables(clause, check_columns=True) for clause in where)


def _first_of(tables: Sequence[Any], name: str) -> Any:
    return next((getattr(table, name) for table in tables if hasattr(table, name)), None)


def woven(
    session: Session, make: Callable[..., list[Strand]], shape: tuple[Any, ...], given: dict[str, Any], asked: Asked
) -> tuple[list[Moment], str]:
    """The newest moments of all strands, and the key after which the next page goes on (empty: no more). One query.

    `make(*shape)` makes the strands, in which what is `given` stands by name; the query is built once for each shape,
    for building it takes longer than answering it. Each strand is read along its own index, no further than a page.
    """
    last = _read(asked.after)
    days = (asked.since is not None, asked.until is not None)
    query = _built(make, shape, asked.group, days, last[1] if last else None, asked.limit)
    if query is None:
        return [], ""
    sought: dict[str, Any] = {"asked_since": asked.since, "asked_until": asked.until}
    if last is not None:
        sought |= {"last_at": last[0], "last_id": last[2]}
    told = session.execute(query, given | {name: one for name, one in sought.items() if one is not None})
    names, rows = tuple(told.keys()), sorted(told, key=_order, reverse=True)
    shown = [_known(names, row) for row in rows[: asked.limit]]
    return shown, shown[-1].key if len(rows) > asked.limit else ""


@lru_cache(maxsize=500)
def _built(
    make: Callable[..., list[Strand]],
    shape: tuple[Any, ...],
    group: str,
    days: tuple[bool, bool],
    after: str | None,
    limit: int,
) -> Any:
    strands = [found for one in make(*shape) if (found := _of_group(one, group)) is not None]
    return union_all(*(select(_share(one, days, after, limit).subquery()) for one in strands)) if strands else None


def _of_group(one: Strand, group: str) -> Strand | None:
    if group in one.split:
        return replace(one, rows=one.rows.where(one.split[group]))
    return one if group in ("", one.group) else None


def _order(one: Any) -> tuple[datetime, str, int]:
    return one.at, one.strand, one.id


def _known(names: tuple[str, ...], row: Any) -> Moment:
    one = Moment(**{name: value for name, value in zip(names, row, strict=True) if value is not None})
    one.is_replaced = bool(one.is_replaced)
    return one


def _share(one: Strand, days: tuple[bool, bool], after: str | None, limit: int) -> Select[Any]:
    rows = one.rows
    if days[0]:
        rows = rows.where(one.at >= bindparam("asked_since", type_=UtcTime()))
    if days[1]:
        rows = rows.where(one.at < bindparam("asked_until", type_=UtcTime()))
    if after is not None:
        rows = rows.where(_older(one, after))
    if one.sifted is not None:
        rows = rows.where(one.id.in_(_sifted(one, rows, limit)))
    return rows.order_by(one.at.desc(), one.id.desc()).limit(limit + 1)


def _sifted(one: Strand, rows: Select[Any], limit: int) -> Any:
    """Both databases take a query that has a limit in its own order, and stop when the outer limit is reached."""
    bare = rows.with_only_columns(one.id.label("id"), one.at.label("at"), one.item_id.label("item_id"))
    told = bare.order_by(one.at.desc(), one.id.desc()).limit(MANY).subquery().c
    return select(told.id).where(one.sifted(told.item_id, told.at)).limit(limit + 1) if one.sifted else told.id


def _older(one: Strand, name: str) -> Any:
    """Older than the last one shown; of the same moment, what comes after it in the order of strand and number."""
    at, number = bindparam("last_at", type_=UtcTime()), bindparam("last_id", type_=Integer())
    if one.name > name:
        return one.at < at
    if one.name < name:
        return one.at <= at
    return or_(one.at < at, and_(one.at == at, one.id < number))


def _read(key: str) -> tuple[datetime, str, int] | None:
    """The last moment shown; nothing where the address was tampered with."""
    at, _, rest = key.partition("~")
    name, _, number = rest.partition("~")
    try:
        moment = datetime.fromisoformat(at)
        is_whole = moment.tzinfo is not None and number.isdecimal() and len(number) < MOST_DIGITS
        return (moment.astimezone(UTC), name, int(number)) if is_whole else None
    except (ValueError, OverflowError):
        return None


def told_of(what: str, numbers: Any) -> list[Strand]:
    """The strands of other rooms; `numbers` stands for the list of them."""
    told = [make for (of, _name), make in sorted(TOLD.items()) if of == what]
    return [one for make in told for one in make(numbers)]
