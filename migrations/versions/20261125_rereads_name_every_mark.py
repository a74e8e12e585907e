"""A re-reading names every mark that reads differently, in rows of their own; it may be asked for again at any time."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0010_rereads"
down_revision = "0009_faults"
branch_labels = None
depends_on = None

DOCUMENT = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")


def upgrade() -> None:
    # What was worked out before named 500 marks at most: it is no history, and is worked out anew when asked for.
    op.execute("DELETE FROM marks_reread")
    op.drop_column("marks_reread", "result")
    op.add_column("marks_reread", sa.Column("differing", sa.Integer(), nullable=False, server_default="0"))
    op.create_table(
        "marks_reread_found",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("reread_id", sa.Integer(), nullable=False),
        sa.Column("mark_id", sa.Integer(), nullable=False),
        sa.Column("before", DOCUMENT, nullable=False),
        sa.Column("after", DOCUMENT, nullable=False),
        sa.ForeignKeyConstraint(
            ["reread_id"], ["marks_reread.id"], name=op.f("fk_marks_reread_found_reread_id_marks_reread")
        ),
        sa.ForeignKeyConstraint(["mark_id"], ["marks_mark.id"], name=op.f("fk_marks_reread_found_mark_id_marks_mark")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_marks_reread_found")),
    )
    op.create_index(
        op.f("ix_marks_reread_found_reread_id_mark_id"), "marks_reread_found", ["reread_id", "mark_id"], unique=True
    )


def downgrade() -> None:
    op.drop_table("marks_reread_found")
    op.execute("DELETE FROM marks_reread")
    op.drop_column("marks_reread", "differing")
    op.add_column("marks_reread", sa.Column("result", DOCUMENT, nullable=False, server_default="[]"))
