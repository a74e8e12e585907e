"""What is drawn over a photo, and what it was called later. The picture itself stays as it was taken."""

from datetime import datetime

from sqlalchemy import CheckConstraint, ForeignKey, String, func, select
from sqlalchemy.orm import Mapped, column_property, mapped_column

from yardapp.db import Base
from yardapp.gear.models import Photo


class PhotoMark(Base):
    """An arrow or a circle over a photo, in shares of its width and height. Rows are only ever added."""

    __tablename__ = "gear_photo_mark"
    __table_args__ = (CheckConstraint("kind IN ('arrow', 'circle', 'taken away')", name="kind"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    photo_id: Mapped[int] = mapped_column(ForeignKey("gear_photo.id"), index=True)
    kind: Mapped[str] = mapped_column(String(10))
    from_x_ratio: Mapped[float]
    from_y_ratio: Mapped[float]
    to_x_ratio: Mapped[float]
    to_y_ratio: Mapped[float]
    words: Mapped[str] = mapped_column(String(80), default="")
    # A mark is taken away by a row that names it; once.
    takes_away_id: Mapped[int | None] = mapped_column(ForeignKey("gear_photo_mark.id"), unique=True)
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


class PhotoCaption(Base):
    """What a photo is called from a moment on. Rows are only ever added; the newest speaks."""

    __tablename__ = "gear_photo_caption"

    id: Mapped[int] = mapped_column(primary_key=True)
    photo_id: Mapped[int] = mapped_column(ForeignKey("gear_photo.id"), index=True)
    caption: Mapped[str] = mapped_column(String(120))
    at: Mapped[datetime]
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    said_by: Mapped[str] = mapped_column(String(80))


_NEWEST = select(PhotoCaption.caption).where(PhotoCaption.photo_id == Photo.id).order_by(PhotoCaption.id.desc())
# A photo's caption is the newest that was given to it, wherever it is asked for.
Photo.caption = column_property(
    func.coalesce(_NEWEST.limit(1).correlate_except(PhotoCaption).scalar_subquery(), Photo.first_caption)
)
