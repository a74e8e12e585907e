"""Whatever is asked of "seen before?", by page or through the API: an answer or a clear no, never a broken page."""

from urllib.parse import quote

import pytest

from tests.factories.gear import make_propeller
from yardapp.db import transaction

ODD_TAGS = ("P-9999", "%", "_", "P-0001%", "p-0001 ", "'; --", "\x00", "∞", "P" * 300, "-1", "..", "<b>")
ODD_QUERIES = ("?limit=-1", "?after=~~", "?since=9999-12-31", "?day=0001-01-01", "?x=%25", "?group=%25_")


@pytest.fixture
def tag(client):
    with transaction() as session:
        return make_propeller(session).tag


@pytest.mark.parametrize("odd", ODD_TAGS)
def test_a_tag_that_nothing_carries_is_told_so(client, tag, odd):
    answer = client.get(f"/items/{quote(odd)}/seen-before")

    assert answer.status_code == (200 if odd.strip().upper() == tag else 404)


@pytest.mark.parametrize("odd", ODD_QUERIES)
def test_what_the_page_does_not_know_of_changes_nothing(client, tag, odd):
    assert client.get(f"/items/{tag}/seen-before{odd}").status_code == 200
