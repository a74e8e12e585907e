from urllib.parse import quote

from tests.factories import vessels as boats
from tests.factories.gear import make_propeller
from yardapp import db


def test_a_line_finds_items_and_boats(ada, count_queries):
    with db.transaction() as session:
        boats.make_vessel(session)
        tag = make_propeller(session, place="Rack C, beside Kittiwake").tag

    with count_queries() as asked:
        found = ada.get("/search?q=kittiwake").get_json()

    assert [one["tag"] for one in found["items"]] == [tag]
    assert [one["name"] for one in found["boats"]] == ["Kittiwake"]
    assert len(asked) <= 3, asked


def test_a_size_finds_a_propeller(ada):
    with db.transaction() as session:
        tag = make_propeller(session).tag

    assert [one["tag"] for one in ada.get(f"/search?q={quote('22 x 18')}").get_json()["items"]] == [tag]
    assert ada.get(f"/search?q={quote('12 x 9')}").get_json()["items"] == []


def test_a_search_without_a_line_is_refused(ada, must_refuse):
    assert must_refuse(ada.get("/search"), 422) == {"q": "Is missing."}
    assert set(must_refuse(ada.get("/search?q=%00"), 422)) == {"q"}
    assert set(must_refuse(ada.get("/search?q=a&page=2"), 422)) == {"page"}


def test_an_owner_finds_only_their_own(caller_as):
    with db.transaction() as session:
        boats.make_vessel(session)
        make_propeller(session)

    found = caller_as("R. Thorne", "owner").get("/search?q=kittiwake").get_json()

    assert found == {"items": [], "boats": []}
