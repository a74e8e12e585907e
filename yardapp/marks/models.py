"""What is stamped on hubs, as seen, and the makers' tables that it is read by. History is only ever added to."""

from datetime import datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base

REREAD_STATES = ("waiting", "working", "done", "failed")


class Mark(Base):
    """One mark as it was seen, `?` for a character that could not be read, and how it was read that day."""

    __tablename__ = "marks_mark"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    seen: Mapped[str] = mapped_column(String(120), index=True)
    spot: Mapped[str] = mapped_column(String(40), default="")
    struck: Mapped[str] = mapped_column(String(10), default="")  # "first" or "later" than the others, "" not known
    photo_sha256: Mapped[str] = mapped_column(String(64), default="")
    reading: Mapped[dict[str, Any]] = mapped_column(default=dict)
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class MakerTable(Base):
    """A maker's table of the yard; `version` is the number of the one that stands."""

    __tablename__ = "marks_table"

    id: Mapped[int] = mapped_column(primary_key=True)
    maker: Mapped[str] = mapped_column(String(120))
    title: Mapped[str] = mapped_column(String(120), default="")
    name_key: Mapped[str] = mapped_column(String(250), unique=True)  # maker and title, folded
    version: Mapped[int] = mapped_column(default=1)
    is_in_use: Mapped[bool] = mapped_column(default=True)


class TableVersion(Base):
    """One version of a table, as `stamps.tables.as_plain` writes it. Rows are only ever added."""

    __tablename__ = "marks_table_version"
    __table_args__ = (UniqueConstraint("table_id", "version"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    table_id: Mapped[int] = mapped_column(ForeignKey("marks_table.id"))
    version: Mapped[int]
    body: Mapped[dict[str, Any]]
    why: Mapped[str] = mapped_column(String(300), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class Taken(Base):
    """A reading that somebody took as evidence, by the version that read so. Rows are only ever added."""

    __tablename__ = "marks_taken"

    id: Mapped[int] = mapped_column(primary_key=True)
    mark_id: Mapped[int] = mapped_column(ForeignKey("marks_mark.id"), index=True)
    version_id: Mapped[int] = mapped_column(ForeignKey("marks_table_version.id"), index=True)
    mark: Mapped[str] = mapped_column(String(120))  # as the reading takes it to be
    figures: Mapped[dict[str, Any]]
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class Reread(Base):
    """All marks of the register read by two versions of a table: how far it is, and which read differently."""

    __tablename__ = "marks_reread"
    __table_args__ = (CheckConstraint(f"state IN {REREAD_STATES}", name="state"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    table_id: Mapped[int] = mapped_column(ForeignKey("marks_table.id"), index=True)
    before_id: Mapped[int] = mapped_column(ForeignKey("marks_table_version.id"))
    after_id: Mapped[int] = mapped_column(ForeignKey("marks_table_version.id"))
    state: Mapped[str] = mapped_column(String(10), default="waiting")
    done: Mapped[int] = mapped_column(default=0)
    total: Mapped[int] = mapped_column(default=0)
    differing: Mapped[int] = mapped_column(default=0)
    last_mark_id: Mapped[int] = mapped_column(default=0)
    beat: Mapped[datetime]  # when somebody last worked on it; long ago means that it was left
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class RereadFound(Base):
    """One mark that a re-reading found to read differently: the best reading before and after, in brief."""

    __tablename__ = "marks_reread_found"
    __table_args__ = (Index(None, "reread_id", "mark_id", unique=True),)

    id: Mapped[int] = mapped_column(primary_key=True)
    reread_id: Mapped[int] = mapped_column(ForeignKey("marks_reread.id"))
    mark_id: Mapped[int] = mapped_column(ForeignKey("marks_mark.id"))
    before: Mapped[dict[str, Any]]
    after: Mapped[dict[str, Any]]
