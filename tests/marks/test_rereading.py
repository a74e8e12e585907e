"""Which propellers read differently since a table changed."""

import time
from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import select, update

from tests.factories.gear import make_propeller
from tests.factories.marks import make_shelf
from tests.factories.people import make_who
from yardapp.db import now, snapshot, transaction
from yardapp.marks import services
from yardapp.marks.models import Mark, Reread
from yardapp.marks.services import rereading, working_through


@pytest.fixture
def changed(register):
    """Ombry & Thessel's letters begin at 9 in since version 2; three propellers bear marks, one of them theirs."""
    with transaction() as session:
        who, table_id = make_who(session), make_shelf(session)["Ombry & Thessel"]
        tags = []
        for seen in ("OT22LR3-41877", "22 x 18 RH", "QV 77"):
            item = make_propeller(session)
            services.record_mark(session, who, item, seen)
            tags.append(item.tag)
        table = services.table_page(session, who, table_id).newest.table
        letters = replace(table.places[2], meaning=replace(table.places[2].meaning, value=9))
        places = (*table.places[:2], letters, *table.places[3:])
        services.change_table(session, who, table_id, 1, replace(table, places=places))
    return table_id, tags


def asked(table_id):
    with transaction() as session:
        return services.ask_reread(session, make_who(session), table_id)


def page(job_id):
    with transaction() as session:
        return services.reread_page(session, make_who(session), job_id)


def test_only_the_marks_that_read_differently_are_named(changed):
    table_id, tags = changed
    job_id = asked(table_id)

    services.work_on(transaction, job_id)

    found = page(job_id)
    assert (found.state, found.done, found.total, found.differing) == ("done", 3, 3, 1)
    one = found.rows[0]
    assert (one.tag, one.seen, one.taken_by) == (tags[0], "OT22LR3-41877", "")
    # L is the eleventh letter: 18 in from A at 8 in, 19 in from A at 9 in.
    assert one.before["figures"]["pitch_m"] == pytest.approx(0.4572)
    assert one.after["figures"]["pitch_m"] == pytest.approx(0.4826)


def test_what_was_left_half_done_goes_on_where_it_was_left(changed, monkeypatch):
    monkeypatch.setattr(working_through, "A_BATCH", 1)
    job_id = asked(changed[0])
    working_through._take(transaction, job_id)
    shelves = working_through._shelves(transaction, job_id)
    working_through._batch(transaction, job_id, *shelves)  # and then the power went

    assert not page(job_id).is_left
    with transaction() as session:
        session.execute(update(Reread).values(beat=now() - timedelta(minutes=5)))
    assert page(job_id).is_left
    services.work_on(transaction, job_id)

    found = page(job_id)
    assert (found.state, found.done, found.differing) == ("done", 3, 1)


def test_it_goes_on_when_nobody_looks(changed, register, monkeypatch):
    monkeypatch.setattr(working_through, "LOOK_AGAIN_S", 0.05)
    job_id = asked(changed[0])
    told = []

    stop = services.keep_working(register, told.append)
    patience = time.monotonic() + 20
    while page(job_id).state != "done" and time.monotonic() < patience:
        time.sleep(0.05)
    stop.set()

    assert (page(job_id).done, page(job_id).differing, told) == (3, 1, [])


def test_two_processes_never_work_on_one(changed):
    job_id = asked(changed[0])

    assert working_through._take(transaction, job_id)
    assert not working_through._take(transaction, job_id)


def test_a_batch_that_somebody_else_read_meanwhile_is_not_counted_twice(changed, monkeypatch):
    job_id = asked(changed[0])
    shelves = working_through._shelves(transaction, job_id)
    read_first = working_through.differing

    def overtaken(*said):
        monkeypatch.setattr(working_through, "differing", read_first)
        working_through._batch(transaction, job_id, *shelves)
        return read_first(*said)

    monkeypatch.setattr(working_through, "differing", overtaken)
    assert not working_through._batch(transaction, job_id, *shelves)

    assert (page(job_id).done, page(job_id).differing) == (3, 1)


def test_what_differs_is_shown_page_by_page(changed, client, fetch, monkeypatch):
    monkeypatch.setattr(rereading, "A_PAGE", 2)
    with transaction() as session:
        for serial in range(41878, 41882):
            services.record_mark(session, make_who(session), make_propeller(session), f"OT22LR3-{serial}")
    job_id = asked(changed[0])
    services.work_on(transaction, job_id)

    html = fetch(f"/marks/rereads/{job_id}?page=3", queries=3)

    assert "5 to 5 of 5" in html
    assert "OT22LR3-41881" in html
    assert f'href="/marks/rereads/{job_id}?page=2"' in html
    assert 'rel="next"' not in html
    assert "5 to 5 of 5" in fetch(f"/marks/rereads/{job_id}?page=99")


def test_the_marks_themselves_stay_as_they_were_read(changed):
    with snapshot() as session:
        before = [(one.seen, one.reading) for one in session.scalars(select(Mark).order_by(Mark.id))]

    services.work_on(transaction, asked(changed[0]))

    with snapshot() as session:
        assert [(one.seen, one.reading) for one in session.scalars(select(Mark).order_by(Mark.id))] == before


def test_it_is_asked_for_on_the_page_of_a_version_and_shows_what_it_found(changed, client, fetch):
    table_id, tags = changed

    answer = client.send(f"/marks/tables/{table_id}/reread", version=2, number=1)
    job_id = int(answer.headers["Location"].rsplit("/", 1)[1])
    services.work_on(transaction, job_id)

    html = fetch(answer.headers["Location"])
    assert "3 marks read again; 1 reads differently." in html
    assert tags[0] in html
    assert "pitch 482.6 mm (19 in)" in html


def test_a_page_that_polls_gets_the_progress_alone(changed, client):
    job_id = asked(changed[0])
    services.work_on(transaction, job_id)

    part = client.get(f"/marks/rereads/{job_id}", headers={"HX-Request": "true"}).text

    assert "<html" not in part
    assert "3 marks read again" in part
