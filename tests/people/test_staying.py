"""A screen stays signed in: its cookie is renewed once a day, and who is at it is looked up at every page."""

from datetime import UTC, datetime

import pytest
from sqlalchemy import bindparam, literal_column, select

from yardapp import db
from yardapp.people.models import Person


@pytest.fixture
def day(monkeypatch):
    """Sets the register's clock to a day of May 2026."""

    def to(number):
        monkeypatch.setattr(db.Clock, "tells", staticmethod(lambda: datetime(2026, 5, number, 9, tzinfo=UTC)))

    return to


def is_renewed(client):
    return "Set-Cookie" in client.get("/people/me").headers


def test_the_cookie_is_written_once_a_day(client, day):
    day(4)
    assert is_renewed(client)
    assert not is_renewed(client)
    day(5)
    assert is_renewed(client)


def test_somebody_sent_away_is_not_known_at_the_next_page(client):
    assert client.get("/people/me").status_code == 200
    with db.transaction() as session:
        session.query(Person).update({"is_here": False})

    assert client.get("/people/me").status_code == 303


def test_a_glance_finds_the_row_or_says_that_there_is_none(client):
    glance = db.Glance(select(Person.name, Person.is_here).where(Person.name == bindparam("name")))

    assert tuple(glance.row(name="Ada Brook")) == ("Ada Brook", True)
    assert glance.row(name="Nobody") is None


def test_a_glance_gives_its_connection_back_even_where_it_fails(client):
    pool = db.Register.engine.pool
    failing = db.Glance(select(Person.id).where(literal_column("no_such_column") == 1))
    with pytest.raises(Exception, match="no_such_column"):
        failing.row()

    assert pool.checkedout() == 0
    assert client.get("/people/me").status_code == 200
