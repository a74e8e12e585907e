import numpy as np
import psychrolib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.coating import dew_point, humidity_of, pot_life, waiting_time
from yardapp.formulas.ranges import OutsideRange

ROWS_C, ROWS_S = [10, 20, 30], [7200, 3600, 1800]


def test_at_a_row_the_wait_is_the_row():
    np.testing.assert_allclose(waiting_time(ROWS_C, ROWS_C, ROWS_S), ROWS_S)


@given(st.floats(10, 30))
def test_a_wait_is_never_shorter_than_the_curve_of_a_pot_life(temperature_c):
    assert waiting_time(temperature_c, ROWS_C, ROWS_S) >= pot_life(temperature_c, ROWS_C, ROWS_S) - 1e-6


def test_straight_on_is_no_wait():
    assert waiting_time(15, [10, 20], [0, 0]) == 0


@pytest.mark.parametrize("temperature_c", [9.5, 30.5])
def test_a_wait_is_never_taken_from_beyond_the_sheet(temperature_c):
    with pytest.raises(OutsideRange, match="from 10 to 30 C, the rows of the data sheet"):
        waiting_time(temperature_c, ROWS_C, ROWS_S)


@pytest.mark.parametrize(
    ("rows_c", "rows_s"), [([20, 10], [1, 2]), ([], []), ([10, 20], [1]), ([10, 20], [-1, 5]), ([10, 10], [1, 2])]
)
def test_rows_that_cannot_be_are_refused(rows_c, rows_s):
    with pytest.raises(OutsideRange):
        waiting_time(10, rows_c, rows_s)


def test_a_temperature_that_nobody_read_gives_no_wait():
    assert np.isnan(waiting_time(np.nan, ROWS_C, ROWS_S))


@settings(max_examples=60, deadline=None)
@given(st.floats(1, 45), st.floats(0.2, 1.0))
def test_the_humidity_of_a_dew_point_is_that_of_ashrae(air_c, relative_humidity):
    # ASHRAE Handbook Fundamentals 2017, as psychrolib codes it; over ice below 0 °C.
    psychrolib.SetUnitSystem(psychrolib.SI)
    dew_c = psychrolib.GetTDewPointFromRelHum(air_c, relative_humidity)
    if dew_c > 0.1:
        assert humidity_of(air_c, dew_c) == pytest.approx(relative_humidity, abs=0.003)


@given(st.floats(-20, 50), st.floats(0.05, 1.0))
def test_humidity_and_dew_point_undo_each_other(air_c, relative_humidity):
    assert humidity_of(air_c, dew_point(air_c, relative_humidity)) == pytest.approx(relative_humidity)


def test_no_dew_point_lies_above_the_airs_own_warmth():
    with pytest.raises(OutsideRange, match="dew_point_c"):
        humidity_of(20.0, 21.0)
