from math import cos, pi, sin, sqrt

import numpy as np
import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.bench import services as bench
from yardapp.bench.models import Sheet
from yardapp.bench.services import AreaReading, Known
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear.models import Item

KNOWN = Known(diameter_m=0.5, u_diameter_m=0.0005, blades=3, hub_diameter_m=0.1, u_hub_diameter_m=0.00025, pitch_m=0.5)
# The outline of the B-series for three blades, c Z / (D AE/A0) at 0.2 R to 0.9 R (pitch_measurement.md).
SERIES = (1.633, 1.832, 2.000, 2.120, 2.186, 2.168, 2.127, 1.657)


def widths(scale=0.5 * 0.5 / 3, u=0.0005):
    """A three-bladed propeller of 0.5 m and area ratio 0.5, as the series draws it: radii and widths in metres."""
    rows = {f"radius_{number}_m": share * 0.25 for number, share in enumerate(np.arange(0.2, 0.95, 0.1), 1)}
    rows |= {f"width_{number}_m": wide * scale for number, wide in enumerate(SERIES, 1)}
    return AreaReading(**rows, **{f"u_{name}": u for name in rows})


def test_widths_of_the_series_close_on_its_own_area_ratio():
    # pitch_measurement.md: with root and tip pieces, from hub radius 0.180 R, the outline of Z = 3 gives 99.4 %.
    outcome = bench.area_of(widths(), Known(diameter_m=0.5, blades=3, hub_diameter_m=0.09))

    assert outcome.value == pytest.approx(0.5 * 0.994, rel=0.002)


def test_expanded_and_projected_areas_follow_with_their_ratios():
    outcome = bench.area_of(widths(), KNOWN)

    expanded = outcome.sum_of("expanded_area_m2")
    assert outcome.value == pytest.approx(expanded.value / (pi / 4 * 0.25))
    # Taylor's line at a pitch ratio of one: 0.838 (UFC 4-159-03, eq. 22).
    assert outcome.sum_of("projected_area_m2").value == pytest.approx(0.838 * expanded.value, rel=1e-3)
    assert outcome.sum_of("projected_ratio").value == pytest.approx(0.838 * outcome.value, rel=1e-3)


def test_the_ratios_uncertainty_is_what_many_measurings_scatter_by():
    given, draw, found = widths(), np.random.default_rng(2), []
    known = Known(diameter_m=0.5, u_diameter_m=0.0005, blades=3, hub_diameter_m=0.1, u_hub_diameter_m=0.00025)
    names = [name for name in given.__dict__ if name.startswith(("radius_", "width_")) and getattr(given, name)]
    for _ in range(400):
        moved = {name: getattr(given, name) + draw.normal(0, 0.0005) for name in names}
        there = Known(diameter_m=0.5 + draw.normal(0, 0.0005), blades=3, hub_diameter_m=0.1 + draw.normal(0, 0.00025))
        found.append(bench.area_of(AreaReading(**moved), there).value)

    assert bench.area_of(given, known).u == pytest.approx(np.std(found), rel=0.12)


def test_counted_squares_give_the_area_and_how_well_it_is_known():
    reading = AreaReading(
        whole=200, part=60, square_m=0.010, u_square_m=0.00005, root_width_m=0.09, root_gap_m=0.012,
        u_root_width_m=0.0005, u_root_gap_m=0.0005,
    )  # fmt: skip

    outcome = bench.area_of(reading, KNOWN)

    # By hand: 230 squares of 1 cm2 is 0.0230; u: cut squares 1 cm2 x sqrt(60 / 12), the side 2 x 0.5 % of it.
    traced = outcome.sum_of("traced_area_m2")
    assert traced.value == pytest.approx(0.0230)
    assert traced.u == pytest.approx(sqrt((1e-4 * sqrt(60 / 12)) ** 2 + (0.0230 * 2 * 0.005) ** 2), rel=1e-3)
    # With the root's 90 x 12 mm it is 0.02408, and three of them 0.07224.
    assert outcome.sum_of("expanded_area_m2").value == pytest.approx(0.07224)


def test_an_outlines_points_give_its_area():
    turns = [2 * pi * number / 60 for number in range(60)]
    points = [[0.12 * cos(turn), 0.05 * sin(turn)] for turn in turns]

    outcome = bench.area_of(AreaReading(outline=points, u_point_m=0.00025), KNOWN)

    # An ellipse of 120 and 50 mm: pi a b = 0.018850 m2; sixty straight sides lose 0.2 %.
    assert outcome.sum_of("blade_area_m2").value == pytest.approx(0.01885, rel=0.003)
    assert outcome.u > 0


def test_without_a_pitch_it_says_what_would_give_the_projected_area():
    outcome = bench.area_of(widths(), Known(diameter_m=0.5, blades=3, hub_diameter_m=0.1))

    assert outcome.sum_of("projected_area_m2") is None
    assert any("Measure the pitch" in remark for remark in outcome.remarks)


def test_beyond_taylors_line_there_is_no_projected_area_and_it_says_why():
    outcome = bench.area_of(widths(), Known(diameter_m=0.5, blades=3, hub_diameter_m=0.1, pitch_m=0.8))

    assert outcome.sum_of("projected_area_m2") is None
    assert any("0.6 to 1.4" in remark for remark in outcome.remarks)


CROSSED = [[0, 0], [0.1, 0.1], [0, 0.1], [0.1, 0]]


@pytest.mark.parametrize(
    ("said", "known", "box"),
    [
        ({}, KNOWN, "radius_1_m"),
        ({"radius_1_m": 0.1, "width_1_m": 0.1}, KNOWN, "radius_2_m"),
        ({"radius_1_m": 0.1}, KNOWN, "width_1_m"),
        ({"width_1_m": 0.1}, KNOWN, "radius_1_m"),
        ({"radius_1_m": 0.1, "width_1_m": 0.1, "radius_2_m": 0.05, "width_2_m": 0.1}, KNOWN, "radius_2_m"),
        ({"radius_1_m": 0.26, "width_1_m": 0.1}, KNOWN, "radius_1_m"),
        ({"whole": 10, "part": 2}, KNOWN, "square_m"),
        ({"whole": 10, "part": 2, "square_m": 0.01, "root_gap_m": 0.01}, KNOWN, "root_width_m"),
        ({"outline": CROSSED}, KNOWN, "outline"),
        ({}, Known(diameter_m=0.5), "blades"),
        ({}, Known(blades=3), "diameter_m"),
    ],
)
def test_what_is_missing_is_told_at_its_box(said, known, box):
    with pytest.raises(Refused) as refused:
        bench.area_of(AreaReading(**said), known)

    assert refused.value.argument == box


@pytest.fixture
def tag(register):
    with transaction() as session:
        return make_propeller(
            session, diameter_m=(0.5, 0.0005), blades=(3, 0.0), hub_diameter_m=(0.1, 0.0003), pitch_m=(0.5, 0.005)
        ).tag


WIDTHS = {
    "radius_1_m": "75",
    "width_1_m": "150",
    "radius_2_m": "125",
    "width_2_m": "175",
    "radius_3_m": "175",
    "width_3_m": "180",
}
SQUARES = {"whole": "200", "part": "60", "square_m": "10"}
POINTS = {"outline": "across\tup\n0\t0\n100\t0\n100\t230\n0\t230"}


@pytest.mark.parametrize(("way", "boxes"), [("widths", WIDTHS), ("squares", SQUARES), ("points", POINTS)])
def test_each_way_is_kept_shown_corrected_and_printed_blank(client, fetch, tag, way, boxes):
    answer = client.send(f"/bench/{tag}/area", way=way, **boxes)

    assert answer.status_code == 303, answer.text
    with snapshot() as session:
        sheet, item = session.scalars(select(Sheet)).one(), session.scalars(select(Item)).one()
    assert item.area_ratio == pytest.approx(sheet.results["area_ratio"])
    said = fetch("/bench/sheets/1")
    assert "Blade area ratio" in said
    assert "Projected area" in said
    assert "<svg" in said
    again = fetch("/bench/sheets/1/correct")
    assert ("100\t230" if way == "points" else f'value="{next(iter(boxes.values()))}"') in again
    assert "Where to read" in fetch(f"/bench/{tag}/area?way={way}")
    assert "Read by" in fetch(f"/bench/{tag}/area/blank?way={way}")


def test_points_pasted_from_a_spreadsheet_are_read_and_kept_as_typed(client, tag):
    client.send(f"/bench/{tag}/area", way="points", **POINTS)

    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
    assert sheet.readings["outline_typed"].replace("\r", "") == POINTS["outline"]
    assert sheet.readings["outline"] == [[0, 0], [0.1, 0], [0.1, 0.23], [0, 0.23]]
    # 100 x 230 mm, three blades.
    assert sheet.results["expanded_area_m2"] == pytest.approx(0.069)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0 0\n1 2 3\n4 5", "Point 2, `1 2 3`"),
        ("0 0\n1 x\n4 5", "Point 2: `x` is not"),
        ("0 0\n" * 500, "400 points at most"),
    ],
)
def test_a_point_that_can_not_be_read_is_told_by_its_number(client, tag, typed, said):
    answer = client.send(f"/bench/{tag}/area", way="points", outline=typed)

    assert answer.status_code == 422
    assert said in answer.text
