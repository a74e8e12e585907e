"""Makers' tables keep every version, and a reading taken as evidence stays as it was taken."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0008_makers_tables"
down_revision = "0007_hulls_and_shaft_lines"
branch_labels = None
depends_on = None

HISTORY = ("marks_table_version", "marks_taken")
TABLES = ("marks_taken", "marks_reread", "marks_table_version", "marks_table")
DOCUMENT = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")


def upgrade() -> None:
    op.create_table(
        "marks_table",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("maker", sa.String(length=120), nullable=False),
        sa.Column("title", sa.String(length=120), nullable=False),
        sa.Column("name_key", sa.String(length=250), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("is_in_use", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_marks_table")),
        sa.UniqueConstraint("name_key", name=op.f("uq_marks_table_name_key")),
    )
    _versions()
    _rereads()
    _taken()
    _let_history_stay()


def _versions() -> None:
    op.create_table(
        "marks_table_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("table_id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("body", DOCUMENT, nullable=False),
        sa.Column("why", sa.String(length=300), nullable=False),
        *_who("marks_table_version"),
        sa.ForeignKeyConstraint(
            ["table_id"], ["marks_table.id"], name=op.f("fk_marks_table_version_table_id_marks_table")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_marks_table_version")),
        sa.UniqueConstraint("table_id", "version", name=op.f("uq_marks_table_version_table_id_version")),
    )


def _rereads() -> None:
    op.create_table(
        "marks_reread",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("table_id", sa.Integer(), nullable=False),
        sa.Column("before_id", sa.Integer(), nullable=False),
        sa.Column("after_id", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("done", sa.Integer(), nullable=False),
        sa.Column("total", sa.Integer(), nullable=False),
        sa.Column("last_mark_id", sa.Integer(), nullable=False),
        sa.Column("result", DOCUMENT, nullable=False),
        sa.Column("beat", sa.DateTime(timezone=True), nullable=False),
        *_who("marks_reread"),
        sa.CheckConstraint("state IN ('waiting', 'working', 'done', 'failed')", name=op.f("ck_marks_reread_state")),
        *(
            sa.ForeignKeyConstraint(
                [column], ["marks_table_version.id"], name=op.f(f"fk_marks_reread_{column}_marks_table_version")
            )
            for column in ("before_id", "after_id")
        ),
        sa.ForeignKeyConstraint(["table_id"], ["marks_table.id"], name=op.f("fk_marks_reread_table_id_marks_table")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_marks_reread")),
    )
    op.create_index(op.f("ix_marks_reread_table_id"), "marks_reread", ["table_id"], unique=False)


def _taken() -> None:
    op.create_table(
        "marks_taken",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("mark_id", sa.Integer(), nullable=False),
        sa.Column("version_id", sa.Integer(), nullable=False),
        sa.Column("mark", sa.String(length=120), nullable=False),
        sa.Column("figures", DOCUMENT, nullable=False),
        *_who("marks_taken"),
        sa.ForeignKeyConstraint(["mark_id"], ["marks_mark.id"], name=op.f("fk_marks_taken_mark_id_marks_mark")),
        sa.ForeignKeyConstraint(
            ["version_id"], ["marks_table_version.id"], name=op.f("fk_marks_taken_version_id_marks_table_version")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_marks_taken")),
    )
    op.create_index(op.f("ix_marks_taken_mark_id"), "marks_taken", ["mark_id"], unique=False)
    op.create_index(op.f("ix_marks_taken_version_id"), "marks_taken", ["version_id"], unique=False)


def _who(table: str) -> tuple[sa.schema.SchemaItem, ...]:
    """When, and who."""
    return (
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["people_person.id"], name=op.f(f"fk_{table}_person_id_people_person")),
    )


def _let_history_stay() -> None:
    for table in HISTORY:
        if op.get_bind().dialect.name != "sqlite":
            op.execute(
                f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
                "FOR EACH ROW EXECUTE FUNCTION history_stays()"
            )
            continue
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_stays_{act.lower()} BEFORE {act} ON {table} "
                "BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
            )


def downgrade() -> None:
    for table in TABLES:  # triggers and indexes go with their table
        op.drop_table(table)
