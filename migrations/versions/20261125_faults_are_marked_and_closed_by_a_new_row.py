"""Faults are marked on the propeller, closed by a new row, and ring tests are noted."""

import sqlalchemy as sa
from alembic import op

revision = "0009_faults"
down_revision = "0008_makers_tables"
branch_labels = None
depends_on = None

HISTORY = ("bench_fault", "bench_fault_closing", "bench_ring")


def _who() -> list[sa.Column[object]]:
    return [
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
    ]


def upgrade() -> None:
    op.create_table(
        "bench_fault",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("severity", sa.String(length=10), nullable=False),
        sa.Column("side", sa.String(length=10), nullable=False),
        sa.Column("blade", sa.Integer(), nullable=True),
        sa.Column("radius_ratio", sa.Double(), nullable=True),
        sa.Column("size_m", sa.Double(), nullable=True),
        sa.Column("size_m_typed", sa.String(length=60), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("photo_sha256", sa.String(length=64), nullable=False),
        sa.Column("reopens_id", sa.Integer(), nullable=True),
        *_who(),
        sa.CheckConstraint("severity IN ('stop', 'watch', 'note')", name=op.f("ck_bench_fault_severity")),
        sa.CheckConstraint("side IN ('face', 'back', 'hub')", name=op.f("ck_bench_fault_side")),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_bench_fault_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_bench_fault_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(["reopens_id"], ["bench_fault.id"], name=op.f("fk_bench_fault_reopens_id_bench_fault")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_fault")),
        sa.UniqueConstraint("item_id", "number", name=op.f("uq_bench_fault_item_id_number")),
    )
    op.create_table(
        "bench_fault_closing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("fault_id", sa.Integer(), nullable=False),
        sa.Column("how", sa.String(length=300), nullable=False),
        *_who(),
        sa.ForeignKeyConstraint(
            ["fault_id"], ["bench_fault.id"], name=op.f("fk_bench_fault_closing_fault_id_bench_fault")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_bench_fault_closing_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_fault_closing")),
        sa.UniqueConstraint("fault_id", name=op.f("uq_bench_fault_closing_fault_id")),
    )
    op.create_table(
        "bench_ring",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("heard", sa.String(length=10), nullable=False),
        sa.Column("blade", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(length=300), nullable=False),
        *_who(),
        sa.CheckConstraint("heard IN ('rings', 'dull')", name=op.f("ck_bench_ring_heard")),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_bench_ring_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_bench_ring_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_ring")),
    )
    op.create_index(op.f("ix_bench_ring_item_id"), "bench_ring", ["item_id"], unique=False)
    _let_history_stay()


def _let_history_stay() -> None:
    for table in HISTORY:
        if op.get_bind().dialect.name == "sqlite":
            for act in ("UPDATE", "DELETE"):
                op.execute(
                    f"CREATE TRIGGER {table}_stays_{act.lower()} BEFORE {act} ON {table} "
                    f"BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
                )
        else:
            op.execute(
                f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
                "FOR EACH ROW EXECUTE FUNCTION history_stays()"
            )


def downgrade() -> None:
    for table in reversed(HISTORY):
        op.drop_table(table)  # its triggers go with it
