"""People of the invented yard."""

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.people.models import Device, KnownHere, Person
from yardapp.people.secrets import new_token, token_hash
from yardapp.people.services import Who


def make_person(session: Session, *, name: str = "Ada Brook", role: str = "office", units: str = "mm") -> Person:
    """Somebody of the yard, who signs in with no password: hashing one is slow on purpose."""
    key = name.casefold()
    person = session.scalar(select(Person).where(Person.name_key == key))
    if person is None:
        person = Person(name=name, name_key=key, role=role, password_hash="none", units=units, since=now())
        session.add(person)
        session.flush()
    return person


def make_who(session: Session, *, name: str = "Ada Brook", role: str = "office", units: str = "mm") -> Who:
    """The same, as services know them."""
    person = make_person(session, name=name, role=role, units=units)
    return Who(person_id=person.id, name=person.name, role=person.role, units=person.units, device="a test")


def sign_in(session: Session, *, name: str = "Ada Brook", role: str = "office") -> str:
    """The token of a device at which that person sits."""
    person, token = make_person(session, name=name, role=role), new_token()
    device = Device(token_hash=token_hash(token), label="a test", person_id=person.id, since=now(), seen=now())
    session.add(device)
    session.flush()
    session.add(KnownHere(device_id=device.id, person_id=person.id))
    return token
