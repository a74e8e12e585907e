"""What makes a table contradict itself; each is refused with the reason and the place."""

from time import process_time

import pytest

from tests.stamps.small_tables import hand, millimetres, prefix, run, serial, table
from yardapp.stamps.tables import (
    Also,
    Entry,
    FreeText,
    Holds,
    Lookup,
    Nothing,
    Number,
    Place,
    Run,
    Source,
    Special,
    Table,
    TableRefused,
    check,
    compile_table,
    shipped,
)


def said(*places, **more):
    return [problem.said for problem in check(table(*places, **more))]


def test_the_shipped_tables_are_sound():
    assert [check(one) for one in shipped()] == [()] * len(shipped())


def test_two_places_that_can_swallow_the_same_figures_are_refused_with_a_mark_that_shows_it():
    places = (millimetres(), Place("pitch", "digits", Number("mm"), shortest=2, longest=3), serial(2, 3))

    assert said(*places) == [
        "Places 2 and 3 (the pitch and the serial) can take the same characters: "
        "00000000 can be split as 000|000|00 or as 000|00|000."
    ]


def test_two_places_of_the_same_kind_are_no_contradiction_where_their_lengths_are_fixed():
    assert said(millimetres(), millimetres("pitch"), serial(4, 4)) == []


def test_an_optional_place_that_looks_like_the_next_is_refused():
    problems = check(
        table(
            prefix("H"),
            millimetres(),
            Place("bore", "digits", Number("mm"), shortest=2, longest=2, optional=True),
            serial(2, 4),
        )
    )

    assert [problem.place for problem in problems] == [3]
    assert "can take the same characters" in problems[0].said


def test_a_separator_between_keeps_them_apart():
    sizes = Place("pitch", "digits", Number("mm"), shortest=2, longest=3)

    assert said(millimetres(), sizes, serial(2, 3, separators=("-",))) == []
    assert said(millimetres(), sizes, serial(2, 3, separators=("-", ""))) != []


@pytest.mark.parametrize(
    ("meaning", "reason"),
    [
        (Run("C", 300, 20, "A", "", "mm"), "the run reaches no end: going on from C, A never comes"),
        (Run("A", 300, 20, "O", "IO", "mm"), "the run reaches no end: O is among the letters left out (IO)"),
        (Run("A", 300, 20, "7", "", "mm"), "`7` is no letter, so the run from A to 7 reaches no end"),
        (Run("A", 300, 0, "K", "", "mm"), "a run needs a step: with none, every letter would mean the same"),
        (Run("A", 100, -20, "K", "", "mm"), "at letter E the run says 20 mm, and a pitch lies from 30 to 12000 mm"),
        (Run("A", 300, 20, "K", "", "count"), "a pitch is told in mm or cm or m or in, not in `count`"),
        (
            Lookup((Entry("A", 300.0), Entry("a", 320.0)), "mm"),
            "code a stands twice in the list, for the same years; which is it?",
        ),
        (Lookup((Entry("A", "long"),), "mm"), "code A says `long`, and a pitch is a number"),
        (Lookup((Entry("AB", 300.0),), "mm"), "code AB has 2 characters, the place has 1"),
        (Lookup((Entry("7", 300.0),), "mm"), "code 7 is not written in letters"),
        (Lookup((Entry("A"),), "mm"), "code A has neither a value nor words"),
        (
            Lookup((Entry("A", 300.0, source=Source(certainty=1.2)),), "mm"),
            "code A: a certainty lies from 0 to 1, not 1.2",
        ),
        (Number("mm"), "a number is written in digits"),
        (FreeText(), "the pitch can't be free text: it is a figure that is compared with what was measured"),
    ],
)  # fmt: skip
def test_a_meaning_that_can_not_be_is_refused(meaning, reason):
    assert said(millimetres(), Place("pitch", "letters", meaning)) == [f"Place 2: {reason}."]


def test_one_code_may_stand_twice_for_years_that_do_not_meet():
    until = Entry("A", 300.0, holds=Holds(year_to=1973))
    since = Entry("A", 320.0, holds=Holds(year_from=1974))
    meets = Entry("A", 320.0, holds=Holds(year_from=1973))

    assert said(Place("pitch", "list", Lookup((until, since), "mm"))) == []
    assert said(Place("pitch", "list", Lookup((until, meets), "mm"))) != []


@pytest.mark.parametrize(
    ("place", "reason"),
    [
        (millimetres(figures=0), "it has at least one character; a place that may be missing is optional"),
        (serial(4, 3), "its longest, 3, is shorter than its shortest, 4"),
        (serial(3, 25), "a place has at most 24 characters"),
        (
            Place("diameter", "digits", Number("mm"), longest=1),
            "no number of 1 figures says a diameter: it would be 0 to 9 mm",
        ),
        (prefix(""), "it is a literal, but says not which"),
        (prefix("A?"), "a literal can't hold ? * [ ], which stand for what can't be read"),
        (Place("hand", "list", Lookup((Entry("R", "up"),))), "code R says `up`, and a hand is right or left"),
        (Place("hand", "list", Lookup(())), "it is one of a list, but the list is empty"),
        (
            Place("blades", "list", Lookup((Entry("A", 3.5),), "count")),
            "code A says 3.5, and a number of blades is a whole number",
        ),
        (Place("colour", "any", FreeText()), "a mark does not tell `colour`"),
        (Place("serial", "runes", FreeText()), "it can't be written as `runes`"),
        (serial(separators=("*",)), "`*` can't separate: ? * [ ] stand for what can't be read"),
        (
            Place("pitch", "digits", Number("mm"), shortest=3, longest=3, specials=(Special("000", ""),)),
            "special code 000 has no words",
        ),
        (
            Place("pitch", "list", Lookup((Entry("A", 300.0, also=(Also("pitch", 1.0, "mm"),)),), "mm")),
            "code A tells the pitch twice",
        ),
    ],
)  # fmt: skip
def test_a_place_that_can_not_be_is_refused(place, reason):
    assert f"Place 2: {reason}." in said(prefix("H"), place)


def test_a_table_says_each_figure_once_and_has_a_place_that_is_always_there():
    assert said(millimetres(), millimetres()) == ["Places 1 and 2 both tell the diameter; which of them is right?"]
    assert said(hand(optional=True)) == ["A table needs at least one place that is always there."]
    assert said() == ["A table needs at least one place that is always there."]
    assert said(*[Place("nothing", "digits", Nothing())] * 41) == ["A mark has at most 40 places, this one has 41."]
    assert [problem.said for problem in check(Table(" ", "", (millimetres(),)))] == [
        "A table belongs to a maker. Who struck these marks?"
    ]


def test_nothing_stands_before_the_first_place():
    assert said(millimetres(separators=("-",))) == [
        "Place 1: nothing stands before the first place, so it has no separator."
    ]


def test_a_table_with_a_contradiction_is_not_compiled():
    with pytest.raises(TableRefused, match="can take the same characters") as refused:
        compile_table(
            table(run(), Place("series", "letters", FreeText(), longest=3), Place("nothing", "letters", longest=2))
        )

    assert refused.value.problems[0].place == 2


def test_a_list_of_a_thousand_codes_is_checked_in_a_moment():
    codes = tuple(Entry(f"{number:04d}", 300.0 + number) for number in range(1000))
    began = process_time()

    problems = check(table(prefix("H"), Place("pitch", "list", Lookup(codes, "mm")), serial(separators=("-",))))

    assert problems == ()
    assert process_time() - began < 5
