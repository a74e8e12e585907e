"""Tags are printed beforehand and bound when a thing is logged."""

import sqlalchemy as sa
from alembic import op

revision = "0020_blank_tags"
down_revision = "0019_for_sale"
branch_labels = None
depends_on = None

TABLE = "gear_blank_tag"


def upgrade() -> None:
    op.create_table(
        TABLE,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tag", sa.String(length=20), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("made", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_gear_blank_tag_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_blank_tag")),
        sa.UniqueConstraint("tag", name=op.f("uq_gear_blank_tag_tag")),
    )
    op.create_index(op.f("ix_gear_blank_tag_kind_id"), TABLE, ["kind", "id"])
    _let_stay()


def _let_stay() -> None:
    """What was printed hangs in the yard: it can't be altered."""
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
