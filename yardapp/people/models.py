"""People, the devices they use, what they did."""

from datetime import datetime
from typing import Any

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from yardapp.db import Base


class Person(Base):
    """Somebody who may sign in. People leave, but what they did keeps their name."""

    __tablename__ = "people_person"
    __table_args__ = (CheckConstraint("role IN ('office', 'hand', 'owner')", name="role"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(80))
    name_key: Mapped[str] = mapped_column(String(80), unique=True)
    role: Mapped[str] = mapped_column(String(10))
    password_hash: Mapped[str] = mapped_column(String(200))
    pin_hash: Mapped[str | None] = mapped_column(String(200))
    units: Mapped[str] = mapped_column(String(2), default="mm")
    is_here: Mapped[bool] = mapped_column(default=True)
    since: Mapped[datetime]


class Device(Base):
    """One phone or PC; `person_id` is who is at its screen now."""

    __tablename__ = "people_device"

    id: Mapped[int] = mapped_column(primary_key=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    label: Mapped[str] = mapped_column(String(80))
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    since: Mapped[datetime]
    seen: Mapped[datetime]


class KnownHere(Base):
    """Who has given their password on a device, and may come back to it with a PIN."""

    __tablename__ = "people_known_here"
    __table_args__ = (UniqueConstraint("device_id", "person_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    device_id: Mapped[int] = mapped_column(ForeignKey("people_device.id"))
    person_id: Mapped[int] = mapped_column(ForeignKey("people_person.id"))


class Token(Base):
    """A bearer token for the API, as a hash; the token itself is shown once."""

    __tablename__ = "people_token"

    id: Mapped[int] = mapped_column(primary_key=True)
    person_id: Mapped[int] = mapped_column(ForeignKey("people_person.id"), index=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    label: Mapped[str] = mapped_column(String(80))
    since: Mapped[datetime]
    ended: Mapped[datetime | None]


class Attempt(Base):
    """A sign-in that failed: counted, so that guessing is slow."""

    __tablename__ = "people_attempt"
    __table_args__ = (Index(None, "name_key", "at"), Index(None, "address", "at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    name_key: Mapped[str] = mapped_column(String(80))
    address: Mapped[str] = mapped_column(String(64))
    at: Mapped[datetime]


class Claim(Base):
    """The one-time code, as a hash, with which the first person claims the yard."""

    __tablename__ = "people_claim"

    id: Mapped[int] = mapped_column(primary_key=True)
    code_hash: Mapped[str] = mapped_column(String(64))
    since: Mapped[datetime]


class Once(Base):
    """A form's one-time token and the answer it got: a retry gets the same answer and saves nothing."""

    __tablename__ = "people_once"

    token: Mapped[str] = mapped_column(String(64), primary_key=True)
    at: Mapped[datetime]
    answer: Mapped[str] = mapped_column(String(300))


class Audit(Base):
    """Who did what, when, from which device. Rows are only ever added."""

    __tablename__ = "people_audit"
    __table_args__ = (Index(None, "subject", "subject_id"), Index(None, "person_id", "at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime] = mapped_column(index=True)
    person_id: Mapped[int | None] = mapped_column(ForeignKey("people_person.id"))
    name: Mapped[str] = mapped_column(String(80))
    device: Mapped[str] = mapped_column(String(80))
    act: Mapped[str] = mapped_column(String(60))
    subject: Mapped[str] = mapped_column(String(30))
    subject_id: Mapped[int | None]
    said: Mapped[dict[str, Any]] = mapped_column(default=dict)
