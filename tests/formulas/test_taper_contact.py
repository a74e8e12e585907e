import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.taper import contact_gap, set_up

TAPERS = st.floats(0.045, 0.11)


def test_a_slower_hub_bears_at_its_large_end_with_the_gap_at_the_nut():
    # Geometry: 1:12 and 1:16 part by 2.08 mm in 100.
    contact = contact_gap(0.030, 1 / 16, 0.030, 1 / 12, 0.100)

    assert contact.touches == "large end"
    assert contact.gap_m[0] == pytest.approx(0, abs=1e-12)
    assert contact.gap_m[-1] == pytest.approx(0.00208, abs=5e-6)


def test_a_faster_hub_bears_at_its_small_end():
    contact = contact_gap(0.030, 1 / 12, 0.030, 1 / 16, 0.100)

    assert contact.touches == "small end"
    assert contact.gap_m[-1] == pytest.approx(0, abs=1e-12)
    assert contact.gap_m.max() == pytest.approx(0.00208, abs=5e-6)


@settings(max_examples=50, deadline=None)
@given(st.floats(0.0299, 0.0301), TAPERS)
def test_like_tapers_bear_all_along_and_set_up_by_the_formula(bore_m, taper):
    contact = contact_gap(bore_m, taper, 0.030, taper, 0.090)

    assert contact.touches == "whole length"
    assert contact.set_up_m == pytest.approx(set_up(bore_m, 0.030, taper))
    on_taper = contact.stations_m >= contact.set_up_m
    np.testing.assert_allclose(contact.gap_m[on_taper], 0, atol=1e-12)


@settings(max_examples=100, deadline=None)
@given(st.floats(0.0285, 0.0315), TAPERS, TAPERS)
def test_a_seated_hub_touches_somewhere_and_nowhere_bites(bore_m, bore_taper, shaft_taper):
    contact = contact_gap(bore_m, bore_taper, 0.030, shaft_taper, 0.090, stations=2001)
    on_shaft_m = np.maximum(contact.stations_m - contact.set_up_m, 0)
    room_m = bore_m - bore_taper * contact.stations_m - (0.030 - shaft_taper * on_shaft_m)

    assert room_m.min() > -1e-12
    assert room_m.min() < 5e-6  # between two stations a touch may hide by so much


def test_a_hub_that_is_pushed_past_the_shafts_large_end_bears_on_its_edge():
    contact = contact_gap(0.031, 1 / 16, 0.030, 1 / 12, 0.100, stations=101)

    # 1 mm of room at 1:16 is used up 16 mm along the bore.
    assert contact.set_up_m == pytest.approx(0.016)
    assert contact.stations_m[np.argmin(contact.gap_m)] == pytest.approx(0.016)


def test_rows_of_hubs_come_out_as_rows_of_gaps():
    contact = contact_gap([0.030, 0.031, np.nan], [1 / 16, 1 / 12, 1 / 16], 0.030, 1 / 16, 0.100, stations=5)

    assert contact.gap_m.shape == contact.stations_m.shape == (3, 5)
    assert contact.touches.tolist() == ["whole length", "small end", ""]
    alone = contact_gap(0.031, 1 / 12, 0.030, 1 / 16, 0.100, stations=5)
    np.testing.assert_allclose(contact.gap_m[1], alone.gap_m)
    assert np.isnan(contact.gap_m[2]).all()


@pytest.mark.parametrize(
    ("readings", "argument"),
    [
        ((0.040, 1 / 16, 0.030, 1 / 16, 0.100), "bore_large_m"),
        ((0.030, 0.4, 0.030, 1 / 16, 0.100), "bore_taper"),
        ((0.030, 1 / 16, 0.030, 0.0, 0.100), "shaft_taper"),
        ((0.030, 1 / 16, 0.030, 1 / 16, -0.1), "length_m"),
        ((0.030, 1 / 16, 0.030, 1 / 16, 0.100, 1), "stations"),
    ],
)
def test_what_never_seats_is_refused_by_name(readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        contact_gap(*readings)

    assert refusal.value.argument == argument
