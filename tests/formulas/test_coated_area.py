import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yardapp.formulas.coated_area import bracket_area, disc_area, frustum_area, root_area
from yardapp.formulas.coating import hub_area
from yardapp.formulas.ranges import OutsideRange

SIZE = st.floats(0.02, 2.0)


@given(SIZE, SIZE)
def test_a_hub_without_taper_is_a_cylinder(length_m, diameter_m):
    assert frustum_area(length_m, diameter_m, diameter_m) == pytest.approx(float(hub_area(length_m, diameter_m)))


def test_a_hub_that_tapers_is_the_cone_less_its_tip():
    # A cone 40 mm wide and 30 mm high has slant 36.06 mm and side pi x 20 x 36.06; cut half way, a quarter is gone.
    whole_m2 = math.pi * 0.020 * math.hypot(0.020, 0.030)

    assert frustum_area(0.015, 0.040, 0.020) == pytest.approx(whole_m2 * 3 / 4)


def test_a_flat_hub_is_a_ring():
    # As the length goes to nothing the side becomes the ring between the two diameters.
    ring_m2 = math.pi / 4 * (0.10**2 - 0.06**2)

    assert frustum_area(1e-9, 0.10, 0.06) == pytest.approx(ring_m2)
    assert disc_area(0.10, 0.06) == pytest.approx(ring_m2)


def test_round_roots_cover_circles():
    assert root_area(4, 0.05, 0.05) == pytest.approx(4 * math.pi / 4 * 0.05**2)


def test_a_bracket_is_a_tube_and_flat_plates():
    tube_m2, plates_m2 = math.pi * 0.08 * 0.15, 2 * 2 * 0.30 * 0.10

    assert bracket_area(0.15, 0.08, 0.30, 0.10, 2) == pytest.approx(tube_m2 + plates_m2)


def test_twice_the_size_is_four_times_the_area():
    assert bracket_area(0.3, 0.16, 0.6, 0.2, 2) == pytest.approx(4 * float(bracket_area(0.15, 0.08, 0.3, 0.1, 2)))


@pytest.mark.parametrize(
    ("ask", "argument"),
    [
        (lambda: frustum_area(0, 0.1, 0.1), "length_m"),
        (lambda: root_area(1, 0.1, 0.1), "blades"),
        (lambda: root_area(3, 0.1, -0.1), "root_thickness_m"),
        (lambda: bracket_area(0.1, 0.1, 0.1, 0.1, 2.5), "arms_count"),
        (lambda: bracket_area(0.1, 0.1, 0.1, np.inf, 2), "arm_width_m"),
        (lambda: disc_area(0.1, 0.1), "bore_m"),
        (lambda: disc_area(0.1, -0.01), "bore_m"),
    ],
)
def test_a_figure_that_no_body_has_is_refused(ask, argument):
    with pytest.raises(OutsideRange) as refusal:
        ask()

    assert refusal.value.argument == argument


def test_what_is_not_known_gives_no_area():
    assert np.isnan(frustum_area(np.nan, 0.1, 0.1))
