"""What a photo shows can be said anew; what was said before stays."""

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError

from tests.gear.test_photo_marks import photographed
from yardapp.db import snapshot, transaction
from yardapp.gear.models import Photo


def test_a_caption_is_put_right_everywhere_and_the_former_ones_stay(client, fetch):
    photographed(client)

    for caption in ("blade 2", "blade 3, <nick>"):
        assert client.send("/photo/1/caption", caption=caption).status_code == 303
    html = fetch("/photo/1")

    assert [html.index("<s>blade 2</s>") < html.index("<s>look 1</s>"), "blade 3, &lt;nick&gt;" in html] == [True, True]
    assert 'value="blade 3, &lt;nick&gt;"' in fetch("/photo/1/caption")
    for address in ("/propellers/P-0001", "/items/P-0001/photos", "/items/P-0001/timeline"):
        assert "blade 3, &lt;nick&gt;" in fetch(address)
    with snapshot() as session:
        assert session.scalars(select(Photo.first_caption)).one() == "look 1"


def test_an_empty_caption_or_the_same_again_is_told_beside_its_box(client):
    photographed(client)

    assert "What does it show?" in client.send("/photo/1/caption", caption=" ").text
    assert "That is what it says already." in client.send("/photo/1/caption", caption="look 1").text
    assert client.send("/photo/9/caption", caption="x").status_code == 404


def test_an_owner_changes_no_caption(client, client_as):
    photographed(client)

    assert client_as("R. Thorne", "owner").send("/photo/1/caption", caption="x").status_code in (403, 404)


@pytest.mark.parametrize("act", ["UPDATE gear_photo_caption SET caption = 'x'", "DELETE FROM gear_photo_caption"])
def test_no_caption_can_be_altered_or_removed(client, act):
    photographed(client)
    client.send("/photo/1/caption", caption="blade 2")

    with pytest.raises(DatabaseError, match="history stays"), transaction() as session:
        session.execute(text(act))
