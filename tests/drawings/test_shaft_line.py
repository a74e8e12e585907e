import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.play import play_in_bearing
from yardapp.drawings.shaft_line import ShaftPlace, shaft_bow, shaft_wear


def place(along_m, figure_m, **said):
    return ShaftPlace(along_m=along_m, figure_m=figure_m, **said)


def test_a_bow_is_highest_where_the_shaft_stands_off_furthest():
    drawn = Drawn(shaft_bow([place(0.2, 0.0001), place(0.8, 0.0004, label="0.4 mm", name="2", is_worst=True)]))

    _, low, high, _ = drawn.corners("middle line")
    (_, axis), _ = drawn.corners("axis")
    assert (axis - high[1]) / (axis - low[1]) == pytest.approx(4, rel=0.01)
    assert "0.4 mm" in drawn.text
    assert "most at 2: 0.4 mm" in drawn.title


def test_places_stand_to_scale_along():
    drawn = Drawn(shaft_bow([place(0.0, 0.1), place(0.25, 0.1), place(1.0, 0.1)]))

    _, first, middle, last, _ = drawn.corners("middle line")
    assert (middle[0] - first[0]) / (last[0] - first[0]) == pytest.approx(0.25, abs=0.002)


def test_places_that_were_not_read_are_drawn_evenly_and_said():
    drawn = Drawn(shaft_bow([place(None, 0.1), place(None, 0.1)]))

    assert "drawn evenly" in drawn.text


def test_wear_draws_the_outline_in_at_the_worn_place():
    drawn = Drawn(shaft_wear([place(0.1, 0.0), place(0.5, 0.0003, label="37.8 mm", is_worst=True)]))

    outline = drawn.corners("outline")
    assert outline[2][1] > outline[1][1]
    assert "37.8 mm" in drawn.text


@pytest.mark.parametrize("draw", [shaft_bow, shaft_wear])
def test_nothing_read_is_said(draw):
    assert "Not read" in Drawn(draw([])).text


def test_a_straight_shaft_is_drawn_straight():
    drawn = Drawn(shaft_bow([place(0.2, 0.0), place(0.8, 0.0)]))

    (_, axis), _ = drawn.corners("axis")
    assert {y for _, y in drawn.corners("middle line")} == {axis}


def test_play_is_what_is_free_above_the_shaft():
    drawn = Drawn(play_in_bearing(0.0009, play_label="0.9 mm"))

    assert drawn.radius("shaft") < drawn.radius("bore")
    assert drawn.long("play") == pytest.approx(2 * (drawn.radius("bore") - drawn.radius("shaft")), abs=0.05)
    assert "Play not read" in Drawn(play_in_bearing(None)).text
