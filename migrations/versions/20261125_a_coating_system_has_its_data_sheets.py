"""A coating system has its data sheets attached, as PDF or photo, in rows that stay."""

import sqlalchemy as sa
from alembic import op

revision = "0021_data_sheets"
down_revision = "0020_blank_tags"
branch_labels = None
depends_on = None

TABLE = "coating_document"


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_coating_document_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["system_id"], ["coating_system.id"], name=op.f("fk_coating_document_system_id_coating_system")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_document")),
    )
    op.create_index(op.f("ix_coating_document_system_id"), TABLE, ["system_id"], unique=False)
    op.create_index(op.f("ix_coating_document_sha256"), TABLE, ["sha256"], unique=False)
    _history_stays()


def _history_stays() -> None:
    """What was attached stays, through any door."""
    if op.get_bind().dialect.name != "sqlite":
        op.execute(
            f"CREATE TRIGGER {TABLE}_stays BEFORE UPDATE OR DELETE ON {TABLE} "
            "FOR EACH ROW EXECUTE FUNCTION history_stays()"
        )
        return
    for act in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER {TABLE}_stays_{act.lower()} BEFORE {act} ON {TABLE} "
            "BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
        )


def downgrade() -> None:
    op.drop_table(TABLE)  # triggers and indexes go with their table
