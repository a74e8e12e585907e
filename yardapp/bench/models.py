"""Bench sheets: what was read, as typed, and what came of it; those in the writing; and the yard's list of tools."""

from datetime import datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Sheet(Base):
    """One sheet; rows are only ever added.

    `readings` holds each figure by name with `NAME_typed` and `u_NAME` beside it, in SI.
    """

    __tablename__ = "bench_sheet"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    method: Mapped[str] = mapped_column(String(30))
    readings: Mapped[dict[str, Any]]
    results: Mapped[dict[str, Any]]
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    note: Mapped[str] = mapped_column(String(300), default="")
    # A correction is a new sheet that names the old one; a sheet is replaced once.
    replaces_id: Mapped[int | None] = mapped_column(ForeignKey("bench_sheet.id"), unique=True)
    why: Mapped[str] = mapped_column(String(300), default="")


class ToolRow(Base):
    """One tool as the yard speaks of it: its ± at k = 2, in metres or radians. Sheets remember it by name and ±."""

    __tablename__ = "bench_tool"
    __table_args__ = (
        CheckConstraint("kind IN ('length', 'angle')", name="kind"),
        CheckConstraint("plus_minus > 0", name="plus_minus"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(60), unique=True)
    kind: Mapped[str] = mapped_column(String(10))
    plus_minus: Mapped[float]
    is_common: Mapped[bool] = mapped_column(default=False)
    source: Mapped[str] = mapped_column(String(120), default="")
    is_used: Mapped[bool] = mapped_column(default=True)
    version: Mapped[int] = mapped_column(default=1)


class HalfDone(Base):
    """One sheet in the writing: whose it is, and what became of it. `version` counts what was written on it."""

    __tablename__ = "bench_half_done"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    method: Mapped[str] = mapped_column(String(30))
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    begun: Mapped[datetime]
    touched: Mapped[datetime]
    version: Mapped[int] = mapped_column(default=0)
    is_dropped: Mapped[bool] = mapped_column(default=False)
    corrects_id: Mapped[int | None] = mapped_column(ForeignKey("bench_sheet.id"))
    sheet_id: Mapped[int | None] = mapped_column(ForeignKey("bench_sheet.id"))


class HalfDoneBox(Base):
    """What somebody wrote into one box; rows are only ever added, and the newest of a box counts."""

    __tablename__ = "bench_half_done_box"
    __table_args__ = (UniqueConstraint("half_done_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    half_done_id: Mapped[int] = mapped_column(ForeignKey("bench_half_done.id"))
    number: Mapped[int]
    name: Mapped[str] = mapped_column(String(60))
    typed: Mapped[str] = mapped_column(Text)
    at: Mapped[datetime]
    said_by: Mapped[str] = mapped_column(String(80))


class Fault(Base):
    """Something wrong with a propeller, where it was seen. Rows are only ever added; `number` is its mark."""

    __tablename__ = "bench_fault"
    __table_args__ = (
        CheckConstraint("severity IN ('stop', 'watch', 'note')", name="severity"),
        CheckConstraint("side IN ('face', 'back', 'hub')", name="side"),
        UniqueConstraint("item_id", "number"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"))
    number: Mapped[int]
    kind: Mapped[str] = mapped_column(String(20))
    severity: Mapped[str] = mapped_column(String(10))
    side: Mapped[str] = mapped_column(String(10))
    blade: Mapped[int | None]
    radius_ratio: Mapped[float | None]
    size_m: Mapped[float | None]
    size_m_typed: Mapped[str] = mapped_column(String(60), default="")
    note: Mapped[str] = mapped_column(String(300), default="")
    photo_sha256: Mapped[str] = mapped_column(String(64), default="")
    # A fault that was closed and is there again is a new row that names the old one.
    reopens_id: Mapped[int | None] = mapped_column(ForeignKey("bench_fault.id"))
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class FaultClosing(Base):
    """A fault is closed once, by a row of its own that says how."""

    __tablename__ = "bench_fault_closing"

    id: Mapped[int] = mapped_column(primary_key=True)
    fault_id: Mapped[int] = mapped_column(ForeignKey("bench_fault.id"), unique=True)
    how: Mapped[str] = mapped_column(String(300))
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class Ring(Base):
    """What was heard when it was tapped; rows are only ever added."""

    __tablename__ = "bench_ring"
    __table_args__ = (CheckConstraint("heard IN ('rings', 'dull')", name="heard"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    heard: Mapped[str] = mapped_column(String(10))
    blade: Mapped[int | None]
    note: Mapped[str] = mapped_column(String(300), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
