"""The register opens: people, gear, boats, bench sheets and marks."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0001_the_register_opens"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "gear_counter",
        sa.Column("letter", sa.String(length=4), nullable=False),
        sa.Column("following", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("letter", name=op.f("pk_gear_counter")),
    )
    op.create_table(
        "people_attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name_key", sa.String(length=80), nullable=False),
        sa.Column("address", sa.String(length=64), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_attempt")),
    )
    with op.batch_alter_table("people_attempt", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_people_attempt_address_at"), ["address", "at"], unique=False)
        batch_op.create_index(batch_op.f("ix_people_attempt_name_key_at"), ["name_key", "at"], unique=False)

    op.create_table(
        "people_claim",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code_hash", sa.String(length=64), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_claim")),
    )
    op.create_table(
        "people_once",
        sa.Column("token", sa.String(length=64), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("answer", sa.String(length=300), nullable=False),
        sa.PrimaryKeyConstraint("token", name=op.f("pk_people_once")),
    )
    op.create_table(
        "people_person",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("name_key", sa.String(length=80), nullable=False),
        sa.Column("role", sa.String(length=10), nullable=False),
        sa.Column("password_hash", sa.String(length=200), nullable=False),
        sa.Column("pin_hash", sa.String(length=200), nullable=True),
        sa.Column("units", sa.String(length=2), nullable=False),
        sa.Column("is_here", sa.Boolean(), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("role IN ('office', 'hand', 'owner')", name=op.f("ck_people_person_role")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_person")),
        sa.UniqueConstraint("name_key", name=op.f("uq_people_person_name_key")),
    )
    op.create_table(
        "people_audit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("device", sa.String(length=80), nullable=False),
        sa.Column("act", sa.String(length=60), nullable=False),
        sa.Column("subject", sa.String(length=30), nullable=False),
        sa.Column("subject_id", sa.Integer(), nullable=True),
        sa.Column("said", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_people_audit_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_audit")),
    )
    with op.batch_alter_table("people_audit", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_people_audit_at"), ["at"], unique=False)
        batch_op.create_index(batch_op.f("ix_people_audit_subject_subject_id"), ["subject", "subject_id"], unique=False)

    op.create_table(
        "people_device",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("label", sa.String(length=80), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.Column("seen", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_people_device_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_device")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_people_device_token_hash")),
    )
    op.create_table(
        "people_token",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("label", sa.String(length=80), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ended", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_people_token_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_token")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_people_token_token_hash")),
    )
    with op.batch_alter_table("people_token", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_people_token_person_id"), ["person_id"], unique=False)

    op.create_table(
        "vessels_vessel",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("owner", sa.String(length=80), nullable=False),
        sa.Column("owner_id", sa.Integer(), nullable=True),
        sa.Column("length_m", sa.Double(), nullable=True),
        sa.Column("length_m_typed", sa.String(length=40), nullable=False),
        sa.Column("block_ratio", sa.Double(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("logged", sa.DateTime(timezone=True), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["owner_id"], ["people_person.id"], name=op.f("fk_vessels_vessel_owner_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_vessels_vessel")),
    )
    with op.batch_alter_table("vessels_vessel", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_vessels_vessel_name"), ["name"], unique=False)
        batch_op.create_index(batch_op.f("ix_vessels_vessel_owner_id"), ["owner_id"], unique=False)

    op.create_table(
        "people_known_here",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("device_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["device_id"], ["people_device.id"], name=op.f("fk_people_known_here_device_id_people_device")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_people_known_here_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_people_known_here")),
        sa.UniqueConstraint("device_id", "person_id", name=op.f("uq_people_known_here_device_id_person_id")),
    )
    op.create_table(
        "vessels_drive",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("vessel_id", sa.Integer(), nullable=True),
        sa.Column("position", sa.String(length=10), nullable=False),
        sa.Column("is_in_use", sa.Boolean(), nullable=False),
        sa.Column("engine", sa.String(length=80), nullable=False),
        sa.Column("hand", sa.String(length=5), nullable=True),
        sa.Column("rated_power_w", sa.Double(), nullable=True),
        sa.Column("rated_speed_rps", sa.Double(), nullable=True),
        sa.Column("reduction_ratio", sa.Double(), nullable=True),
        sa.Column("shaft_diameter_m", sa.Double(), nullable=True),
        sa.Column("u_shaft_diameter_m", sa.Double(), nullable=True),
        sa.Column("taper", sa.Double(), nullable=True),
        sa.Column("u_taper", sa.Double(), nullable=True),
        sa.Column("taper_length_m", sa.Double(), nullable=True),
        sa.Column("u_taper_length_m", sa.Double(), nullable=True),
        sa.Column("keyway_width_m", sa.Double(), nullable=True),
        sa.Column("u_keyway_width_m", sa.Double(), nullable=True),
        sa.Column("keyway_depth_m", sa.Double(), nullable=True),
        sa.Column("u_keyway_depth_m", sa.Double(), nullable=True),
        sa.Column("hub_space_m", sa.Double(), nullable=True),
        sa.Column("u_hub_space_m", sa.Double(), nullable=True),
        sa.Column("hull_clearance_m", sa.Double(), nullable=True),
        sa.Column("u_hull_clearance_m", sa.Double(), nullable=True),
        sa.Column("hull_clearance_from", sa.String(length=10), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("typed", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("changed", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("hand IS NULL OR hand IN ('right', 'left')", name=op.f("ck_vessels_drive_hand")),
        sa.CheckConstraint(
            "hull_clearance_from IN ('centre', 'surface')", name=op.f("ck_vessels_drive_hull_clearance_from")
        ),
        sa.CheckConstraint("position IN ('centre', 'port', 'starboard')", name=op.f("ck_vessels_drive_position")),
        sa.ForeignKeyConstraint(
            ["vessel_id"], ["vessels_vessel.id"], name=op.f("fk_vessels_drive_vessel_id_vessels_vessel")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_vessels_drive")),
    )
    with op.batch_alter_table("vessels_drive", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_vessels_drive_vessel_id_position"), ["vessel_id", "position"], unique=False
        )

    op.create_table(
        "vessels_name",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("vessel_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("until", sa.Date(), nullable=True),
        sa.ForeignKeyConstraint(
            ["vessel_id"], ["vessels_vessel.id"], name=op.f("fk_vessels_name_vessel_id_vessels_vessel")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_vessels_name")),
    )
    with op.batch_alter_table("vessels_name", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_vessels_name_vessel_id"), ["vessel_id"], unique=False)

    op.create_table(
        "gear_item",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tag", sa.String(length=20), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("place", sa.String(length=120), nullable=False),
        sa.Column("aboard_id", sa.Integer(), nullable=True),
        sa.Column("came_off_id", sa.Integer(), nullable=True),
        sa.Column("is_proposed", sa.Boolean(), nullable=False),
        sa.Column("logged_by", sa.Integer(), nullable=True),
        sa.Column("logged", sa.DateTime(timezone=True), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("stamp", sa.String(length=120), nullable=False),
        sa.Column("hand", sa.String(length=5), nullable=True),
        sa.Column("blades", sa.Integer(), nullable=True),
        sa.Column("bore_kind", sa.String(length=10), nullable=True),
        sa.Column("material", sa.String(length=40), nullable=True),
        sa.Column("diameter_m", sa.Double(), nullable=True),
        sa.Column("u_diameter_m", sa.Double(), nullable=True),
        sa.Column("pitch_m", sa.Double(), nullable=True),
        sa.Column("u_pitch_m", sa.Double(), nullable=True),
        sa.Column("bore_large_m", sa.Double(), nullable=True),
        sa.Column("u_bore_large_m", sa.Double(), nullable=True),
        sa.Column("bore_small_m", sa.Double(), nullable=True),
        sa.Column("u_bore_small_m", sa.Double(), nullable=True),
        sa.Column("bore_length_m", sa.Double(), nullable=True),
        sa.Column("u_bore_length_m", sa.Double(), nullable=True),
        sa.Column("taper", sa.Double(), nullable=True),
        sa.Column("u_taper", sa.Double(), nullable=True),
        sa.Column("taper_length_m", sa.Double(), nullable=True),
        sa.Column("u_taper_length_m", sa.Double(), nullable=True),
        sa.Column("keyway_width_m", sa.Double(), nullable=True),
        sa.Column("u_keyway_width_m", sa.Double(), nullable=True),
        sa.Column("keyway_depth_m", sa.Double(), nullable=True),
        sa.Column("u_keyway_depth_m", sa.Double(), nullable=True),
        sa.Column("hub_length_m", sa.Double(), nullable=True),
        sa.Column("u_hub_length_m", sa.Double(), nullable=True),
        sa.Column("hub_diameter_m", sa.Double(), nullable=True),
        sa.Column("u_hub_diameter_m", sa.Double(), nullable=True),
        sa.Column("length_m", sa.Double(), nullable=True),
        sa.Column("u_length_m", sa.Double(), nullable=True),
        sa.Column("known", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("odds", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.CheckConstraint("kind IN ('propeller', 'shaft')", name=op.f("ck_gear_item_kind")),
        sa.ForeignKeyConstraint(["aboard_id"], ["vessels_drive.id"], name=op.f("fk_gear_item_aboard_id_vessels_drive")),
        sa.ForeignKeyConstraint(
            ["came_off_id"], ["vessels_drive.id"], name=op.f("fk_gear_item_came_off_id_vessels_drive")
        ),
        sa.ForeignKeyConstraint(["logged_by"], ["people_person.id"], name=op.f("fk_gear_item_logged_by_people_person")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_item")),
        sa.UniqueConstraint("tag", name=op.f("uq_gear_item_tag")),
    )
    with op.batch_alter_table("gear_item", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_gear_item_came_off_id"), ["came_off_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_gear_item_kind_bore_large_m"), ["kind", "bore_large_m"], unique=False)
        batch_op.create_index(
            batch_op.f("ix_gear_item_kind_diameter_m_pitch_m"), ["kind", "diameter_m", "pitch_m"], unique=False
        )
        batch_op.create_index(batch_op.f("ix_gear_item_kind_hand"), ["kind", "hand"], unique=False)
        batch_op.create_index(batch_op.f("ix_gear_item_kind_id"), ["kind", "id"], unique=False)
        batch_op.create_index(batch_op.f("ix_gear_item_logged_by"), ["logged_by"], unique=False)
        batch_op.create_index("uq_gear_item_aboard_id_kind", ["aboard_id", "kind"], unique=True)

    op.create_table(
        "vessels_happening",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("vessel_id", sa.Integer(), nullable=True),
        sa.Column("drive_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("before", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.ForeignKeyConstraint(
            ["drive_id"], ["vessels_drive.id"], name=op.f("fk_vessels_happening_drive_id_vessels_drive")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_vessels_happening_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["vessel_id"], ["vessels_vessel.id"], name=op.f("fk_vessels_happening_vessel_id_vessels_vessel")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_vessels_happening")),
    )
    with op.batch_alter_table("vessels_happening", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_vessels_happening_drive_id"), ["drive_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_vessels_happening_vessel_id"), ["vessel_id"], unique=False)

    op.create_table(
        "bench_sheet",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("method", sa.String(length=30), nullable=False),
        sa.Column("readings", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("results", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("replaces_id", sa.Integer(), nullable=True),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_bench_sheet_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_bench_sheet_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["replaces_id"], ["bench_sheet.id"], name=op.f("fk_bench_sheet_replaces_id_bench_sheet")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_sheet")),
        sa.UniqueConstraint("replaces_id", name=op.f("uq_bench_sheet_replaces_id")),
    )
    with op.batch_alter_table("bench_sheet", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_bench_sheet_item_id"), ["item_id"], unique=False)

    op.create_table(
        "gear_event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("noted", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("drive_id", sa.Integer(), nullable=True),
        sa.Column("drive", sa.String(length=120), nullable=False),
        sa.Column("place", sa.String(length=120), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.ForeignKeyConstraint(["drive_id"], ["vessels_drive.id"], name=op.f("fk_gear_event_drive_id_vessels_drive")),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_gear_event_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_gear_event_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_event")),
    )
    with op.batch_alter_table("gear_event", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_gear_event_drive_id"), ["drive_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_gear_event_item_id_at"), ["item_id", "at"], unique=False)

    op.create_table(
        "gear_evidence",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("what", sa.String(length=30), nullable=False),
        sa.Column("value", sa.Double(), nullable=True),
        sa.Column("u_value", sa.Double(), nullable=True),
        sa.Column("word", sa.String(length=120), nullable=True),
        sa.Column("typed", sa.String(length=120), nullable=False),
        sa.Column("basis", sa.String(length=10), nullable=False),
        sa.Column("true_from", sa.DateTime(timezone=True), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("source", sa.String(length=10), nullable=False),
        sa.Column("source_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("replaces_id", sa.Integer(), nullable=True),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.CheckConstraint(
            "basis IN ('measured', 'stamped', 'decoded', 'paper', 'guessed')", name=op.f("ck_gear_evidence_basis")
        ),
        sa.CheckConstraint("u_value IS NULL OR u_value >= 0", name=op.f("ck_gear_evidence_u_value")),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_gear_evidence_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_gear_evidence_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["replaces_id"], ["gear_evidence.id"], name=op.f("fk_gear_evidence_replaces_id_gear_evidence")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_evidence")),
        sa.UniqueConstraint("replaces_id", name=op.f("uq_gear_evidence_replaces_id")),
    )
    with op.batch_alter_table("gear_evidence", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_gear_evidence_item_id_what"), ["item_id", "what"], unique=False)

    op.create_table(
        "gear_photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("caption", sa.String(length=120), nullable=False),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_gear_photo_item_id_gear_item")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_photo")),
    )
    with op.batch_alter_table("gear_photo", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_gear_photo_item_id"), ["item_id"], unique=False)

    op.create_table(
        "marks_mark",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("seen", sa.String(length=120), nullable=False),
        sa.Column("spot", sa.String(length=40), nullable=False),
        sa.Column("reading", sa.JSON().with_variant(postgresql.JSONB(), "postgresql"), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_marks_mark_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_marks_mark_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_marks_mark")),
    )
    with op.batch_alter_table("marks_mark", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_marks_mark_item_id"), ["item_id"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("marks_mark", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_marks_mark_item_id"))

    op.drop_table("marks_mark")
    with op.batch_alter_table("gear_photo", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_gear_photo_item_id"))

    op.drop_table("gear_photo")
    with op.batch_alter_table("gear_evidence", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_gear_evidence_item_id_what"))

    op.drop_table("gear_evidence")
    with op.batch_alter_table("gear_event", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_gear_event_item_id_at"))
        batch_op.drop_index(batch_op.f("ix_gear_event_drive_id"))

    op.drop_table("gear_event")
    with op.batch_alter_table("bench_sheet", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_bench_sheet_item_id"))

    op.drop_table("bench_sheet")
    with op.batch_alter_table("vessels_happening", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_vessels_happening_vessel_id"))
        batch_op.drop_index(batch_op.f("ix_vessels_happening_drive_id"))

    op.drop_table("vessels_happening")
    with op.batch_alter_table("gear_item", schema=None) as batch_op:
        batch_op.drop_index("uq_gear_item_aboard_id_kind")
        batch_op.drop_index(batch_op.f("ix_gear_item_logged_by"))
        batch_op.drop_index(batch_op.f("ix_gear_item_kind_id"))
        batch_op.drop_index(batch_op.f("ix_gear_item_kind_hand"))
        batch_op.drop_index(batch_op.f("ix_gear_item_kind_diameter_m_pitch_m"))
        batch_op.drop_index(batch_op.f("ix_gear_item_kind_bore_large_m"))
        batch_op.drop_index(batch_op.f("ix_gear_item_came_off_id"))

    op.drop_table("gear_item")
    with op.batch_alter_table("vessels_name", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_vessels_name_vessel_id"))

    op.drop_table("vessels_name")
    with op.batch_alter_table("vessels_drive", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_vessels_drive_vessel_id_position"))

    op.drop_table("vessels_drive")
    op.drop_table("people_known_here")
    with op.batch_alter_table("vessels_vessel", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_vessels_vessel_owner_id"))
        batch_op.drop_index(batch_op.f("ix_vessels_vessel_name"))

    op.drop_table("vessels_vessel")
    with op.batch_alter_table("people_token", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_people_token_person_id"))

    op.drop_table("people_token")
    op.drop_table("people_device")
    with op.batch_alter_table("people_audit", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_people_audit_subject_subject_id"))
        batch_op.drop_index(batch_op.f("ix_people_audit_at"))

    op.drop_table("people_audit")
    op.drop_table("people_person")
    op.drop_table("people_once")
    op.drop_table("people_claim")
    with op.batch_alter_table("people_attempt", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_people_attempt_name_key_at"))
        batch_op.drop_index(batch_op.f("ix_people_attempt_address_at"))

    op.drop_table("people_attempt")
    op.drop_table("gear_counter")
