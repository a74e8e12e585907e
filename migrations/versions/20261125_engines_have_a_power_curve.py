"""An engine's power at full throttle over its speed, as its maker's sheet gives it, stands on its drive."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0016_engine_curves"
down_revision = "0014_marks_in_order"
branch_labels = None
depends_on = None


def upgrade() -> None:
    pairs = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
    op.add_column("vessels_drive", sa.Column("engine_curve", pairs, nullable=True))


def downgrade() -> None:
    op.drop_column("vessels_drive", "engine_curve")
