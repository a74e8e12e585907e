from math import atan2, cos, degrees, hypot, pi, sin

import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.outline import blade, width
from yardapp.drawings.propeller import MIDDLE_X, MIDDLE_Y, from_aft

# The sizes of a common workboat propeller; hub and bore as shares of the diameter are arithmetic.
SIZES = {"hub_diameter_m": 0.1, "bore_m": 0.04, "pitch_m": 0.4, "area_ratio": 0.5}


def test_hub_bore_and_the_measuring_circle_are_to_scale_with_the_diameter():
    drawn = Drawn(from_aft(0.5, 3, "right", **SIZES, diameter_label="⌀ 500"))

    assert drawn.radius("hub") / drawn.radius("disc") == pytest.approx(0.2, abs=1e-3)
    assert drawn.radius("bore") / drawn.radius("disc") == pytest.approx(0.08, abs=1e-3)
    assert drawn.radius("0.7 R") / drawn.radius("disc") == pytest.approx(0.7, abs=1e-3)
    assert drawn.long("diameter") == pytest.approx(2 * drawn.radius("disc"), abs=0.02)


@pytest.mark.parametrize("blades", [2, 3, 4, 5, 7])
def test_as_many_blades_as_were_counted_evenly_spaced_and_reaching_the_disc(blades):
    drawn = Drawn(from_aft(0.5, blades, "right", **SIZES))

    tips = [max(_from_middle(drawn.corners("blade", which))) for which in range(blades)]
    angles = sorted(angle for _, angle in tips)
    gaps = [later - sooner for sooner, later in zip(angles, [*angles[1:], angles[0] + 360], strict=True)]
    assert len(drawn.named("blade")) == blades
    assert [reach for reach, _ in tips] == pytest.approx([drawn.radius("disc")] * blades, abs=0.02)
    assert gaps == pytest.approx([360 / blades] * blades, abs=0.1)


def _from_middle(corners):
    """Distance from the propeller's middle and angle round it, of each corner."""
    return [
        (round(hypot(x - MIDDLE_X, y - MIDDLE_Y), 2), degrees(atan2(y - MIDDLE_Y, x - MIDDLE_X)) % 360)
        for x, y in corners
    ]


def test_a_left_hand_propeller_is_the_mirror_of_a_right_hand_one():
    right = Drawn(from_aft(0.5, 3, "right", **SIZES)).corners("blade")
    left = Drawn(from_aft(0.5, 3, "left", **SIZES)).corners("blade")

    for (x_right, y_right), (x_left, y_left) in zip(right, left, strict=True):
        assert (x_right - MIDDLE_X, y_right) == pytest.approx((MIDDLE_X - x_left, y_left), abs=0.02)


def test_a_right_hand_blade_trails_against_its_clockwise_turn_ahead():
    tip_x, tip_y = min(blade(3, 0.5, 0.8, 0.2, hand="right", radius=1), key=lambda corner: abs(hypot(*corner) - 1))

    assert tip_x < -0.05
    assert tip_y < 0


@pytest.mark.parametrize(("hand", "ends_at_the"), [("right", "right"), ("left", "left")])
def test_the_turning_arrow_goes_over_the_top_towards_its_hand(hand, ends_at_the):
    course = Drawn(from_aft(0.5, 3, hand, **SIZES)).named("turning")[0].get("d").split()

    start_x, end_x = float(course[0][1:]), float(course[-2])
    assert (end_x > start_x > MIDDLE_X) if ends_at_the == "right" else (end_x < start_x < MIDDLE_X)


@pytest.mark.parametrize("blades", [3, 4])
def test_the_drawn_blades_hold_the_area_they_were_given(blades):
    # Nominal area over disc area is the area ratio by definition; the series outline closes on it within 1 %
    # from a hub radius of 0.167 R (four blades) or 0.180 R (three): Oosterveld & van Oossanen 1975, Table 2.
    hub_share = 0.180 if blades == 3 else 0.167
    steps = 2000
    step = (1 - hub_share) / steps
    one_blade = sum(width(hub_share + step * (number + 0.5), blades, 0.5) * step for number in range(steps))

    assert blades * one_blade / pi == pytest.approx(0.5, rel=0.015)


def test_a_blade_is_as_wide_on_the_sheet_as_its_section_seen_along_the_shaft():
    # Four blades, area ratio 0.6, at 0.7 R: width laid flat 2.144 * 0.6 / 4 * D (Oosterveld & van Oossanen 1975,
    # Table 2), foreshortened by the cosine of the pitch angle, tan = P/D / (0.7 pi), and wound round the radius 0.7 R.
    flat = 2.144 * 0.6 / 4 * 2
    swept_rad = flat * cos(atan2(0.8, 0.7 * pi)) / 0.7
    corners = [corner for corner in blade(4, 0.6, 0.8, 0.2, hand=None, radius=1) if corner[0] > 0]

    nearest = min(corners, key=lambda corner: abs(hypot(*corner) - 0.7))
    assert nearest[0] / hypot(*nearest) == pytest.approx(sin(swept_rad / 2), rel=0.02)


def test_what_is_not_known_is_left_out_and_said():
    drawn = Drawn(from_aft(None, None, None))

    assert not drawn.named("blade")
    assert not drawn.named("bore")
    assert not drawn.named("diameter")
    assert not drawn.named("turning")
    for said in ("Diameter not known", "Blade count not known", "Hand not known", "not measured: hub"):
        assert said in drawn.text


def test_blades_whose_width_was_never_measured_are_dashed():
    drawn = Drawn(from_aft(0.5, 3, "right"))

    assert "dash" in drawn.named("blade")[0].get("class")
    assert "blade width" in drawn.text
