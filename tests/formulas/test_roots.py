import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.roots import root_between


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(-5, 5), min_size=1, max_size=20))
def test_it_finds_the_root_of_a_cubic_for_each_element(roots):
    where = np.array(roots)

    found = root_between(lambda x: (x - where) * (1 + (x - where) ** 2), np.full(where.shape, -6.0), where + 3)

    np.testing.assert_allclose(found, where, atol=1e-12)


def test_it_finds_a_kink_and_a_step():
    low, high = np.array([0.0, 0.0]), np.array([1.0, 1.0])

    found = root_between(lambda x: np.where(x < 0.3, [1.0, 0.3 - x[1]], [-1.0, 0.1 * (0.3 - x[1])]), low, high)

    np.testing.assert_allclose(found, 0.3, atol=1e-12)


@pytest.mark.parametrize("bound", [0.0, 1.0])
def test_a_root_at_a_bound_is_found(bound):
    assert root_between(lambda x: x - bound, np.array([0.0]), np.array([1.0]))[0] == pytest.approx(bound, abs=1e-12)


def test_no_crossing_and_unknown_bounds_give_what_is_not_known():
    low, high = np.array([0.0, np.nan, 0.0]), np.array([1.0, 1.0, 1.0])

    found = root_between(lambda x: x - np.array([2.0, 0.5, 0.5]), low, high)

    assert list(np.isnan(found)) == [True, True, False]
