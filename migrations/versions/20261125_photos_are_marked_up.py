"""Photos are marked up with arrows and circles, kept beside the picture."""

import sqlalchemy as sa
from alembic import op

revision = "0024_photo_marks"
down_revision = "0023_timelines"
branch_labels = None
depends_on = None

TABLE = "gear_photo_mark"


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("from_x_ratio", sa.Double(), nullable=False),
        sa.Column("from_y_ratio", sa.Double(), nullable=False),
        sa.Column("to_x_ratio", sa.Double(), nullable=False),
        sa.Column("to_y_ratio", sa.Double(), nullable=False),
        sa.Column("words", sa.String(length=80), nullable=False),
        sa.Column("takes_away_id", sa.Integer(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.CheckConstraint("kind IN ('arrow', 'circle', 'taken away')", name=op.f("ck_gear_photo_mark_kind")),
        sa.ForeignKeyConstraint(["photo_id"], ["gear_photo.id"], name=op.f("fk_gear_photo_mark_photo_id_gear_photo")),
        sa.ForeignKeyConstraint(
            ["takes_away_id"], ["gear_photo_mark.id"], name=op.f("fk_gear_photo_mark_takes_away_id_gear_photo_mark")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_gear_photo_mark_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_photo_mark")),
        sa.UniqueConstraint("takes_away_id", name=op.f("uq_gear_photo_mark_takes_away_id")),
    )
    op.create_index(op.f("ix_gear_photo_mark_photo_id"), TABLE, ["photo_id"])
    _let_stay()


def _let_stay() -> None:
    """What was marked is evidence: it can't be altered."""
    if op.get_bind().dialect.name == "sqlite":
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {TABLE}_stays_{act.lower()} BEFORE {act} ON {TABLE} "
                f"BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
            )
    else:
        op.execute(
            f"CREATE TRIGGER {TABLE}_stays BEFORE UPDATE OR DELETE ON {TABLE} "
            "FOR EACH ROW EXECUTE FUNCTION history_stays()"
        )


def downgrade() -> None:
    op.drop_table(TABLE)
