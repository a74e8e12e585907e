import numpy as np
import psychrolib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.coating import (
    dew_margin,
    dew_point,
    dew_point_from_wet_bulb,
    hub_area,
    is_dry_enough,
    pot_life,
    product_needed,
    propeller_area,
    shaft_area,
    spreading_rate,
    wet_film,
)
from yardapp.formulas.ranges import OutsideRange

SHEET = {"sheet_c": [10, 20, 30], "sheet_s": [14400, 7200, 3600]}


@settings(max_examples=100, deadline=None)
@given(st.floats(0, 45), st.floats(0.2, 1.0))
def test_dew_points_above_freezing_are_those_of_ashrae(air_c, relative_humidity):
    # ASHRAE Handbook Fundamentals 2017, as psychrolib codes it; below 0 C it gives the frost point.
    psychrolib.SetUnitSystem(psychrolib.SI)

    published_c = psychrolib.GetTDewPointFromRelHum(air_c, relative_humidity)

    if published_c > 0.1:
        assert dew_point(air_c, relative_humidity) == pytest.approx(published_c, abs=0.05)


@settings(max_examples=60, deadline=None)
@given(st.floats(5, 40), st.floats(0.3, 0.99))
def test_a_whirled_wet_bulb_tells_the_dew_point_that_ashrae_tells(air_c, relative_humidity):
    psychrolib.SetUnitSystem(psychrolib.SI)
    wet_bulb_c = psychrolib.GetTWetBulbFromRelHum(air_c, relative_humidity, 101325.0)
    published_c = psychrolib.GetTDewPointFromTWetBulb(air_c, wet_bulb_c, 101325.0)

    if wet_bulb_c > 0.1 and published_c > 0.1:
        # The two psychrometer constants differ by a few per cent of the depression.
        assert dew_point_from_wet_bulb(air_c, wet_bulb_c) == pytest.approx(published_c, abs=0.5)


@settings(max_examples=40, deadline=None)
@given(st.floats(-20, 50), st.floats(0.05, 0.95))
def test_wetter_air_has_a_higher_dew_point_and_never_above_its_own_warmth(air_c, relative_humidity):
    drier_c, wetter_c = dew_point(air_c, [relative_humidity, relative_humidity + 0.05])

    assert drier_c < wetter_c <= air_c + 1e-9


def test_saturated_air_is_at_its_dew_point():
    np.testing.assert_allclose(dew_point([-10.0, 0.0, 25.0], 1.0), [-10.0, 0.0, 25.0], atol=1e-12)


def test_exactly_three_degrees_is_enough_whatever_the_float():
    assert is_dry_enough(float(dew_margin(16.1, 13.1))) is True
    assert is_dry_enough(2.99) is False
    assert is_dry_enough(np.nan) is None


@settings(max_examples=40, deadline=None)
@given(st.floats(20e-6, 500e-6), st.floats(0.2, 1.0), st.floats(0.01, 10.0))
def test_what_is_needed_covers_the_area(dry_film_m, solids_ratio, area_m2):
    volume_m3 = product_needed(area_m2, 1, dry_film_m, solids_ratio)

    assert volume_m3 * spreading_rate(dry_film_m, solids_ratio) == pytest.approx(area_m2)
    assert volume_m3 == pytest.approx(area_m2 * wet_film(dry_film_m, solids_ratio))


def test_two_coats_and_half_lost_take_four_times_as_much():
    once = product_needed(0.5, 1, 100e-6, 0.6)

    assert product_needed(0.5, 2, 100e-6, 0.6, loss_ratio=0.5) == pytest.approx(4 * once)


def test_thinner_makes_the_wet_film_thicker():
    # Film arithmetic: wet = dry (100 + t) / VS; 100 um at 50 % with 10 % thinner is 220 um.
    assert wet_film(100e-6, 0.5, 0.10) == pytest.approx(220e-6)


def test_a_propeller_is_coated_on_both_sides_and_round_its_hub():
    assert propeller_area(0.10, 0.12, 0.08) == pytest.approx(0.20 + hub_area(0.12, 0.08))
    assert hub_area(0.12, 0.08) == shaft_area(0.12, 0.08) == pytest.approx(np.pi * 0.08 * 0.12)


def test_the_rows_of_the_sheet_come_back_as_printed():
    np.testing.assert_allclose(pot_life(SHEET["sheet_c"], **SHEET), SHEET["sheet_s"])


def test_between_two_rows_the_time_is_never_longer_than_a_straight_line_gives():
    assert 3600 < pot_life(25.0, **SHEET) < (7200 + 3600) / 2


@pytest.mark.parametrize("temperature_c", [9.0, 31.0])
def test_beyond_the_sheet_there_is_no_time(temperature_c):
    with pytest.raises(OutsideRange, match="from 10 to 30 C, the rows of the data sheet"):
        pot_life(temperature_c, **SHEET)


@pytest.mark.parametrize(
    ("sheet_c", "sheet_s", "argument"),
    [
        ([], [], "sheet_c"),
        ([20, 10], [1, 2], "sheet_c"),
        ([10, np.nan], [1, 2], "sheet_c"),
        ([10, 20], [1], "sheet_s"),
        ([10, 20], [1, 0], "sheet_s"),
        ([10, 20], [1, np.nan], "sheet_s"),
    ],
)
def test_a_sheet_that_cannot_be_read_is_refused(sheet_c, sheet_s, argument):
    with pytest.raises(OutsideRange) as refusal:
        pot_life(15.0, sheet_c, sheet_s)

    assert refusal.value.argument == argument


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (dew_point, (20.0, 0.0), "relative_humidity"),
        (dew_point, (20.0, 60.0), "relative_humidity"),
        (dew_point, (61.0, 0.5), "air_c"),
        (dew_point_from_wet_bulb, (20.0, 21.0), "wet_bulb_c"),
        (dew_point_from_wet_bulb, (40.0, 5.0), "wet_bulb_c"),
        (dew_point_from_wet_bulb, (20.0, 15.0, 1013.25), "pressure_pa"),
        (dew_margin, (np.inf, 10.0), "surface_c"),
        (is_dry_enough, (np.inf,), "margin_c"),
        (spreading_rate, (0.0, 0.7), "dry_film_m"),
        (wet_film, (1e-4, 1.1), "solids_ratio"),
        (wet_film, (1e-4, 0.7, -0.1), "thinner_ratio"),
        (product_needed, (1.0, 1.5, 1e-4, 0.7), "coats_count"),
        (product_needed, (1.0, 1, 1e-4, 0.7, 1.0), "loss_ratio"),
        (propeller_area, (0.0, 0.1, 0.1), "expanded_area_m2"),
        (shaft_area, (1.0, -0.1), "shaft_diameter_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument


def test_what_is_not_known_stays_not_known():
    assert np.isnan(dew_point(np.nan, 0.5))
    assert np.isnan(dew_point_from_wet_bulb(20.0, np.nan))
    assert np.isnan(product_needed(1.0, 1, np.nan, 0.7))
    assert np.isnan(pot_life(np.nan, **SHEET))
