"""Things with a tag, what is known about each, what happened to each, and their photos."""

from datetime import date, datetime
from typing import Any, ClassVar

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint, text
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base
from yardapp.gear.figures import KINDS, ONE_A_LINE
from yardapp.gear.whereabouts import STANDINGS

BASES = ("measured", "stamped", "decoded", "paper", "guessed")


class Counter(Base):
    """The next number of each row of tags."""

    __tablename__ = "gear_counter"

    letter: Mapped[str] = mapped_column(String(4), primary_key=True)
    following: Mapped[int]


class Bin(Base):
    """One place on the racks: a rack, perhaps a shelf, a bin. Its `key` is how people write it, made alike."""

    __tablename__ = "gear_bin"
    __table_args__ = (UniqueConstraint("key"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    rack: Mapped[str] = mapped_column(String(40))
    shelf: Mapped[str] = mapped_column(String(20), default="")
    bin: Mapped[str] = mapped_column(String(20))
    label: Mapped[str] = mapped_column(String(120))
    key: Mapped[str] = mapped_column(String(120))
    is_in_use: Mapped[bool] = mapped_column(default=True)
    made: Mapped[datetime]
    said_by: Mapped[str] = mapped_column(String(80))


class Set(Base):
    """Parts that come off and go on together; which they are stands on the items, that they came and went in events."""

    __tablename__ = "gear_set"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(80))
    made: Mapped[datetime]
    said_by: Mapped[str] = mapped_column(String(80))


class Item(Base):
    """A thing with a tag. Its figures are the working ones, derived from evidence by `refresh` alone."""

    __tablename__ = "gear_item"
    __table_args__ = (
        CheckConstraint(f"kind IN {tuple(KINDS)}", name="kind"),
        # It is in one place: on a drive and nowhere else, in a bin and nowhere else, or neither.
        CheckConstraint(f"standing IN {STANDINGS}", name="standing"),
        CheckConstraint("(standing = 'aboard') = (aboard_id IS NOT NULL)", name="one_place"),
        CheckConstraint("bin_id IS NULL OR standing = 'here'", name="bin"),
        CheckConstraint("(standing = 'merged') = (merged_into_id IS NOT NULL)", name="merged"),
        # A shaft line carries one propeller and one shaft at a time.
        Index(
            "uq_gear_item_aboard_id_kind",
            "aboard_id",
            "kind",
            unique=True,
            sqlite_where=text(f"kind IN {ONE_A_LINE}"),
            postgresql_where=text(f"kind IN {ONE_A_LINE}"),
        ),
        Index(None, "aboard_id"),
        Index(None, "standing", "due_on"),
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
    # What `place` and `aboard_id` mean: aboard, here, at a shop, lent, sold, … It follows from the moves.
    standing: Mapped[str] = mapped_column(String(10), default="here")
    bin_id: Mapped[int | None] = mapped_column(ForeignKey("gear_bin.id"), index=True)
    due_on: Mapped[date | None]
    set_id: Mapped[int | None] = mapped_column(ForeignKey("gear_set.id"), index=True)
    merged_into_id: Mapped[int | None] = mapped_column(ForeignKey("gear_item.id"), index=True)
    aboard_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"))
    came_off_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"), index=True)
    is_proposed: Mapped[bool] = mapped_column(default=False)
    is_for_sale: Mapped[bool] = mapped_column(default=False)
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
    thread_diameter_m: Mapped[float | None]
    u_thread_diameter_m: Mapped[float | None]
    thread_pitch_m: Mapped[float | None]
    u_thread_pitch_m: Mapped[float | None]
    bore_m: Mapped[float | None]
    u_bore_m: Mapped[float | None]
    outside_diameter_m: Mapped[float | None]
    u_outside_diameter_m: Mapped[float | None]
    bolt_circle_m: Mapped[float | None]
    u_bolt_circle_m: Mapped[float | None]
    packing_m: Mapped[float | None]
    u_packing_m: Mapped[float | None]
    width_m: Mapped[float | None]
    u_width_m: Mapped[float | None]
    height_m: Mapped[float | None]
    u_height_m: Mapped[float | None]
    left_ratio: Mapped[float | None]
    u_left_ratio: Mapped[float | None]
    lock_kind: Mapped[str | None] = mapped_column(String(20))
    key_kind: Mapped[str | None] = mapped_column(String(15))
    gland_kind: Mapped[str | None] = mapped_column(String(15))
    anode_metal: Mapped[str | None] = mapped_column(String(15))
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
        Index(None, "item_id", "at"),
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
    __table_args__ = (
        Index(None, "item_id", "at"),
        Index(None, "drive_id", "at"),
        Index(None, "drive_id", "item_id"),
        # Few: whether a thing's tag ever hung crossed is asked for each row that names it.
        Index(
            "ix_gear_event_item_id_swapped",
            "item_id",
            "at",
            sqlite_where=text("kind = 'tags swapped'"),
            postgresql_where=text("kind = 'tags swapped'"),
        ),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"))
    kind: Mapped[str] = mapped_column(String(20))
    at: Mapped[datetime]
    noted: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    drive_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"))
    # As the drive was called that day: boats are renamed, and drives move on.
    drive: Mapped[str] = mapped_column(String(120), default="")
    place: Mapped[str] = mapped_column(String(120), default="")
    note: Mapped[str] = mapped_column(String(300), default="")
    # A move: what holds of the item from then on, and when it is expected back.
    standing: Mapped[str | None] = mapped_column(String(10))
    due_on: Mapped[date | None]
    # A correction names the move it undoes, and why; a move is undone once.
    undoes_id: Mapped[int | None] = mapped_column(ForeignKey("gear_event.id"), unique=True)
    why: Mapped[str] = mapped_column(String(300), default="")
    # What moved in one act names that act's first event.
    with_id: Mapped[int | None] = mapped_column(ForeignKey("gear_event.id"), index=True)
    set_id: Mapped[int | None] = mapped_column(ForeignKey("gear_set.id"))
    # Tags swapped, or one thing logged twice: the other item, and since when they may have been taken for each other.
    other_id: Mapped[int | None] = mapped_column(ForeignKey("gear_item.id"))
    since: Mapped[datetime | None]
    # Work: who did it, what it cost, as written; also the second name under a swap of tags, and who declined.
    by_whom: Mapped[str] = mapped_column(String(120), default="")
    cost: Mapped[str] = mapped_column(String(40), default="")


class Paper(Base):
    """A document or photo of one piece of work; the file lies in the data folder under its own SHA-256."""

    __tablename__ = "gear_paper"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    event_id: Mapped[int] = mapped_column(ForeignKey("gear_event.id"), index=True)
    sha256: Mapped[str] = mapped_column(String(64))
    kind: Mapped[str] = mapped_column(String(10))
    name: Mapped[str] = mapped_column(String(120), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


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
    first_caption: Mapped[str] = mapped_column("caption", String(120), default="")
    caption: ClassVar[Any]  # the newest one: see photo_models
