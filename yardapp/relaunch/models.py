"""Launches and every act upon them, faults and what was decided of each, the yard's lists of lines, its policies."""

from datetime import date, datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, Text, UniqueConstraint, text
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Launch(Base):
    """One relaunch of one boat, on the lines that stood when it was planned.

    `planned`, `is_over`, `still` and `looked` are derived from the acts by `refresh` alone; the rest never changes.
    """

    __tablename__ = "relaunch_launch"
    __table_args__ = (Index(None, "is_over", "planned"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    vessel_id: Mapped[int] = mapped_column(ForeignKey("vessels_vessel.id"), index=True)
    list_name: Mapped[str] = mapped_column(String(60))
    list_number: Mapped[int]
    lines: Mapped[list[Any]]
    begun: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
    planned: Mapped[datetime]
    is_over: Mapped[bool] = mapped_column(default=False)
    # What was open when it was last looked over, for the board; the sheet itself is always worked out afresh.
    still: Mapped[list[Any]] = mapped_column(default=list)
    looked: Mapped[datetime]

    @property
    def list_said(self) -> str:
        """Which list it was planned on, in words: number 0 is as it came with the app."""
        return f"{self.list_name}, version {self.list_number}" if self.list_number else f"{self.list_name}, as shipped"


class LaunchAct(Base):
    """Something that somebody did for a launch: a line answered, a tag scanned, a release. Rows are only ever added."""

    __tablename__ = "relaunch_act"
    __table_args__ = (
        CheckConstraint("answer IN ('', 'yes', 'no', 'ask')", name="answer"),
        CheckConstraint("hand IS NULL OR hand IN ('right', 'left')", name="hand"),
        Index(None, "launch_id", "id"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    launch_id: Mapped[int] = mapped_column(ForeignKey("relaunch_launch.id"))
    kind: Mapped[str] = mapped_column(String(20))
    line: Mapped[str] = mapped_column(String(40), default="")
    drive_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"))
    answer: Mapped[str] = mapped_column(String(3), default="")
    tag: Mapped[str] = mapped_column(String(20), default="")
    hand: Mapped[str | None] = mapped_column(String(5))
    figure: Mapped[float | None]
    figure_typed: Mapped[str] = mapped_column(String(60), default="")
    photo_sha256: Mapped[str] = mapped_column(String(64), default="")
    note: Mapped[str] = mapped_column(String(300), default="")
    planned: Mapped[datetime | None]
    # Of a release: which, and the whole sheet as it stood, with the edition of the app that made it.
    release: Mapped[str] = mapped_column(String(20), default="")
    frozen: Mapped[dict[str, Any] | None]
    app_version: Mapped[str] = mapped_column(String(20), default="")
    # A correction is a row that takes an earlier one back; each is taken back once.
    takes_back_id: Mapped[int | None] = mapped_column(ForeignKey("relaunch_act.id"), unique=True)
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class YardFault(Base):
    """Something wrong with a thing, a drive or a boat. A fault of a thing follows it onto whatever it goes on."""

    __tablename__ = "relaunch_fault"
    __table_args__ = (
        CheckConstraint("severity IN ('stop', 'watch', 'note')", name="severity"),
        CheckConstraint(
            "(item_id IS NOT NULL AND drive_id IS NULL AND vessel_id IS NULL)"
            " OR (item_id IS NULL AND drive_id IS NOT NULL AND vessel_id IS NULL)"
            " OR (item_id IS NULL AND drive_id IS NULL AND vessel_id IS NOT NULL)",
            name="one_thing",
        ),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int | None] = mapped_column(ForeignKey("gear_item.id"), index=True)
    drive_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_drive.id"), index=True)
    vessel_id: Mapped[int | None] = mapped_column(ForeignKey("vessels_vessel.id"), index=True)
    severity: Mapped[str] = mapped_column(String(10))
    what: Mapped[str] = mapped_column(String(120))
    place: Mapped[str] = mapped_column(String(120), default="")
    evidence: Mapped[str] = mapped_column(String(300), default="")
    found: Mapped[str] = mapped_column(String(20), default="")
    photo_sha256: Mapped[str] = mapped_column(String(64), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class FaultAct(Base):
    """What was decided of a fault, of the room's own or of the bench's. Rows are only ever added."""

    __tablename__ = "relaunch_fault_act"
    __table_args__ = (
        CheckConstraint("kind IN ('decides', 'accepted', 'acceptance ended', 'closed')", name="kind"),
        CheckConstraint("(fault_id IS NULL) <> (bench_fault_id IS NULL)", name="one_fault"),
        CheckConstraint("kind <> 'accepted' OR until IS NOT NULL", name="until"),
        Index(None, "fault_id"),
        Index(None, "bench_fault_id"),
        # A fault is closed once; the bench keeps the closing of its own.
        Index(
            "uq_relaunch_fault_act_closed",
            "fault_id",
            unique=True,
            sqlite_where=text("kind = 'closed'"),
            postgresql_where=text("kind = 'closed'"),
        ),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    fault_id: Mapped[int | None] = mapped_column(ForeignKey("relaunch_fault.id"))
    bench_fault_id: Mapped[int | None] = mapped_column(ForeignKey("bench_fault.id"))
    kind: Mapped[str] = mapped_column(String(20))
    name: Mapped[str] = mapped_column(String(80), default="")
    note: Mapped[str] = mapped_column(String(300), default="")
    until: Mapped[date | None]
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class LineList(Base):
    """The lines of one kind of drive by name; what they say stands in the versions, `number` being the newest."""

    __tablename__ = "relaunch_list"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(60), unique=True)
    number: Mapped[int]


class LineListVersion(Base):
    """The lines as they stood from one edit to the next. Rows are only ever added."""

    __tablename__ = "relaunch_list_version"
    __table_args__ = (UniqueConstraint("list_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    list_id: Mapped[int] = mapped_column(ForeignKey("relaunch_list.id"))
    number: Mapped[int]
    lines: Mapped[list[Any]]
    why: Mapped[str] = mapped_column(String(300), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class Policy(Base):
    """What the yard goes by where the rules of the trade differ; the newest row of a name counts."""

    __tablename__ = "relaunch_policy"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(30), index=True)
    choice: Mapped[str] = mapped_column(String(60))
    why: Mapped[str] = mapped_column(Text, default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
