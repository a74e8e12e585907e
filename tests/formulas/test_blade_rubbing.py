from math import cos, pi, sin

import numpy as np
import pytest

from yardapp.formulas.area import blade_area_ratio, expanded_area, projected_area_ratio
from yardapp.formulas.blade_rubbing import (
    area_of_all,
    area_of_outline,
    area_of_squares,
    blade_area_with_root,
    crosses_itself,
    projected_area,
    u_area_of_outline,
    u_of_cut_squares,
)
from yardapp.formulas.ranges import OutsideRange

TURN = 2 * pi


def ellipse(points, long_m=0.12, wide_m=0.05):
    turns = [TURN * number / points for number in range(points)]
    return [long_m * cos(turn) for turn in turns], [wide_m * sin(turn) for turn in turns]


def test_the_outline_of_an_ellipse_has_an_ellipses_area():
    # pi a b; a polygon of n even points inside it has n/(2 pi) sin(2 pi/n) of that.
    for points in (8, 40, 400):
        inside = points / TURN * sin(TURN / points)
        assert float(area_of_outline(*ellipse(points))) == pytest.approx(pi * 0.12 * 0.05 * inside)


def test_the_way_round_does_not_matter():
    x, y = ellipse(30)

    assert float(area_of_outline(x[::-1], y[::-1])) == pytest.approx(float(area_of_outline(x, y)))


def test_the_outlines_uncertainty_is_what_many_tracings_scatter_by():
    x, y = (np.array(axis) for axis in ellipse(40))
    draw = np.random.default_rng(11)
    areas = [
        float(area_of_outline(x + draw.normal(0, 0.0005, 40), y + draw.normal(0, 0.0005, 40))) for _ in range(4000)
    ]

    assert np.std(areas) == pytest.approx(float(u_area_of_outline(x, y, 0.0005)), rel=0.04)


def test_counted_squares_of_an_ellipse_laid_anywhere_on_the_grid_give_its_area_within_their_uncertainty():
    # An independent route: the ellipse drawn on a grid at random, squares told by 20 x 20 points in each.
    draw, side, hits = np.random.default_rng(5), 0.010, 0
    cells = np.arange(-16, 17) * side
    inner = (np.arange(20) + 0.5) / 20 * side
    for _ in range(100):
        off_x, off_y = draw.uniform(0, side, 2)
        x = (cells[:, None] + inner).ravel() + off_x
        y = (cells[:, None] + inner).ravel() + off_y
        inside = (x[:, None] / 0.12) ** 2 + (y[None, :] / 0.05) ** 2 < 1
        share = inside.reshape(33, 20, 33, 20).mean(axis=(1, 3))
        whole, part = np.sum(share == 1), np.sum((share > 0) & (share < 1))
        found = float(area_of_squares(whole, part, side))
        u = float(u_of_cut_squares(part)) * part * side**2
        hits += abs(found - pi * 0.12 * 0.05) <= 2 * u

    # Neighbouring cut squares are not quite apart from each other, so it may cover a little more than 95 of 100.
    assert hits >= 93


def test_root_and_all_blades_and_the_shadow_follow():
    blade = blade_area_with_root(0.0230, 0.090, 0.012)

    # By hand: 0.0230 + 0.00108 = 0.02408; three blades 0.07224; of a disc of 0.5 m, 0.19635 m2, that is 0.3679.
    assert float(area_of_all(blade, 3)) == pytest.approx(0.07224)
    assert float(blade_area_ratio(area_of_all(blade, 3), 0.5)) == pytest.approx(0.3679, abs=5e-5)


@pytest.mark.parametrize("pitch_ratio", [0.6, 1.0, 1.4])
def test_the_shadow_is_taylors_share(pitch_ratio):
    found = float(projected_area(0.1, 0.5 * pitch_ratio, 0.5))

    assert found == pytest.approx(0.1 * float(projected_area_ratio(pitch_ratio)))


def test_an_outline_and_widths_of_the_same_blade_agree():
    # One elliptic blade from hub 0.05 to tip 0.25 m: half an ellipse of half-axes 0.2 and 0.06, pi a b / 2.
    radii = np.linspace(0.05, 0.25, 9)
    widths = 0.12 * np.sqrt(1 - ((radii - 0.05) / 0.2) ** 2)
    widths[-1] = 0.0
    by_widths = float(expanded_area(radii, widths, 0.05, 2)) / 2
    up = np.linspace(0, pi / 2, 60)
    x = np.concatenate([0.06 * np.cos(up), -0.06 * np.cos(up[::-1])])
    y = np.concatenate([0.2 * np.sin(up), 0.2 * np.sin(up[::-1])])

    assert float(area_of_outline(x, y)) == pytest.approx(pi * 0.2 * 0.06 / 2, rel=1e-3)
    assert by_widths == pytest.approx(pi * 0.2 * 0.06 / 2, rel=0.005)


def test_an_outline_out_of_order_is_found_and_one_in_order_is_not():
    x, y = ellipse(20)

    assert not crosses_itself(x, y)
    x[3], x[9], y[3], y[9] = x[9], x[3], y[9], y[3]
    assert crosses_itself(x, y)


@pytest.mark.parametrize(
    ("formula", "given", "box"),
    [
        (area_of_squares, {"whole_count": -1, "part_count": 3, "square_m": 0.01}, "whole_count"),
        (area_of_squares, {"whole_count": 1, "part_count": 3, "square_m": 0.0}, "square_m"),
        (area_of_squares, {"whole_count": 1, "part_count": 3, "square_m": 0.1, "part_ratio": 1.2}, "part_ratio"),
        (u_of_cut_squares, {"part_count": 0}, "part_count"),
        (area_of_outline, {"x_m": [0, 1], "y_m": [0, 1]}, "x_m"),
        (area_of_outline, {"x_m": [0, 1, np.nan], "y_m": [0, 1, 0]}, "x_m"),
        (u_area_of_outline, {"x_m": [0, 1, 1], "y_m": [0, 1, 0], "u_point_m": -1.0}, "u_point_m"),
        (blade_area_with_root, {"traced_m2": 0.0, "root_width_m": 0.1, "root_gap_m": 0.0}, "traced_m2"),
        (area_of_all, {"blade_area_m2": 0.02, "blades": 0}, "blades"),
        (projected_area, {"expanded_area_m2": 0.1, "pitch_m": 0.9, "diameter_m": 0.5}, "pitch_m"),
    ],
)
def test_what_can_not_be_is_refused_by_name(formula, given, box):
    with pytest.raises(OutsideRange) as refused:
        formula(**given)

    assert refused.value.argument == box
