import pytest
from sqlalchemy import func, select

from tests.factories.coating import coat_whole, make_job
from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.coating.models import Rating
from yardapp.db import snapshot, transaction
from yardapp.errors import NotFound, Refused


@pytest.fixture
def rated(register, clock):
    """A bracket that went into the water and was found bare 200 days later; the number of that rating."""
    with transaction() as session:
        job = make_job(session)
        coat_whole(session, job, clock)
        clock.later(days=2)
        coating.act(session, make_who(session), job.id, coating.Tap(kind="launched"))
        clock.later(days=200)
        (row,) = coating.rate(session, make_who(session), 1, {None: "coating gone"}, note="in a hurry")
        return row.id


def history(session):
    return coating.history_of_piece(session, make_who(session), 1).rows[0]


def test_a_rating_is_put_right_by_a_new_row_and_the_old_one_stays(rated):
    with transaction() as session:
        coating.correct_rating(session, make_who(session), rated, word="shell few", why="It was the neighbour's.")
    with snapshot() as session:
        row = history(session)
        count = session.scalar(select(func.count(Rating.id)))

    assert [one.word for one in row.ratings] == ["shell few"]
    assert [(wrong.word, right.why) for wrong, right in row.crossed_out] == [
        ("coating gone", "It was the neighbour's.")
    ]
    assert count == 2


def test_a_coat_that_was_found_gone_by_mistake_lives_on(rated):
    with snapshot() as session:
        assert history(session).ended is not None
    with transaction() as session:
        coating.correct_rating(session, make_who(session), rated, word="weed", why="It was the neighbour's.")
    with snapshot() as session:
        assert history(session).ended is None


@pytest.mark.parametrize(("said", "argument"), [({"why": " "}, "why"), ({"word": "shiny"}, "")])
def test_a_correction_without_a_reason_or_off_the_scale_is_refused(rated, said, argument):
    with transaction() as session, pytest.raises(Refused) as refusal:
        coating.correct_rating(session, make_who(session), rated, **{"word": "weed", "why": "wrong boat", **said})

    assert refusal.value.argument == argument


def test_a_rating_is_put_right_once(rated):
    with transaction() as session:
        coating.correct_rating(session, make_who(session), rated, word="weed", why="wrong boat")
    with transaction() as session, pytest.raises(NotFound):
        coating.correct_rating(session, make_who(session), rated, word="slime", why="wrong again")


def test_the_page_puts_a_rating_right_and_strikes_the_old_one_through(rated, client, fetch):
    text = fetch(f"/coating/ratings/{rated}/correct")
    assert 'value="in a hurry"' in text

    refused = client.send(f"/coating/ratings/{rated}/correct", word="weed")
    assert refused.status_code == 422
    assert "Say why" in refused.text

    once = {"word": "weed", "why": "It was the neighbour's.", "once": "once-and-again"}
    answer = client.send(f"/coating/ratings/{rated}/correct", **once)
    assert answer.status_code == 303
    assert client.send(f"/coating/ratings/{rated}/correct", **once).status_code == 303  # a weak network sends twice
    text = fetch("/coating/pieces/1", queries=4)
    assert '<s class="history-event-replaced">coating gone</s>' in text
    assert "It was the neighbour&#39;s." in text
    assert client.get(f"/coating/ratings/{rated}/correct").status_code == 404
