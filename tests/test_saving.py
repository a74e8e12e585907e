"""One transaction a save: whole or not at all, once however often it is sent, never over somebody else's."""

import threading

import pytest
from sqlalchemy import func, select

from tests.factories.gear import make_propeller
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.models import Event, Evidence, Item
from yardapp.people.models import Audit, Once


def rows():
    with snapshot() as session:
        return [
            session.scalar(select(func.count()).select_from(table)) for table in (Item, Evidence, Event, Audit, Once)
        ]


def test_a_save_that_breaks_half_way_leaves_nothing(client, monkeypatch):
    def broken(*_words, **_more):
        raise ZeroDivisionError

    before = rows()
    monkeypatch.setattr("yardapp.gear.services.logging.marks.record_mark", broken)

    with pytest.raises(ZeroDivisionError):
        client.send("/log", place="Rack C", stamp="22 x 18 RH", hand="right", diameter_m="22 in")

    assert rows() == before


def test_a_bug_shows_a_page_that_blames_us_and_not_the_person(client, app, monkeypatch):
    def broken(*_words, **_more):
        raise ZeroDivisionError

    app.testing = False
    monkeypatch.setattr("yardapp.gear.services.logging.log_item", broken)

    answer = client.send("/log", place="Rack C")

    assert answer.status_code == 500
    assert "Our fault" in answer.text
    assert "Traceback" not in answer.text


def test_two_tries_of_one_form_at_the_same_moment_save_once(app, client, client_as):
    other = client_as("Ada Brook", "office")
    gate, answers = threading.Barrier(2), []

    def save(browser):
        gate.wait(5)
        answers.append(browser.send("/log", once="the-same-form", place="Rack C"))

    tries = [threading.Thread(target=save, args=(browser,)) for browser in (client, other)]
    for one in tries:
        one.start()
    for one in tries:
        one.join(20)

    assert sorted(answer.status_code for answer in answers) == [303, 303]
    assert len({answer.headers["Location"] for answer in answers}) == 1
    with snapshot() as session:
        assert session.scalar(select(func.count(Item.id))) == 1


def test_twenty_people_logging_at_once_get_twenty_tags(app, client, client_as):
    browsers = [client_as("Ada Brook", "office") for _ in range(10)]

    def save(browser):
        for _ in range(2):
            browser.send("/log", place="Rack C", stamp="22 x 18 RH")

    tries = [threading.Thread(target=save, args=(browser,)) for browser in browsers]
    for one in tries:
        one.start()
    for one in tries:
        one.join(60)

    with snapshot() as session:
        tags = session.scalars(select(Item.tag)).all()
    assert sorted(tags) == [f"P-{number:04d}" for number in range(1, 21)]


def test_a_read_page_sees_no_half_saved_thing(register):
    with transaction() as session:
        make_propeller(session)
        with snapshot() as other:
            assert other.scalar(select(func.count(Item.id))) == 0
    with snapshot() as other:
        assert other.scalar(select(func.count(Item.id))) == 1
        assert gear.Item is Item
