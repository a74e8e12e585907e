"""A mark finds every other thing on which it was seen."""

from alembic import op

revision = "0021_marks_found_again"
down_revision = "0021_data_sheets"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_index(op.f("ix_marks_mark_seen"), "marks_mark", ["seen"])


def downgrade() -> None:
    op.drop_index(op.f("ix_marks_mark_seen"), table_name="marks_mark")
