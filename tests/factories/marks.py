"""Marks and makers' tables of the invented yard."""

from sqlalchemy.orm import Session

from tests.factories.people import make_who
from yardapp.marks import services as marks


def make_shelf(session: Session) -> dict[str, int]:
    """The shipped plain sizes and re-stamps, and the three invented makers; the makers' numbers by name."""
    marks.seed_tables(session)
    return {table.maker: marks.add_table(session, make_who(session), table) for table in marks.examples()}
