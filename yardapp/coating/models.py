"""Coating systems with every version, product in stock, jobs with their pieces, acts, ratings at haul-out."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class CoatingSystem(Base):
    """A coating system by name; what it says stands in its versions, `version` being the newest."""

    __tablename__ = "coating_system"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(80))
    name_key: Mapped[str] = mapped_column(String(80), unique=True)
    version: Mapped[int] = mapped_column(default=1)
    is_used: Mapped[bool] = mapped_column(default=True)


class SystemVersion(Base):
    """A system as it stood from one edit to the next. Rows are only ever added; a job keeps the row that it ran on."""

    __tablename__ = "coating_system_version"
    __table_args__ = (UniqueConstraint("system_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    system_id: Mapped[int] = mapped_column(ForeignKey("coating_system.id"))
    number: Mapped[int]
    sheet: Mapped[dict[str, Any]]
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    why: Mapped[str] = mapped_column(String(300), default="")


class SystemDocument(Base):
    """A data sheet as it came, PDF or photo, attached to a system. Rows are only ever added."""

    __tablename__ = "coating_document"

    id: Mapped[int] = mapped_column(primary_key=True)
    system_id: Mapped[int] = mapped_column(ForeignKey("coating_system.id"), index=True)
    number: Mapped[int]  # the version that was the newest when it was attached
    sha256: Mapped[str] = mapped_column(String(64), index=True)
    kind: Mapped[str] = mapped_column(String(10))
    name: Mapped[str] = mapped_column(String(120), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class Tin(Base):
    """Product in stock: one tin, kit or rest of one, opened or not."""

    __tablename__ = "coating_tin"
    __table_args__ = (CheckConstraint("volume_m3 >= 0", name="volume_m3"), Index(None, "is_gone", "product"))

    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    product: Mapped[str] = mapped_column(String(80))
    part: Mapped[str] = mapped_column(String(80), default="")
    batch: Mapped[str] = mapped_column(String(40), default="")
    volume_m3: Mapped[float]
    volume_m3_typed: Mapped[str] = mapped_column(String(40), default="")
    expires_on: Mapped[date | None]
    opened_on: Mapped[date | None]
    place: Mapped[str] = mapped_column(String(120), default="")
    note: Mapped[str] = mapped_column(String(300), default="")
    is_gone: Mapped[bool] = mapped_column(default=False)
    logged: Mapped[datetime]


class StockMove(Base):
    """What came into a tin or went out of it (below zero). Rows are only ever added; their sum is what is in it."""

    __tablename__ = "coating_stock_move"

    id: Mapped[int] = mapped_column(primary_key=True)
    tin_id: Mapped[int] = mapped_column(ForeignKey("coating_tin.id"), index=True)
    act_id: Mapped[int | None] = mapped_column(ForeignKey("coating_act.id"), index=True)
    kind: Mapped[str] = mapped_column(String(20))
    volume_m3: Mapped[float]
    at: Mapped[datetime]
    noted: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    note: Mapped[str] = mapped_column(String(300), default="")


class Job(Base):
    """Things coated together on one version of a system. `version` rises with every act: phones ask for it alone."""

    __tablename__ = "coating_job"
    __table_args__ = (
        CheckConstraint("way IN ('brush', 'roller')", name="way"),
        CheckConstraint("people > 0", name="people"),
        Index(None, "is_open", "id"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    system_version_id: Mapped[int] = mapped_column(ForeignKey("coating_system_version.id"), index=True)
    title: Mapped[str] = mapped_column(String(120))
    drive_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"), index=True)
    people: Mapped[int]
    way: Mapped[str] = mapped_column(String(10))
    blade_s: Mapped[float]
    metal_c: Mapped[float]
    loss_ratio: Mapped[float]
    starts: Mapped[datetime | None]
    launches: Mapped[datetime | None]
    # When the yard works: {"begins": "08:00", "ends": "17:00", "breaks": [["12:00", "12:30"]], "weekends": false}.
    hours: Mapped[dict[str, Any] | None]
    note: Mapped[str] = mapped_column(Text, default="")
    is_open: Mapped[bool] = mapped_column(default=True)
    planned: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class Piece(Base):
    """One thing of a job: a propeller with all its blades, a length of shaft, a bracket.

    What stands from `finished` on is derived from the job's acts by `refresh` alone.
    """

    __tablename__ = "coating_piece"
    __table_args__ = (CheckConstraint("area_m2 > 0", name="area_m2"), UniqueConstraint("job_id", "number"))

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("coating_job.id"))
    number: Mapped[int]
    kind: Mapped[str] = mapped_column(String(20))
    label: Mapped[str] = mapped_column(String(80))
    item_id: Mapped[int | None] = mapped_column(ForeignKey("gear_item.id"), index=True)
    blades: Mapped[int] = mapped_column(default=0)
    area_m2: Mapped[float]
    area_m2_typed: Mapped[str] = mapped_column(String(40), default="")
    # For a transducer: who said that its maker allows it, and when.
    allowed_by: Mapped[str] = mapped_column(String(120), default="")
    allowed_on: Mapped[date | None]

    foul_release: Mapped[bool] = mapped_column(default=False)
    finished: Mapped[datetime | None]
    immersed: Mapped[datetime | None]
    metal_low_c: Mapped[float | None]
    metal_high_c: Mapped[float | None]
    windows_met: Mapped[bool | None]


class CoatingAct(Base):
    """One tap beside the boat, one reading, one correction. Rows are only ever added.

    `at` is when it was done, `noted` when the server heard of it: they differ for what was tapped without network.
    """

    __tablename__ = "coating_act"
    __table_args__ = (Index(None, "job_id", "id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("coating_job.id"))
    kind: Mapped[str] = mapped_column(String(20))
    unit: Mapped[str] = mapped_column(String(40), default="")
    step: Mapped[int | None]
    at: Mapped[datetime]
    noted: Mapped[datetime]
    is_late: Mapped[bool] = mapped_column(default=False)
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    device: Mapped[str] = mapped_column(String(80), default="")
    figures: Mapped[dict[str, Any]] = mapped_column(default=dict)
    note: Mapped[str] = mapped_column(String(300), default="")
    undoes_id: Mapped[int | None] = mapped_column(ForeignKey("coating_act.id"))
    # A correction names the row it takes the place of, and why. A row is replaced once.
    replaces_id: Mapped[int | None] = mapped_column(ForeignKey("coating_act.id"), unique=True)
    why: Mapped[str] = mapped_column(String(300), default="")


class Rating(Base):
    """How the coating of one blade or thing looked at haul-out. Rows are only ever added; the newest one speaks."""

    __tablename__ = "coating_rating"

    id: Mapped[int] = mapped_column(primary_key=True)
    piece_id: Mapped[int] = mapped_column(ForeignKey("coating_piece.id"), index=True)
    blade: Mapped[int | None]
    word: Mapped[str] = mapped_column(String(20))
    at: Mapped[datetime]
    noted: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    note: Mapped[str] = mapped_column(String(300), default="")
    photo: Mapped[str] = mapped_column(String(64), default="")
    replaces_id: Mapped[int | None] = mapped_column(ForeignKey("coating_rating.id"), unique=True)
    why: Mapped[str] = mapped_column(String(300), default="")
