"""The register's database: naming, engine, one transaction a write, and what SQLite and Postgres need."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from typing import Any, cast

from sqlalchemy import (
    JSON,
    ColumnElement,
    DateTime,
    Dialect,
    Engine,
    MetaData,
    Select,
    TypeDecorator,
    column,
    create_engine,
    event,
    select,
    table,
)
from sqlalchemy.dialects.postgresql import JSONB
from sqlalchemy.orm import DeclarativeBase, Session
from sqlalchemy.sql.compiler import SQLCompiler

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class UtcTime(TypeDecorator[datetime]):
    """A moment, kept in UTC by every database and handed out aware."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Refuse a moment without a zone; SQLite keeps it bare."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("A moment without a time zone can't be kept.")
        value = value.astimezone(UTC)
        return value.replace(tzinfo=None) if dialect.name == "sqlite" else value

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Give the zone back."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Base(DeclarativeBase):
    """Every table's base."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map = {  # noqa: RUF012 - SQLAlchemy's own class attribute
        datetime: UtcTime(),
        dict[str, Any]: JSON().with_variant(JSONB(), "postgresql"),
        list[Any]: JSON().with_variant(JSONB(), "postgresql"),
    }


def _machine_time() -> datetime:
    return datetime.now(UTC)


class Clock:
    """What this process goes by; a test may set it to tell another time."""

    tells: Callable[[], datetime] = staticmethod(_machine_time)


def now() -> datetime:
    """This moment, in UTC. Clocks are the server's."""
    return Clock.tells()


def engine_for(url: str) -> Engine:
    """An engine that waits for a lock instead of failing, and never loses an update."""
    if not url.startswith("sqlite"):
        return create_engine(url, pool_pre_ping=True)
    engine = create_engine(url, connect_args={"timeout": 10})
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(connection: Any, _record: object) -> None:
    connection.isolation_level = None  # we send BEGIN ourselves: the driver's own begin loses updates
    # FULL, not NORMAL: a yard's shed loses power, and NORMAL may then lose the last commits.
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "cache_size=-16000"):  # 16 MB
        connection.execute(f"PRAGMA {pragma}")


def _begin_sqlite(connection: Any) -> None:
    kind = connection.get_execution_options().get("sqlite_begin", "DEFERRED")
    connection.exec_driver_sql(f"BEGIN {kind}")


class Register:
    """The engine that this process uses; set once by `open_register`."""

    engine: Engine | None = None
    writing: Engine | None = None


def open_register(url: str) -> Engine:
    """Use the database at `url` from here on."""
    if Register.engine is not None:
        Register.engine.dispose()
    Register.engine = engine_for(url)
    Register.writing = Register.engine.execution_options(sqlite_begin="IMMEDIATE")
    return Register.engine


@contextmanager
def transaction() -> Iterator[Session]:
    """All of the block is kept, or none of it."""
    with Session(Register.writing, expire_on_commit=False) as session, session.begin():
        yield session


@contextmanager
def snapshot() -> Iterator[Session]:
    """Read only: what stands in the register at one moment."""
    with Session(Register.engine, expire_on_commit=False) as session:
        yield session


class Glance:
    """A read of one row by a key, put together once, over the driver's own connection.

    For what every page and every waiting phone asks: session, transaction and statement would be three quarters of
    its cost. Nothing is converted on the way: only for columns that the driver itself hands out as they are.
    """

    def __init__(self, statement: Select[Any]) -> None:
        self.statement = statement
        self._ready: dict[str, SQLCompiler] = {}

    def row(self, **named: object) -> tuple[Any, ...] | None:
        """The first row for the values of the statement's bound names, or None."""
        connection = cast("Engine", Register.engine).raw_connection()
        try:
            cursor = connection.cursor()
            cursor.execute(*self._said(named))
            return cast("tuple[Any, ...] | None", cursor.fetchone())
        finally:
            connection.close()

    def _said(self, named: dict[str, object]) -> tuple[str, Any]:
        dialect = cast("Engine", Register.engine).dialect
        if dialect.name not in self._ready:
            self._ready[dialect.name] = self.statement.compile(dialect=dialect)
        ready = self._ready[dialect.name]
        values = ready.construct_params(named)
        return ready.string, [values[name] for name in ready.positiontup or ()] if ready.positional else values


def words_like(session: Session, room: str, record: Any, word: str) -> ColumnElement[bool]:
    """The clause "this record's `words` hold `word`", where `?` in the word is any one character.

    SQLite answers it from the room's trigram table, Postgres from a trigram index on the column itself.
    """
    pattern = f"%{as_pattern(word)}%"
    if session.get_bind().dialect.name != "sqlite":
        return cast("ColumnElement[bool]", record.words.ilike(pattern))
    # No ESCAPE clause here: with one, SQLite's trigram table would read every row.
    trigrams = table(f"{room}_words", column("rowid"), column("words"))
    return cast("ColumnElement[bool]", record.id.in_(select(trigrams.c.rowid).where(trigrams.c.words.like(pattern))))


def as_pattern(word: str) -> str:
    """A LIKE pattern in which the person's `?`, and what LIKE reserves, stand for any one character."""
    return "".join("_" if letter in "?%_\\" else letter for letter in word)
