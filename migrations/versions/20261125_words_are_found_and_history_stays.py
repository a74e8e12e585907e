"""Words are found by any three letters, and history can't be altered through any door."""

from alembic import op

revision = "0002_words_and_history"
down_revision = "0001_the_register_opens"
branch_labels = None
depends_on = None

WORDED = {"gear_words": "gear_item", "vessels_words": "vessels_vessel"}
HISTORY = ("gear_evidence", "gear_event", "bench_sheet", "marks_mark", "vessels_happening", "people_audit")


def upgrade() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for words, table in WORDED.items():
            _index_words(words, table)
        for table in HISTORY:
            for act in ("UPDATE", "DELETE"):
                op.execute(
                    f"CREATE TRIGGER {table}_stays_{act.lower()} BEFORE {act} ON {table} "
                    f"BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
                )
        return
    op.execute("CREATE EXTENSION IF NOT EXISTS pg_trgm")
    for words, table in WORDED.items():
        op.execute(f"CREATE INDEX {words} ON {table} USING gin (words gin_trgm_ops)")
    op.execute(
        "CREATE FUNCTION history_stays() RETURNS trigger LANGUAGE plpgsql AS "
        "$$ BEGIN RAISE EXCEPTION 'history stays: correct it with a new row'; END $$"
    )
    for table in HISTORY:
        op.execute(
            f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
            "FOR EACH ROW EXECUTE FUNCTION history_stays()"
        )


def _index_words(words: str, table: str) -> None:
    """A trigram table over the column `words`, kept in step by triggers."""
    op.execute(
        f"CREATE VIRTUAL TABLE {words} USING fts5(words, content='{table}', content_rowid='id', tokenize='trigram')"
    )
    add = f"INSERT INTO {words}(rowid, words) VALUES (new.id, new.words);"
    drop = f"INSERT INTO {words}({words}, rowid, words) VALUES ('delete', old.id, old.words);"
    op.execute(f"CREATE TRIGGER {words}_added AFTER INSERT ON {table} BEGIN {add} END")
    op.execute(f"CREATE TRIGGER {words}_gone AFTER DELETE ON {table} BEGIN {drop} END")
    op.execute(f"CREATE TRIGGER {words}_changed AFTER UPDATE OF words ON {table} BEGIN {drop} {add} END")


def downgrade() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for words in WORDED:
            for when in ("added", "gone", "changed"):
                op.execute(f"DROP TRIGGER {words}_{when}")
            op.execute(f"DROP TABLE {words}")
        for table in HISTORY:
            for act in ("update", "delete"):
                op.execute(f"DROP TRIGGER {table}_stays_{act}")
        return
    for table in HISTORY:
        op.execute(f"DROP TRIGGER {table}_stays ON {table}")
    op.execute("DROP FUNCTION history_stays()")
    for words in WORDED:
        op.execute(f"DROP INDEX {words}")
