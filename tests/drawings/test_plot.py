from math import nan

import pytest

from tests.drawings.reading import SVG, Drawn
from yardapp.drawings.plot import Axis, Band, Curve, Dot, plot

X = Axis(label="diameter, mm", low=400, high=600, ticks=[(400, "400"), (600, "600")])
Y = Axis(label="pitch, mm", low=300, high=500)


def _at(drawn, which=0):
    dot = drawn.named("dot")[which]
    return float(dot.get("cx")), float(dot.get("cy"))


def test_a_dot_stands_where_its_figures_put_it():
    drawn = Drawn(plot(X, Y, title="Stock", dots=[Dot(x=450, y=350)]))

    (left, top), (_, floor), (right, _) = drawn.corners("axes")
    x, y = _at(drawn)
    assert (x - left) / (right - left) == pytest.approx(0.25, abs=1e-3)
    assert (floor - y) / (floor - top) == pytest.approx(0.25, abs=1e-3)


def test_a_dot_with_an_address_is_a_link_with_a_name():
    drawn = Drawn(plot(X, Y, title="Stock", dots=[Dot(x=450, y=350, label="P-0412", href="/t/P-0412")]))

    link = drawn.root.find(f".//{SVG}a")
    assert link.get("href") == "/t/P-0412"
    assert "P-0412" in "".join(link.itertext())


@pytest.mark.parametrize("outside", [Dot(x=700, y=350), Dot(x=450, y=nan), Dot(x=450, y=100)])
def test_a_dot_off_the_axes_is_counted_and_not_drawn(outside):
    drawn = Drawn(plot(X, Y, title="Stock", dots=[outside, Dot(x=450, y=350)]))

    assert len(drawn.named("dot")) == 1
    assert "1 outside the plot." in drawn.text


def test_a_figure_that_is_not_known_breaks_its_curve():
    points = [(400, 310), (450, 320), (500, nan), (550, 340), (600, 350)]
    drawn = Drawn(plot(X, Y, title="Trial", curves=[Curve(points=points, label="May")]))

    assert len(drawn.named("curve May")) == 2


def test_a_band_is_cut_at_the_edge_of_the_plot():
    drawn = Drawn(plot(X, Y, title="Stock", bands=[Band(low=550, high=900, label="tips")]))

    _, (_, _), (right, _) = drawn.corners("axes")
    assert max(x for x, _ in drawn.corners("band tips")) == pytest.approx(right, abs=0.01)
