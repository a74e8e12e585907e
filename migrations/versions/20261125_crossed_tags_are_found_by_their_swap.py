"""Whether a thing's tag ever hung crossed is read along an index of the swaps alone, however long its history."""

import sqlalchemy as sa
from alembic import op

revision = "0026_swaps_found"
down_revision = "0025_ever_on_a_drive"
branch_labels = None
depends_on = None

SWAPS = sa.text("kind = 'tags swapped'")


def upgrade() -> None:
    op.create_index(
        "ix_gear_event_item_id_swapped", "gear_event", ["item_id", "at"], sqlite_where=SWAPS, postgresql_where=SWAPS
    )


def downgrade() -> None:
    op.drop_index("ix_gear_event_item_id_swapped", table_name="gear_event")
