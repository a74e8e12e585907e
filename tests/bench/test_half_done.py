from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from tests.factories.bench import make_pitch_sheet
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.bench import services as bench
from yardapp.db import Register, snapshot, transaction
from yardapp.errors import NotAllowed, NotFound, Refused


@pytest.fixture
def begun(register):
    """A survey that Ada Brook began, and its number."""
    with transaction() as session:
        tag = make_propeller(session).tag
        return bench.begin_sheet(session, make_who(session), tag, "survey", {"blades": "3", "note": ""}).id


def write(number, seen, name="Ada Brook", **boxes):
    with transaction() as session:
        half, since = bench.write_boxes(session, make_who(session, name=name), number, boxes, seen)
        return half.version, {box.name: box.typed for box in since}


def stands(number):
    with snapshot() as session:
        return bench.in_writing(session, make_who(session), number)


def test_a_begun_sheet_says_whose_it_is_and_what_stands_in_it(begun):
    found = stands(begun)

    assert (found.row.said_by, found.row.version, found.typed) == ("Ada Brook", 1, {"blades": "3"})


def test_two_people_filling_one_sheet_lose_nothing(begun):
    # Both opened it at version 1, and write at the same time.
    write(begun, 1, **{"h-1-0.7-1": "12.1", "h-1-0.7-2": "18.3"})
    version, since = write(begun, 1, name="Finn Marsh", **{"h-2-0.7-1": "12.4", "h-1-0.7-1": ""})

    assert version == 4
    # Finn left blade 1 as he had seen it, empty: that takes nothing away from what Ada wrote since.
    assert stands(begun).typed == {"blades": "3", "h-1-0.7-1": "12.1", "h-1-0.7-2": "18.3", "h-2-0.7-1": "12.4"}
    assert since == {"h-1-0.7-1": "12.1", "h-1-0.7-2": "18.3", "h-2-0.7-1": "12.4"}
    assert stands(begun).writers == ["Ada Brook", "Finn Marsh"]


def test_the_last_writer_of_a_box_has_it_and_the_first_is_still_in_the_log(begun):
    write(begun, 1, a="12.1")
    write(begun, 1, name="Finn Marsh", a="12.4")

    assert stands(begun).typed["a"] == "12.4"
    assert [box.typed for box in stands(begun).log if box.name == "a"] == ["12.1", "12.4"]


def test_a_retry_writes_nothing_twice(begun):
    write(begun, 1, a="12.1")
    version, _ = write(begun, 1, a="12.1")

    assert version == 2


def test_an_emptied_box_is_empty(begun):
    write(begun, 1, a="12.1")
    write(begun, 2, a="")

    assert stands(begun).typed["a"] == ""


def test_a_dropped_sheet_takes_nothing_until_it_is_taken_up_again(begun):
    with transaction() as session:
        bench.drop_sheet(session, make_who(session), begun)

    with pytest.raises(Refused, match="dropped"):
        write(begun, 1, a="12.1")
    with snapshot() as session:
        assert bench.sheets_in_writing(session, make_who(session)) == []
    with transaction() as session:
        bench.drop_sheet(session, make_who(session), begun, is_dropped=False)
    assert write(begun, 1, a="12.1")[0] == 2


def test_a_sheet_that_was_kept_takes_nothing_more(begun):
    with transaction() as session:
        found = bench.in_writing(session, make_who(session), begun)
        bench.finish_sheet(session, found.row, make_pitch_sheet(session, found.item.tag).id)

    with pytest.raises(Refused, match="kept already"):
        write(begun, 1, a="12.1")
    with transaction() as session, pytest.raises(Refused, match="kept already"):
        bench.drop_sheet(session, make_who(session), begun)


def test_the_sheets_in_the_writing_are_listed_newest_first(begun):
    with transaction() as session:
        other = make_propeller(session).tag
        second = bench.begin_sheet(session, make_who(session), other, "survey", {}).id
    write(begun, 1, a="1")

    with snapshot() as session:
        who = make_who(session)
        assert [one.row.id for one in bench.sheets_in_writing(session, who)] == [begun, second]
        assert [one.row.id for one in bench.sheets_in_writing(session, who, other.lower())] == [second]


@pytest.mark.parametrize("boxes", [{"a": "x" * 301}, {"n" * 61: "1"}])
def test_a_text_too_long_is_refused(begun, boxes):
    with pytest.raises(Refused):
        write(begun, 1, **boxes)


def test_owners_write_on_no_sheet(begun):
    with transaction() as session:
        owner = make_who(session, name="R. Thorne", role="owner")

        with pytest.raises(NotAllowed):
            bench.write_boxes(session, owner, begun, {"a": "1"}, 1)
        with pytest.raises(NotAllowed):
            bench.in_writing(session, owner, begun)
        assert bench.sheets_in_writing(session, owner) == []


def test_a_number_that_no_sheet_has_is_not_found(begun):
    with pytest.raises(NotFound):
        stands(begun + 1)
    with pytest.raises(NotFound):
        write(begun + 1, 0, a="1")


def test_what_was_written_can_not_be_altered(begun):
    with pytest.raises(DBAPIError, match="history stays"), Register.writing.begin() as connection:
        connection.execute(text("UPDATE bench_half_done_box SET typed = '4'"))


def test_many_hands_writing_at_once_lose_no_box(begun):
    for blade in range(4):
        write(begun, 1, name=f"Hand {blade}")

    def fill(blade):
        for station in range(10):
            write(begun, 1, name=f"Hand {blade}", **{f"h-{blade}-0.7-{station}": str(station)})

    with ThreadPoolExecutor(4) as hands:
        list(hands.map(fill, range(4)))

    found = stands(begun)
    assert len(found.typed) == 41
    assert [box.number for box in found.log] == list(range(1, 42))
