"""Verdicts are kept with everything that they rest on, and stay as they were."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0006_verdicts_kept"
down_revision = "0005_half_done"
branch_labels = None
depends_on = None

HISTORY = "fit_kept"
DOCUMENT = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")


def upgrade() -> None:
    op.create_table(
        HISTORY,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("drive_id", sa.Integer(), nullable=False),
        sa.Column("tag", sa.String(length=20), nullable=False),
        sa.Column("drive", sa.String(length=120), nullable=False),
        sa.Column("rule", sa.String(length=10), nullable=False),
        sa.Column("verdict", sa.String(length=20), nullable=False),
        sa.Column("lede", sa.Text(), nullable=False),
        sa.Column("figures", DOCUMENT, nullable=False),
        sa.Column("checks", DOCUMENT, nullable=False),
        sa.Column("app_version", sa.String(length=20), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_fit_kept_item_id_gear_item")),
        sa.ForeignKeyConstraint(["drive_id"], ["vessels_drive.id"], name=op.f("fk_fit_kept_drive_id_vessels_drive")),
        sa.ForeignKeyConstraint(["person_id"], ["people_person.id"], name=op.f("fk_fit_kept_person_id_people_person")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fit_kept")),
    )
    op.create_index(op.f("ix_fit_kept_item_id_id"), HISTORY, ["item_id", "id"], unique=False)
    op.create_index(op.f("ix_fit_kept_drive_id_id"), HISTORY, ["drive_id", "id"], unique=False)
    _let_history_stay()


def _let_history_stay() -> None:
    if op.get_bind().dialect.name == "sqlite":
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {HISTORY}_stays_{act.lower()} BEFORE {act} ON {HISTORY} "
                f"BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
            )
        return
    op.execute(
        f"CREATE TRIGGER {HISTORY}_stays BEFORE UPDATE OR DELETE ON {HISTORY} "
        "FOR EACH ROW EXECUTE FUNCTION history_stays()"
    )


def downgrade() -> None:
    op.drop_table(HISTORY)
