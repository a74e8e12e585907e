import numpy as np
import pytest

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.repeats import how_well_scatter_is_known, repeated, stray


def test_three_readings_give_their_mean_and_its_standard_error():
    found = repeated([74.0, 74.5, 73.8])

    # By hand: mean 74.1; squares 0.01 + 0.16 + 0.09 = 0.26, over 2 is 0.13, root 0.36056, over root 3 is 0.20817.
    assert found.mean == pytest.approx(74.1)
    assert found.spread == pytest.approx(0.36056, abs=1e-5)
    assert found.u_scatter == pytest.approx(0.20817, abs=1e-5)


def test_a_tools_own_offset_does_not_average_out():
    few, many = repeated([1.0, 2.0], 0.3), repeated([1.0, 2.0] * 500, 0.3)

    assert few.u == pytest.approx(np.hypot(0.5, 0.3))  # s is 0.7071, over root 2 is 0.5
    assert many.u == pytest.approx(0.3, rel=2e-3)
    assert many.u_scatter < few.u_scatter / 20


def test_the_published_example_of_repeated_readings():
    # JCGM 100:2008 (GUM), 4.4.3, table 1: twenty temperatures, mean 100.145, s = 1.489, s of the mean 0.333.
    read = [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
        100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ]  # fmt: skip

    found = repeated(read)

    assert found.mean == pytest.approx(100.145, abs=5e-4)
    assert found.spread == pytest.approx(1.489, abs=5e-4)
    assert found.u_scatter == pytest.approx(0.333, abs=5e-4)


def test_one_reading_has_no_scatter_to_show():
    found = repeated([12.0], 0.2)

    assert (found.mean, found.spread, found.u) == (12.0, 0.0, 0.2)


@pytest.mark.parametrize("readings", [[], [1.0, np.nan], [1.0, np.inf]])
def test_what_is_not_known_can_not_be_averaged(readings):
    with pytest.raises(OutsideRange):
        repeated(readings)


@pytest.mark.parametrize(
    ("count", "share"),
    # JCGM 100:2008 (GUM), table E.1: 24 % for 10, 16 % for 20, 13 % for 30, 10 % for 50 readings.
    [(10, 0.24), (20, 0.16), (30, 0.13), (50, 0.10)],
)
def test_scatter_of_few_readings_is_itself_badly_known(count, share):
    assert float(how_well_scatter_is_known(count)) == pytest.approx(share, abs=0.006)


def test_the_reading_far_off_its_fellows_is_found():
    # The issue's own case: blade 2 reads 312, the others 287 to 291; 312 is 8 % off 289.
    assert stray([289.0, 312.0, 287.0, 291.0], 0.05) == 1
    assert stray([289.0, 312.0, 287.0, 291.0]) is None
    assert stray([289.0, 350.0, 287.0, 291.0]) == 1


def test_of_two_readings_nobody_can_say_which_is_astray():
    assert stray([1.0, 2.0]) is None
    assert stray([1.0, 2.0, np.nan]) is None


def test_the_stated_plus_minus_covers_the_truth():
    # A tool offset and a scatter, both Gaussian: ± (k = 2) should hold the truth about 95 times in a hundred.
    draw = np.random.default_rng(7)
    hits = 0
    for _ in range(1000):
        read = 300.0 + draw.normal(0, 1.0) + draw.normal(0, 0.8, 10)
        found = repeated(read, 1.0)
        hits += abs(found.mean - 300.0) <= 2 * found.u

    assert 930 <= hits <= 970
