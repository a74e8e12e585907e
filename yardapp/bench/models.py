"""Bench sheets: what was read, as typed, and what came of it. Rows are only ever added."""

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Sheet(Base):
    """One sheet: `readings` holds each figure by name with `NAME_typed` and `u_NAME` beside it, in SI."""

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
