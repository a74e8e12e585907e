from math import atan2, degrees, pi, radians, tan

import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.helix import helix_triangle


def _slope_deg(corners):
    (x1, y1), (x2, _), (_, y3) = corners
    return degrees(atan2(y1 - y3, x2 - x1))


def test_the_reading_stands_at_the_helix_angle():
    # 20 in diameter, 16 in pitch, at 0.7 R: tan phi = P / (2 pi r) = 16 / (14 pi), so 19.99 degrees.
    radius_m, pitch_m = 0.7 * 0.254, 0.4064
    drawn = Drawn(helix_triangle(radius_m, radians(45), pitch_m / 8))

    assert _slope_deg(drawn.corners("reading")) == pytest.approx(19.99, abs=0.05)
    assert _slope_deg(drawn.corners("turn")) == pytest.approx(19.99, abs=0.05)


def test_base_and_rise_are_drawn_at_one_scale():
    drawn = Drawn(helix_triangle(0.2, radians(60), 0.05))

    assert drawn.long("rise") / drawn.long("base") == pytest.approx(0.05 / (0.2 * pi / 3), rel=2e-3)


def test_the_reading_takes_its_share_of_the_full_turn():
    drawn = Drawn(helix_triangle(0.2, radians(60), 0.05))

    (left, _), (share_right, _), _ = drawn.corners("share")
    (_, _), (turn_right, _), _ = drawn.corners("turn")
    assert (share_right - left) / (turn_right - left) == pytest.approx(60 / 360, abs=1e-3)


def test_without_a_radius_the_triangle_is_drawn_and_said_to_be_not_to_scale():
    drawn = Drawn(helix_triangle(None, radians(60), 0.05, rise_label="50 mm"))

    assert drawn.named("reading")
    assert "not to scale" in drawn.text
    assert "50 mm" in drawn.text


def test_labels_stand_on_the_drawing_as_given():
    drawn = Drawn(
        helix_triangle(0.2, tan(0.5), 0.05, base_label="209 mm", angle_label="13.4°", pitch_label="300 ± 12 mm")
    )

    for label in ("209 mm", "13.4°", "300 ± 12 mm"):
        assert label in drawn.text
