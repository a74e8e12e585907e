"""Things with a tag, what is known about each, what happened to each, and their photos."""

from datetime import datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base

BASES = ("measured", "stamped", "decoded", "paper", "guessed")


class Counter(Base):
    """The next number of each row of tags."""

    __tablename__ = "gear_counter"

    letter: Mapped[str] = mapped_column(String(4), primary_key=True)
    following: Mapped[int]


class Item(Base):
    """A propeller or shaft. Its figures are the working ones, derived from evidence by `refresh` alone."""

    __tablename__ = "gear_item"
    __table_args__ = (
        CheckConstraint("kind IN ('propeller', 'shaft')", name="kind"),
        # A shaft line carries one propeller and one shaft at a time.
        Index("uq_gear_item_aboard_id_kind", "aboard_id", "kind", unique=True),
        Index(None, "kind", "diameter_m", "pitch_m"),
        Index(None, "kind", "bore_large_m"),
        Index(None, "kind", "hand"),
        Index(None, "kind", "id"),  # the rack, newest first
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    tag: Mapped[str] = mapped_column(String(20), unique=True)
    kind: Mapped[str] = mapped_column(String(10))
    version: Mapped[int] = mapped_column(default=1)
    note: Mapped[str] = mapped_column(Text, default="")
    place: Mapped[str] = mapped_column(String(120), default="")
    aboard_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"))
    came_off_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"), index=True)
    is_proposed: Mapped[bool] = mapped_column(default=False)
    logged_by: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"), index=True)
    logged: Mapped[datetime]
    words: Mapped[str] = mapped_column(Text, default="")

    stamp: Mapped[str] = mapped_column(String(120), default="")
    hand: Mapped[str | None] = mapped_column(String(5))
    blades: Mapped[int | None]
    bore_kind: Mapped[str | None] = mapped_column(String(10))
    material: Mapped[str | None] = mapped_column(String(40))
    diameter_m: Mapped[float | None]
    u_diameter_m: Mapped[float | None]
    pitch_m: Mapped[float | None]
    u_pitch_m: Mapped[float | None]
    bore_large_m: Mapped[float | None]
    u_bore_large_m: Mapped[float | None]
    bore_small_m: Mapped[float | None]
    u_bore_small_m: Mapped[float | None]
    bore_length_m: Mapped[float | None]
    u_bore_length_m: Mapped[float | None]
    taper: Mapped[float | None]
    u_taper: Mapped[float | None]
    taper_length_m: Mapped[float | None]
    u_taper_length_m: Mapped[float | None]
    keyway_width_m: Mapped[float | None]
    u_keyway_width_m: Mapped[float | None]
    keyway_depth_m: Mapped[float | None]
    u_keyway_depth_m: Mapped[float | None]
    hub_length_m: Mapped[float | None]
    u_hub_length_m: Mapped[float | None]
    hub_diameter_m: Mapped[float | None]
    u_hub_diameter_m: Mapped[float | None]
    length_m: Mapped[float | None]
    u_length_m: Mapped[float | None]
    area_ratio: Mapped[float | None]
    u_area_ratio: Mapped[float | None]
    mass_kg: Mapped[float | None]
    u_mass_kg: Mapped[float | None]
    blade_kind: Mapped[str | None] = mapped_column(String(15))
    # How each working figure is known: {"diameter_m": "measured", ...}; and which figures are contradicted.
    known: Mapped[dict[str, Any]] = mapped_column(default=dict)
    odds: Mapped[list[Any]] = mapped_column(default=list)


class Evidence(Base):
    """One statement about one figure of one item. Rows are only ever added."""

    __tablename__ = "gear_evidence"
    __table_args__ = (
        CheckConstraint(f"basis IN {BASES}", name="basis"),
        CheckConstraint("u_value IS NULL OR u_value >= 0", name="u_value"),
        Index(None, "item_id", "what"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"))
    what: Mapped[str] = mapped_column(String(30))
    value: Mapped[float | None]
    u_value: Mapped[float | None]
    word: Mapped[str | None] = mapped_column(String(120))
    typed: Mapped[str] = mapped_column(String(120), default="")
    basis: Mapped[str] = mapped_column(String(10))
    # From when the statement speaks: a measurement from its day; a stamp, from when the thing was made (NULL).
    true_from: Mapped[datetime | None]
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    source: Mapped[str] = mapped_column(String(10), default="")
    source_id: Mapped[int | None]
    note: Mapped[str] = mapped_column(String(300), default="")
    # A correction names the row it takes the place of, and why. A row is replaced once.
    replaces_id: Mapped[int | None] = mapped_column(ForeignKey("gear_evidence.id"), unique=True)
    why: Mapped[str] = mapped_column(String(300), default="")


class Event(Base):
    """Something that happened to an item. Rows are only ever added."""

    __tablename__ = "gear_event"
    __table_args__ = (Index(None, "item_id", "at"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"))
    kind: Mapped[str] = mapped_column(String(20))
    at: Mapped[datetime]
    noted: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    drive_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"), index=True)
    # As the drive was called that day: boats are renamed, and drives move on.
    drive: Mapped[str] = mapped_column(String(120), default="")
    place: Mapped[str] = mapped_column(String(120), default="")
    note: Mapped[str] = mapped_column(String(300), default="")


class Photo(Base):
    """A photo of an item; the picture itself lies in the data folder under its own SHA-256."""

    __tablename__ = "gear_photo"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    sha256: Mapped[str] = mapped_column(String(64))
    width: Mapped[int]
    height: Mapped[int]
    at: Mapped[datetime]
    said_by: Mapped[str] = mapped_column(String(80))
    caption: Mapped[str] = mapped_column(String(120), default="")
