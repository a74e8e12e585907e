from math import atan2, degrees, hypot

import pytest

from tests.drawings.reading import SVG, Drawn
from yardapp.drawings.condition import MIDDLE_X, MIDDLE_Y, TIP, FaultMark, condition


def mark(**said):
    usual = {"number": 1, "blade": 2, "radius_ratio": 0.7, "side": "face", "severity": "note", "label": "Nick"}
    return FaultMark(**(usual | said))


def middle(drawn, name):
    shape = drawn.named(name)[0]
    return float(shape.get("cx")), float(shape.get("cy"))


@pytest.mark.parametrize("radius_ratio", [0.3, 0.5, 0.7, 0.9, 1.0])
def test_a_mark_stands_at_its_share_of_the_radius(radius_ratio):
    x, y = middle(Drawn(condition(3, None, [mark(radius_ratio=radius_ratio)])), "note")

    assert hypot(x - MIDDLE_X, y - MIDDLE_Y) / TIP == pytest.approx(radius_ratio, abs=0.02)


@pytest.mark.parametrize(("blades", "blade", "turn_deg"), [(3, 1, 0), (3, 2, 120), (4, 3, 180), (5, 5, 288)])
def test_a_mark_stands_on_its_own_blade_clockwise_from_the_top(blades, blade, turn_deg):
    # Without a hand the blade is drawn even about its own line.
    x, y = middle(Drawn(condition(blades, None, [mark(blade=blade)])), "note")

    off = (degrees(atan2(x - MIDDLE_X, MIDDLE_Y - y)) - turn_deg + 180) % 360 - 180
    assert off == pytest.approx(0, abs=1)


def test_a_fault_of_the_hub_stands_in_the_middle():
    x, y = middle(Drawn(condition(3, "right", [mark(blade=None, radius_ratio=None, side="hub")])), "note")

    assert (x, y) == (MIDDLE_X, MIDDLE_Y)


def test_each_severity_has_a_shape_of_its_own_and_is_said_in_words():
    marks = [mark(number=number, severity=severity) for number, severity in enumerate(("stop", "watch", "note"), 1)]
    drawn = Drawn(condition(3, "right", marks))

    assert all(drawn.named(severity) for severity in ("stop", "watch", "note"))
    assert "Square: stop" in drawn.text
    assert "3 faults" in drawn.title


def test_the_back_is_dashed_and_the_face_is_not():
    drawn = Drawn(condition(3, None, [mark(), mark(number=2, blade=1, side="back")]))

    assert ["dash" in shape.get("class") for shape in drawn.named("note")] == [False, True]


def test_places_to_tap_lie_apart_and_say_where_they_are():
    drawn = Drawn(condition(5, "right", spots=(0.3, 0.5, 0.7, 0.9), spot_href=lambda blade, share: f"?{blade},{share}"))

    links = list(drawn.root.iter(f"{SVG}a"))
    assert len(links) == 20
    assert links[0].get("aria-label") == "blade 1, 0.3 of the radius"
    assert links[-1].get("href") == "?5,0.9"
    places = [(float(dot.get("cx")), float(dot.get("cy"))) for dot in drawn.named("spot")]
    apart = [hypot(a[0] - b[0], a[1] - b[1]) for number, a in enumerate(places) for b in places[:number]]
    assert min(apart) >= 26


def test_blades_that_nobody_counted_are_said():
    assert "Blade count not known" in Drawn(condition(None, None)).text
