"""Whatever stands in an address: a timeline answers with a page or with a clear sentence."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import now, transaction
from yardapp.gear import services as gear

TIMES = "A day in the years 1800 to 2200, please."
DAYS = st.one_of(
    st.dates().map(str),
    st.sampled_from(["0001-01-01", "9999-12-31", "0000-00-00", "2026-02-30", "soon", "%", "_", "'", "\x00", "²"]),
)
KEYS = st.builds("~".join, st.lists(st.one_of(DAYS, st.text(max_size=8)), max_size=4)) | st.builds(
    "{}~{}~{}".format,
    st.datetimes(timezones=st.timezones() | st.none()).map(lambda one: one.isoformat()),
    st.sampled_from(["moved", "worked", "zzz", "%", ""]),
    st.integers(min_value=-1, max_value=10**30),
)
GROUPS = st.sampled_from(["", "moves", "work", "boat", "launch", "coating", "100%", "a_b", "\x00"]) | st.text(
    max_size=9
)


@pytest.fixture
def pages(client):
    """The timeline of a thing, of a boat, of a drive and of a person."""
    with transaction() as session:
        boat = make_vessel(session)
        drive, item, who = make_drive(session, boat), make_propeller(session), make_who(session)
        gear.move_item(session, who, item.tag, "went on", drive_id=drive.id, at=now())
        return {
            "item": f"/items/{item.tag}/timeline",
            "boat": f"/boats/{boat.id}/timeline",
            "drive": f"/drives/{drive.id}/timeline",
            "person": f"/people/yard/{who.person_id}/timeline",
            "day": f"/boats/{boat.id}/aboard",
        }


WHATS = ["item", "boat", "drive", "person"]


@pytest.mark.parametrize("what", WHATS)
@pytest.mark.parametrize("name", ["since", "until"])
@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_a_day_at_the_end_of_the_calendar_is_refused_in_a_sentence(client, pages, what, name, day):
    answer = client.get(pages[what], query_string={name: day})

    assert answer.status_code == 422
    assert TIMES in answer.text


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_what_was_on_her_is_asked_for_days_of_these_times(client, pages, day):
    answer = client.get(pages["day"], query_string={"day": day})

    assert answer.status_code == 422
    assert TIMES in answer.text


@pytest.mark.parametrize("what", WHATS)
def test_days_that_run_backwards_are_told_so(client, pages, what):
    answer = client.get(pages[what], query_string={"since": "2026-03-02", "until": "2026-03-01"})

    assert answer.status_code == 422
    assert "The last day is before the first one" in answer.text
    assert client.get(pages[what], query_string={"since": "2026-03-01", "until": "2026-03-01"}).status_code == 200


@pytest.mark.parametrize("what", WHATS)
@pytest.mark.parametrize("group", ["weddings", "100%", "a_b"])
def test_a_kind_that_a_timeline_does_not_have_is_told_so(client, pages, what, group):
    answer = client.get(pages[what], query_string={"group": group})

    assert answer.status_code == 422
    assert "There is no such kind here" in answer.text


@pytest.mark.parametrize(
    "after",
    [
        "0001-01-01T00:00:00+14:00~moved~1",
        "9999-12-31T23:59:59-14:00~moved~1",
        f"2026-01-01T00:00:00+00:00~moved~{9**40}",
    ],
)
@pytest.mark.parametrize("what", WHATS)
def test_a_page_that_cannot_be_the_one_before_is_passed_over(client, pages, what, after):
    assert client.get(pages[what], query_string={"after": after}).status_code == 200


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(what=st.sampled_from(WHATS), group=GROUPS, since=DAYS, until=DAYS, after=KEYS)
def test_no_filter_at_all_breaks_a_timeline(client, pages, what, group, since, until, after):
    asked = {"group": group, "since": since, "until": until, "after": after}

    assert client.get(pages[what], query_string=asked).status_code in (200, 404, 422)


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(day=DAYS | st.text(max_size=12))
def test_no_day_at_all_breaks_what_was_on_her(client, pages, day):
    assert client.get(pages["day"], query_string={"day": day}).status_code in (200, 404, 422)
