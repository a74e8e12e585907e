"""Launches, releases, faults, lists of lines and policies are kept, and history stays."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0017_relaunch"
down_revision = "0016_engine_curves"
branch_labels = None
depends_on = None

DOCUMENT = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
HISTORY = ("relaunch_act", "relaunch_fault", "relaunch_fault_act", "relaunch_list_version", "relaunch_policy")
# Of a launch only what is derived from its acts may change.
LAUNCH_STAYS = ("id", "vessel_id", "list_name", "list_number", "lines", "begun", "person_id", "said_by")
REFUSAL = "history stays: correct it with a new row"


def upgrade() -> None:
    _make_list()
    _make_list_version()
    _make_policy()
    _make_launch()
    _make_act()
    _make_fault()
    _make_fault_act()
    _let_history_stay()
    _let_launches_stay()


def _make_list() -> None:
    op.create_table(
        "relaunch_list",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_list")),
        sa.UniqueConstraint("name", name=op.f("uq_relaunch_list_name")),
    )


def _make_list_version() -> None:
    op.create_table(
        "relaunch_list_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("list_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("lines", DOCUMENT, nullable=False),
        sa.Column("why", sa.String(length=300), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["list_id"], ["relaunch_list.id"], name=op.f("fk_relaunch_list_version_list_id_relaunch_list")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_relaunch_list_version_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_list_version")),
        sa.UniqueConstraint("list_id", "number", name=op.f("uq_relaunch_list_version_list_id_number")),
    )


def _make_policy() -> None:
    op.create_table(
        "relaunch_policy",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=30), nullable=False),
        sa.Column("choice", sa.String(length=60), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_relaunch_policy_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_policy")),
    )
    op.create_index(op.f("ix_relaunch_policy_name"), "relaunch_policy", ["name"], unique=False)


def _make_launch() -> None:
    op.create_table(
        "relaunch_launch",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("vessel_id", sa.Integer(), nullable=False),
        sa.Column("list_name", sa.String(length=60), nullable=False),
        sa.Column("list_number", sa.Integer(), nullable=False),
        sa.Column("lines", DOCUMENT, nullable=False),
        sa.Column("begun", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.Column("planned", sa.DateTime(timezone=True), nullable=False),
        sa.Column("is_over", sa.Boolean(), nullable=False),
        sa.Column("still", DOCUMENT, nullable=False),
        sa.Column("looked", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_relaunch_launch_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["vessel_id"], ["vessels_vessel.id"], name=op.f("fk_relaunch_launch_vessel_id_vessels_vessel")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_launch")),
    )
    op.create_index(op.f("ix_relaunch_launch_is_over_planned"), "relaunch_launch", ["is_over", "planned"], unique=False)
    op.create_index(op.f("ix_relaunch_launch_vessel_id"), "relaunch_launch", ["vessel_id"], unique=False)


def _make_act() -> None:
    op.create_table(
        "relaunch_act",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("launch_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("line", sa.String(length=40), nullable=False),
        sa.Column("drive_id", sa.Integer(), nullable=True),
        sa.Column("answer", sa.String(length=3), nullable=False),
        sa.Column("tag", sa.String(length=20), nullable=False),
        sa.Column("hand", sa.String(length=5), nullable=True),
        sa.Column("figure", sa.Double(), nullable=True),
        sa.Column("figure_typed", sa.String(length=60), nullable=False),
        sa.Column("photo_sha256", sa.String(length=64), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("planned", sa.DateTime(timezone=True), nullable=True),
        sa.Column("release", sa.String(length=20), nullable=False),
        sa.Column("frozen", DOCUMENT, nullable=True),
        sa.Column("app_version", sa.String(length=20), nullable=False),
        sa.Column("takes_back_id", sa.Integer(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.CheckConstraint("answer IN ('', 'yes', 'no', 'ask')", name=op.f("ck_relaunch_act_answer")),
        sa.CheckConstraint("hand IS NULL OR hand IN ('right', 'left')", name=op.f("ck_relaunch_act_hand")),
        sa.ForeignKeyConstraint(
            ["drive_id"], ["vessels_drive.id"], name=op.f("fk_relaunch_act_drive_id_vessels_drive")
        ),
        sa.ForeignKeyConstraint(
            ["launch_id"], ["relaunch_launch.id"], name=op.f("fk_relaunch_act_launch_id_relaunch_launch")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_relaunch_act_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["takes_back_id"], ["relaunch_act.id"], name=op.f("fk_relaunch_act_takes_back_id_relaunch_act")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_act")),
        sa.UniqueConstraint("takes_back_id", name=op.f("uq_relaunch_act_takes_back_id")),
    )
    op.create_index(op.f("ix_relaunch_act_launch_id_id"), "relaunch_act", ["launch_id", "id"], unique=False)


def _make_fault() -> None:
    op.create_table(
        "relaunch_fault",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=True),
        sa.Column("drive_id", sa.Integer(), nullable=True),
        sa.Column("vessel_id", sa.Integer(), nullable=True),
        sa.Column("severity", sa.String(length=10), nullable=False),
        sa.Column("what", sa.String(length=120), nullable=False),
        sa.Column("place", sa.String(length=120), nullable=False),
        sa.Column("evidence", sa.String(length=300), nullable=False),
        sa.Column("found", sa.String(length=20), nullable=False),
        sa.Column("photo_sha256", sa.String(length=64), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.CheckConstraint("severity IN ('stop', 'watch', 'note')", name=op.f("ck_relaunch_fault_severity")),
        sa.CheckConstraint(
            "(item_id IS NOT NULL AND drive_id IS NULL AND vessel_id IS NULL)"
            " OR (item_id IS NULL AND drive_id IS NOT NULL AND vessel_id IS NULL)"
            " OR (item_id IS NULL AND drive_id IS NULL AND vessel_id IS NOT NULL)",
            name=op.f("ck_relaunch_fault_one_thing"),
        ),
        sa.ForeignKeyConstraint(
            ["drive_id"], ["vessels_drive.id"], name=op.f("fk_relaunch_fault_drive_id_vessels_drive")
        ),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_relaunch_fault_item_id_gear_item")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_relaunch_fault_person_id_people_person")
        ),
        sa.ForeignKeyConstraint(
            ["vessel_id"], ["vessels_vessel.id"], name=op.f("fk_relaunch_fault_vessel_id_vessels_vessel")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_fault")),
    )
    op.create_index(op.f("ix_relaunch_fault_drive_id"), "relaunch_fault", ["drive_id"], unique=False)
    op.create_index(op.f("ix_relaunch_fault_item_id"), "relaunch_fault", ["item_id"], unique=False)
    op.create_index(op.f("ix_relaunch_fault_vessel_id"), "relaunch_fault", ["vessel_id"], unique=False)


def _make_fault_act() -> None:
    op.create_table(
        "relaunch_fault_act",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("fault_id", sa.Integer(), nullable=True),
        sa.Column("bench_fault_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("note", sa.String(length=300), nullable=False),
        sa.Column("until", sa.Date(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.CheckConstraint("kind <> 'accepted' OR until IS NOT NULL", name=op.f("ck_relaunch_fault_act_until")),
        sa.CheckConstraint(
            "kind IN ('decides', 'accepted', 'acceptance ended', 'closed')", name=op.f("ck_relaunch_fault_act_kind")
        ),
        sa.CheckConstraint(
            "(fault_id IS NULL) <> (bench_fault_id IS NULL)", name=op.f("ck_relaunch_fault_act_one_fault")
        ),
        sa.ForeignKeyConstraint(
            ["bench_fault_id"], ["bench_fault.id"], name=op.f("fk_relaunch_fault_act_bench_fault_id_bench_fault")
        ),
        sa.ForeignKeyConstraint(
            ["fault_id"], ["relaunch_fault.id"], name=op.f("fk_relaunch_fault_act_fault_id_relaunch_fault")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_relaunch_fault_act_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_relaunch_fault_act")),
    )
    op.create_index(
        op.f("ix_relaunch_fault_act_bench_fault_id"), "relaunch_fault_act", ["bench_fault_id"], unique=False
    )
    op.create_index(op.f("ix_relaunch_fault_act_fault_id"), "relaunch_fault_act", ["fault_id"], unique=False)
    op.create_index(
        "uq_relaunch_fault_act_closed",
        "relaunch_fault_act",
        ["fault_id"],
        unique=True,
        sqlite_where=sa.text("kind = 'closed'"),
        postgresql_where=sa.text("kind = 'closed'"),
    )


def _let_history_stay() -> None:
    for table in HISTORY:
        if op.get_bind().dialect.name == "sqlite":
            for act in ("UPDATE", "DELETE"):
                op.execute(
                    f"CREATE TRIGGER {table}_stays_{act.lower()} BEFORE {act} ON {table} "
                    f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
                )
        else:
            op.execute(
                f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
                "FOR EACH ROW EXECUTE FUNCTION history_stays()"
            )


def _let_launches_stay() -> None:
    columns = ", ".join(LAUNCH_STAYS)
    if op.get_bind().dialect.name == "sqlite":
        for act in (f"UPDATE OF {columns}", "DELETE"):
            op.execute(
                f"CREATE TRIGGER relaunch_launch_stays_{act[:6].lower()} BEFORE {act} ON relaunch_launch "
                f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
            )
        return
    op.execute(
        f"CREATE TRIGGER relaunch_launch_stays BEFORE UPDATE OF {columns} OR DELETE ON relaunch_launch "
        "FOR EACH ROW EXECUTE FUNCTION history_stays()"
    )


def downgrade() -> None:
    for table in (
        "relaunch_fault_act",
        "relaunch_fault",
        "relaunch_act",
        "relaunch_launch",
        "relaunch_policy",
        "relaunch_list_version",
        "relaunch_list",
    ):
        op.drop_table(table)  # its triggers go with it
