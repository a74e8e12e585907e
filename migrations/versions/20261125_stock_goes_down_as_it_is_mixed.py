"""Stock goes down as product is mixed, in rows that stay; a coating job knows the hours at which the yard works."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0013_stock_moves"
down_revision = "0010_rereads"
branch_labels = None
depends_on = None

TABLE = "coating_stock_move"


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tin_id", sa.Integer(), nullable=False),
        sa.Column("act_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("volume_m3", sa.Double(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("noted", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.ForeignKeyConstraint(["act_id"], ["coating_act.id"], name=op.f("fk_coating_stock_move_act_id_coating_act")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_coating_stock_move_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(["tin_id"], ["coating_tin.id"], name=op.f("fk_coating_stock_move_tin_id_coating_tin")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_stock_move")),
    )
    op.create_index(op.f("ix_coating_stock_move_tin_id"), TABLE, ["tin_id"], unique=False)
    op.create_index(op.f("ix_coating_stock_move_act_id"), TABLE, ["act_id"], unique=False)
    # What stood in the tins until today is where their rows begin.
    op.execute(
        f"INSERT INTO {TABLE} (tin_id, kind, volume_m3, at, noted, said_by, note) "
        "SELECT id, 'counted', volume_m3, logged, logged, '', '' FROM coating_tin"
    )
    _history_stays()
    op.add_column("coating_job", sa.Column("hours", sa.JSON().with_variant(postgresql.JSONB(), "postgresql")))


def _history_stays() -> None:
    """What was taken can't be altered through any door; a correction is a new row."""
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
    op.drop_column("coating_job", "hours")
    op.drop_table(TABLE)  # triggers and indexes go with their table
