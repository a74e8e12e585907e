"""Whether a thing is for sale stands on its record."""

import sqlalchemy as sa
from alembic import op

revision = "0019_for_sale"
down_revision = "0018_everything_has_a_place"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.add_column("gear_item", sa.Column("is_for_sale", sa.Boolean(), server_default=sa.false(), nullable=False))


def downgrade() -> None:
    op.drop_column("gear_item", "is_for_sale")
