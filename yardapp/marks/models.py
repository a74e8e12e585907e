"""What is stamped on hubs, as seen. Rows are only ever added."""

from datetime import datetime
from typing import Any

from sqlalchemy import ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Mark(Base):
    """One mark as it was seen, `?` for a character that could not be read, and how it was read that day."""

    __tablename__ = "marks_mark"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("gear_item.id"), index=True)
    seen: Mapped[str] = mapped_column(String(120))
    spot: Mapped[str] = mapped_column(String(40), default="")
    reading: Mapped[dict[str, Any]] = mapped_column(default=dict)
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
