"""How a hub sits: figures worked by hand, and refusals that name their argument."""

import numpy as np
import pytest

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.seat import (
    bearing_gap,
    clear_on_top,
    difference,
    largest_diameter,
    metal_to_bore,
    overhang,
    parting,
    seat_left,
    wall_left,
)


def test_1_12_and_1_16_part_by_two_millimetres_in_a_hundred():
    # trade.md, section 4: 2.08 mm in 100.
    assert float(parting(1 / 16, 1 / 12, 0.1)) == pytest.approx(0.00208, abs=5e-6)
    assert float(parting(1 / 12, 1 / 16, 0.1)) == pytest.approx(-0.00208, abs=5e-6)


def test_a_1_16_hub_has_no_metal_for_1_12_at_any_place_but_its_large_end():
    # By hand, 40 mm, 48 mm along: 40 - 4 = 36 is wanted, 40 - 3 = 37 is there.
    stations = np.array([0.0, 0.048])

    assert metal_to_bore(0.040, 1 / 16, 0.040, 1 / 12, stations) == pytest.approx([0.0, -0.001])
    assert metal_to_bore(0.040, 1 / 12, 0.040, 1 / 16, stations) == pytest.approx([0.0, 0.001])


def test_the_wall_over_a_keyway_is_less_by_its_depth():
    # (80 - 40) / 2 = 20, less 5.
    assert float(wall_left(0.080, 0.040)) == pytest.approx(0.020)
    assert float(wall_left(0.080, 0.040, 0.005)) == pytest.approx(0.015)


def test_a_hub_that_slides_up_takes_room_from_the_bearing_and_from_the_nut():
    # Room of 20, hub of 110, taper of 100, set up 5 past the mark.
    assert float(bearing_gap(0.020, 0.005)) == pytest.approx(0.015)
    assert float(overhang(0.110, 0.100, 0.005)) == pytest.approx(0.005)
    assert float(seat_left(0.100, 0.005)) == pytest.approx(0.105)


def test_a_hub_that_stops_short_stands_further_back():
    assert float(overhang(0.110, 0.100, -0.005)) == pytest.approx(0.015)
    assert float(seat_left(0.100, -0.005)) == pytest.approx(0.095)


def test_a_key_is_clear_by_what_both_keyways_have_over_its_height():
    # ISO/R 773, shaft 22 to 30 mm: key 8 x 7, depths 4.0 and 3.3.
    assert float(clear_on_top(0.0033, 0.0040, 0.0070)) == pytest.approx(0.0003)


def test_the_largest_propeller_leaves_the_share_that_was_asked_for():
    # 325 = 500 / 2 + 15 % of 500.
    assert float(largest_diameter(0.325, 0.15)) == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("formula", "figures", "argument"),
    [
        (parting, {"hub_taper": 0.0, "shaft_taper": 0.1, "length_m": 0.1}, "hub_taper"),
        (wall_left, {"hub_diameter_m": 0.08, "bore_m": -0.04}, "bore_m"),
        (wall_left, {"hub_diameter_m": 0.08, "bore_m": 0.04, "keyway_depth_m": -0.001}, "keyway_depth_m"),
        (overhang, {"hub_length_m": 0.1, "taper_length_m": 0.1, "set_up_m": np.inf}, "set_up_m"),
        (bearing_gap, {"hub_space_m": -0.01, "set_up_m": 0.0}, "hub_space_m"),
        (seat_left, {"taper_length_m": 0.0, "set_up_m": 0.0}, "taper_length_m"),
        (clear_on_top, {"hub_depth_m": 0.0, "shaft_depth_m": 0.004, "key_height_m": 0.008}, "hub_depth_m"),
        (difference, {"hub_m": np.inf, "shaft_m": 0.01}, "hub_m"),
        (largest_diameter, {"hull_clearance_m": 0.3, "tip_ratio": -0.1}, "tip_ratio"),
    ],
    ids=lambda value: getattr(value, "__name__", value if isinstance(value, str) else ""),
)
def test_a_figure_that_cannot_be_is_refused_by_name(formula, figures, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(**figures)

    assert refusal.value.argument == argument


def test_what_is_not_known_passes_through():
    assert np.isnan(overhang(np.nan, 0.1, 0.0))
    assert np.isnan(metal_to_bore(0.04, np.nan, 0.04, 1 / 12, 0.1))
