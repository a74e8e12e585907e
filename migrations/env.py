"""How Alembic reaches the register: the app hands its address over; a developer sets a variable."""

import os
from typing import Any

from alembic import context
from sqlalchemy import create_engine, event
from sqlalchemy.engine import Connection

from yardapp import tables  # noqa: F401 - every table must be known before models and register are compared
from yardapp.db import Base

WORDS_TABLES = ("gear_words", "vessels_words")


def ours(thing: Any, name: str | None, kind: str, *_: Any) -> bool:
    """Leave SQLite's own tables of the word index alone."""
    return not (kind == "table" and name is not None and name.startswith(WORDS_TABLES))


def migrate(connection: Connection) -> None:
    """Run what was asked for in one transaction; a failed migration leaves nothing behind."""
    is_sqlite = connection.dialect.name == "sqlite"
    context.configure(
        connection=connection,
        target_metadata=Base.metadata,
        render_as_batch=is_sqlite,
        compare_type=True,
        include_object=ours,
        transaction_per_migration=False,
    )
    with context.begin_transaction():
        context.run_migrations()
        if is_sqlite and connection.exec_driver_sql("PRAGMA foreign_key_check").first() is not None:
            raise RuntimeError("A migration left a row that points at nothing; all of it was undone.")


def main() -> None:
    """Connect as migrations need it: SQLite with its keys off, else a rebuilt table empties its children."""
    url = context.config.attributes.get("url") or os.environ.get("YARDAPP_DATABASE_URL", "sqlite:///register.sqlite")
    engine = create_engine(url)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _bare)
        event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN IMMEDIATE"))
    with engine.connect() as connection:
        migrate(connection)
    engine.dispose()


def _bare(connection: Any, _record: object) -> None:
    connection.isolation_level = None
    connection.execute("PRAGMA foreign_keys=OFF")


main()
