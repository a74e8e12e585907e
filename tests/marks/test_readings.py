"""A mark read by the yard's tables, and taken as evidence."""

import re
from dataclasses import replace

import pytest
from sqlalchemy import select, update
from sqlalchemy.exc import DBAPIError

from tests.factories.gear import make_propeller
from tests.factories.marks import make_shelf
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.models import Evidence, Item
from yardapp.marks import services
from yardapp.marks.models import MakerTable, Taken
from yardapp.people.services import TERMINAL
from yardapp.stamps.tables import Nothing

# Ombry & Thessel: OT, two figures of inches, a letter for the pitch (A is 8 in, one inch a letter, no I and no O, so
# L is 18 in), the hand, blades, a serial after a dash. Worked by hand from the table's own words.
STAMP = "OT22LR3-41877"


@pytest.fixture
def shelf(register):
    with transaction() as session:
        return make_shelf(session)


def propeller(**said):
    with transaction() as session:
        return make_propeller(session, **said).tag


def test_a_mark_is_read_by_every_table_and_says_who_reads_it(shelf, fetch):
    html = fetch(f"/marks?stamp={STAMP}")

    assert "Ombry &amp; Thessel, hub code, version 1" in html
    assert "diameter 558.8 mm (22 in), pitch 457.2 mm (18 in), right hand, 3 blades" in html
    assert "Place 3, `L`: the pitch is 457.2 mm." in html


def test_a_common_confusion_is_offered_and_named(shelf, fetch):
    html = fetch("/marks?stamp=0T22LR3-41877")

    assert "0 read as O" in html


def test_the_tape_rules_readings_out_on_the_page_of_a_propeller(shelf, fetch, client):
    tag = propeller(hand=None, diameter_m=(0.559, 0.001), pitch_m=(0.457, 0.004))

    html = fetch(f"/marks/of/{tag}?stamp=OT%3F2LR3-41877")

    assert re.search(r"The tape rules out \d+ of \d+\.", html)
    first = html.index("marks-reading")
    assert html.index("OT22LR3-41877") > first
    assert html.index("OT22LR3-41877") < html.index("marks-reading-out")


def test_what_speaks_against_a_reading_is_said_in_one_line(shelf, fetch):
    # Ombry & Thessel's mark says 22 in, 18 in and the right hand: a left-hand 20 x 16 in is another propeller.
    tag = propeller(hand="left", diameter_m=(0.508, 0.001), pitch_m=(0.4064, 0.002))
    with transaction() as session:
        item = session.scalars(select(Item).where(Item.tag == tag)).one()
        gear.add_evidence(session, TERMINAL, item, gear.Said(what="hand", basis="measured", word="left"))

    html = fetch(f"/marks/of/{tag}?stamp={STAMP}", queries=4)

    assert "The tape rules out its diameter and pitch; its hand is not as seen." in html


def test_a_mark_of_which_too_little_is_legible_says_so(shelf, fetch):
    assert "Too little is legible" in fetch("/marks?stamp=********")


def test_a_bracket_left_open_is_told_and_breaks_nothing(shelf, fetch):
    assert "[" in fetch("/marks?stamp=OT[22")


def tap(client, html, tag):
    stamp = re.search(r'name="stamp" value="([^"]+)"><input type="hidden" name="which"', html)[1]
    which = re.search(r'name="which" value="([^"]+)"', html)[1]
    return client.send(f"/marks/of/{tag}/take", stamp=stamp, which=which)


def test_one_tap_takes_a_reading_as_evidence_that_names_its_table(shelf, fetch, client):
    tag = propeller(hand=None, diameter_m=None, pitch_m=None)

    answer = tap(client, fetch(f"/marks/of/{tag}?stamp={STAMP}"), tag)

    assert answer.status_code == 303
    with snapshot() as session:
        rows = session.scalars(select(Evidence).where(Evidence.basis == "decoded")).all()
        item = session.scalars(select(Item).where(Item.tag == tag)).one()
        taken = session.scalars(select(Taken)).one()
    assert {row.what: row.value or row.word for row in rows} == {
        "diameter_m": pytest.approx(0.5588),
        "pitch_m": pytest.approx(0.4572),
        "hand": "right",
        "blades": 3,
    }
    assert {row.note for row in rows} == {f"Ombry & Thessel, hub code, version 1, read as {STAMP}"}
    assert {row.source for row in rows} == {"mark"}
    assert item.known["diameter_m"] == "decoded"
    assert taken.figures["hand"] == "right"
    assert f"taken as {STAMP} by Ada Brook" in fetch(f"/marks/of/{tag}")


# Kravelund: K is manganese bronze, then millimetres, H the right hand, -B and the bore, the year. By its own words.
KRAVELUND = "K560-460H-B40-71"


def test_a_metal_becomes_evidence_and_what_the_register_has_no_figure_for_stays_with_the_reading(shelf, fetch, client):
    tag = propeller(hand=None, diameter_m=None, pitch_m=None)
    html = fetch(f"/marks/of/{tag}?stamp={KRAVELUND}")

    tap(client, html, tag)

    assert "Taken, the year stays with the reading; the rest becomes evidence." in html
    with snapshot() as session:
        item = session.scalars(select(Item).where(Item.tag == tag)).one()
    assert (item.material, item.known["material"]) == ("manganese bronze", "decoded")
    assert f"taken as {KRAVELUND} by Ada Brook, year 1971" in fetch(f"/marks/of/{tag}")


def test_a_metal_that_the_register_does_not_know_is_no_evidence(shelf, fetch, client):
    with transaction() as session:
        page = services.table_page(session, TERMINAL, shelf["Kravelund Skruer"])
        metal = page.newest.table.places[0]
        entries = (replace(metal.meaning.entries[0], value="gun metal"), *metal.meaning.entries[1:])
        places = (replace(metal, meaning=replace(metal.meaning, entries=entries)), *page.newest.table.places[1:])
        services.change_table(session, TERMINAL, page.id, 1, replace(page.newest.table, places=places))
    tag = propeller(hand=None, diameter_m=None, pitch_m=None)
    html = fetch(f"/marks/of/{tag}?stamp={KRAVELUND}", queries=4)

    tap(client, html, tag)

    assert "the metal, year stay with the reading" in html.replace(" and ", ", ")
    with snapshot() as session:
        assert session.scalars(select(Item.material)).one() is None
    assert "metal gun metal, year 1971" in fetch(f"/marks/of/{tag}")


def test_a_mark_taken_anew_replaces_what_it_said_and_the_old_stays_in_history(shelf, fetch, client):
    tag = propeller(hand=None, diameter_m=None, pitch_m=None)
    tap(client, fetch(f"/marks/of/{tag}?stamp={STAMP}"), tag)
    with transaction() as session:
        page = services.table_page(session, TERMINAL, shelf["Ombry & Thessel"])
        letters = replace(page.newest.table.places[2], meaning=replace(page.newest.table.places[2].meaning, value=9))
        blades = replace(page.newest.table.places[4], tells="nothing", meaning=Nothing())
        places = (
            *page.newest.table.places[:2],
            letters,
            page.newest.table.places[3],
            blades,
            page.newest.table.places[5],
        )
        services.change_table(session, TERMINAL, page.id, 1, replace(page.newest.table, places=tuple(places)))

    tap(client, fetch(f"/marks/of/{tag}?stamp={STAMP}", queries=4), tag)

    with snapshot() as session:
        item = session.scalars(select(Item).where(Item.tag == tag)).one()
        rows = session.scalars(select(Evidence).where(Evidence.what == "pitch_m", Evidence.basis == "decoded")).all()
        assert len(session.scalars(select(Taken)).all()) == 2
    # L is 18 in from A at 8 in, 19 in from A at 9 in; the blades are told no longer.
    assert item.pitch_m == pytest.approx(0.4826)
    assert (item.blades, item.odds) == (None, [])
    assert [(row.value, row.replaces_id) for row in rows] == [
        (pytest.approx(0.4572), None),
        (pytest.approx(0.4826), rows[0].id),
    ]


def test_what_was_taken_stays(shelf, fetch, client):
    tag = propeller()
    tap(client, fetch(f"/marks/of/{tag}?stamp={STAMP}"), tag)

    with pytest.raises(DBAPIError, match="history stays"), transaction() as session:
        session.execute(update(Taken).values(mark="another"))


def test_a_reading_that_no_table_gives_any_more_is_not_taken(shelf, fetch, client):
    tag = propeller()
    html = fetch(f"/marks/of/{tag}?stamp={STAMP}")
    with transaction() as session:
        services.use_table(session, TERMINAL, shelf["Ombry & Thessel"], 1, is_in_use=False)

    answer = tap(client, html, tag)

    assert answer.status_code == 422
    assert "The tables have changed" in answer.text


def test_two_marks_on_one_hub_are_read_together(shelf, fetch):
    # The shop re-stamped it to a pitch of 19 in (482.6 mm), and a shop is later than the maker.
    html = fetch(f"/marks?stamp={STAMP}&beside=RP+22+x+19+94")

    assert "Two marks of one hub read together" in html
    assert "482.6 mm (19 in)" in html
    assert "RP 22 x 19 94 is newer: a shop&#39;s stamp is later than the maker&#39;s" in html


def test_owners_take_no_readings_of_other_peoples_gear(shelf, client_as):
    tag = propeller()

    answer = client_as("R. Thorne", "owner").send(f"/marks/of/{tag}/take", stamp=STAMP, which="0" * 16)

    assert answer.status_code == 404


def test_a_fresh_register_is_given_plain_tables_once_and_no_invented_maker(register):
    for _time in range(2):
        with transaction() as session:
            services.seed_tables(session)

    with snapshot() as session:
        makers = session.scalars(select(MakerTable.maker).order_by(MakerTable.id)).all()
    assert makers == ["Plain sizes"] * 4 + ["Shop re-stamps"]


def test_a_table_put_out_of_use_is_read_by_no_more(shelf, client):
    with transaction() as session:
        services.use_table(session, TERMINAL, shelf["Ombry & Thessel"], 1, is_in_use=False)

    assert "No table reads it" in client.get(f"/marks?stamp={STAMP}").text


def test_every_mark_of_a_hub_is_read_together_and_the_newest_is_said(shelf, fetch, client):
    tag = propeller(hand=None, diameter_m=None, pitch_m=None)
    client.send(f"/marks/of/{tag}", stamp=STAMP, struck="first")
    client.send(f"/marks/of/{tag}", stamp="22 x 17 RH")
    client.send(f"/marks/of/{tag}", stamp="22 x 16 RH", struck="later")

    html = fetch(f"/marks/of/{tag}")

    assert "3 marks of one hub read together" in html
    # L is 18 in (457.2 mm); 16 in is 406.4 mm; of the plain 17 in nobody noted when it was struck.
    assert (
        f"22 x 16 RH says pitch 406.4 mm (16 in), {STAMP} says 457.2 mm (18 in); "
        "22 x 16 RH is newer: so it was seen on the hub." in html
    )
    assert "22 x 17 RH says pitch 431.8 mm (17 in)" in html


def test_a_mark_noted_again_goes_by_what_was_noted_last(shelf, fetch, client):
    tag = propeller(hand=None, diameter_m=None, pitch_m=None)
    client.send(f"/marks/of/{tag}", stamp=STAMP)
    client.send(f"/marks/of/{tag}", stamp="22 x 16 RH")
    assert "which of the two is newer is not known" in fetch(f"/marks/of/{tag}")

    client.send(f"/marks/of/{tag}", stamp="22 x 16 RH", struck="later")

    assert "22 x 16 RH is newer" in fetch(f"/marks/of/{tag}")


def test_the_page_without_a_propeller_asks_which_of_two_marks_is_newer(shelf, fetch):
    html = fetch(f"/marks?stamp={STAMP}&beside=22+x+16+RH&newer=second")

    assert "22 x 16 RH is newer: so it was seen on the hub" in html


def test_a_hub_with_a_mark_that_can_not_be_read_shows_the_rest(shelf, fetch, client):
    tag = propeller()
    client.send(f"/marks/of/{tag}", stamp="OT[22")
    client.send(f"/marks/of/{tag}", stamp=STAMP)

    assert STAMP in fetch(f"/marks/of/{tag}")
    assert "OT[22" in fetch(f"/marks/of/{tag}?stamp=OT[22")
