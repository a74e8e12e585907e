"""Two people at one table: what only one changed is taken over, what both changed is asked."""

from dataclasses import replace

import pytest

from yardapp.marks import services
from yardapp.marks.merging import merged
from yardapp.marks.shaping import table_boxes, table_of
from yardapp.stamps.tables import Entry, Number, Place

BASE = next(table for table in services.examples() if table.maker == "Ombry & Thessel")
SIZE = Place("bore", "digits", Number("mm"), shortest=2, longest=2, separators=("-B",))


def with_place(table, at, **said):
    places = list(table.places)
    places[at] = replace(places[at], **said)
    return replace(table, places=tuple(places))


def with_meaning(table, at, **said):
    return with_place(table, at, meaning=replace(table.places[at].meaning, **said))


def with_codes(table, *codes):
    """The hand's list, place 4, with more codes."""
    entries = table.places[3].meaning.entries
    return with_meaning(table, 3, entries=(*entries, *codes))


def test_an_unedited_pair_is_the_table_itself():
    assert table_of(merged(BASE, BASE, BASE).boxes) == BASE
    assert table_of(table_boxes(BASE)) == BASE


def test_boxes_that_only_one_changed_are_taken_over():
    theirs = replace(with_meaning(BASE, 2, value=9.0), notes="rang again")
    mine = with_place(with_meaning(BASE, 2, step=2.0), 4, title="number of blades")

    found = merged(BASE, theirs, mine)

    assert found.clashes == ()
    assert table_of(found.boxes) == with_place(replace(with_meaning(theirs, 2, step=2.0)), 4, title="number of blades")


def test_a_box_that_both_changed_is_asked():
    found = merged(BASE, with_meaning(BASE, 2, value=9.0), with_meaning(BASE, 2, value=10.0))

    (clash,) = found.clashes
    assert (clash.box, clash.place, clash.theirs, clash.mine) == ("value", 2, "9", "10")


def test_a_box_that_both_changed_alike_is_not_asked():
    both = with_meaning(BASE, 2, value=9.0)

    assert merged(BASE, both, both).clashes == ()


def test_codes_that_each_wrote_into_one_list_all_stay():
    theirs = with_codes(BASE, Entry("S", "right", "starboard"))
    mine = with_codes(BASE, Entry("P", "left", "port"))

    found = merged(BASE, theirs, mine)

    codes = [one.code for one in table_of(found.boxes).places[3].meaning.entries]
    assert codes == [*(one.code for one in BASE.places[3].meaning.entries), "S", "P"]
    assert found.clashes == ()


def test_a_code_that_one_took_out_stays_out():
    first = BASE.places[3].meaning.entries[:1]
    theirs = with_codes(BASE, Entry("S", "right"))

    found = merged(BASE, theirs, with_meaning(BASE, 3, entries=first))

    assert [one.code for one in table_of(found.boxes).places[3].meaning.entries] == [first[0].code, "S"]


def test_a_code_that_both_changed_is_asked_with_the_rest_of_both_lists_on_either_side():
    theirs = with_codes(BASE, Entry("P", "left"), Entry("S", "right"))
    mine = with_codes(BASE, Entry("P", "right"), Entry("Q", "left"))

    (clash,) = merged(BASE, theirs, mine).clashes

    assert clash.box == "entries"
    assert clash.theirs.splitlines()[-3:] == ["P,left", "S,right", "Q,left"]
    assert clash.mine.splitlines()[-3:] == ["P,right", "S,right", "Q,left"]


@pytest.mark.parametrize("is_mine", [True, False])
def test_places_moved_by_one_are_edited_by_the_other_where_they_stand_now(is_mine):
    moved = replace(BASE, places=(*BASE.places[:2], BASE.places[3], BASE.places[2], *BASE.places[4:]))
    edited = with_meaning(BASE, 2, value=9.0)

    found = merged(BASE, *((edited, moved) if is_mine else (moved, edited)))

    assert not found.is_order_open
    assert [one.tells for one in table_of(found.boxes).places[2:4]] == ["hand", "pitch"]
    assert table_of(found.boxes).places[3].meaning.value == 9


def test_a_place_added_by_one_stands_beside_the_other_s_edit():
    added = replace(BASE, places=(*BASE.places, SIZE))

    found = merged(BASE, added, with_meaning(BASE, 2, value=9.0))

    assert table_of(found.boxes) == with_meaning(added, 2, value=9.0)


def test_where_both_moved_places_somebody_says_whose_order_holds():
    theirs, mine = replace(BASE, places=(*BASE.places, SIZE)), replace(BASE, places=BASE.places[:-1])

    assert merged(BASE, theirs, mine).is_order_open
    assert table_of(merged(BASE, theirs, mine, "theirs").boxes) == theirs
    assert table_of(merged(BASE, theirs, mine, "mine").boxes) == mine


def test_a_place_taken_out_by_one_and_edited_by_the_other_is_never_dropped_unasked():
    shorter, edited = replace(BASE, places=BASE.places[:-1]), with_place(BASE, 5, title="serial number")

    assert merged(BASE, shorter, edited).is_order_open
    assert merged(BASE, edited, shorter).is_order_open
