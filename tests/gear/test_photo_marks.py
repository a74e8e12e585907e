import io

import pytest
from sqlalchemy import select, text
from sqlalchemy.exc import DatabaseError

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.gear.test_views import picture
from yardapp.db import snapshot, transaction
from yardapp.drawings.marked_photo import marked_photo
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Photo
from yardapp.gear.photo_models import PhotoMark

ARROW = {"kind": "arrow", "from_x": "10", "from_y": "20", "to_x": "50", "to_y": "60", "words": "Crack, <blade 2>"}


def photographed(client, count=1):
    with transaction() as session:
        make_propeller(session)
    for number in range(count):
        client.send("/items/P-0001/photos", photo=picture(size=(64 + number, 48)), caption=f"look {number + 1}")


def test_an_arrow_is_drawn_over_the_photo_and_the_photo_stays_as_it_was(client, fetch):
    photographed(client)
    with snapshot() as session:
        sha256 = session.scalars(select(Photo.sha256)).one()
    before = client.get(f"/photos/{sha256}").data

    answer = client.send("/photo/1", **ARROW)
    html = fetch("/photo/1")

    assert answer.status_code == 303
    # 10 % and 20 % of 64 by 48 points; 50 % and 60 %.
    assert "M 6.4 9.6 L 32.0 28.8" in html
    assert "Crack, &lt;blade 2&gt;" in html
    assert client.get(f"/photos/{sha256}").data == before


def test_a_mark_is_taken_away_by_a_row_of_its_own(client, fetch):
    photographed(client)
    client.send("/photo/1", **ARROW)

    answer = client.send("/photo/1/marks/1/away")

    assert answer.status_code == 303
    assert "marked-line" not in fetch("/photo/1")
    assert client.send("/photo/1/marks/1/away").status_code == 404
    with snapshot() as session:
        assert [one.kind for one in session.scalars(select(PhotoMark).order_by(PhotoMark.id))] == [
            "arrow",
            "taken away",
        ]


def test_no_mark_can_be_altered_or_removed(client):
    photographed(client)
    client.send("/photo/1", **ARROW)

    for statement in ("UPDATE gear_photo_mark SET words = ''", "DELETE FROM gear_photo_mark"):
        with pytest.raises(DatabaseError), transaction() as session:
            session.execute(text(statement))


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"from_x": "101"}, "0 to 100 % of the photo"),
        ({"to_y": ""}, "How far from the top"),
        ({"to_x": "10", "to_y": "20"}, "too short to be seen"),
        ({"kind": "poem"}, "Not a valid choice"),
    ],
)
def test_what_can_not_be_drawn_is_told_beside_its_box(client, wrong, said):
    photographed(client)

    answer = client.send("/photo/1", **{**ARROW, **wrong})

    assert answer.status_code == 422
    assert said in answer.text


def test_a_service_refuses_what_lies_beside_the_photo(client):
    photographed(client)

    with transaction() as session, pytest.raises(Refused, match="on the photo"):
        gear.mark_photo(
            session,
            make_who(session),
            1,
            kind="circle",
            from_x_ratio=1.2,
            from_y_ratio=0.5,
            to_x_ratio=0.5,
            to_y_ratio=0.5,
        )


def test_two_photos_stand_side_by_side_the_oldest_and_the_newest_unless_others_are_chosen(client, fetch):
    photographed(client, 3)

    def pair(address):
        return [one.split("</figcaption>")[0] for one in fetch(address).split("<figcaption>")[1:]]

    assert ["look 1" in pair("/items/P-0001/photos")[0], "look 3" in pair("/items/P-0001/photos")[1]] == [True, True]
    chosen = pair("/items/P-0001/photos?before=2&after=1")
    assert ["look 2" in chosen[0], "look 1" in chosen[1]] == [True, True]
    assert len(pair("/items/P-0001/photos?before=99")) == 2


def test_several_photos_are_kept_at_once_or_none(client, fetch):
    with transaction() as session:
        make_propeller(session)
    both = [picture(size=(64, 48)), picture(size=(65, 48), name="two.jpg")]
    bad = [picture(size=(66, 48)), (io.BytesIO(b"no picture"), "three.jpg")]

    kept, refused = client.send("/items/P-0001/photos", photo=both), client.send("/items/P-0001/photos", photo=bad)

    assert (kept.status_code, refused.status_code) == (303, 422)
    assert client.send("/items/P-0001/photos").status_code == 422
    with snapshot() as session:
        assert len(session.scalars(select(Photo.id)).all()) == 2
    assert 'capture="environment"' in fetch("/propellers/P-0001")


def test_a_photo_taken_on_the_spot_is_kept_too(client):
    with transaction() as session:
        make_propeller(session)

    assert client.send("/items/P-0001/photos", camera=picture()).status_code == 303


def test_an_owner_sees_no_photo_of_what_is_not_theirs(client, client_as):
    photographed(client)

    owner = client_as("R. Thorne", "owner")

    assert owner.get("/photo/1").status_code == 404
    assert owner.get("/items/P-0001/photos").status_code == 404


def test_a_circle_goes_round_where_it_begins_and_words_are_no_markup():
    mark = PhotoMark(kind="circle", from_x_ratio=0.5, from_y_ratio=0.5, to_x_ratio=0.6, to_y_ratio=0.5, words="")

    svg = marked_photo("/photos/a", 1000, 800, [mark], label='a "crack" <here>')

    # Radius: a tenth of 1000 points.
    assert "M 400.0 400.0 A 100.0 100.0 0 0 1 600.0 400.0" in svg
    assert 'aria-label="a &#34;crack&#34; &lt;here&gt;"' in svg


@pytest.mark.parametrize(("tail_y", "tip_y"), [(0.5, 0.2), (0.5, 0.8), (1.0, 0.7), (0.0, 0.3)])
def test_an_arrows_number_stands_behind_its_tail_and_on_the_photo(tail_y, tip_y):
    mark = PhotoMark(kind="arrow", from_x_ratio=0.5, from_y_ratio=tail_y, to_x_ratio=0.5, to_y_ratio=tip_y, words="")

    svg = marked_photo("/photos/a", 1000, 800, [mark], label="")

    foot = float(svg.split('<text class="marked-number"')[1].split('y="')[1].split('"')[0])
    size = float(svg.split('font-size="')[1].split('"')[0])
    assert size <= foot <= 800
    if 0 < tail_y < 1:  # there is room behind it: the digit, 0.72 of its size high, leaves the line free
        assert (foot - 0.72 * size > 400) if tip_y < tail_y else (foot < 400)
