from math import atan2, degrees, radians

import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.template_on_blade import template_on_blade


def test_the_template_stands_at_its_own_angle():
    drawn = Drawn(template_on_blade(radians(23), 0.002, 0.12))

    (x1, y1), (x2, y2), *_ = drawn.corners("body")
    assert degrees(atan2(y1 - y2, x2 - x1)) == pytest.approx(23, abs=0.05)


@pytest.mark.parametrize(("gap_m", "edge"), [(0.002, "leading"), (-0.002, "trailing")])
def test_the_gap_stands_at_its_edge_and_the_face_above_the_template(gap_m, edge):
    drawn = Drawn(template_on_blade(radians(23), gap_m, 0.12, gap_label="gap 2 mm"))

    trailing, leading, *_ = drawn.corners("body")
    face = drawn.corners("face")
    assert edge in drawn.desc
    assert "gap 2 mm" in drawn.text
    lifted, still = (face[1], face[0]) if edge == "leading" else (face[0], face[1])
    assert lifted[1] < (leading if edge == "leading" else trailing)[1]
    assert still == pytest.approx(trailing if edge == "leading" else leading, abs=0.01)


@pytest.mark.parametrize("readings", [(None, 0.002, 0.12), (0.4, float("nan"), 0.12), (0.4, 0.002, None)])
def test_what_was_not_read_is_said(readings):
    assert "not read" in Drawn(template_on_blade(*readings)).text
