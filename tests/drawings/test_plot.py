import re
from math import nan

import pytest

from tests.drawings.reading import SVG, Drawn
from yardapp.drawings.plot import Axis, Band, Curve, Dot, Region, plot

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


def test_a_region_is_shaded_between_its_edges_and_cut_at_the_plot_s():
    course = [(400, 200, 350), (500, 250, 350), (600, 280, 350)]
    drawn = Drawn(plot(X, Y, title="Stock", regions=[Region(course=course, label="over")]))

    (left, _), (_, floor), (right, _) = drawn.corners("axes")
    corners = drawn.corners("region over")
    assert (min(x for x, _ in corners), max(x for x, _ in corners)) == pytest.approx((left, right), abs=0.01)
    # Its lower edge lies under the plot, which begins at 300: it is cut there.
    assert max(y for _, y in corners) == pytest.approx(floor, abs=0.01)
    assert "over" in drawn.text


def test_a_gap_parts_a_region_in_two():
    course = [(400, 310, 350), (450, 310, 350), (500, nan, nan), (550, 310, 350), (600, 310, 350)]

    assert (
        len(Drawn(plot(X, Y, title="Stock", regions=[Region(course=course, label="over")])).named("region over")) == 2
    )


def test_a_dot_without_a_label_has_a_name_for_those_who_hear_it():
    drawn = Drawn(plot(X, Y, title="Stock", dots=[Dot(x=450, y=350, href="/t/P-0412", name="P-0412, 450 x 350")]))

    assert drawn.root.find(f".//{SVG}a").get("aria-label") == "P-0412, 450 x 350"


def test_labels_of_curves_that_end_together_keep_clear_of_one_another():
    steps = [number / 100 for number in range(101)]
    curves = [
        Curve(points=[(step, 1 - step + lift) for step in steps], label=f"{2800 + 200 * number}")
        for number, lift in enumerate((0.0, 0.02, 0.04))
    ]

    drawn = plot(Axis(label="x", low=0, high=1), Axis(label="y", low=0, high=1.1), title="Close", curves=curves)

    places = [
        (float(at), float(up))
        for at, up in re.findall(r'<text x="([\d.]+)" y="([\d.]+)" text-anchor="end" class="dim halo"', drawn)
    ]
    assert len(places) == 3
    for number, (at, up) in enumerate(places):
        # Four figures at 14 px are about 33 wide and 14 high.
        assert all(abs(at - other) >= 33 or abs(up - high) >= 14 for other, high in places[number + 1 :])


def test_of_two_dots_on_one_spot_the_chosen_one_s_label_is_drawn():
    dots = [Dot(x=450, y=350, label="P-0001"), Dot(x=451, y=351, label="P-0002", is_chosen=True)]

    drawn = plot(X, Y, title="Stock", dots=dots)

    assert re.findall(r">(P-000\d)</text>", drawn) == ["P-0002"]
    assert "Shown: P-0001, P-0002." in drawn
