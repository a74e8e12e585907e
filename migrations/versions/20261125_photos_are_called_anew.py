"""A photo's caption can be put right: the newest speaks, the former ones stay."""

import sqlalchemy as sa
from alembic import op

revision = "0027_photo_captions"
down_revision = "0026_swaps_found"
branch_labels = None
depends_on = None

TABLE = "gear_photo_caption"


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("photo_id", sa.Integer(), nullable=False),
        sa.Column("caption", sa.String(length=120), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["photo_id"], ["gear_photo.id"], name=op.f("fk_gear_photo_caption_photo_id_gear_photo")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_gear_photo_caption_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_photo_caption")),
    )
    op.create_index(op.f("ix_gear_photo_caption_photo_id"), TABLE, ["photo_id"])
    _let_stay()


def _let_stay() -> None:
    """What a photo was called is history: it can't be altered."""
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
