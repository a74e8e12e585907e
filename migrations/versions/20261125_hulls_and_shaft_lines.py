"""What is known of a hull, of a shaft line's strength and of the room fore and aft; blades' area, weight and kind."""

import sqlalchemy as sa
from alembic import op
from sqlalchemy.dialects import postgresql

revision = "0007_hulls_and_shaft_lines"
down_revision = "0006_verdicts_kept"
branch_labels = None
depends_on = None

JSON = sa.JSON().with_variant(postgresql.JSONB(), "postgresql")
FIGURES = {
    "gear_item": ("area_ratio", "u_area_ratio", "mass_kg", "u_mass_kg"),
    "vessels_vessel": (
        "displacement_kg",
        "beam_m",
        "draught_m",
        "wetted_m2",
        "waterplane_m2",
        "prismatic_ratio",
        "midship_ratio",
        "waterplane_ratio",
        "lcb_m",
        "lcf_m",
        "chine_beam_m",
        "deadrise_rad",
        "lcg_m",
    ),
    "vessels_drive": (
        "thread_length_m",
        "nut_length_m",
        "cutter_length_m",
        "bearing_diameter_m",
        "rudder_distance_m",
        "ahead_distance_m",
        "aperture_length_m",
        "shaft_depth_m",
        "old_mass_kg",
        "safety_factor",
        "shaft_span_m",
        "key_length_m",
    ),
}
WORDS = {
    "gear_item": {"blade_kind": 15},
    "vessels_vessel": {"hull_kind": 30, "planing_kind": 15, "speed_power_kind": 10},
    "vessels_drive": {"shaft_alloy": 120, "behind": 20},
}
LISTS = {"vessels_vessel": ("speed_power", "hull_typed")}


def upgrade() -> None:
    for table, names in FIGURES.items():
        for name in names:
            op.add_column(table, sa.Column(name, sa.Double(), nullable=True))
        for name, length in WORDS[table].items():
            op.add_column(table, sa.Column(name, sa.String(length=length), nullable=True))
        for name in LISTS.get(table, ()):
            op.add_column(table, sa.Column(name, JSON, nullable=True))


def downgrade() -> None:
    # Column by column: a table written anew would lose the triggers that keep its words in step.
    for table, names in FIGURES.items():
        for name in (*names, *WORDS[table], *LISTS.get(table, ())):
            op.drop_column(table, name)
