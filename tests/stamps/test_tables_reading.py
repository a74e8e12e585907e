"""How marks are read: wildcards, confusions, rank. Expectations are counted or worked by hand beside each."""

import itertools
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.stamps.small_tables import hand, millimetres, prefix, run, serial, table
from yardapp.stamps.tables import (
    Entry,
    Holds,
    Lookup,
    MarkRefused,
    Measured,
    Place,
    Source,
    Special,
    read,
    reread,
    shelf_of,
)

PLAIN = table(prefix("HP"), millimetres(), run(), hand(), serial(separators=("-", "")))
SHELF = shelf_of([PLAIN])
# A table so small that all its marks can be listed: 2 x 4 x 3 = 24, some with a confusable pair, some optional.
PITCHES = (Entry("S1", 300.0), Entry("5I", 320.0), Entry("K", 340.0), Entry("K9", 360.0))
SMALL = table(
    Place("series", "list", Lookup((Entry("B", "one"), Entry("8", "two")))),
    Place("pitch", "list", Lookup(PITCHES, "mm")),
    hand(optional=True, separators=("-",)),
)  # fmt: skip
SMALL_SHELF = shelf_of([SMALL])
SMALL_MARKS = [
    one + two + three
    for one, two, three in itertools.product(("B", "8"), ("S1", "5I", "K", "K9"), ("", "-R", "-L"))
]  # fmt: skip


def marks(seen, shelf=SHELF, measured=None):
    return [reading.mark for reading in read(seen, shelf, measured).found]


def test_a_whole_mark_says_what_each_place_says():
    (reading,) = read("HP560MR-1234", SHELF).found

    # M is the 12th letter without I: 300 + 11 x 20 = 520 mm.
    assert reading.figures == {"diameter_m": 0.56, "pitch_m": 0.52, "hand": "right", "serial": "1234"}
    assert reading.why == (
        "place 2, `560`: the diameter is 560 mm",
        "place 3, `M`: the pitch is 520 mm",
        "place 4, `R`: the hand is right",
        "place 5, `1234`: the serial is 1234",
    )


@pytest.mark.parametrize("seen", ["hp560mr-1234", " HP 560 M R-1234 ", "HP 56 0MR 12 34", "H.P.560MR-1234"])
def test_case_spaces_and_dots_are_forgiven(seen):
    assert read(seen, SHELF).best.figures["serial"] == "1234"


def test_one_unreadable_character_makes_a_reading_for_each_thing_it_may_be():
    assert marks("HP56?MR-1234") == [f"HP56{figure}MR-1234" for figure in "0123456789"]
    assert marks("HP560M?-1234") == ["HP560ML-1234", "HP560MR-1234"]


def test_an_unreadable_character_of_a_serial_number_makes_no_more_readings():
    assert marks("HP560MR-12?4") == ["HP560MR-12?4"]
    assert "serial" not in read("HP560MR-12?4", SHELF).best.figures


def test_a_choice_is_only_what_it_says():
    assert marks("HP[58]60MR-1234") == ["HP560MR-1234", "HP860MR-1234"]
    assert marks("HP[5 or 8]60MR-1234") == ["HP560MR-1234", "HP860MR-1234"]


def test_an_unknown_run_may_be_nothing_or_much():
    assert marks("HP560*MR-1234") == ["HP560MR-1234"]
    assert marks("*560MR-1234") == ["HP560MR-1234"]
    assert read("HP*R-1234", SHELF).count == 1000 * 25  # 000 to 999 counted as they are; 24 letters, I and O as one


def test_a_common_confusion_is_a_reading_of_lower_rank():
    both = table(Place("series", "list", Lookup((Entry("B", "one"), Entry("8", "two")))), maker="Quillby")

    sure, confused = read("8", shelf_of([both])).found

    assert (sure.mark, sure.confused) == ("8", ())
    assert (confused.mark, confused.confused) == ("B", ("8 read as B",))
    assert sure.score - confused.score == pytest.approx(3.0)


def test_confusions_are_told_in_words_also_beside_wildcards():
    (reading,) = read("HPS6?MR-12*", SHELF, {"diameter_m": Measured(0.563, 1e-5)}).found[:1]

    assert reading.confused == ("S read as 5",)
    assert reading.mark == "HP563MR-*"


def test_the_better_known_table_ranks_first():
    unsure = table(*PLAIN.places, maker="Quillby", certainty=0.3)

    found = read("HP560MR-1234", shelf_of([unsure, PLAIN])).found

    assert [reading.table.maker for reading in found] == ["Ombry", "Quillby"]
    # Both match alike: the scores differ by the logarithm of 0.9 over 0.3.
    assert found[0].score - found[1].score == pytest.approx(math.log(3))


def test_an_entry_of_its_own_certainty_ranks_by_it():
    codes = Lookup((Entry("A", 300.0, source=Source(certainty=0.2)), Entry("C", 320.0)), "mm")

    found = read("?", shelf_of([table(Place("pitch", "list", codes))])).found

    assert [reading.mark for reading in found] == ["C", "A"]
    assert found[0].score - found[1].score == pytest.approx(math.log(5))


def test_the_score_is_the_normal_density_of_what_was_measured():
    (reading,) = read("HP560MR-1234", SHELF, {"diameter_m": Measured(0.562, 0.001)}).found

    # u_c^2 = 1^2 + 1^2/12 mm^2; z = 2 / u_c; ln L = -z^2/2 - ln(u_c / 1) = -1.84615 - 0.04002
    assert dict(reading.parts)["diameter_m"] == pytest.approx(-1.88617, abs=1e-5)
    assert reading.score == pytest.approx(math.log(0.9) - 1.88617, abs=1e-5)


def test_the_parts_of_a_score_add_up_to_it():
    measured = {"diameter_m": Measured(0.562, 0.001), "bore_m": Measured(0.04, 0.0001), "hand": "left", "blades": 4}

    for seen in ("HP5?0MR-1234", "HPS60*", "HP560MR-1234"):
        for reading in read(seen, SHELF, measured).found:
            assert sum(log for _, log in reading.parts) == pytest.approx(reading.score, abs=1e-9)


def test_the_tape_rules_out_what_lies_beyond_three_combined_uncertainties():
    # u_c = hypot(10, 1/sqrt(12)) = 10.004 mm: 500 and 590 are doubted beyond 20 mm, ruled out beyond 30.
    readings = read("HP5?0MR-1234", SHELF, {"diameter_m": Measured(0.540, 0.010)})

    by_mark = {reading.mark[2:5]: (bool(reading.ruled_out), bool(reading.doubted)) for reading in readings.found}
    assert by_mark["540"] == by_mark["520"] == by_mark["560"] == (False, False)
    assert by_mark["510"] == by_mark["570"] == (False, True)
    assert by_mark["500"] == by_mark["580"] == by_mark["590"] == (True, False)
    assert readings.said == "the tape rules out 3 of 10"
    assert readings.best.mark == "HP540MR-1234"


def test_the_other_hand_is_ruled_out():
    readings = read("HP560M?-1234", SHELF, {"hand": "left"})

    assert [(reading.figures["hand"], reading.ruled_out) for reading in readings.found] == [
        ("left", ()),
        ("right", ("hand",)),
    ]


def test_a_reading_that_says_nothing_of_a_measured_size_ranks_below_one_that_agrees_and_above_one_that_does_not():
    silent = table(prefix("HP"), serial(3, 3), run(), hand(), serial(3, 5, separators=("-",)), maker="Quillby")
    shelf = shelf_of([PLAIN, silent])

    agrees = read("HP560MR-1234", shelf, {"diameter_m": Measured(0.56, 0.001)})
    differs = read("HP560MR-1234", shelf, {"diameter_m": Measured(0.50, 0.001)})

    assert [reading.table.maker for reading in agrees.found] == ["Ombry", "Quillby"]
    assert [reading.table.maker for reading in differs.found] == ["Quillby", "Ombry"]


def test_what_is_not_known_does_not_rank():
    unknown = {"diameter_m": Measured(math.nan, 0.001), "pitch_m": Measured(0.5, math.nan), "colour": "red"}

    assert read("HP560MR-1234", SHELF, unknown) == read("HP560MR-1234", SHELF)


def test_a_special_word_wins_over_the_number():
    special = millimetres("pitch", specials=(Special("000", "not standard"),))
    shelf = shelf_of([table(prefix("H"), special)])

    assert read("H000", shelf).best.words == {"pitch": "not standard"}
    assert read("H450", shelf).best.figures == {"pitch_m": 0.45}


def test_a_year_outside_a_code_s_years_is_said_and_costs_rank():
    codes = Lookup((Entry("A", 300.0, holds=Holds(1960, 1973)), Entry("A", 320.0, holds=Holds(1974, None))), "mm")
    shelf = shelf_of([table(Place("pitch", "list", codes))])

    found = read("A", shelf, {"year": 1980}).found

    assert [reading.figures["pitch_m"] for reading in found] == [0.32, 0.3]
    assert found[1].outside == ("this meaning of `A` at place 1 holds from 1960 to 1973; this one is of 1980",)
    assert found[0].score - found[1].score == pytest.approx(3.0)


@pytest.mark.parametrize("seen", ["", "  ", "[", "8]", "[]", "?" * 81, "A" * 500, '"', "[*]"])
def test_what_is_no_mark_is_refused_in_words(seen):
    with pytest.raises(MarkRefused) as refused:
        read(seen, SHELF)

    assert refused.value.said.endswith(".")


def test_re_reading_refuses_none_of_the_register():
    first, second = reread(["[", "HP560MR-1234"], SHELF)

    assert (first.count, first.said) == (0, "A [ needs its ], as in [B8] for B or 8.")
    assert second.best.mark == "HP560MR-1234"


def test_a_mark_of_nothing_but_wildcards_says_that_too_little_is_legible():
    readings = read("********", SHELF)

    assert readings.too_little
    assert re.fullmatch(r"too little is legible: \d+ or more readings", readings.said)
    assert len(readings.found) <= 200


def test_a_digest_tells_whether_an_edit_changes_what_a_mark_says():
    edited = table(prefix("HP"), millimetres(), run(step=25.0), hand(), serial(separators=("-", "")))

    before, after = read("HP560MR-1234", SHELF), read("HP560MR-1234", shelf_of([edited]))
    first, also_first = read("HP560AR-1234", SHELF), read("HP560AR-1234", shelf_of([edited]))

    assert before.digest != after.digest
    assert first.digest == also_first.digest


worn = st.lists(
    st.sampled_from(["B", "8", "S", "5", "1", "I", "K", "9", "-", "R", "L", "?", "*", "[B8]", "[KS]"]),
    min_size=1,
    max_size=7,
).map("".join)


@given(worn)
def test_a_worn_mark_has_exactly_the_readings_that_listing_every_mark_finds(seen):
    # The oracle: every mark of the small table, tried with the pattern as an ordinary regular expression.
    pattern = re.compile(seen.replace("?", ".").replace("*", ".*"))
    listed = {mark for mark in SMALL_MARKS if pattern.fullmatch(mark)}

    readings = read(seen, SMALL_SHELF)

    assert {reading.mark for reading in readings.found if not reading.confusion_count} == listed
    assert len(readings.found) == readings.count


ALIKE = {"8": "8B", "B": "8B", "5": "5S", "S": "5S", "1": "1I", "I": "1I"}


@given(st.sampled_from(SMALL_MARKS), st.data())
def test_confusions_offer_every_mark_that_looks_alike_by_two_characters_at_most(mark, data):
    seen = "".join(data.draw(st.sampled_from(ALIKE.get(one, one))) for one in mark)
    apart = {
        other: sum(one != two for one, two in zip(seen, other, strict=True))
        for other in SMALL_MARKS
        if len(other) == len(seen) and all(two in ALIKE.get(one, one) for one, two in zip(seen, other, strict=True))
    }

    found = {reading.mark: reading.confusion_count for reading in read(seen, SMALL_SHELF).found}

    assert found == {other: count for other, count in apart.items() if count <= 2}


@given(st.sampled_from(["HP560MR-1234", "HP56OMR1234", "HP5S0LR-123", "HPB60IR12345", "HP560R-1234", "HS60MR-123"]))
def test_expression_splits_and_walk_read_alike(seen):
    split = shelf_of([PLAIN])
    split.compiled[0].regex = None

    by_expression, by_splits, by_walk = read(seen, SHELF), read(seen, split), read(f"[{seen[0]}]{seen[1:]}", SHELF)

    assert by_walk.digest == by_splits.digest == by_expression.digest
    assert [one.score for one in by_walk.found] == pytest.approx([one.score for one in by_expression.found])
