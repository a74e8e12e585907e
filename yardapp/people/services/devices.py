"""Who is at which screen: sign in, change person with a PIN, leave."""

from dataclasses import dataclass
from datetime import timedelta

from sqlalchemy import bindparam, delete, func, select
from sqlalchemy.orm import Session

from yardapp.db import Glance, now
from yardapp.errors import Refused
from yardapp.people.models import Attempt, Device, KnownHere, Person
from yardapp.people.secrets import is_password, new_token, token_hash
from yardapp.people.services.accounts import key_of
from yardapp.people.services.trail import note
from yardapp.people.who import Who

WINDOW = timedelta(minutes=15)
TRIES_A_NAME = 8
TRIES_AN_ADDRESS = 40


_DEVICE, _PERSON = Device.__table__, Person.__table__
_AT = Glance(
    select(_PERSON.c.id, _PERSON.c.name, _PERSON.c.role, _PERSON.c.units, _DEVICE.c.id, _DEVICE.c.label)
    .join(_DEVICE, _PERSON.c.id == _DEVICE.c.person_id)
    .where(_DEVICE.c.token_hash == bindparam("token_hash"), _PERSON.c.is_here)
)


@dataclass(frozen=True, kw_only=True)
class Entered:
    """The outcome of a sign-in: a token for the device's cookie, or why not."""

    token: str | None
    said: str = ""


def who_is_at(token: str) -> Who | None:
    """Who is at the screen that carries this token, or None."""
    found = _AT.row(token_hash=token_hash(token))
    if found is None:
        return None
    person_id, name, role, units, device_id, device = found
    return Who(person_id=person_id, name=name, role=role, units=units, device_id=device_id, device=device)


def enter(
    session: Session, *, name: str, password: str, address: str, label: str, device_token: str | None = None
) -> Entered:
    """Sign in with a password. A refusal is a value, not an error: the failed try must be kept, to slow guessing."""
    if _too_many(session, key_of(name), address):
        return Entered(token=None, said="Too many tries. Wait a quarter of an hour, or ask the office.")
    person = session.scalar(select(Person).where(Person.name_key == key_of(name), Person.is_here))
    if not is_password(password, person.password_hash if person else None) or person is None:
        session.add(Attempt(name_key=key_of(name)[:80], address=address, at=now()))
        return Entered(token=None, said="Name and password do not go together.")
    session.execute(delete(Attempt).where(Attempt.name_key == person.name_key))
    return Entered(token=_put_at(session, person, label, device_token))


def _too_many(session: Session, name_key: str, address: str) -> bool:
    since = now() - WINDOW
    session.execute(delete(Attempt).where(Attempt.at < since))
    by_name = select(func.count(Attempt.id)).where(Attempt.name_key == name_key)
    by_address = select(func.count(Attempt.id)).where(Attempt.address == address)
    return (session.scalar(by_name) or 0) >= TRIES_A_NAME or (session.scalar(by_address) or 0) >= TRIES_AN_ADDRESS


def _put_at(session: Session, person: Person, label: str, old_token: str | None) -> str:
    """Put a person at a device under a fresh token, so that a cookie planted before sign-in is worth nothing."""
    token = new_token()
    device = session.scalar(select(Device).where(Device.token_hash == token_hash(old_token))) if old_token else None
    if device is None:
        device = Device(since=now(), label=label[:80])
        session.add(device)
    device.token_hash, device.person_id, device.seen = token_hash(token), person.id, now()
    session.flush()  # a new device gets its number here
    known = select(KnownHere.id).where(KnownHere.device_id == device.id, KnownHere.person_id == person.id)
    if session.scalar(known) is None:
        session.add(KnownHere(device_id=device.id, person_id=person.id))
    at = Who(person_id=person.id, name=person.name, role=person.role, device_id=device.id, device=device.label)
    note(session, at, "signed in", "person", person.id)
    return token


def known_here(session: Session, device_token: str) -> list[tuple[int, str]]:
    """Number and name of each person who may come back to this device with a PIN."""
    rows = session.execute(
        select(Person.id, Person.name)
        .join(KnownHere, KnownHere.person_id == Person.id)
        .join(Device, Device.id == KnownHere.device_id)
        .where(Device.token_hash == token_hash(device_token), Person.is_here, Person.pin_hash.is_not(None))
        .order_by(Person.name_key)
    )
    return [(row.id, row.name) for row in rows]


def change_person(session: Session, *, device_token: str, person_id: int, pin: str, address: str) -> Entered:
    """Put somebody else, known on this device, at its screen with their PIN."""
    device = session.scalar(select(Device).where(Device.token_hash == token_hash(device_token)))
    person = session.scalar(
        select(Person)
        .join(KnownHere, KnownHere.person_id == Person.id)
        .where(Person.id == person_id, Person.is_here, KnownHere.device_id == (device.id if device else 0))
    )
    if device is None or person is None:
        return Entered(token=None, said="That person has not signed in on this device. Use name and password.")
    if _too_many(session, person.name_key, address):
        return Entered(token=None, said="Too many tries. Use name and password in a quarter of an hour.")
    if not is_password(pin, person.pin_hash):
        session.add(Attempt(name_key=person.name_key, address=address, at=now()))
        return Entered(token=None, said=f"That is not {person.name}'s PIN.")
    return Entered(token=_put_at(session, person, device.label, device_token))


def leave(session: Session, who: Who, *, forget: bool = False) -> None:
    """Leave this device's screen; with `forget`, also lose the right to come back with a PIN.

    Raises
    ------
    Refused
        Nobody is at this screen.
    """
    device = session.get(Device, who.device_id) if who.device_id else None
    if device is None:
        raise Refused("Nobody is signed in here.")
    device.person_id = None
    if forget:
        session.execute(delete(KnownHere).where(KnownHere.device_id == device.id, KnownHere.person_id == who.person_id))
    note(session, who, "left", "person", who.person_id)
