"""Sheets in the writing are kept box by box, with whose they are."""

import sqlalchemy as sa
from alembic import op

revision = "0005_half_done"
down_revision = "0004_coating"
branch_labels = None
depends_on = None

HISTORY = "bench_half_done_box"


def upgrade() -> None:
    op.create_table(
        "bench_half_done",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("method", sa.String(length=30), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("begun", sa.DateTime(timezone=True), nullable=False),
        sa.Column("touched", sa.DateTime(timezone=True), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("is_dropped", sa.Boolean(), nullable=False),
        sa.Column("corrects_id", sa.Integer(), nullable=True),
        sa.Column("sheet_id", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_bench_half_done_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_bench_half_done_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["corrects_id"], ["bench_sheet.id"], name=op.f("fk_bench_half_done_corrects_id_bench_sheet")
        ),
        sa.ForeignKeyConstraint(["sheet_id"], ["bench_sheet.id"], name=op.f("fk_bench_half_done_sheet_id_bench_sheet")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_half_done")),
    )
    op.create_index(op.f("ix_bench_half_done_item_id"), "bench_half_done", ["item_id"], unique=False)
    op.create_table(
        HISTORY,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("half_done_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("typed", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["half_done_id"], ["bench_half_done.id"], name=op.f("fk_bench_half_done_box_half_done_id_bench_half_done")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_half_done_box")),
        sa.UniqueConstraint("half_done_id", "number", name=op.f("uq_bench_half_done_box_half_done_id_number")),
    )
    _let_history_stay()


def _let_history_stay() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {HISTORY}_stays_{act.lower()} BEFORE {act} ON {HISTORY} "
                f"BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
            )
        return
    op.execute(
        f"CREATE TRIGGER {HISTORY}_stays BEFORE UPDATE OR DELETE ON {HISTORY} "
        "FOR EACH ROW EXECUTE FUNCTION history_stays()"
    )


def downgrade() -> None:
    op.drop_table(HISTORY)
    op.drop_table("bench_half_done")
