from math import atan, cos, pi, radians, sin, tan

import numpy as np
import pytest

from yardapp.formulas.pitch import pitch_from_chord, pitch_from_rise
from yardapp.formulas.pitch_template import pitch_from_template, swing_from_chord
from yardapp.formulas.ranges import OutsideRange


@pytest.mark.parametrize("pitch_m", [0.30, 0.38, 0.40, 0.45, 0.70])
def test_the_gap_of_a_blade_drawn_out_by_coordinates_gives_its_pitch_back(pitch_m):
    # An independent route: template and blade as two lines through the origin of the unrolled cylinder. The point of
    # the template 120 mm along; from it square to the template to the blade's line, by solving the two lines.
    radius_m, template_m, width_m = 0.150, 0.400, 0.120
    template_rad, blade_rad = atan(template_m / (2 * pi * radius_m)), atan(pitch_m / (2 * pi * radius_m))
    foot = np.array([width_m * cos(template_rad), width_m * sin(template_rad)])
    square, blade = np.array([-sin(template_rad), cos(template_rad)]), np.array([cos(blade_rad), sin(blade_rad)])
    gap_m = np.linalg.solve(np.column_stack([square, -blade]), -foot)[0]

    assert float(pitch_from_template(template_m, radius_m, gap_m, width_m)) == pytest.approx(pitch_m, rel=1e-9)


def test_without_a_gap_the_blade_has_the_templates_pitch():
    assert float(pitch_from_template(0.4, 0.15, 0.0, 0.12)) == pytest.approx(0.4)


def test_a_small_gap_square_to_the_template_is_the_rise_that_it_makes_along_the_shaft():
    # By the other formula: the gap g makes g / cos(angle) of rise along the shaft over the width's share of the turn.
    radius_m, template_m, gap_m, width_m = 0.150, 0.400, 0.0002, 0.120
    angle = atan(template_m / (2 * pi * radius_m))
    swing_rad = width_m * cos(angle) / radius_m
    more_m = float(pitch_from_rise(gap_m / cos(angle), swing_rad))

    assert float(pitch_from_template(template_m, radius_m, gap_m, width_m)) - template_m == pytest.approx(
        more_m, rel=0.01
    )


@pytest.mark.parametrize(
    ("readings", "box"),
    [
        ({"gap_m": 0.13}, "gap_m"),
        ({"gap_m": -0.06}, "gap_m"),  # flatter than flat: the blade would turn the other way
        ({"width_m": 0.0}, "width_m"),
        ({"template_pitch_m": -0.4}, "template_pitch_m"),
        ({"radius_m": 0.0}, "radius_m"),
    ],
)
def test_a_template_that_can_not_lie_so_is_refused_by_name(readings, box):
    good = {"template_pitch_m": 0.4, "radius_m": 0.15, "gap_m": 0.002, "width_m": 0.12}

    with pytest.raises(OutsideRange) as refused:
        pitch_from_template(**(good | readings))

    assert refused.value.argument == box


def test_what_is_not_known_passes_through():
    assert np.isnan(pitch_from_template(0.4, np.nan, 0.001, 0.12))
    assert np.isnan(swing_from_chord(np.nan, 0.1))


def test_a_chord_of_one_radius_spans_sixty_degrees():
    assert float(swing_from_chord(0.2, 0.2)) == pytest.approx(radians(60))


def test_rise_over_the_swing_that_a_chord_spans_is_rise_over_the_chord():
    # pitch_examples.csv M3: 18.2827 mm over a 60 mm gauge at 157.5 mm is 299.70 mm.
    swing_rad = swing_from_chord(0.1575, 0.060)

    assert float(pitch_from_rise(0.0182827, swing_rad)) == pytest.approx(0.29970, abs=5e-6)
    assert float(pitch_from_chord(0.0182827, 0.1575, 0.060)) == pytest.approx(0.29970, abs=5e-6)


def test_a_chord_longer_than_the_circle_is_wide_is_refused():
    with pytest.raises(OutsideRange, match="twice the radius"):
        swing_from_chord(0.1, 0.21)


def test_the_tangent_of_a_blade_at_a_known_angle():
    assert float(pitch_from_template(0.4, 0.15, 0.120 * tan(radians(2)), 0.120)) == pytest.approx(
        2 * pi * 0.15 * tan(atan(0.4 / (2 * pi * 0.15)) + radians(2))
    )
