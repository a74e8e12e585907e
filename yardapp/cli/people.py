"""`yardapp people`: let in, list, give a role, say goodbye."""

import argparse
import getpass
import sys

from sqlalchemy.orm import Session

from yardapp.cli import registers
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.people import services as people


def run(asked: argparse.Namespace) -> int:
    """One act."""
    if asked.act == "add":
        return _add(asked)
    registers.open_at_head(registers.standing(asked))
    if asked.act == "list":
        return _list()
    with transaction() as session:
        return _reset(session, asked) if asked.act == "password" else _role(session, asked)


def _add(asked: argparse.Namespace) -> int:
    password = _password(asked)
    registers.made(asked)
    with transaction() as session:
        people.add_person(session, people.TERMINAL, name=asked.name, role=asked.role, password=password)
    print(f"{' '.join(asked.name.split())} may sign in now: {asked.role}.")
    return 0


def _reset(session: Session, asked: argparse.Namespace) -> int:
    person = people.person_named(session, asked.name)
    people.reset_password(session, people.TERMINAL, person.id, _password(asked))
    print(f"{person.name} signs in with the new password now.")
    return 0


def _password(asked: argparse.Namespace) -> str:
    """One line of standard input, or two tries at the keyboard that agree; never a word of the command line."""
    if asked.password_stdin:
        return sys.stdin.readline().rstrip("\r\n")
    if not sys.stdin.isatty():
        raise Refused("Nobody is at the keyboard. Give the password with --password-stdin.", "password")
    password = getpass.getpass("Password: ")
    if getpass.getpass("Once more: ") != password:
        raise Refused("The two are not the same.", "password")
    return password


def _list() -> int:
    with snapshot() as session:
        everybody = people.people(session)
    if not everybody:
        print("Nobody runs this yard yet.")
    width = max((len(person.name) for person in everybody), default=0)
    for person in everybody:
        print(f"{person.name:{width}}  {person.role:6}  {'' if person.is_here else 'gone'}".rstrip())
    return 0


def _role(session: Session, asked: argparse.Namespace) -> int:
    person = people.person_named(session, asked.name)
    role = person.role if asked.act == "gone" else asked.role
    people.give_role(session, people.TERMINAL, person.id, role, is_here=asked.act != "gone")
    print(f"{person.name} is gone from here." if asked.act == "gone" else f"{person.name} is {role} now.")
    return 0
