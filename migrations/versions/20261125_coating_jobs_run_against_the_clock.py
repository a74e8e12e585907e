"""Coating jobs run against the clock, on systems whose every version is kept."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0004_coating"
down_revision = "0003_tools"
branch_labels = None
depends_on = None

HISTORY = ("coating_system_version", "coating_act", "coating_rating")
TABLES = (
    "coating_rating",
    "coating_piece",
    "coating_act",
    "coating_job",
    "coating_system_version",
    "coating_tin",
    "coating_system",
)


def upgrade() -> None:
    op.create_table(
        "coating_system",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("name_key", sa.String(length=80), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("is_used", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_system")),
        sa.UniqueConstraint("name_key", name=op.f("uq_coating_system_name_key")),
    )
    op.create_table(
        "coating_tin",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("product", sa.String(length=80), nullable=False),
        sa.Column("part", sa.String(length=80), nullable=False),
        sa.Column("batch", sa.String(length=40), nullable=False),
        sa.Column("volume_m3", sa.Double(), nullable=False),
        sa.Column("volume_m3_typed", sa.String(length=40), nullable=False),
        sa.Column("expires_on", sa.Date(), nullable=True),
        sa.Column("opened_on", sa.Date(), nullable=True),
        sa.Column("place", sa.String(length=120), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("is_gone", sa.Boolean(), nullable=False),
        sa.Column("logged", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("volume_m3 >= 0", name=op.f("ck_coating_tin_volume_m3")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_tin")),
    )
    with op.batch_alter_table("coating_tin", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_coating_tin_is_gone_product"), ["is_gone", "product"], unique=False)

    op.create_table(
        "coating_system_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("sheet", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_coating_system_version_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["system_id"], ["coating_system.id"], name=op.f("fk_coating_system_version_system_id_coating_system")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_system_version")),
        sa.UniqueConstraint("system_id", "number", name=op.f("uq_coating_system_version_system_id_number")),
    )
    op.create_table(
        "coating_job",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("system_version_id", sa.Integer(), nullable=False),
        sa.Column("title", sa.String(length=120), nullable=False),
        sa.Column("drive_id", sa.Integer(), nullable=True),
        sa.Column("people", sa.Integer(), nullable=False),
        sa.Column("way", sa.String(length=10), nullable=False),
        sa.Column("blade_s", sa.Double(), nullable=False),
        sa.Column("metal_c", sa.Double(), nullable=False),
        sa.Column("loss_ratio", sa.Double(), nullable=False),
        sa.Column("starts", sa.DateTime(timezone=True), nullable=True),
        sa.Column("launches", sa.DateTime(timezone=True), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("is_open", sa.Boolean(), nullable=False),
        sa.Column("planned", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.CheckConstraint("way IN ('brush', 'roller')", name=op.f("ck_coating_job_way")),
        sa.CheckConstraint("people > 0", name=op.f("ck_coating_job_people")),
        sa.ForeignKeyConstraint(["drive_id"], ["vessels_drive.id"], name=op.f("fk_coating_job_drive_id_vessels_drive")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_coating_job_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["system_version_id"],
            ["coating_system_version.id"],
            name=op.f("fk_coating_job_system_version_id_coating_system_version"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_job")),
    )
    with op.batch_alter_table("coating_job", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_coating_job_drive_id"), ["drive_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_coating_job_is_open_id"), ["is_open", "id"], unique=False)
        batch_op.create_index(batch_op.f("ix_coating_job_system_version_id"), ["system_version_id"], unique=False)

    op.create_table(
        "coating_act",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("unit", sa.String(length=40), nullable=False),
        sa.Column("step", sa.Integer(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("noted", sa.DateTime(timezone=True), nullable=False),
        sa.Column("is_late", sa.Boolean(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("device", sa.String(length=80), nullable=False),
        sa.Column("figures", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("undoes_id", sa.Integer(), nullable=True),
        sa.Column("replaces_id", sa.Integer(), nullable=True),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.ForeignKeyConstraint(["job_id"], ["coating_job.id"], name=op.f("fk_coating_act_job_id_coating_job")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_coating_act_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["replaces_id"], ["coating_act.id"], name=op.f("fk_coating_act_replaces_id_coating_act")
        ),
        sa.ForeignKeyConstraint(["undoes_id"], ["coating_act.id"], name=op.f("fk_coating_act_undoes_id_coating_act")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_act")),
        sa.UniqueConstraint("replaces_id", name=op.f("uq_coating_act_replaces_id")),
    )
    with op.batch_alter_table("coating_act", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_coating_act_job_id_id"), ["job_id", "id"], unique=False)

    op.create_table(
        "coating_piece",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("label", sa.String(length=80), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=True),
        sa.Column("blades", sa.Integer(), nullable=False),
        sa.Column("area_m2", sa.Double(), nullable=False),
        sa.Column("area_m2_typed", sa.String(length=40), nullable=False),
        sa.Column("allowed_by", sa.String(length=120), nullable=False),
        sa.Column("allowed_on", sa.Date(), nullable=True),
        sa.Column("foul_release", sa.Boolean(), nullable=False),
        sa.Column("finished", sa.DateTime(timezone=True), nullable=True),
        sa.Column("immersed", sa.DateTime(timezone=True), nullable=True),
        sa.Column("metal_low_c", sa.Double(), nullable=True),
        sa.Column("metal_high_c", sa.Double(), nullable=True),
        sa.Column("windows_met", sa.Boolean(), nullable=True),
        sa.CheckConstraint("area_m2 > 0", name=op.f("ck_coating_piece_area_m2")),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_coating_piece_item_id_gear_item")),
        sa.ForeignKeyConstraint(["job_id"], ["coating_job.id"], name=op.f("fk_coating_piece_job_id_coating_job")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_piece")),
        sa.UniqueConstraint("job_id", "number", name=op.f("uq_coating_piece_job_id_number")),
    )
    with op.batch_alter_table("coating_piece", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_coating_piece_item_id"), ["item_id"], unique=False)

    op.create_table(
        "coating_rating",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("piece_id", sa.Integer(), nullable=False),
        sa.Column("blade", sa.Integer(), nullable=True),
        sa.Column("word", sa.String(length=20), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("noted", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("photo", sa.String(length=64), nullable=False),
        sa.Column("replaces_id", sa.Integer(), nullable=True),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_coating_rating_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["piece_id"], ["coating_piece.id"], name=op.f("fk_coating_rating_piece_id_coating_piece")
        ),
        sa.ForeignKeyConstraint(
            ["replaces_id"], ["coating_rating.id"], name=op.f("fk_coating_rating_replaces_id_coating_rating")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coating_rating")),
        sa.UniqueConstraint("replaces_id", name=op.f("uq_coating_rating_replaces_id")),
    )
    with op.batch_alter_table("coating_rating", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_coating_rating_piece_id"), ["piece_id"], unique=False)
    _history_stays()


def _history_stays() -> None:
    """What was done can't be altered through any door; a correction is a new row."""
    for table in HISTORY:
        if op.get_bind().dialect.name != "sqlite":
            op.execute(
                f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
                "FOR EACH ROW EXECUTE FUNCTION history_stays()"
            )
            continue
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_stays_{act.lower()} BEFORE {act} ON {table} "
                "BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
            )


def downgrade() -> None:
    for table in TABLES:  # triggers and indexes go with their table
        op.drop_table(table)
