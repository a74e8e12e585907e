"""Tags that were printed before there was a thing to hang them on."""

from datetime import datetime

from sqlalchemy import ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class BlankTag(Base):
    """A tag taken from the counter beforehand; it is bound once an item carries it. Rows are only ever added."""

    __tablename__ = "gear_blank_tag"
    __table_args__ = (Index(None, "kind", "id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    tag: Mapped[str] = mapped_column(String(20), unique=True)
    kind: Mapped[str] = mapped_column(String(10))
    made: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))
