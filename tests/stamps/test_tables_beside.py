"""Two marks on one hub, what a maker would stamp, what measured propellers teach, and what differs between versions."""

from dataclasses import replace

import pytest

from tests.stamps.small_tables import HANDS, hand, millimetres, prefix, run, serial, table
from yardapp.stamps.tables import (
    Change,
    Entry,
    Lookup,
    Measured,
    Number,
    Observation,
    OnHub,
    Place,
    Source,
    Special,
    changes,
    combine,
    compile_table,
    learn,
    read,
    reverse,
    shelf_of,
    shipped,
)

BY_TITLE = {one.name: one for one in shipped()}
SHELF = shelf_of(shipped())
OMBRY, KRAVELUND, PUMBLEWICK = (
    compile_table(BY_TITLE[name])
    for name in ("Ombry & Thessel, hub code", "Kravelund Skruer, metric mark", "Pumblewick Brass, pattern number")
)


# The marks of one hub


def together(*marks, struck=("", "", "")):
    return combine(*(OnHub(read(mark, SHELF), said) for mark, said in zip(marks, struck, strict=False)))[0]


def test_a_shop_s_stamp_is_newer_than_the_maker_s_and_its_pitch_holds():
    found = together("OT22KR4-10234", "RP 22 x 16 84")

    assert found.figures["pitch_m"] == pytest.approx(0.4064)  # 16 in
    assert found.figures["hand"] == "right"
    (conflict,) = found.conflicts
    # K is the 10th letter from A = 8 in without I: 17 in = 431.8 mm.
    assert conflict.said == (
        "OT22KR4-10234 says the pitch is 431.8 mm, RP 22 x 16 84 says 406.4 mm; "
        "RP 22 x 16 84 is newer: a shop's stamp is later than the maker's"
    )


def test_two_marks_that_agree_have_no_conflict():
    found = together("OT22KR4-10234", "22 x 17 RH")

    assert found.conflicts == ()
    assert found.readings[1].table.title == "inches"


def test_the_marks_choose_each_other_s_readings():
    # 56 x 46 is inches by rank alone; beside a metric mark it is centimetres.
    alone = read("56 x 46", SHELF).best
    found = together("K560-460H-71", "56 x 46")

    assert (alone.table.title, found.readings[1].table.title) == ("inches", "centimetres")


def test_a_conflict_without_a_newer_mark_leaves_the_figure_open():
    found = together("OT22KR4-10234", "22 x 16 RH")

    assert "pitch_m" not in found.figures
    assert found.conflicts[0].said.endswith("which is newer is not known")


def test_a_common_confusion_does_not_hide_a_conflict():
    # L read as I would leave the pitch open, for I is left out of the run; L as it stands is 18 in.
    found = together("OT22LR3-41877", "22 x 16 RH")

    assert found.readings[0].mark == "OT22LR3-41877"
    assert [one.figure for one in found.conflicts] == ["pitch_m"]


@pytest.mark.parametrize(
    ("struck", "newer", "pitch_m"),
    [
        (("", "later"), "22 x 16 RH", 0.4064),  # 16 in
        (("first", "later"), "22 x 16 RH", 0.4064),
        (("later", ""), "OT22KR4-10234", 0.4318),  # K is 17 in
    ],
)
def test_what_was_seen_on_the_hub_says_which_is_newer(struck, newer, pitch_m):
    found = together("OT22KR4-10234", "22 x 16 RH", struck=struck)

    assert found.conflicts[0].said.endswith(f"{newer} is newer: so it was seen on the hub")
    assert found.figures["pitch_m"] == pytest.approx(pitch_m)


def test_what_was_seen_on_the_hub_goes_before_what_a_table_says_of_its_marks():
    found = together("OT22KR4-10234", "RP 22 x 16 84", struck=("later", "first"))

    assert found.figures["pitch_m"] == pytest.approx(0.4318)  # K is 17 in


def test_years_on_two_marks_say_which_is_newer():
    found = together("K560-460H-71", "PB422SK/78")

    assert {(one.figure, one.newer) for one in found.conflicts} == {("pitch_m", "PB422SK/78")}
    assert found.conflicts[0].said.endswith("PB422SK/78 is newer: 1978 is on it")


def test_three_marks_of_one_hub_are_read_together():
    # The maker's 17 in, a shop's 16 in in 1984 and another shop's 15 in in 1991: the last one holds.
    found = together("OT22KR4-10234", "RP 22 x 16 84", "RP 22 x 15 91")

    assert len(found.readings) == 3
    assert found.figures["pitch_m"] == pytest.approx(0.381)  # 15 in
    assert [(one.first, one.newer) for one in found.conflicts] == [
        ("OT22KR4-10234", "RP 22 x 16 84"),
        ("OT22KR4-10234", "RP 22 x 15 91"),
        ("RP 22 x 16 84", "RP 22 x 15 91"),
    ]


def test_of_three_marks_two_that_agree_hold_against_none_that_is_known_to_be_newer():
    found = together("OT22KR4-10234", "22 x 17 RH", "22 x 16 RH")

    assert "pitch_m" not in found.figures
    assert found.figures["diameter_m"] == pytest.approx(0.5588)  # 22 in on all three


def test_a_mark_that_no_table_reads_is_left_out_of_those_together():
    marks = [OnHub(read(mark, SHELF)) for mark in ("OT22KR4-10234", "#", "22 x 17 RH")]

    assert len(combine(*marks)[0].readings) == 2
    assert combine(*marks[:2]) == ()


# What a maker would stamp


def test_what_a_propeller_would_be_stamped_by_each_maker():
    wanted = {"diameter_m": 0.56, "pitch_m": 0.46, "hand": "right", "bore_m": 0.04}

    metric, inches, pattern = (reverse(one, wanted)[0] for one in (KRAVELUND, OMBRY, PUMBLEWICK))

    assert (metric.mark, metric.off) == ("?560-460H-B40-??", {"diameter_m": 0, "pitch_m": 0, "bore_m": 0})
    # 22 in = 558.8 mm and L = 18 in = 457.2 mm are the closest; no bore is stamped.
    assert (inches.mark, inches.untold) == ("OT22LR-*", ("bore_m",))
    assert inches.off == pytest.approx({"diameter_m": -0.0012, "pitch_m": -0.0028})
    # Pattern 417, cut anew: 22 x 18; F = 1-1/2 in = 38.1 mm is closer to 40 than G = 41.275 mm? It is 1.9 off, G 1.275.
    assert pattern.mark == "PB417SG/??"
    assert pattern.off["bore_m"] == pytest.approx(0.001275)


def test_what_it_would_be_stamped_reads_back_as_what_was_wanted():
    for mark, compiled in (("OT22LR-*", OMBRY), ("?560-460H-B40-??", KRAVELUND), ("PB417SG/??", PUMBLEWICK)):
        best = read(mark, shelf_of([compiled.table])).best
        assert best.figures["diameter_m"] == pytest.approx(0.56, abs=0.002)


def test_the_next_closest_marks_follow_with_how_far_they_are_off():
    found = reverse(OMBRY, {"pitch_m": 0.470})

    # 18 in is 12.8 mm short; 19 in, M, 12.6 mm too much, is the closer.
    assert [(one.mark, round(one.off["pitch_m"] * 1000, 1)) for one in found[:2]] == [
        ("OT??M?-*", 12.6),
        ("OT??L?-*", -12.8),
    ]


def test_nothing_is_stamped_of_what_a_maker_does_not_tell():
    assert reverse(OMBRY, {"bore_m": 0.04}) == ()
    assert reverse(OMBRY, {"hand": "up"}) == ()
    assert reverse(OMBRY, {}) == ()


def test_plain_sizes_are_struck_to_the_eighth():
    plain = compile_table(BY_TITLE["Plain sizes, inches"])

    marks = [one.mark for one in reverse(plain, {"diameter_m": 22.5 * 0.0254, "pitch_m": 18 * 0.0254})]

    assert marks[0] == "22 1/2X18"


# What measured propellers teach

LETTERS = table(prefix("HP"), Place("pitch", "letters", Lookup((Entry("A", 300.0), Entry("C", 340.0)), "mm")), hand())


def observed(code, *pitches, u=1.0):
    return [
        Observation(f"HP{code}R", {"pitch_m": Measured(mm / 1000, u / 1000), "hand": "right"}, f"P-{at:03d}")
        for at, mm in enumerate(pitches, 1)
    ]


def test_an_unknown_letter_is_proposed_with_its_evidence():
    proposals = learn(observed("M", 455, 459, 462, 458, 460, 457, 461, u=2), compile_table(LETTERS))

    assert [(one.kind, one.place, one.code, one.count) for one in proposals] == [("entry", 1, "M", 7)]
    # The mean of the seven is 458.9 mm, to the millimetre 459.
    assert proposals[0].value == 459
    assert proposals[0].said == (
        "in 7 propellers the letter M at place 2 goes with a pitch of 455-462 mm; 459 mm fits them"
    )
    assert proposals[0].of == ("P-001", "P-002", "P-003", "P-004", "P-005", "P-006", "P-007")


def test_a_list_s_own_steps_are_taken_where_they_fit():
    codes = Lookup((Entry("A", 300.0), Entry("C", 340.0), Entry("E", 380.0)), "mm")
    stepped = table(prefix("HP"), Place("pitch", "letters", codes), hand())

    (proposal,) = learn(observed("M", 455, 459, 462, u=2), compile_table(stepped))

    # 300, 340 and 380 are multiples of 20: 460 is the nearest, and all three lie within 3 u of it.
    assert proposal.value == 460


def test_what_does_not_agree_is_no_size():
    (proposal,) = learn(observed("M", 430, 480), compile_table(LETTERS))

    assert proposal.value is None
    assert proposal.said.endswith("goes with a pitch of 430-480 mm, too far apart to be one size")


def test_one_propeller_proves_nothing_and_a_known_letter_that_holds_is_not_proposed():
    assert learn(observed("M", 460), compile_table(LETTERS)) == ()
    assert learn(observed("A", 300, 301, 299), compile_table(LETTERS)) == ()


def test_a_known_letter_that_does_not_hold_is_proposed_as_a_correction():
    (proposal,) = learn(observed("A", 320, 321, 319), compile_table(LETTERS))

    assert (proposal.kind, proposal.value) == ("correction", 320)
    assert proposal.said.endswith("; the table says 300.0 mm")


def test_an_unknown_hand_is_proposed_as_a_word():
    hands = table(prefix("HP"), Place("hand", "letters", HANDS), millimetres("pitch"))
    seen = [Observation(f"HPD{pitch}", {"hand": "left"}) for pitch in (300, 310, 320)]

    (proposal,) = learn(seen, compile_table(hands))

    assert (proposal.code, proposal.value) == ("D", "left")
    assert proposal.said == "in 3 propellers the letter D at place 2 goes with a left hand"


def test_letters_that_count_are_fitted_by_least_squares():
    # By hand: A 300, C 340, E 380, G 420 exactly on 20 mm a letter; two readings 1 mm off on either side at D = 360.
    seen = [
        *observed("A", 300),
        *observed("C", 340),
        *observed("E", 380),
        *observed("G", 420),
        *observed("D", 361, 359),
    ]

    (proposal,) = [one for one in learn(seen, compile_table(LETTERS)) if one.kind == "run"]

    assert (proposal.run.first, proposal.run.last, proposal.run.count) == ("A", "G", 6)
    assert (proposal.run.value, proposal.run.step) == (pytest.approx(300), pytest.approx(20))
    # Two residuals of 1 mm over 6 - 2 degrees of freedom: sqrt(2/4).
    assert proposal.run.residual == pytest.approx(0.5**0.5)


def test_letters_left_out_are_told_by_the_fit():
    # H 440, J 460 and P 560 lie on one step of 20 mm only if I and O are left out: H is 7, J 8, P 13 steps after A.
    seen = [*observed("A", 300), *observed("H", 440), *observed("J", 460), *observed("P", 560)]

    (proposal,) = [one for one in learn(seen, compile_table(LETTERS)) if one.kind == "run"]

    assert (proposal.run.without, proposal.run.step) == ("IO", pytest.approx(20))
    assert "IO" not in proposal.run.also_fits
    assert "each next letter +20 mm, without I and O" in proposal.said


def test_a_run_that_holds_is_left_alone_and_one_that_does_not_is_corrected():
    right, wrong = (compile_table(table(prefix("HP"), run(step=step), hand())) for step in (20.0, 25.0))
    seen = [*observed("A", 300), *observed("C", 340), *observed("E", 380), *observed("G", 420)]

    assert learn(seen, right) == ()
    (proposal,) = learn(seen, wrong)
    assert (proposal.kind, proposal.run.step) == ("run", pytest.approx(20))
    assert proposal.said.endswith("the table says A is 300 mm and +25 mm")


def test_a_worn_or_confused_mark_teaches_nothing():
    seen = [Observation(mark, {"pitch_m": Measured(0.46, 0.001)}) for mark in ("HPM?", "HP?R", "H?MR", "[", "HPMX")]

    assert learn([*seen, *seen], compile_table(LETTERS))[0].count == 4  # HPM? and H?MR, twice each


# What differs between two versions


def test_what_differs_between_versions_is_said_place_by_place():
    before = table(
        prefix("HP"), Place("pitch", "letters", Lookup((Entry("A", 300.0), Entry("C", 340.0)), "mm")), hand()
    )
    codes = Lookup((Entry("A", 310.0), Entry("D", 360.0, source=Source(certainty=0.5))), "mm")
    after = table(
        prefix("HP"),
        Place("pitch", "letters", codes, specials=(Special("X", "ask"),)),
        hand(separators=("-",)),
        serial(optional=True),
        certainty=0.8,
    )

    assert changes(before, after) == (
        Change("certainty was 0.9, is 0.8"),
        Change("place 2: code A was 300 mm, is 310 mm", 1),
        Change("place 2: code C is gone; it was 340 mm", 1),
        Change("place 2: code D is new: 360 mm, 50% sure", 1),
        Change("place 2: special code X is new: ask", 1),
        Change("place 3: separators was nothing, is `-`", 2),
        Change("place 4, the serial, is new", 3),
    )


def test_a_table_does_not_differ_from_itself_nor_by_its_version_number():
    one = table(prefix("HP"), millimetres())

    assert changes(one, replace(one, version=7)) == ()
    assert changes(one, table(prefix("HP"), Place("diameter", "digits", Number("in"), shortest=3, longest=3))) == (
        Change("place 2: unit was mm, is in", 1),
    )
