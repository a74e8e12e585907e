import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.disc_under_hull import RuleBand, disc_under_hull

FIFTEEN = RuleBand(label="15 % of D", clearance_m=0.09)


def test_the_tip_gap_is_to_scale_with_the_disc():
    # 0.360 m from shaft centre to hull less half of 0.600 m leaves 0.060 m: a tenth of the diameter.
    drawn = Drawn(disc_under_hull(0.600, 0.360, tip_gap_label="60 mm"))

    assert drawn.long("tip gap") / (2 * drawn.radius("disc")) == pytest.approx(0.1, abs=2e-3)
    assert "60 mm" in drawn.title


def test_a_rule_s_line_stands_above_the_tip_by_what_it_asks():
    drawn = Drawn(disc_under_hull(0.600, 0.360, bands=[FIFTEEN]))

    asked_y = drawn.corners("band 15 % of D")[0][1]
    tip_y = float(drawn.named("disc")[0].get("cy")) - drawn.radius("disc")
    assert (tip_y - asked_y) / (2 * drawn.radius("disc")) == pytest.approx(0.15, abs=2e-3)


def test_a_hull_too_near_lies_under_the_rule_s_line():
    drawn = Drawn(disc_under_hull(0.600, 0.360, bands=[FIFTEEN]))

    assert drawn.corners("hull")[0][1] > drawn.corners("band 15 % of D")[0][1]


def test_the_sole_stands_as_far_below_as_it_was_measured():
    drawn = Drawn(disc_under_hull(0.600, 0.360, shaft_to_sole_m=0.330, sole_gap_label="30 mm"))

    assert drawn.long("sole gap") / (2 * drawn.radius("disc")) == pytest.approx(0.05, abs=2e-3)


def test_a_hull_that_was_never_measured_is_not_drawn_and_said_so():
    drawn = Drawn(disc_under_hull(0.600, None, bands=[FIFTEEN]))

    assert not drawn.named("hull")
    assert drawn.named("disc")
    assert "not measured" in drawn.text


def test_labels_of_rules_that_ask_for_nearly_the_same_do_not_cover_each_other():
    near = [RuleBand(label="14 %", clearance_m=0.084), FIFTEEN]
    drawn = Drawn(disc_under_hull(0.600, 0.360, bands=near))

    labels = {mark.text: float(mark.get("y")) for mark in drawn.root.iter() if mark.text in ("14 %", "15 % of D")}
    assert labels["14 %"] - labels["15 % of D"] >= 15
