"""Parts of every kind have a tag, each is in one place, and its moves, sets, bins and papers are kept."""

import sqlalchemy as sa
from alembic import op

revision = "0018_everything_has_a_place"
down_revision = "0017_relaunch"
branch_labels = None
depends_on = None

KINDS = (
    "propeller",
    "shaft",
    "nut",
    "lock",
    "key",
    "cutter",
    "anode",
    "bearing",
    "bracket",
    "coupling",
    "gland",
    "other",
)
STANDINGS = ("here", "aboard", "shop", "lent", "sold", "scrapped", "lost", "stolen", "merged")
FIGURES = (
    "thread_diameter_m",
    "thread_pitch_m",
    "bore_m",
    "outside_diameter_m",
    "bolt_circle_m",
    "packing_m",
    "width_m",
    "height_m",
    "left_ratio",
)
WORDS = {"lock_kind": 20, "key_kind": 15, "gland_kind": 15, "anode_metal": 15}
ITEM_COLUMNS = ("standing", "bin_id", "due_on", "set_id", "merged_into_id")
EVENT_COLUMNS = (
    "standing",
    "due_on",
    "undoes_id",
    "why",
    "with_id",
    "set_id",
    "other_id",
    "since",
    "by_whom",
    "cost",
)
ONE_A_LINE = sa.text("kind IN ('propeller', 'shaft')")
GONE = "('sold', 'scrapped', 'lost')"


def is_sqlite() -> bool:
    return op.get_bind().dialect.name == "sqlite"


def moment() -> sa.DateTime:
    return sa.DateTime(timezone=True)


def upgrade() -> None:
    _bins_and_sets()
    _items()
    _events()
    _papers()


def _bins_and_sets() -> None:
    op.create_table(
        "gear_bin",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("rack", sa.String(length=40), nullable=False),
        sa.Column("shelf", sa.String(length=20), nullable=False),
        sa.Column("bin", sa.String(length=20), nullable=False),
        sa.Column("label", sa.String(length=120), nullable=False),
        sa.Column("key", sa.String(length=120), nullable=False),
        sa.Column("is_in_use", sa.Boolean(), nullable=False),
        sa.Column("made", moment(), nullable=False),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_bin")),
        sa.UniqueConstraint("key", name=op.f("uq_gear_bin_key")),
    )
    op.create_table(
        "gear_set",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("made", moment(), nullable=False),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_set")),
    )


def _items() -> None:
    op.drop_index("uq_gear_item_aboard_id_kind", table_name="gear_item")
    with op.batch_alter_table("gear_item", recreate="auto") as batch:
        batch.add_column(sa.Column("standing", sa.String(length=10), nullable=False, server_default="here"))
        for name in ("bin_id", "set_id", "merged_into_id"):
            batch.add_column(sa.Column(name, sa.Integer(), nullable=True))
        batch.add_column(sa.Column("due_on", sa.Date(), nullable=True))
        for name in FIGURES:
            batch.add_column(sa.Column(name, sa.Double(), nullable=True))
            batch.add_column(sa.Column(f"u_{name}", sa.Double(), nullable=True))
        for name, length in WORDS.items():
            batch.add_column(sa.Column(name, sa.String(length=length), nullable=True))
        for name, table in (("bin_id", "gear_bin"), ("set_id", "gear_set"), ("merged_into_id", "gear_item")):
            batch.create_foreign_key(op.f(f"fk_gear_item_{name}_{table}"), table, [name], ["id"])
        batch.drop_constraint(op.f("ck_gear_item_kind"), type_="check")
    _stand_where_they_are()
    _must_be_in_one_place()
    _index_items()


def _stand_where_they_are() -> None:
    """What the last move of each thing says of it."""
    last = (
        "SELECT kind FROM gear_event WHERE gear_event.item_id = gear_item.id AND kind IN "
        "('logged', 'came off', 'went on', 'moved', 'sold', 'scrapped', 'lost', 'found') ORDER BY id DESC LIMIT 1"
    )
    op.execute("UPDATE gear_item SET standing = 'aboard' WHERE aboard_id IS NOT NULL")
    op.execute(f"UPDATE gear_item SET standing = ({last}) WHERE aboard_id IS NULL AND ({last}) IN {GONE}")


def _must_be_in_one_place() -> None:
    with op.batch_alter_table("gear_item") as batch:
        batch.alter_column("standing", server_default=None, existing_type=sa.String(length=10), existing_nullable=False)
        batch.create_check_constraint(op.f("ck_gear_item_kind"), f"kind IN {KINDS}")
        batch.create_check_constraint(op.f("ck_gear_item_standing"), f"standing IN {STANDINGS}")
        batch.create_check_constraint(op.f("ck_gear_item_one_place"), "(standing = 'aboard') = (aboard_id IS NOT NULL)")
        batch.create_check_constraint(op.f("ck_gear_item_bin"), "bin_id IS NULL OR standing = 'here'")
        batch.create_check_constraint(
            op.f("ck_gear_item_merged"), "(standing = 'merged') = (merged_into_id IS NOT NULL)"
        )
    _find_words_again()


def _index_items() -> None:
    op.create_index(
        "uq_gear_item_aboard_id_kind",
        "gear_item",
        ["aboard_id", "kind"],
        unique=True,
        sqlite_where=ONE_A_LINE,
        postgresql_where=ONE_A_LINE,
    )
    op.create_index(op.f("ix_gear_item_aboard_id"), "gear_item", ["aboard_id"])
    op.create_index(op.f("ix_gear_item_standing_due_on"), "gear_item", ["standing", "due_on"])
    for name in ("bin_id", "set_id", "merged_into_id"):
        op.create_index(op.f(f"ix_gear_item_{name}"), "gear_item", [name])


def _find_words_again() -> None:
    """A table that SQLite wrote anew has lost the triggers that keep its words in step."""
    if not is_sqlite():
        return
    add = "INSERT INTO gear_words(rowid, words) VALUES (new.id, new.words);"
    drop = "INSERT INTO gear_words(gear_words, rowid, words) VALUES ('delete', old.id, old.words);"
    op.execute(f"CREATE TRIGGER gear_words_added AFTER INSERT ON gear_item BEGIN {add} END")
    op.execute(f"CREATE TRIGGER gear_words_gone AFTER DELETE ON gear_item BEGIN {drop} END")
    op.execute(f"CREATE TRIGGER gear_words_changed AFTER UPDATE OF words ON gear_item BEGIN {drop} {add} END")


def _events() -> None:
    with op.batch_alter_table("gear_event") as batch:
        batch.add_column(sa.Column("standing", sa.String(length=10), nullable=True))
        batch.add_column(sa.Column("due_on", sa.Date(), nullable=True))
        batch.add_column(sa.Column("since", moment(), nullable=True))
        for name, length in {"why": 300, "by_whom": 120, "cost": 40}.items():
            batch.add_column(sa.Column(name, sa.String(length=length), nullable=False, server_default=""))
        for name in ("undoes_id", "with_id", "set_id", "other_id"):
            batch.add_column(sa.Column(name, sa.Integer(), nullable=True))
        for name, table in {
            "undoes_id": "gear_event",
            "with_id": "gear_event",
            "set_id": "gear_set",
            "other_id": "gear_item",
        }.items():
            batch.create_foreign_key(op.f(f"fk_gear_event_{name}_{table}"), table, [name], ["id"])
        batch.create_unique_constraint(op.f("uq_gear_event_undoes_id"), ["undoes_id"])
        batch.create_index(op.f("ix_gear_event_with_id"), ["with_id"])
    with op.batch_alter_table("gear_event") as batch:
        for name, length in {"why": 300, "by_whom": 120, "cost": 40}.items():
            batch.alter_column(
                name, server_default=None, existing_type=sa.String(length=length), existing_nullable=False
            )
    _let_stay("gear_event", is_written_anew=True)


def _papers() -> None:
    op.create_table(
        "gear_paper",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item_id", sa.Integer(), nullable=False),
        sa.Column("event_id", sa.Integer(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("at", moment(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("said_by", sa.String(length=80), nullable=False),
        sa.ForeignKeyConstraint(["item_id"], ["gear_item.id"], name=op.f("fk_gear_paper_item_id_gear_item")),
        sa.ForeignKeyConstraint(["event_id"], ["gear_event.id"], name=op.f("fk_gear_paper_event_id_gear_event")),
        sa.ForeignKeyConstraint(
            ["person_id"], ["people_person.id"], name=op.f("fk_gear_paper_person_id_people_person")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_gear_paper")),
    )
    op.create_index(op.f("ix_gear_paper_item_id"), "gear_paper", ["item_id"])
    op.create_index(op.f("ix_gear_paper_event_id"), "gear_paper", ["event_id"])
    _let_stay("gear_paper")


def _let_stay(table: str, *, is_written_anew: bool = False) -> None:
    """History can't be altered; a table that SQLite wrote anew has lost what kept it."""
    if is_sqlite():
        for act in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER {table}_stays_{act.lower()} BEFORE {act} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, 'history stays: correct it with a new row'); END"
            )
    elif not is_written_anew:
        op.execute(
            f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
            "FOR EACH ROW EXECUTE FUNCTION history_stays()"
        )


def downgrade() -> None:
    op.drop_table("gear_paper")
    with op.batch_alter_table("gear_event") as batch:
        batch.drop_index(op.f("ix_gear_event_with_id"))
        for name in EVENT_COLUMNS:
            batch.drop_column(name)
    _let_stay("gear_event", is_written_anew=True)
    for name in ("bin_id", "set_id", "merged_into_id", "aboard_id", "standing_due_on"):
        op.drop_index(op.f(f"ix_gear_item_{name}"), table_name="gear_item")
    op.drop_index("uq_gear_item_aboard_id_kind", table_name="gear_item")
    with op.batch_alter_table("gear_item") as batch:
        for name in ("kind", "standing", "one_place", "bin", "merged"):
            batch.drop_constraint(op.f(f"ck_gear_item_{name}"), type_="check")
        for name in (*ITEM_COLUMNS, *(column for one in FIGURES for column in (one, f"u_{one}")), *WORDS):
            batch.drop_column(name)
        batch.create_check_constraint(op.f("ck_gear_item_kind"), "kind IN ('propeller', 'shaft')")
    op.create_index("uq_gear_item_aboard_id_kind", "gear_item", ["aboard_id", "kind"], unique=True)
    _find_words_again()
    op.drop_table("gear_set")
    op.drop_table("gear_bin")
