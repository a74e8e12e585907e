import pytest

from tests.drawings.reading import Drawn
from yardapp.drawings.hand import hand_picture


@pytest.mark.parametrize(("hand", "leans"), [("right", 1), ("left", -1)])
def test_the_near_blade_leans_like_a_slash_on_a_right_hand_propeller_and_like_a_backslash_on_a_left(hand, leans):
    corners = Drawn(hand_picture(hand)).corners("near blade")

    low_x, low_y = max(corners, key=lambda corner: corner[1])
    high_x, high_y = min(corners, key=lambda corner: corner[1])
    assert (high_x - low_x) * leans > 30
    assert low_y - high_y > 30


def test_a_hand_that_is_neither_is_refused():
    with pytest.raises(KeyError):
        hand_picture("both")
