import numpy as np
import pytest

from yardapp.formulas.far_off import far_off
from yardapp.formulas.ranges import OutsideRange


def test_one_blade_of_three_far_off_is_found_and_the_good_ones_are_not():
    assert far_off([0.287, 0.312, 0.291], 0.002).tolist() == [False, True, False]


def test_blades_that_scatter_alike_are_left_alone():
    assert not far_off([0.280, 0.290, 0.300, 0.295], 0.001).any()


def test_what_the_readings_allow_is_never_far():
    # 312 and 289 differ by 23; at k = 2 two figures of u 10 mm may differ by 28.
    assert not far_off([0.287, 0.312, 0.291], 0.010).any()


def test_a_few_hundredths_are_never_far_however_well_they_were_read():
    assert not far_off([0.3000, 0.3001, 0.3060], 1e-6).any()


def test_of_two_that_differ_nobody_can_say_which_is_wrong():
    assert not far_off([0.2, 0.4]).any()
    assert not far_off([0.2]).any()
    assert not far_off([[0.2], [0.4], [np.nan]]).any()


def test_each_radius_is_judged_by_itself():
    figures = np.full((4, 3), 0.3)
    figures[2, 1] = 0.36

    assert np.argwhere(far_off(figures, 0.001)).tolist() == [[2, 1]]


@pytest.mark.parametrize(("readings", "argument"), [((np.inf, 1, 2), "figure_m"), ((1, 2, 3), "u_m")])
def test_what_cannot_be_is_refused_by_name(readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        far_off(readings, -1.0 if argument == "u_m" else 0.0)

    assert refusal.value.argument == argument
