"""Stamps in plain sizes. An inch is 25.4 mm (1959 international yard agreement); the rest is what each stamp spells."""

from time import perf_counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardapp.stamps.plain_sizes import AT_MOST_CHARACTERS, decode, normalise, pattern

INCH = 0.0254


@pytest.mark.parametrize(
    ("stamp", "diameter_m", "pitch_m", "hand"),
    [
        ("22 x 18 RH", 22 * INCH, 18 * INCH, "right"),
        ("22X18R", 22 * INCH, 18 * INCH, "right"),
        ("22x18rh", 22 * INCH, 18 * INCH, "right"),
        ("22 18 RH", 22 * INCH, 18 * INCH, "right"),
        ("22 × 18 Right Hand", 22 * INCH, 18 * INCH, "right"),
        ("22 by 18 left", 22 * INCH, 18 * INCH, "left"),
        ('22" x 18" L.H.', 22 * INCH, 18 * INCH, "left"),
        ("22R18", 22 * INCH, 18 * INCH, "right"),
        ("22LH18", 22 * INCH, 18 * INCH, "left"),
        ("22-18", 22 * INCH, 18 * INCH, None),
        ("22/18", 22 * INCH, 18 * INCH, None),
        ("D22 P18", 22 * INCH, 18 * INCH, None),
        ("P18 D22", 22 * INCH, 18 * INCH, None),
        ("22 D 18 P", 22 * INCH, 18 * INCH, None),
        ("DIA. 22 PITCH 18", 22 * INCH, 18 * INCH, None),
        ("22½x18", 22.5 * INCH, 18 * INCH, None),
        ("22-1/2-18", 22.5 * INCH, 18 * INCH, None),
        ("22 1/2 x 18 1/4 RH", 22.5 * INCH, 18.25 * INCH, "right"),
        ("22,5x18", 22.5 * INCH, 18 * INCH, None),
        ("560x460 LH", 0.560, 0.460, "left"),
        ("560mm x 460mm", 0.560, 0.460, None),
        ("56x46", 0.56, 0.46, None),
        ("56 x 46 in", 56 * INCH, 46 * INCH, None),
        ("30 x 25 cm", 0.30, 0.25, None),
        ("NO 4471 22x18 LH", 22 * INCH, 18 * INCH, "left"),
    ],
)
def test_a_size_is_read_however_it_was_struck(stamp, diameter_m, pitch_m, hand):
    reading = decode(stamp)

    assert reading.diameter_m == pytest.approx(diameter_m, rel=1e-12)
    assert reading.pitch_m == pytest.approx(pitch_m, rel=1e-12)
    assert reading.hand == hand


@pytest.mark.parametrize(
    ("stamp", "blades", "bore_m"),
    [
        ("22 x 18 RH 4 1-3/4", 4, 1.75 * INCH),
        ("3B 22x18", 3, None),
        ("22x18 3-blade", 3, None),
        ("22X18RH3", 3, None),
        ("4 22 18 RH", 4, None),
        ("22 x 18 RH 1-3/4", None, 1.75 * INCH),
        ("22 x 18 R 4 BORE 1 3/4", 4, 1.75 * INCH),
        ("560 x 460 LH 4 45", 4, 0.045),
        ("22x18 4 RH 35mm", 4, 0.035),
        ("56x46 LH 4 45", 4, 0.045),
    ],
)
def test_blades_and_bore_come_after_the_hand(stamp, blades, bore_m):
    reading = decode(stamp)

    assert (reading.blades, reading.bore_m) == (blades, pytest.approx(bore_m) if bore_m else None)
    assert reading.unread == ()


def test_an_assumed_unit_says_both_readings_and_the_reason():
    reading = decode("56x46")

    assert (reading.unit, reading.unit_assumed) == ("cm", True)
    assert reading.why == (
        "no unit stamped; read as cm, 560 x 460 mm, since more than 40 is rare in inches, and less than 160 in mm; "
        "in inches it would be 1422 x 1168 mm"
    )


def test_a_stamped_unit_is_not_an_assumption():
    reading = decode('22" x 18" RH')

    assert (reading.unit, reading.unit_assumed, reading.why) == ("in", False, "the stamp says inches")


def test_a_worn_pitch_is_not_guessed():
    reading = decode("22x?8 RH")

    assert (reading.diameter_m, reading.pitch_m, reading.hand) == (pytest.approx(22 * INCH), None, "right")
    assert reading.possible_pitches == "pitch ends in 8: 18 to 98 in; 18 or 28 would be usual with a diameter of 22"


def test_a_worn_diameter_is_not_guessed():
    reading = decode("2? x 18")

    assert (reading.diameter_m, reading.pitch_m) == (None, pytest.approx(18 * INCH))
    assert reading.notes == ("diameter begins with 2: 20 to 29 in",)


def test_two_worn_sizes_are_no_size_at_all():
    reading = decode("1?0x? RH")

    assert (reading.diameter_m, reading.pitch_m, reading.unit, reading.hand) == (None, None, None, "right")
    assert reading.why == "neither size can be read whole: 1?0 by ?"


@pytest.mark.parametrize("stamp", ["10x22", "22x8"])
def test_a_pitch_out_of_all_proportion_may_be_the_diameter(stamp):
    assert "the order may be swapped" in decode(stamp).notes[0]


@pytest.mark.parametrize("stamp", ["22x18", "22x22", "22x30"])
def test_a_usual_pitch_raises_no_doubt(stamp):
    assert decode(stamp).notes == ()


@pytest.mark.parametrize(
    ("stamp", "unread"),
    [
        ("22 x 18 J2", ("J2",)),
        ("22x18 4A", ("4", "A")),
        ("22x18 RH NO 4471", ("NO", "4471")),
        ("22x18 RH 9", ("9",)),
        ("22x18 RH LH", ("RH", "LH")),
        ("22x18 3 3/4", ("3 3/4",)),
        ("22x18 BORE 14", ("14",)),
    ],
)
def test_what_is_not_understood_is_said(stamp, unread):
    reading = decode(stamp)

    assert reading.unread == unread
    assert (reading.diameter_m, reading.blades, reading.bore_m) == (pytest.approx(22 * INCH), None, None)


def test_blades_or_part_of_a_bore_is_left_to_the_reader():
    assert decode("22x18 3 3/4").notes == (
        "3 3/4 may be 3 blades and a bore of 3/4, or a bore of 3-3/4; neither was taken",
    )


@pytest.mark.parametrize(
    "stamp", ["", "  ", "RH", "22 RH", "7/8", "ABC", "٢٢x18", "0x18", "9999x9999", "x" * 81, "22..5x18"]
)
def test_nothing_legible_gives_nothing_but_the_reason(stamp):
    reading = decode(stamp)

    assert (reading.diameter_m, reading.pitch_m, reading.bore_m, reading.unit) == (None, None, None, None)
    assert reading.why


@given(st.text(alphabet="0123456789?/-. xXRLHDPB½\"'×", max_size=100) | st.text(max_size=100))
def test_any_stamp_is_read_in_no_time(stamp):
    began = perf_counter()

    reading = decode(stamp)

    assert perf_counter() - began < 0.2
    assert len(reading.stamp) <= AT_MOST_CHARACTERS
    assert all(size is None or 0 < size <= 8 for size in (reading.diameter_m, reading.pitch_m, reading.bore_m))


@pytest.mark.parametrize("stamp", ["22X18RH", "22 x 18 RH", "22x18 r.h.", '22" × 18" RH', " 22  X 18  rh"])
def test_stamps_that_mean_the_same_have_one_spelling(stamp):
    assert normalise(stamp) == "22X18RH"


@pytest.mark.parametrize(
    ("stamp", "spelling"), [("22 18 RH", "22 18RH"), ("22½x18", "22 1/2X18"), ("22 1/2 x 18", "22 1/2X18")]
)
def test_figures_are_never_run_together(stamp, spelling):
    assert normalise(stamp) == spelling


@given(st.text(alphabet="0123456789?/-. xXRLH½\"'×", max_size=80))
def test_spelling_a_stamp_twice_changes_nothing(stamp):
    assert normalise(normalise(stamp)) == normalise(stamp)


def test_part_of_a_stamp_finds_the_whole_and_a_question_mark_is_one_character():
    assert pattern("22 x ?8") == "%22X_8%"


def test_what_like_would_take_for_its_own_is_taken_for_itself():
    assert pattern("50%_\\") == r"%50\%\_\\%"
