import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from yardapp.formulas.b_series import (
    advance_ratio,
    blade_reynolds_number,
    efficiency,
    kq,
    kt,
    open_water,
    open_water_cubic,
    reynolds_correction,
    scale_correction,
)
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.tables import figure, table
from yardapp.formulas.uncertainty import propagate

DESIGNS = st.tuples(st.floats(0.5, 1.4), st.floats(0.30, 1.05), st.integers(2, 7))
IN_RANGE = {"advance_ratio": 0.5, "pitch_ratio": 1.0, "area_ratio": 0.55, "blades": 4}


def _term_by_term(name, j, pitch_ratio, area_ratio, blades):
    """The sum as the paper prints it: another way to the same figure."""
    terms = ((figure(row, "coefficient"), *(int(row[power]) for power in "stuv")) for row in table(name))
    return sum(c * j**s * pitch_ratio**t * area_ratio**u * blades**v for c, s, t, u, v in terms)


def test_the_greatest_efficiency_lies_where_report_237_shows_it():
    # Bernitsas, Ray & Kinley 1981, Fig. 21, B 3-50 at P/D 1.0: at J 0.87, read to 0.01.
    j = np.linspace(0.80, 0.95, 151)

    assert j[np.argmax(efficiency(j, 1.0, 0.50, 3))] == pytest.approx(0.87, abs=0.01)


def test_the_tables_have_the_number_of_terms_that_the_paper_has():
    # Oosterveld & van Oossanen 1975, Table 5: 39 and 47 terms; Table 6: 9 and 13.
    assert (len(table("b_series_kt")), len(table("b_series_kq")), len(table("b_series_reynolds"))) == (39, 47, 22)


@settings(max_examples=50, deadline=None)
@given(st.floats(0, 1.6), DESIGNS)
def test_the_collapsed_series_is_the_printed_sum(j, design):
    assert float(kt(j, *design)) == pytest.approx(_term_by_term("b_series_kt", j, *design), abs=1e-13)
    assert float(kq(j, *design)) == pytest.approx(_term_by_term("b_series_kq", j, *design), abs=1e-13)


@settings(max_examples=50, deadline=None)
@given(st.floats(0, 1.6), DESIGNS)
def test_the_cubic_gives_what_the_series_gives(j, design):
    cubic = open_water_cubic(*design)

    powers = j ** np.arange(4)
    assert float(cubic.kt @ powers) == pytest.approx(float(kt(j, *design)), abs=1e-13)
    assert float(cubic.kq @ powers) == pytest.approx(float(kq(j, *design)), abs=1e-13)


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 1.6), DESIGNS), min_size=1, max_size=30))
def test_arrays_give_what_scalars_give(points):
    j, pitch, area, blades = (np.array(each) for each in zip(*((j, *design) for j, design in points), strict=True))

    together = open_water(j, pitch, area, blades)

    alone = [open_water(*point) for point in zip(j, pitch, area, blades, strict=True)]
    np.testing.assert_allclose(together, np.transpose([[float(each) for each in one] for one in alone]), rtol=1e-10)


def test_more_propellers_than_one_block_come_out_in_order():
    rng = np.random.default_rng(7)
    figures = [rng.uniform(0, 1.2, 20_000), rng.uniform(0.5, 1.4, 20_000), rng.uniform(0.3, 1.05, 20_000)]
    blades = rng.integers(2, 8, 20_000)

    together = kt(*figures, blades)

    for i in (0, 4095, 4096, 8191, 8192, 19_999):
        assert together[i] == pytest.approx(float(kt(*(each[i] for each in figures), blades[i])), abs=1e-13)


def test_a_row_of_speeds_against_a_column_of_designs_makes_a_table():
    table_of_both = kt(np.linspace(0, 1, 5), np.array([[0.8], [1.0]]), 0.55, 4)

    assert table_of_both.shape == (2, 5)
    assert table_of_both[1, 2] == pytest.approx(float(kt(0.5, 1.0, 0.55, 4)), abs=1e-14)


# Designs away from the corners that Report 237 calls not fully reliable.
@settings(max_examples=40, deadline=None)
@given(st.floats(0.6, 1.2), st.floats(0.45, 0.8), st.integers(3, 5))
def test_thrust_and_torque_fall_as_the_advance_ratio_rises(pitch_ratio, area_ratio, blades):
    j = np.linspace(0.05, 0.9 * pitch_ratio, 40)

    assert np.all(np.diff(kt(j, pitch_ratio, area_ratio, blades)) < 0)
    assert np.all(np.diff(kq(j, pitch_ratio, area_ratio, blades)) < 0)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.1, 0.6), st.floats(0.45, 0.8), st.integers(3, 5))
def test_more_pitch_takes_more_torque(j, area_ratio, blades):
    assert np.all(np.diff(kq(j, np.linspace(0.7, 1.3, 30), area_ratio, blades)) > 0)


@settings(max_examples=50, deadline=None)
@given(st.floats(0, 1.6), DESIGNS)
def test_efficiency_is_below_one_or_not_known(j, design):
    found = float(efficiency(j, *design))

    assert np.isnan(found) or 0 <= found < 1


def test_a_propeller_that_no_longer_pushes_has_no_efficiency():
    assert float(kt(1.2, 1.0, 0.5, 3)) < 0
    assert np.isnan(efficiency(1.2, 1.0, 0.5, 3))


@pytest.mark.parametrize("argument", IN_RANGE)
def test_what_is_not_known_stays_not_known_without_a_warning(argument):
    found = open_water(**(IN_RANGE | {argument: [np.nan, IN_RANGE[argument]]}))

    for each in found:
        assert np.isnan(each[0])
        assert np.isfinite(each[1])


@pytest.mark.parametrize("argument", [*IN_RANGE, "reynolds_number"])
def test_the_correction_of_what_is_not_known_is_not_known(argument):
    for each in reynolds_correction(**(IN_RANGE | {"reynolds_number": 1e7} | {argument: np.nan})):
        assert np.isnan(each)


@pytest.mark.parametrize(
    ("argument", "figure", "allowed"),
    [
        ("advance_ratio", -0.01, "0 to 1.6"),
        ("advance_ratio", 1.61, "0 to 1.6"),
        ("pitch_ratio", 0.49, "0.5 to 1.4"),
        ("pitch_ratio", 1.41, "0.5 to 1.4"),
        ("area_ratio", 0.29, "0.30 to 1.05"),
        ("area_ratio", 1.06, "0.30 to 1.05"),
        ("blades", 1, "whole number from 2 to 7"),
        ("blades", 8, "whole number from 2 to 7"),
        ("blades", 3.5, "whole number from 2 to 7"),
        ("pitch_ratio", np.inf, "0.5 to 1.4"),
        ("reynolds_number", 1.9e6, "2e6 to 2e9"),
    ],
)
def test_it_never_extrapolates(argument, figure, allowed):
    with pytest.raises(OutsideRange, match=allowed) as refusal:
        open_water(**(IN_RANGE | {argument: [figure]}))

    assert refusal.value.argument == argument


def test_the_pull_at_the_bollard_has_an_uncertainty_too():
    design = {"pitch_ratio": 1.0, "area_ratio": 0.718, "blades": 3}

    pull = propagate(kt, advance_ratio=ufloat(0.0, 0.01), **design)

    # The slope at J = 0 is the cubic's own second coefficient.
    assert pull.s == pytest.approx(0.01 * abs(float(open_water_cubic(**design).kt[1])), rel=1e-4)


def test_shapes_that_do_not_go_together_are_refused_by_name():
    with pytest.raises(OutsideRange, match="shape") as refusal:
        kt([0.1, 0.2], 1.0, [0.5, 0.6, 0.7], 4)

    assert refusal.value.argument == "area_ratio"


@settings(max_examples=40, deadline=None)
@given(st.floats(0, 1), DESIGNS)
def test_the_reynolds_correction_vanishes_at_the_series_own_number(share, design):
    added = reynolds_correction(min(share * design[0], 1.2), *design, 2e6)

    # What continuity at 2e6 leaves of the published coefficients where a propeller works: 0.0013 and 0.00014.
    assert abs(float(added.kt)) <= 0.00135
    assert abs(float(added.kq)) <= 0.000145


def test_a_faster_blade_needs_less_torque_in_every_way_of_correcting():
    assert float(reynolds_correction(**IN_RANGE, reynolds_number=1e7).kq) < 0
    assert float(scale_correction(1.0, 0.55, 4, 8.0).kq) < 0


def test_a_small_propeller_is_rougher_for_its_size():
    drag = scale_correction(1.0, 0.55, 4, np.array([0.25, 0.5, 1.0])).kt

    assert np.all(np.diff(drag) > 0)
    assert drag[0] < 0


@settings(max_examples=30, deadline=None)
@given(st.floats(0.2, 2.0), st.floats(5, 50), st.floats(0, 20), st.floats(1.1, 3))
def test_the_advance_ratio_keeps_its_value_when_speed_and_turns_rise_together(diameter_m, turns, speed, factor):
    assert float(advance_ratio(speed * factor, turns * factor, diameter_m)) == pytest.approx(
        float(advance_ratio(speed, turns, diameter_m)), rel=1e-12
    )
    assert float(blade_reynolds_number(0.5, 3, diameter_m, turns * factor, speed * factor)) == pytest.approx(
        factor * float(blade_reynolds_number(0.5, 3, diameter_m, turns, speed)), rel=1e-12
    )


def test_a_shaft_that_stands_still_has_no_advance_ratio():
    with pytest.raises(OutsideRange, match="above zero") as refusal:
        advance_ratio(3.0, 0.0, 0.5)

    assert refusal.value.argument == "shaft_speed_rps"
