"""Sheets that were written while two tags hung crossed are marked as possibly the other's."""

import pytest
from sqlalchemy import select

from tests.factories.bench import make_diameter_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from yardapp.bench import services as bench
from yardapp.db import now, transaction
from yardapp.gear import services as gear
from yardapp.gear.crossed import Seen
from yardapp.gear.models import Event


def make_crossed(session):
    """Two propellers, a sheet of each written while their tags hung crossed, and one written after the swap."""
    who = make_who(session)
    first, second = make_propeller(session), make_propeller(session, hand="left", place="Rack D")
    began = now()
    between = [make_diameter_sheet(session, one.tag).id for one in (first, second)]
    gear.swap_tags(
        session,
        who,
        first.tag,
        second.tag,
        second_id=make_person(session, name="Finn Marsh", role="hand").id,
        seen=Seen(hand="left"),
        seen_at_other=Seen(hand="right"),
        since=began,
    )
    return first, second, between, make_diameter_sheet(session, first.tag).id


@pytest.fixture
def crossed(client):
    with transaction() as session:
        first, second, between, after = make_crossed(session)
        return first.tag, second.tag, between, after


def test_a_sheet_of_crossed_tags_says_on_its_page_whose_it_may_be(crossed, fetch):
    first, second, between, after = crossed

    assert f"This sheet is possibly {second}’s" in fetch(f"/bench/sheets/{between[0]}")
    assert f"This sheet is possibly {first}’s" in fetch(f"/bench/sheets/{between[1]}")
    assert "possibly" not in fetch(f"/bench/sheets/{after}")


def test_a_things_list_of_sheets_marks_those_alone_that_may_be_the_others(crossed, fetch):
    first, second, _, _ = crossed

    assert fetch(f"/bench/{first}").count(f"possibly {second}’s") == 1
    assert fetch(f"/bench/{second}").count(f"possibly {first}’s") == 1


def test_a_thing_that_nobody_took_for_another_has_no_doubtful_sheet(register):
    with transaction() as session:
        make_crossed(session)
        third = make_propeller(session)
        make_diameter_sheet(session, third.tag)

        rows = bench.sheets_of(session, make_who(session), third.tag).sheets

    assert [row.perhaps_of for row in rows] == [None]


def test_a_swap_that_was_undone_throws_no_doubt(register):
    with transaction() as session:
        first, second, _, _ = make_crossed(session)
        swaps = session.scalars(select(Event).where(Event.kind == "tags swapped")).all()
        for swap in swaps:
            undoing = {"kind": "undone", "at": now(), "noted": now(), "said_by": "Ada Brook", "undoes_id": swap.id}
            session.add(Event(item_id=swap.item_id, **undoing))
        session.flush()

        rows = [row for one in (first, second) for row in bench.sheets_of(session, make_who(session), one.tag).sheets]

    assert [row.perhaps_of for row in rows] == [None, None, None]
