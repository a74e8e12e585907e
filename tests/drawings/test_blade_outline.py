import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.blade_outline import blade_outline, blade_widths


def test_widths_are_drawn_to_one_scale_up_and_across():
    drawn = Drawn(blade_widths([(0.1, 0.1, "100 mm"), (0.2, 0.15, "150 mm")], 0.25, 0.05))

    (x1, y1), (x2, _) = drawn.corners("width", 0)
    (x3, y3), (x4, _) = drawn.corners("width", 1)
    assert (x4 - x3) / (x2 - x1) == pytest.approx(1.5, rel=0.01)
    assert (y1 - y3) / (x2 - x1) == pytest.approx(0.1 / 0.1, rel=0.01)
    assert "150 mm" in drawn.text


def test_root_and_tip_pieces_are_shaded():
    drawn = Drawn(blade_widths([(0.1, 0.1, ""), (0.2, 0.15, "")], 0.25, 0.05))

    assert drawn.named("root piece")
    assert drawn.named("tip piece")


def test_an_outline_keeps_its_proportions():
    drawn = Drawn(blade_outline([(0, 0), (0.1, 0), (0.1, 0.23), (0, 0.23)], label="0.023 m²"))

    xs, ys = zip(*drawn.corners("outline"), strict=True)
    assert (max(ys) - min(ys)) / (max(xs) - min(xs)) == pytest.approx(2.3, rel=0.01)
    assert "0.023 m²" in drawn.text


def test_nothing_read_is_said():
    assert "No width read" in Drawn(blade_widths([], 0.25, 0.05)).text
    assert "No outline read" in Drawn(blade_outline([])).text
