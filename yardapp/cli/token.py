"""`yardapp token NAME`: a bearer token on standard output and nothing beside it, for a script to take."""

import argparse

from yardapp.cli import registers
from yardapp.db import transaction
from yardapp.errors import Refused
from yardapp.people import services as people


def run(asked: argparse.Namespace) -> int:
    """Make it, print it."""
    registers.open_at_head(registers.standing(asked))
    with transaction() as session:
        person = people.person_named(session, asked.name)
        if not person.is_here:
            raise Refused(f"{person.name} is gone from here. `yardapp people role` brings a person back.", "name")
        token = people.make_token(session, people.TERMINAL, person.id, "made at the terminal")
    print(token)
    return 0
