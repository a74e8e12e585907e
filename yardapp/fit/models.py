"""Verdicts that somebody kept, with everything that they rested on."""

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Kept(Base):
    """One verdict of one day: its figures, its checks, and the edition of the app that judged. Never changed."""

    __tablename__ = "fit_kept"
    __table_args__ = (Index(None, "item_id", "id"), Index(None, "drive_id", "id"))

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"))
    drive_id: Mapped[int] = mapped_column(ForeignKey("vessels_drive.id"))
    # As both were called on that day: a boat may be renamed.
    tag: Mapped[str] = mapped_column(String(20))
    drive: Mapped[str] = mapped_column(String(120))
    rule: Mapped[str] = mapped_column(String(10))
    verdict: Mapped[str] = mapped_column(String(20))
    lede: Mapped[str] = mapped_column(Text)
    figures: Mapped[dict[str, Any]]
    checks: Mapped[list[Any]]
    app_version: Mapped[str] = mapped_column(String(20))
    note: Mapped[str] = mapped_column(String(300), default="")
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
