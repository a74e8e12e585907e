"""The pages of the marks, on the register."""

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.db import snapshot, transaction
from yardapp.gear.models import Evidence, Item
from yardapp.marks.models import Mark


def blank():
    with transaction() as session:
        return make_propeller(session, hand=None, diameter_m=None, pitch_m=None, bore_large_m=None).tag


@pytest.mark.parametrize(
    ("seen", "sizes"),
    [
        ("22 x 18 RH", ("558.8 mm (22 in)", "457.2 mm (18 in)", "right hand")),
        ("560x460 LH", ("560 mm", "460 mm", "left hand")),
        ("D22 P18", ("558.8 mm (22 in)", "457.2 mm (18 in)")),
    ],
)
def test_a_mark_is_read_without_being_kept(fetch, client, seen, sizes):
    html = fetch(f"/marks?stamp={seen}".replace(" ", "+"))

    for size in sizes:
        assert size in html
    with snapshot() as session:
        assert session.scalars(select(Mark)).all() == []


def test_the_unit_that_was_assumed_is_said_with_the_reason(client):
    text = client.get("/marks/read?stamp=22+x+18+RH").text

    assert "inches" in text
    assert "up to 40 is usual in inches" in text


def test_what_can_not_be_read_is_said_and_not_guessed(client):
    text = client.get("/marks/read?stamp=22+x+%3F8+RH").text

    assert "558.8 mm" in text
    assert '<th scope="row">Pitch</th>' not in text


def test_a_kept_mark_becomes_evidence_and_stays_as_it_was_seen(client, fetch):
    tag = blank()

    client.send(f"/marks/of/{tag}", stamp="22 x 18 RH", spot="aft face of the hub")

    with snapshot() as session:
        item = session.scalars(select(Item)).one()
        assert (item.stamp, item.hand, item.known["pitch_m"]) == ("22 x 18 RH", "right", "stamped")
        assert {row.source for row in session.scalars(select(Evidence).where(Evidence.basis == "stamped"))} == {"mark"}
    assert "22 x 18 RH" in fetch(f"/marks/of/{tag}")


def test_two_marks_on_one_hub_are_both_kept(client, fetch):
    tag = blank()
    client.send(f"/marks/of/{tag}", stamp="22 x 18 RH")

    client.send(f"/marks/of/{tag}", stamp="QV 77")

    html = fetch(f"/marks/of/{tag}")
    assert "22 x 18 RH" in html
    assert "QV 77" in html


def test_an_empty_mark_is_told_beside_its_box(client):
    answer = client.send(f"/marks/of/{blank()}", stamp=" ")

    assert answer.status_code == 422
    assert 'id="stamp-said"' in answer.text


def test_owners_do_not_record_marks_of_other_peoples_gear(client, client_as):
    tag = blank()

    assert client_as("R. Thorne", "owner").send(f"/marks/of/{tag}", stamp="22 x 18").status_code == 404
