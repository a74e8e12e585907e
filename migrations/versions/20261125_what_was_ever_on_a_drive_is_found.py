"""Which things were ever on a drive is read from an index alone; the index of the drive by itself is its beginning."""

from alembic import op

revision = "0025_ever_on_a_drive"
down_revision = "0024_photo_marks"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_index(op.f("ix_gear_event_drive_id_item_id"), "gear_event", ["drive_id", "item_id"])
    op.drop_index(op.f("ix_gear_event_drive_id"), table_name="gear_event")


def downgrade() -> None:
    op.create_index(op.f("ix_gear_event_drive_id"), "gear_event", ["drive_id"])
    op.drop_index(op.f("ix_gear_event_drive_id_item_id"), table_name="gear_event")
