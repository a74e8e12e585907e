"""Boats, the names they have borne, their drives, and what happened to both."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Vessel(Base):
    """A boat under her present name; `words` holds every name and owner she has had, for the search."""

    __tablename__ = "vessels_vessel"
    __table_args__ = (Index(None, "name"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    name: Mapped[str] = mapped_column(String(80))
    kind: Mapped[str] = mapped_column(String(40), default="")
    owner: Mapped[str] = mapped_column(String(80), default="")
    owner_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"), index=True)
    length_m: Mapped[float | None]
    length_m_typed: Mapped[str] = mapped_column(String(40), default="")
    block_ratio: Mapped[float | None]
    # Of the hull, for what engine, hull and propeller do together; `length_m` is the waterline's.
    hull_kind: Mapped[str | None] = mapped_column(String(30))
    planing_kind: Mapped[str | None] = mapped_column(String(15))
    displacement_kg: Mapped[float | None]
    beam_m: Mapped[float | None]
    draught_m: Mapped[float | None]
    wetted_m2: Mapped[float | None]
    waterplane_m2: Mapped[float | None]
    prismatic_ratio: Mapped[float | None]
    midship_ratio: Mapped[float | None]
    waterplane_ratio: Mapped[float | None]
    lcb_m: Mapped[float | None]
    lcf_m: Mapped[float | None]
    chine_beam_m: Mapped[float | None]
    deadrise_rad: Mapped[float | None]
    lcg_m: Mapped[float | None]
    # Pairs of speed (m/s) and power (W), rising; and where that power was taken.
    speed_power: Mapped[list[Any] | None]
    speed_power_kind: Mapped[str | None] = mapped_column(String(10))
    hull_typed: Mapped[dict[str, Any] | None]
    note: Mapped[str] = mapped_column(Text, default="")
    logged: Mapped[datetime]
    words: Mapped[str] = mapped_column(Text, default="")


class VesselName(Base):
    """A name that a boat bore, and until when; the present one has no end."""

    __tablename__ = "vessels_name"

    id: Mapped[int] = mapped_column(primary_key=True)
    vessel_id: Mapped[int] = mapped_column(ForeignKey("vessels_vessel.id"), index=True)
    name: Mapped[str] = mapped_column(String(80))
    until: Mapped[date | None]


class Drive(Base):
    """One engine, gear, shaft line and the room for its propeller. `vessel_id` is where it stands now."""

    __tablename__ = "vessels_drive"
    __table_args__ = (
        CheckConstraint("position IN ('centre', 'port', 'starboard')", name="position"),
        CheckConstraint("hand IS NULL OR hand IN ('right', 'left')", name="hand"),
        CheckConstraint("hull_clearance_from IN ('centre', 'surface')", name="hull_clearance_from"),
        Index(None, "vessel_id", "position"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    vessel_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_vessel.id"))
    position: Mapped[str] = mapped_column(String(10), default="centre")
    is_in_use: Mapped[bool] = mapped_column(default=True)
    engine: Mapped[str] = mapped_column(String(80), default="")
    hand: Mapped[str | None] = mapped_column(String(5))
    rated_power_w: Mapped[float | None]
    rated_speed_rps: Mapped[float | None]
    reduction_ratio: Mapped[float | None]
    # Pairs of engine speed (1/s) and power (W) at full throttle, rising, from its maker's sheet.
    engine_curve: Mapped[list[Any] | None]
    shaft_diameter_m: Mapped[float | None]
    u_shaft_diameter_m: Mapped[float | None]
    taper: Mapped[float | None]
    u_taper: Mapped[float | None]
    taper_length_m: Mapped[float | None]
    u_taper_length_m: Mapped[float | None]
    keyway_width_m: Mapped[float | None]
    u_keyway_width_m: Mapped[float | None]
    keyway_depth_m: Mapped[float | None]
    u_keyway_depth_m: Mapped[float | None]
    hub_space_m: Mapped[float | None]
    u_hub_space_m: Mapped[float | None]
    # As read: from the shaft's centre or from its surface; `services.clearance_from_centre` settles it.
    hull_clearance_m: Mapped[float | None]
    u_hull_clearance_m: Mapped[float | None]
    hull_clearance_from: Mapped[str] = mapped_column(String(10), default="centre")
    # Shaft line: what it bears, and the room round hub and blades.
    shaft_alloy: Mapped[str | None] = mapped_column(String(120))
    behind: Mapped[str | None] = mapped_column(String(20))
    safety_factor: Mapped[float | None]
    shaft_span_m: Mapped[float | None]
    key_length_m: Mapped[float | None]
    thread_length_m: Mapped[float | None]
    nut_length_m: Mapped[float | None]
    cutter_length_m: Mapped[float | None]
    bearing_diameter_m: Mapped[float | None]
    rudder_distance_m: Mapped[float | None]
    ahead_distance_m: Mapped[float | None]
    aperture_length_m: Mapped[float | None]
    shaft_depth_m: Mapped[float | None]
    old_mass_kg: Mapped[float | None]
    note: Mapped[str] = mapped_column(Text, default="")
    typed: Mapped[dict[str, Any]] = mapped_column(default=dict)
    changed: Mapped[datetime]


class Happening(Base):
    """Something that happened to a boat or a drive, with what stood before. Rows are only ever added."""

    __tablename__ = "vessels_happening"
    __table_args__ = (Index(None, "vessel_id", "at"), Index(None, "drive_id", "at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    vessel_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_vessel.id"), index=True)
    drive_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"), index=True)
    kind: Mapped[str] = mapped_column(String(20))
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    note: Mapped[str] = mapped_column(String(300), default="")
    before: Mapped[dict[str, Any]] = mapped_column(default=dict)
