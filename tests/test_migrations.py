"""Models and migrations say the same, and a migration can be taken back."""

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import create_engine, inspect

from yardapp import tables, upgrading
from yardapp.db import Base

OURS = {"gear_words", "vessels_words"}


def differences(url):
    engine = create_engine(url)
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection,
            opts={
                "compare_type": True,
                "include_object": lambda _thing, name, kind, *_: (
                    not (kind in ("table", "index") and any(str(name).startswith(word) for word in OURS))
                ),
            },
        )
        found = compare_metadata(context, Base.metadata)
    engine.dispose()
    return found


def tables_at(url):
    engine = create_engine(url)
    names = set(inspect(engine).get_table_names())
    engine.dispose()
    return names


def test_models_and_migrations_agree(register):
    assert tables.gear.Item.__tablename__ in Base.metadata.tables
    assert differences(register) == []


def test_every_migration_can_be_taken_back(tmp_path):
    url = f"sqlite:///{tmp_path / 'register.sqlite'}"
    upgrading.upgrade(url)

    command.downgrade(upgrading.alembic_config(url), "base")

    assert tables_at(url) - {"alembic_version"} == set()


def test_upgrading_twice_changes_nothing(tmp_path):
    url = f"sqlite:///{tmp_path / 'register.sqlite'}"
    upgrading.upgrade(url)
    before = tables_at(url)

    upgrading.upgrade(url)

    assert tables_at(url) == before
