"""The rule for the working figure, at its edges. No database: the rule has none."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import pytest

from yardapp.gear.figures import WORK
from yardapp.gear.working import disagreements, last_change, speaking, still_said, working

NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)
DAY = timedelta(days=1)


@dataclass
class Row:
    id: int
    basis: str = "measured"
    value: float | None = 0.457
    u_value: float | None = 0.005
    word: str | None = None
    what: str = "pitch_m"
    true_from: datetime | None = NOON
    at: datetime = NOON
    replaces_id: int | None = None


def stamp(number=1, value=0.457, u_value=0.0073):
    return Row(number, "stamped", value, u_value, true_from=None)


def test_a_measurement_outranks_a_stamp_a_stamp_paper_and_paper_a_guess():
    rows = [Row(1, "guessed"), Row(2, "paper"), stamp(3), Row(4)]

    order = [working(rows[: end + 1]).id for end in range(4)]

    assert order == [1, 2, 3, 4]


def test_the_newest_measurement_counts_though_an_older_one_was_read_better():
    older, newer = Row(1, u_value=0.001), Row(2, u_value=0.02, true_from=NOON + DAY)

    assert working([newer, older]) is newer


def test_of_two_measurements_at_one_moment_with_equal_plus_minus_the_later_written_counts():
    assert working([Row(2), Row(1)]).id == 2


def test_a_stamp_does_not_speak_after_a_re_pitch_and_nothing_else_is_guessed_in_its_place():
    assert working([stamp()], changed=NOON) is None


def test_a_measurement_before_the_re_pitch_is_silent_and_one_after_it_speaks():
    before, after = Row(1, true_from=NOON - DAY), Row(2, value=0.432, true_from=NOON + DAY)

    assert speaking([before, after], changed=NOON) == [after]


def test_a_measurement_at_the_very_moment_of_the_work_is_of_its_outcome():
    assert working([Row(1)], changed=NOON) is not None


def test_a_dated_paper_from_after_the_work_speaks_and_an_undated_one_does_not():
    dated, undated = Row(1, "paper", true_from=NOON + DAY), Row(2, "paper", true_from=None)

    assert speaking([dated, undated], changed=NOON) == [dated]


def test_a_correction_takes_the_place_of_what_it_corrects():
    assert working([Row(1), Row(2, value=0.432, replaces_id=1)]).value == 0.432


def test_a_correction_of_a_correction_leaves_only_the_last():
    rows = [Row(1), Row(2, value=0.432, replaces_id=1), Row(3, value=0.440, replaces_id=2)]

    assert [row.id for row in still_said(rows)] == [3]


def test_a_withdrawn_measurement_gives_the_stamp_its_say_again():
    rows = [stamp(1), Row(2), Row(3, value=None, u_value=None, replaces_id=2)]

    assert working(rows).id == 1


def test_two_readings_within_their_plus_minus_agree():
    # 2 sqrt(0.005^2 + 0.005^2) = 0.01414: 14 mm apart is within, 15 mm is not. Arithmetic, no source needed.
    assert disagreements([Row(1, value=0.443), Row(2)]) == []
    assert disagreements([Row(1, value=0.442), Row(2)]) != []


def test_exactly_at_the_reach_they_still_agree():
    assert disagreements([Row(1, value=1.0, u_value=0.5), Row(2, value=2.0, u_value=0.0)]) == []


def test_a_reading_without_plus_minus_is_exact_beside_one_that_has_it():
    found = disagreements([Row(1, value=0.469, u_value=None), Row(2)])

    assert [one.is_sure for one in found] == [True]
    assert disagreements([Row(1, value=0.466, u_value=None), Row(2)]) == []


def test_two_that_differ_without_any_plus_minus_are_a_question_not_a_contradiction():
    found = disagreements([Row(1, value=0.44, u_value=None), Row(2, u_value=None)])

    assert [one.is_sure for one in found] == [False]


def test_two_words_that_differ_contradict():
    seen = Row(1, value=None, u_value=None, word="right", what="hand")
    stamped = Row(2, "stamped", None, None, "left", "hand", true_from=None)

    assert [(one.working_id, one.other_id) for one in disagreements([seen, stamped])] == [(1, 2)]


def test_what_the_work_silenced_contradicts_nothing():
    assert disagreements([stamp(1, value=0.5), Row(2, true_from=NOON + DAY)], changed=NOON) == []


@pytest.mark.parametrize(
    ("kind", "what"), [("re-pitched", "pitch_m"), ("cut down", "diameter_m"), ("re-bored", "taper")]
)
def test_each_work_leaves_its_own_figures_in_doubt(kind, what):
    assert last_change([(kind, NOON), (kind, NOON - DAY)], what, WORK) == NOON
    assert last_change([(kind, NOON)], "hub_length_m", WORK) is None
