import io

import pytest
from PIL import Image
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.bench.models import Fault, FaultClosing, Ring
from yardapp.bench.services import FaultSaid
from yardapp.db import snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused
from yardapp.gear.models import Photo

CRACK = {"kind": "crack", "severity": "stop", "side": "face", "blade": 2, "radius_ratio": 0.7}


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(session, blades=(3, 0.0)).tag


def raised(session, tag, **said):
    return bench.raise_fault(session, make_who(session), tag, FaultSaid(**(CRACK | said)))


def test_faults_are_numbered_as_they_are_marked_and_the_worst_stands_first(tag):
    with transaction() as session:
        raised(session, tag, severity="note", kind="nick")
        raised(session, tag, size_m=0.012, size_m_typed="12 mm", note="from the edge inward")
        found = bench.condition_of(session, make_who(session), tag)

    assert [(row.fault.number, row.fault.severity) for row in found.open] == [(2, "stop"), (1, "note")]
    assert (found.open[0].fault.size_m, found.open[0].fault.size_m_typed) == (0.012, "12 mm")


def test_closing_is_a_new_row_and_the_fault_itself_is_never_touched(tag):
    with transaction() as session:
        fault = raised(session, tag)
        bench.close_fault(session, make_who(session), fault.id, "Ground out and dye-tested: nothing left")
        with pytest.raises(Refused, match="closed already"):
            bench.close_fault(session, make_who(session), fault.id, "again")
        found = bench.condition_of(session, make_who(session), tag)

    assert found.open == []
    assert found.closed[0].closing.how == "Ground out and dye-tested: nothing left"


@pytest.mark.parametrize("table", ["bench_fault", "bench_fault_closing", "bench_ring"])
def test_history_can_not_be_altered_through_any_door(tag, table):
    with transaction() as session:
        fault = raised(session, tag)
        bench.close_fault(session, make_who(session), fault.id, "welded")
        bench.note_ring(session, make_who(session), tag, "dull", 2)

    with pytest.raises(DatabaseError, match="history stays"), transaction() as session:
        session.execute(text(f"DELETE FROM {table}"))


def test_a_fault_that_is_there_again_is_a_new_one_that_names_the_old(tag):
    with transaction() as session:
        first = raised(session, tag)
        with pytest.raises(Refused, match="still open"):
            raised(session, tag, reopens_id=first.id)
        bench.close_fault(session, make_who(session), first.id, "straightened")
        again = raised(session, tag, reopens_id=first.id)

    assert (again.number, again.reopens_id) == (2, first.id)


@pytest.mark.parametrize(
    ("said", "box"),
    [
        ({"kind": "rust"}, "kind"),
        ({"severity": "awful"}, "severity"),
        ({"side": "left"}, "side"),
        ({"blade": None}, "blade"),
        ({"blade": 4}, "blade"),
        ({"radius_ratio": None}, "radius_ratio"),
        ({"radius_ratio": 1.2}, "radius_ratio"),
    ],
)
def test_a_fault_that_makes_no_sense_is_told_at_its_box(tag, said, box):
    with transaction() as session, pytest.raises(Refused) as refused:
        raised(session, tag, **said)

    assert refused.value.argument == box


def test_on_the_hub_neither_blade_nor_radius_is_kept(tag):
    with transaction() as session:
        fault = raised(session, tag, kind="loose bush", side="hub")

    assert (fault.blade, fault.radius_ratio) == (None, None)


def test_owners_mark_nothing_and_see_only_their_own(tag):
    with transaction() as session:
        fault = raised(session, tag)
        owner = make_who(session, name="R. Thorne", role="owner")
        with pytest.raises(NotAllowed):
            bench.raise_fault(session, owner, tag, FaultSaid(**CRACK))
        with pytest.raises(NotFound):
            bench.fault_by_id(session, owner, fault.id)
        assert bench.still_open(session, owner) == []


def test_all_that_stands_open_in_the_yard_is_listed_worst_first(tag):
    with transaction() as session:
        other = make_propeller(session, blades=(4, 0.0)).tag
        raised(session, tag, severity="watch")
        raised(session, other)
        closed = raised(session, other, severity="stop")
        bench.close_fault(session, make_who(session), closed.id, "filed")
        found = bench.still_open(session, make_who(session))

    assert [(row.tag, row.fault.severity) for row in found] == [(other, "stop"), (tag, "watch")]


def test_how_it_rang_is_noted(tag):
    with transaction() as session:
        bench.note_ring(session, make_who(session), tag, "dull", 2, "by the root")
        with pytest.raises(Refused):
            bench.note_ring(session, make_who(session), tag, "hums")
        found = bench.condition_of(session, make_who(session), tag)

    assert (found.rings[0].heard, found.rings[0].blade, found.rings[0].note) == ("dull", 2, "by the root")


BOXES = {"kind": "crack", "severity": "stop", "side": "face", "blade": "2", "radius_ratio": "0.7", "size_m": "12 mm"}


def test_a_fault_is_marked_on_its_page_shown_on_the_picture_and_closed(client, fetch, tag):
    answer = client.send(f"/bench/{tag}/condition/new", **BOXES)

    assert answer.status_code == 303
    said = fetch(f"/bench/{tag}/condition")
    assert "Crack, 12 mm, blade 2 at 0.7 R, face" in said
    assert "Propeller seen from aft with 1 fault marked" in said
    assert "Crack" in fetch("/bench/faults/1")
    assert "Crack" in fetch("/bench/faults")

    client.send("/bench/faults/1/close", how="Ground out, dye shows nothing")

    assert "Ground out, dye shows nothing" in fetch(f"/bench/{tag}/condition")
    assert "0 faults marked" in fetch(f"/bench/{tag}/condition")
    assert "It is there again" in fetch("/bench/faults/1")


def test_the_picture_is_tapped_without_script_by_plain_links(fetch, tag):
    said = fetch(f"/bench/{tag}/condition/new?blade=3&radius_ratio=0.5")

    assert f'href="/bench/{tag}/condition/new?blade=1&amp;radius_ratio=0.9"' in said
    assert 'aria-label="blade 3, 0.5 of the radius"' in said
    assert '<option selected value="3">3</option>' in said
    assert '<option selected value="0.5">' in said


def test_a_fault_without_a_place_is_told_beside_its_box_and_saves_nothing(client, tag):
    answer = client.send(f"/bench/{tag}/condition/new", **(BOXES | {"blade": ""}))

    assert answer.status_code == 422
    assert 'id="blade-said"' in answer.text
    assert 'value="12 mm"' in answer.text
    with snapshot() as session:
        assert session.scalars(select(Fault)).all() == []


def test_a_photo_of_the_fault_goes_with_it_and_to_the_propellers_page(client, fetch, tag):
    picture = io.BytesIO()
    Image.new("RGB", (40, 30), "brown").save(picture, "JPEG")
    picture.seek(0)

    client.send(f"/bench/{tag}/condition/new", photo=(picture, "crack.jpg"), **BOXES)

    with snapshot() as session:
        fault, photo = session.scalars(select(Fault)).one(), session.scalars(select(Photo)).one()
    assert fault.photo_sha256 == photo.sha256
    assert photo.caption == "fault: crack"
    assert f"/photos/{photo.sha256}" in fetch("/bench/faults/1")


def test_a_ring_test_is_noted_on_the_page(client, fetch, tag):
    client.send(f"/bench/{tag}/condition/ring", heard="dull", ring_blade="2", ring_note="by the root")
    wrong = client.send(f"/bench/{tag}/condition/ring", heard="")

    assert wrong.status_code == 422
    assert "Dull thud, blade 2" in fetch(f"/bench/{tag}/condition")
    with snapshot() as session:
        assert len(session.scalars(select(Ring)).all()) == 1


def test_the_blank_picture_the_ways_and_the_item_lead_there(fetch, tag):
    assert "Face or back" in fetch(f"/bench/{tag}/condition/blank")
    assert f'href="/bench/{tag}/condition"' in fetch(f"/bench/{tag}")
    assert f'href="/bench/{tag}/condition"' in fetch(f"/propellers/{tag}")
    assert 'href="/bench/faults"' in fetch("/bench")


def test_a_fault_there_again_opens_with_where_it_was(client, fetch, tag):
    client.send(f"/bench/{tag}/condition/new", **BOXES)
    client.send("/bench/faults/1/close", how="welded")

    said = fetch(f"/bench/{tag}/condition/new?again=1")
    client.send(f"/bench/{tag}/condition/new", reopens="1", **BOXES)

    assert '<option selected value="2">2</option>' in said
    with snapshot() as session:
        assert session.scalars(select(Fault).where(Fault.number == 2)).one().reopens_id == 1
        assert len(session.scalars(select(FaultClosing)).all()) == 1


def test_the_propellers_own_page_counts_what_stands_and_says_the_worst_within_its_three_queries(client, fetch):
    with transaction() as session:
        tag = make_propeller(session, blades=(3, 0.0)).tag
        other = make_propeller(session).tag
        raised(session, other)
        worst = raised(session, tag).id
        raised(session, tag, severity="watch", kind="bend")
        raised(session, tag, severity="note", kind="nick")
    both = fetch(f"/propellers/{tag}")
    with transaction() as session:
        bench.close_fault(session, make_who(session), worst, "Ground out and dye-tested: nothing left")
    left = fetch(f"/propellers/{tag}")

    assert f'<a href="/bench/{tag}/condition">3 open faults; it must not turn</a>' in both
    assert f'<a href="/bench/{tag}/condition">2 open faults, to be watched</a>' in left
    with transaction() as session:
        for row in bench.still_open(session, make_who(session), tag=tag):
            bench.close_fault(session, make_who(session), row.fault.id, "Faired")
    assert "open fault" not in fetch(f"/propellers/{tag}")
