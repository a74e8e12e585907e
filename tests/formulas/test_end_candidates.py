import pytest

from yardapp.formulas.end_candidates import end_candidates
from yardapp.formulas.ranges import OutsideRange

# SAE J755 1-1/4 in, as shaft_tapers.csv has it: small end 1.030 to 1.032 in, taper 3-1/2 in long.
INCH_M = 0.0254


def held(candidate, what):
    return next(row for row in candidate.held if row.what == what)


def test_the_standard_end_itself_comes_first_and_all_of_it_is_within():
    found = end_candidates(1.25 * INCH_M, 1.031 * INCH_M, 3.5 * INCH_M, 1 / 16)

    assert found[0].end.name == "SAE J755 1-1/4 in"
    assert all(row.is_within for row in found[0].held)
    assert len(found) == 3


@pytest.mark.parametrize(("small_in", "is_within"), [(1.030, True), (1.032, True), (1.028, False), (1.034, False)])
def test_the_small_end_is_held_against_the_bounds_that_the_standard_prints(small_in, is_within):
    found = end_candidates(1.25 * INCH_M, small_in * INCH_M)

    row = held(found[0], "small_m")
    assert (row.low, row.high) == pytest.approx((1.030 * INCH_M, 1.032 * INCH_M))
    assert row.is_within is is_within


def test_the_readings_own_uncertainty_widens_the_bounds():
    found = end_candidates(1.25 * INCH_M, 1.028 * INCH_M, u_small_m=0.001 * INCH_M)

    assert held(found[0], "small_m").is_within


def test_neighbours_follow_with_how_far_they_are_off():
    found = end_candidates(1.25 * INCH_M, 1.031 * INCH_M)

    assert {one.end.size for one in found[1:]} == {"1-3/8 in", "1-1/8 in"}
    assert abs(held(found[1], "large_m").off) == pytest.approx(0.125 * INCH_M)
    assert not held(found[1], "large_m").is_within


def test_a_metric_series_is_told_by_its_taper_alone():
    # ISO 4566: 1:10 from 20 to 160 mm.
    found = end_candidates(0.040, taper=0.1)

    assert found[0].end.name.startswith("ISO 4566")
    assert all(row.is_within for row in found[0].held)


def test_nothing_read_has_no_candidates():
    assert end_candidates() == ()


def test_a_size_below_zero_is_refused_by_name():
    with pytest.raises(OutsideRange) as refused:
        end_candidates(small_m=-0.03)

    assert refused.value.argument == "small_m"
