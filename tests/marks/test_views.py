"""The pages of the marks, on the register."""

import re
from io import BytesIO

import pytest
from PIL import Image
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.db import snapshot, transaction
from yardapp.gear.models import Evidence, Item, Photo
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


def picture():
    kept = BytesIO()
    Image.new("RGB", (60, 40), "gray").save(kept, "JPEG")
    return BytesIO(kept.getvalue())


def test_a_photo_stands_beside_its_mark_and_on_the_propeller(client, fetch):
    tag = blank()

    client.send(
        f"/marks/of/{tag}", stamp="22 x 18 RH", spot="root of a blade", struck="later", photo=(picture(), "a.jpg")
    )

    with snapshot() as session:
        mark = session.scalars(select(Mark)).one()
        assert session.scalars(select(Photo.sha256)).one() == mark.photo_sha256
    html = fetch(f"/marks/of/{tag}")
    assert f"/photos/{mark.photo_sha256}/small" in html
    assert "root of a blade; struck later" in html
    assert client.get(f"/photos/{mark.photo_sha256}").status_code == 200


def test_a_photo_that_is_none_is_told_and_nothing_is_kept(client):
    answer = client.send(f"/marks/of/{blank()}", stamp="22 x 18 RH", photo=(BytesIO(b"no photo"), "a.jpg"))

    assert answer.status_code == 422
    assert 'id="photo-said"' in answer.text
    with snapshot() as session:
        assert session.scalars(select(Mark)).all() == []


def test_a_photo_is_not_sent_twice_when_a_box_was_wrong(client):
    tag = blank()

    answer = client.send(f"/marks/of/{tag}", stamp=" ", photo=(picture(), "a.jpg"))
    kept = re.search(r'name="photo_kept" value="([0-9a-f]{64})"', answer.text)[1]
    client.send(f"/marks/of/{tag}", stamp="22 x 18 RH", photo_kept=kept)

    with snapshot() as session:
        assert session.scalars(select(Mark.photo_sha256)).one() == kept


def test_an_empty_mark_is_told_beside_its_box(client):
    answer = client.send(f"/marks/of/{blank()}", stamp=" ")

    assert answer.status_code == 422
    assert 'id="stamp-said"' in answer.text


def test_owners_do_not_record_marks_of_other_peoples_gear(client, client_as):
    tag = blank()

    assert client_as("R. Thorne", "owner").send(f"/marks/of/{tag}", stamp="22 x 18").status_code == 404
