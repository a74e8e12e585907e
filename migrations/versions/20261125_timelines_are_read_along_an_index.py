"""Timelines of a thing, a boat, a drive and a person are read along an index of their own."""

from alembic import op

revision = "0023_timelines"
down_revision = "0021_marks_found_again"
branch_labels = None
depends_on = None

INDEXES = (
    ("gear_event", "drive_id"),
    ("gear_evidence", "item_id"),
    ("vessels_happening", "vessel_id"),
    ("vessels_happening", "drive_id"),
    ("people_audit", "person_id"),
)


def upgrade() -> None:
    for table, column in INDEXES:
        op.create_index(op.f(f"ix_{table}_{column}_at"), table, [column, "at"])


def downgrade() -> None:
    for table, column in INDEXES:
        op.drop_index(op.f(f"ix_{table}_{column}_at"), table_name=table)
