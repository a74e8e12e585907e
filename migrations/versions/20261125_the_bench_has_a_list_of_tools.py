"""The bench has a list of tools, which the yard edits."""

from math import radians

import sqlalchemy as sa
from alembic import op

revision = "0003_tools"
down_revision = "0002_words_and_history"
branch_labels = None
depends_on = None

# As they stood on the day of this migration: ± at k = 2, in metres or radians.
SEEDS = (
    ("tape", "length", 0.001, False),
    ("steel rule", "length", 0.0005, False),
    ("string", "length", 0.002, False),
    ("caliper", "length", 0.00005, False),
    ("micrometer", "length", 0.00001, False),
    ("dial gauge", "length", 0.00002, False),
    ("feeler gauge", "length", 0.00005, False),
    ("height gauge", "length", 0.0001, False),
    ("depth gauge", "length", 0.0001, False),
    ("chord gauge", "length", 0.0005, True),
    ("pitch template", "length", 0.003, True),
    ("degree ring", "angle", radians(0.5), False),
    ("swing template", "angle", radians(0.5), True),
    ("protractor", "angle", radians(1.0), False),
    ("inclinometer", "angle", radians(0.2), False),
)


def upgrade() -> None:
    tools = op.create_table(
        "bench_tool",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("plus_minus", sa.Double(), nullable=False),
        sa.Column("is_common", sa.Boolean(), nullable=False),
        sa.Column("source", sa.String(length=120), nullable=False),
        sa.Column("is_used", sa.Boolean(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.CheckConstraint("kind IN ('length', 'angle')", name=op.f("ck_bench_tool_kind")),
        sa.CheckConstraint("plus_minus > 0", name=op.f("ck_bench_tool_plus_minus")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_tool")),
        sa.UniqueConstraint("name", name=op.f("uq_bench_tool_name")),
    )
    said = {"source": "common practice, no source", "is_used": True, "version": 1}
    op.bulk_insert(
        tools,
        [
            {"name": name, "kind": kind, "plus_minus": plus_minus, "is_common": is_common, **said}
            for name, kind, plus_minus, is_common in SEEDS
        ],
    )


def downgrade() -> None:
    op.drop_table("bench_tool")
