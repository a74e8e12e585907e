from datetime import date

import pytest
from sqlalchemy import select

from tests.factories.coating import COAT_1, make_job, make_system, mix, read_weather, tap
from tests.factories.people import make_who
from yardapp.coating import services as coating
from yardapp.coating.models import StockMove, Tin
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused

ML = 1e-6


@pytest.fixture
def job(register, clock):
    """A job, and stock for it: a tin of base, one of hardener, one of clear coat."""
    with transaction() as session:
        who = make_who(session)
        for product, part, batch, volume in (
            ("Primer", "Base", "B7", 400), ("Primer", "Hardener", "H2", 60), ("Clear", "", "C1", 250),
        ):  # fmt: skip
            said = {"product": product, "part": part, "batch": batch, "volume_m3": volume * ML}
            coating.add_tin(session, who, said | {"volume_m3_typed": f"{volume} ml", "expires_on": date(2027, 1, 1)})
        made = make_job(session, system_id=make_system(session))
        read_weather(session, made.id)
        return made.id


def left():
    """What each tin holds, in millilitres; and the same as its rows add up."""
    with snapshot() as session:
        tins = {tin.batch: tin for tin in session.scalars(select(Tin))}
        rows = session.execute(select(StockMove.tin_id, StockMove.volume_m3)).all()
    for tin in tins.values():
        assert sum(volume for tin_id, volume in rows if tin_id == tin.id) == pytest.approx(tin.volume_m3, abs=1e-12)
    return {batch: round(tin.volume_m3 / ML, 3) for batch, tin in tins.items()}


def test_mixing_takes_each_part_from_its_tin_and_notes_the_batches(job):
    with transaction() as session:
        act = mix(session, job, volume_m3=100 * ML)

    # Four of base to one of hardener.
    assert left() == {"B7": 320, "H2": 40, "C1": 250}
    assert act.figures["batch"] == "B7 / H2"
    with snapshot() as session:
        assert session.scalars(select(Tin.opened_on).where(Tin.batch == "B7")).one() == date(2026, 5, 4)


def test_what_stock_lacks_is_noted_and_an_empty_tin_is_gone(job):
    with transaction() as session:
        act = mix(session, job, volume_m3=400 * ML)

    # 320 of base; 80 of hardener are asked for, 60 are there.
    assert left() == {"B7": 80, "H2": 0, "C1": 250}
    assert act.figures["short_m3"] == {"Hardener": pytest.approx(20 * ML)}
    with snapshot() as session:
        assert session.scalars(select(Tin.batch).where(Tin.is_gone)).all() == ["H2"]


def test_mixing_that_is_undone_has_taken_nothing(job):
    with transaction() as session:
        act = mix(session, job, volume_m3=100 * ML)
        coating.undo(session, make_who(session), act.id)

    assert left() == {"B7": 400, "H2": 60, "C1": 250}


def test_mixing_that_is_put_right_takes_the_right_amount(job):
    with transaction() as session:
        act = mix(session, job)  # nobody said how much: nothing is taken
        coating.correct_step(
            session,
            make_who(session),
            act.id,
            at=None,
            why="Weighed it afterwards.",
            figures={"product": "Primer", "volume_m3": 50 * ML},
        )

    assert left() == {"B7": 360, "H2": 50, "C1": 250}


def left_over(session, job, product, volume, fate):
    figures = {"product": product, "volume_m3": volume * ML, "fate": fate}
    return tap(session, job, "left over", figures=figures)


def test_a_rest_of_one_part_goes_back_into_its_tin_and_no_more_than_came_out(job):
    with transaction() as session:
        mix(session, job, "Clear", volume_m3=100 * ML)
    with transaction() as session, pytest.raises(Refused, match="more than was taken"):
        left_over(session, job, "Clear", 101, "back in its tin")
    with transaction() as session:
        left_over(session, job, "Clear", 30, "back in its tin")

    assert left()["C1"] == 180


def test_a_rest_that_was_mixed_of_two_parts_never_goes_back(job):
    with transaction() as session:
        mix(session, job, volume_m3=100 * ML)
    with transaction() as session, pytest.raises(Refused, match="in its tin it would set"):
        left_over(session, job, "Primer", 30, "back in its tin")


def test_a_rest_that_is_thrown_out_stays_out_of_the_tin(job):
    with transaction() as session:
        mix(session, job, volume_m3=100 * ML)
        left_over(session, job, "Primer", 30, "thrown out")

    assert left()["B7"] == 320


def test_a_tin_past_its_date_is_taken_only_when_its_batch_is_named(job):
    with transaction() as session:
        said = {"product": "Clear", "batch": "OLD", "volume_m3": 250 * ML, "expires_on": date(2026, 1, 1)}
        coating.add_tin(session, make_who(session), said)
        plain = mix(session, job, "Clear", volume_m3=10 * ML)
        named = mix(session, job, "Clear", volume_m3=10 * ML, batch="OLD")

    assert [take["batch"] for take in plain.figures["takes"]] == ["C1"]
    assert [(take["batch"], take["is_past"]) for take in named.figures["takes"]] == [("OLD", True)]


def test_what_is_in_a_tin_is_counted_and_its_rows_say_what_happened(job):
    with transaction() as session:
        who = make_who(session)
        mix(session, job, "Clear", volume_m3=100 * ML)
        tin = session.scalars(select(Tin).where(Tin.batch == "C1")).one()
        said = {"product": "Clear", "batch": "C1", "volume_m3": 140 * ML, "volume_m3_typed": "140 ml"}
        coating.change_tin(session, who, tin.id, tin.version, said)
        rows = coating.moves_of(session, who, tin.id)

    assert left()["C1"] == 140
    assert [(row.kind, round(row.volume_m3 / ML)) for row in rows] == [
        ("counted", -10),
        ("taken", -100),
        ("put in stock", 250),
    ]


def test_a_coat_after_mixing_leaves_the_stock_alone(job):
    with transaction() as session:
        mix(session, job, volume_m3=100 * ML)
        tap(session, job, "started", "1", COAT_1)
        tap(session, job, "done", "1", COAT_1)

    assert left() == {"B7": 320, "H2": 40, "C1": 250}
