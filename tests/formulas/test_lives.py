import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardapp.formulas.lives import median_life, share_alive
from yardapp.formulas.ranges import OutsideRange

# Freireich et al., Blood 21 (1963): weeks in remission under 6-mercaptopurine; 0 marks "still in remission".
WEEKS = [6, 6, 6, 6, 7, 9, 10, 10, 11, 13, 16, 17, 19, 20, 22, 23, 25, 32, 32, 34, 35]
ENDED = [1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0]
PLACEBO = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23]


def test_the_classic_example_of_kaplan_and_meier_comes_out():
    # The shares are those printed with these data in textbooks of survival analysis.
    np.testing.assert_allclose(
        share_alive(WEEKS, ENDED, [6, 7, 10, 13, 16, 22, 23]),
        [0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448],
        atol=5e-4,
    )
    assert median_life(WEEKS, ENDED) == 23
    assert median_life(PLACEBO, [1] * 21) == 8


def test_where_all_have_ended_the_share_is_the_count():
    np.testing.assert_allclose(share_alive([1, 2, 3, 4], [1, 1, 1, 1], [0.5, 1, 2.5, 4]), [1, 0.75, 0.5, 0])


def test_while_more_than_half_still_live_the_middle_is_not_known():
    assert np.isnan(median_life([1, 5, 5, 5], [1, 0, 0, 0]))


@given(st.lists(st.tuples(st.integers(1, 50), st.booleans()), min_size=1, max_size=20))
def test_what_still_goes_on_never_shortens_the_middle(things):
    lives_s, ended = [one for one, _ in things], [int(done) for _, done in things]
    honest, hasty = median_life(lives_s, ended), median_life(lives_s, [1] * len(things))

    assert np.isnan(honest) or honest >= hasty


@pytest.mark.parametrize(
    ("lives_s", "ended", "argument"),
    [
        ([], [], "lives_s"),
        ([-1], [1], "lives_s"),
        ([np.nan], [1], "lives_s"),
        ([1, 2], [1], "has_ended"),
        ([1], [2], "has_ended"),
    ],
)
def test_lives_that_cannot_be_are_refused(lives_s, ended, argument):
    with pytest.raises(OutsideRange) as refusal:
        share_alive(lives_s, ended, 1)

    assert refusal.value.argument == argument
