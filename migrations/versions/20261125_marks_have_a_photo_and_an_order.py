"""A mark has its photo, and says whether it was struck first or later than the others on its hub."""

import sqlalchemy as sa
from alembic import op

revision = "0014_marks_in_order"
down_revision = "0013_stock_moves"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("marks_mark", sa.Column("struck", sa.String(length=10), nullable=False, server_default=""))
    op.add_column("marks_mark", sa.Column("photo_sha256", sa.String(length=64), nullable=False, server_default=""))


def downgrade() -> None:
    op.drop_column("marks_mark", "photo_sha256")
    op.drop_column("marks_mark", "struck")
