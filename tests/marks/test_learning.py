"""What the register teaches about a table, and what a propeller would be stamped."""

from dataclasses import replace

import pytest

from tests.factories.gear import make_propeller
from tests.factories.marks import make_shelf
from tests.factories.people import make_who
from tests.marks.test_tables import boxes_of
from yardapp.db import snapshot, transaction
from yardapp.marks import services
from yardapp.marks.services import learning
from yardapp.people.services import TERMINAL
from yardapp.stamps.tables import Entry, Lookup

# Pitches that three propellers marked M were measured to: 18 in is 457.2 mm, and the tape was good to 2 mm.
MEASURED_M = (0.4562, 0.4575, 0.4581)


@pytest.fixture
def table_id(register):
    """A table whose letter for the pitch is a list that does not hold M yet."""
    with transaction() as session:
        who = make_who(session)
        make_shelf(session)
        source = next(table for table in services.examples() if table.maker == "Ombry & Thessel")
        letters = Lookup((Entry("A", 8.0), Entry("B", 9.0), Entry("C", 10.0)), unit="in")
        place = replace(source.places[2], meaning=letters)
        own = replace(source, maker="Quillon Foundry", places=(*source.places[:2], place, *source.places[3:]))
        marks = (
            (f"OT22MR3-{number}", pitch_m) for number, pitch_m in zip((41877, 41878, 41879), MEASURED_M, strict=True)
        )
        for seen, pitch_m in marks:
            item = make_propeller(session, diameter_m=(0.5588, 0.001), pitch_m=(pitch_m, 0.002))
            services.record_mark(session, who, item, seen)
        return services.add_table(session, who, own)


def test_an_unknown_letter_is_proposed_with_its_evidence(table_id, fetch):
    html = fetch(f"/marks/tables/{table_id}/learn")

    assert "In 3 propellers the letter M at place 3 goes with a pitch of" in html
    assert "P-0001" in html


def test_a_proposal_changes_nothing_until_somebody_keeps_it(table_id, fetch, client):
    boxes = boxes_of(fetch(f"/marks/tables/{table_id}/change?place=2&code=M"))

    with snapshot() as session:
        assert services.table_page(session, TERMINAL, table_id).version == 1
    assert client.send(f"/marks/tables/{table_id}/change", **boxes).status_code == 303
    with snapshot() as session:
        page = services.table_page(session, TERMINAL, table_id)
    entry = page.newest.table.places[2].meaning.entries[-1]
    assert (entry.code, entry.value) == ("M", 18)
    assert entry.source.said_by == "3 measured propellers"


def test_what_the_register_does_not_propose_is_no_address(table_id, client):
    assert client.get(f"/marks/tables/{table_id}/change?place=2&code=Q").status_code == 404


def test_a_propeller_that_one_looks_for_is_put_into_its_makers_words(table_id, fetch):
    html = fetch("/marks/reverse?diameter_m=560+mm&pitch_m=460+mm&bore_m=40+mm&hand=right", queries=3)

    # Kravelund writes millimetres: metal, diameter, pitch, H for right, -B and the bore, the year.
    assert "?560-460H-B40-??" in html
    assert "Kravelund Skruer, metric mark, version 1" in html


def test_nothing_asked_is_answered_with_nothing(table_id, fetch):
    assert "No table" not in fetch("/marks/reverse")


def test_a_size_that_is_none_is_told_beside_its_box(table_id, fetch):
    assert 'id="diameter_m-said"' in fetch("/marks/reverse?diameter_m=broad")


def test_only_the_newest_marks_are_gone_by_and_the_page_says_so(table_id, fetch, monkeypatch):
    assert "The register has more of them" not in fetch(f"/marks/tables/{table_id}/learn")

    monkeypatch.setattr(learning, "MOST_LOOKED_AT", 2)

    html = fetch(f"/marks/tables/{table_id}/learn")
    assert "In 2 propellers the letter M" in html
    assert "The register has more of them: the newest marks are gone by." in html


def test_no_more_marks_are_told_than_say_anything_new(table_id, fetch, monkeypatch):
    monkeypatch.setattr(learning, "MOST_TOLD", 2)

    assert "In 2 propellers the letter M" in fetch(f"/marks/tables/{table_id}/learn")


def test_a_propeller_of_which_nothing_is_measured_teaches_nothing(table_id, fetch):
    with transaction() as session:
        item = make_propeller(session, hand=None, diameter_m=None, pitch_m=None)
        services.record_mark(session, make_who(session), item, "OT22MR3-41880")

    assert "In 3 propellers the letter M" in fetch(f"/marks/tables/{table_id}/learn")
