"""Accounts, roles, tokens, and the claim of a new yard."""

from dataclasses import dataclass

from sqlalchemy import delete, exists, select, update
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.people.models import Claim, Device, KnownHere, Person, Token
from yardapp.people.secrets import (
    code_hash,
    is_password,
    new_code,
    new_token,
    password_hash,
    token_hash,
)
from yardapp.people.services.trail import note
from yardapp.people.who import REACH, Who

SHORTEST_PASSWORD = 8


@dataclass(frozen=True, kw_only=True)
class PersonRow:
    """One person as the yard page lists them."""

    id: int
    name: str
    role: str
    has_pin: bool
    is_here: bool


def key_of(name: str) -> str:
    """A name as it is compared: case and spaces forgiven."""
    return " ".join(name.split()).casefold()


def people(session: Session) -> list[PersonRow]:
    """Everybody, by name."""
    return [_row(person) for person in session.scalars(select(Person).order_by(Person.name_key))]


def _row(person: Person) -> PersonRow:
    has_pin = person.pin_hash is not None
    return PersonRow(id=person.id, name=person.name, role=person.role, has_pin=has_pin, is_here=person.is_here)


def person_by_id(session: Session, person_id: int) -> PersonRow:
    """The person of that number.

    Raises
    ------
    NotFound
        Nobody has it.
    """
    person = session.get(Person, person_id)
    if person is None:
        raise NotFound("Nobody has that number.")
    return _row(person)


def person_named(session: Session, name: str) -> Person:
    """The person of that name.

    Raises
    ------
    NotFound
        Nobody has it.
    """
    person = session.scalar(select(Person).where(Person.name_key == key_of(name)))
    if person is None:
        raise NotFound(f"Nobody here is called {name}.")
    return person


def add_person(session: Session, who: Who, *, name: str, role: str, password: str, units: str = "mm") -> int:
    """Let somebody in under a name of their own.

    Raises
    ------
    NotAllowed
        Only the office adds people.
    Refused
        The name is taken or empty, the role unknown, the password too short.
    """
    who.must("people")
    name = " ".join(name.split())
    if not name or len(name) > 80:
        raise Refused("A name has 1 to 80 letters.", "name")
    if role not in REACH:
        raise Refused(f"There is no role {role}: office, hand or owner.", "role")
    if session.scalar(select(exists().where(Person.name_key == key_of(name)))):
        raise Refused(f"There is a {name} already. Add a family name or a place.", "name")
    _long_enough(password)
    person = Person(
        name=name, name_key=key_of(name), role=role, password_hash=password_hash(password), units=units, since=now()
    )
    session.add(person)
    session.flush()  # the trail names the new person's number
    note(session, who, "added a person", "person", person.id, name=name, role=role)
    return person.id


def give_role(session: Session, who: Who, person_id: int, role: str, *, is_here: bool = True) -> None:
    """Change how far somebody's role reaches, or let them go; the last one in the office stays.

    Raises
    ------
    NotAllowed
        Only the office changes roles.
    Refused
        The yard would be left without an office, or the role is unknown.
    """
    who.must("people")
    if role not in REACH:
        raise Refused(f"There is no role {role}: office, hand or owner.", "role")
    person = session.get(Person, person_id)
    if person is None:
        raise NotFound("Nobody has that number.")
    others = select(Person.id).where(Person.role == "office", Person.is_here, Person.id != person_id).with_for_update()
    if person.role == "office" and (role != "office" or not is_here) and not session.scalars(others).first():
        raise Refused("Somebody must stay in the office. Give that role to another person first.", "role")
    person.role, person.is_here = role, is_here
    if not is_here:
        _show_out(session, person_id)
    note(session, who, "gave a role", "person", person_id, role=role, is_here=is_here)


def _show_out(session: Session, person_id: int) -> None:
    session.execute(update(Device).where(Device.person_id == person_id).values(person_id=None))
    session.execute(delete(KnownHere).where(KnownHere.person_id == person_id))
    session.execute(update(Token).where(Token.person_id == person_id, Token.ended.is_(None)).values(ended=now()))


def change_password(session: Session, who: Who, *, old: str, new: str) -> None:
    """Change one's own password; every other device must sign in again.

    Raises
    ------
    Refused
        The old one is not right, or the new one too short.
    """
    person = session.get(Person, who.person_id)
    if person is None or not is_password(old, person.password_hash):
        raise Refused("That is not the present password.", "old")
    _long_enough(new, "new")
    person.password_hash = password_hash(new)
    here = (Device.id != who.device_id) if who.device_id else (Device.id > 0)
    session.execute(update(Device).where(Device.person_id == person.id, here).values(person_id=None))
    session.execute(delete(KnownHere).where(KnownHere.person_id == person.id, KnownHere.device_id != who.device_id))
    note(session, who, "changed a password", "person", person.id)


def reset_password(session: Session, who: Who, person_id: int, password: str) -> None:
    """Give somebody who forgot theirs a new password; every screen of theirs must sign in again, their PIN is gone.

    Raises
    ------
    NotAllowed
        Only the office does that.
    NotFound
        Nobody has that number.
    Refused
        The password is too short.
    """
    who.must("people")
    person = session.get(Person, person_id)
    if person is None:
        raise NotFound("Nobody has that number.")
    _long_enough(password)
    person.password_hash, person.pin_hash = password_hash(password), None
    session.execute(update(Device).where(Device.person_id == person_id).values(person_id=None))
    session.execute(delete(KnownHere).where(KnownHere.person_id == person_id))
    note(session, who, "reset a password", "person", person_id)


def set_pin(session: Session, who: Who, pin: str) -> None:
    """Set the PIN with which one comes back to a shared tablet.

    Raises
    ------
    Refused
        It is not four to eight figures, or is one that everybody tries first.
    """
    if not (pin.isascii() and pin.isdigit() and 4 <= len(pin) <= 8):
        raise Refused("A PIN is four to eight figures.", "pin")
    if len(set(pin)) == 1 or pin in "0123456789876543210":
        raise Refused("That PIN is tried first by everybody. Take another.", "pin")
    session.execute(update(Person).where(Person.id == who.person_id).values(pin_hash=password_hash(pin)))
    note(session, who, "set a PIN", "person", who.person_id)


def set_units(session: Session, who: Who, units: str) -> None:
    """Choose the units that size boxes read and pages show first.

    Raises
    ------
    Refused
        Neither millimetres nor inches.
    """
    if units not in ("mm", "in"):
        raise Refused("Millimetres or inches.", "units")
    session.execute(update(Person).where(Person.id == who.person_id).values(units=units))
    note(session, who, "chose units", "person", who.person_id, units=units)


def make_token(session: Session, who: Who, person_id: int, label: str = "token") -> str:
    """A bearer token for the API. It is handed out once; only its hash is kept.

    Raises
    ------
    NotAllowed
        It is for somebody else, and this is not the office.
    """
    if person_id != who.person_id:
        who.must("people")
    token = new_token()
    session.add(Token(person_id=person_id, token_hash=token_hash(token), label=label[:80] or "token", since=now()))
    note(session, who, "made a token", "person", person_id, label=label[:80])
    return token


def tokens_of(session: Session, person_id: int) -> list[Token]:
    """The tokens of one person that still open the API."""
    chosen = select(Token).where(Token.person_id == person_id, Token.ended.is_(None))
    return list(session.scalars(chosen.order_by(Token.id)))


def withdraw_token(session: Session, who: Who, token_id: int) -> None:
    """End a token of one's own.

    Raises
    ------
    NotFound
        No such token is one's own.
    """
    token = session.get(Token, token_id)
    if token is None or token.person_id != who.person_id:
        raise NotFound("No such token is yours.")
    token.ended = now()
    note(session, who, "withdrew a token", "person", who.person_id, label=token.label)


def token_owner(session: Session, token: str) -> Who | None:
    """Who acts with this bearer token, or None."""
    found = session.execute(
        select(Person.id, Person.name, Person.role, Person.units, Token.label)
        .join(Token, Token.person_id == Person.id)
        .where(Token.token_hash == token_hash(token), Token.ended.is_(None), Person.is_here)
    ).first()
    if found is None:
        return None
    return Who(person_id=found.id, name=found.name, role=found.role, units=found.units, device=f"API: {found.label}")


def is_claimed(session: Session) -> bool:
    """Whether somebody runs this yard yet."""
    return bool(session.scalar(select(exists().select_from(Person))))


def make_claim_code(session: Session) -> str | None:
    """A fresh code for the terminal, ending any earlier one; None when the yard is claimed."""
    if is_claimed(session):
        return None
    code = new_code()
    session.execute(delete(Claim))
    session.add(Claim(code_hash=code_hash(code), since=now()))
    return code


def claim_yard(session: Session, *, code: str, name: str, password: str) -> int:
    """Make the first person, who is the office, for whoever can read the terminal.

    Raises
    ------
    Refused
        The yard is claimed already, or the code is not the one in the terminal.
    """
    kept = session.scalars(select(Claim).with_for_update()).first()
    if is_claimed(session) or kept is None:
        raise Refused("This yard is claimed already. Sign in instead.", "code")
    if code_hash(code) != kept.code_hash:
        raise Refused("That is not the code in the terminal where yardapp was started.", "code")
    session.execute(delete(Claim))
    first = Who(person_id=None, name=name, role="office", device="the first page")
    return add_person(session, first, name=name, role="office", password=password)


def _long_enough(password: str, argument: str = "password") -> None:
    if len(password) < SHORTEST_PASSWORD or len(password) > 200:
        raise Refused(f"A password has {SHORTEST_PASSWORD} to 200 characters. Three plain words do well.", argument)
