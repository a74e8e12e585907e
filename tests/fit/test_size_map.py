"""The map of sizes: lines of the engine's speed, what is shaded, the best size, and who stands on it."""

from dataclasses import replace

import numpy as np
import pytest

from tests.drawings.reading import SVG, Drawn
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from tests.fit.pairings import GOOD_DRIVE
from tests.fit.power_pairings import BOAT, NO_HULL, SUITED, TOWED
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.fit import services
from yardapp.fit.figures import Figure, Limits
from yardapp.fit.services.mapping import DriveMap, Spot
from yardapp.fit.showing.map import map_drawing, map_rows, spot_rows
from yardapp.fit.size_map import contour, edges, levels, overloaded, size_map, within_reach
from yardapp.fit.verdict import judge
from yardapp.formulas.b_series import kq, kt
from yardapp.gear import services as gear
from yardapp.vessels import services as vessels


@pytest.fixture(scope="module")
def boat():
    return size_map(BOAT, blades=3, area_ratio=0.70)


@pytest.fixture(scope="module")
def narrow():
    """The same with narrow blades."""
    return size_map(BOAT, blades=3, area_ratio=0.60)


def turns_by_hand(diameter_m, pitch_m):
    """Engine's speed by bisection on J: thrust carries 130 V^2, torque is that of a rated point; power_pairings.py."""
    wake, deduction, rho = 0.14, 0.6 * 0.14, 1025.0
    wanted = 130 / ((1 - deduction) * (1 - wake) ** 2 * rho * diameter_m**2)
    low, high = 0.05, 1.2
    for _ in range(60):
        middle = (low + high) / 2
        load = float(kt(middle, pitch_m / diameter_m, 0.70, 3)) / middle**2
        low, high = (middle, high) if load > wanted else (low, middle)
    torque_factor = float(kq(low, pitch_m / diameter_m, 0.70, 3))
    kept = 0.941
    # A rated point alone: power as the speed, so the torque is that at the rating, 28 kW / (2 pi 50/s).
    torque = 28e3 / (2 * np.pi * 50) * 2.0 * kept
    return 2.0 * np.sqrt(torque / (torque_factor * rho * diameter_m**5))


@pytest.mark.parametrize("rps", [45.0, 50.0])
def test_along_a_line_the_engine_comes_to_its_speed_by_an_independent_solve(boat, rps):
    points = [(d, p) for d, p in contour(boat, rps) if not np.isnan(p)]

    assert len(points) > 10
    for diameter, pitch in points[:: len(points) // 4]:
        assert turns_by_hand(diameter, pitch) == pytest.approx(rps, rel=0.03)


def test_more_pitch_or_diameter_means_fewer_turns(boat):
    free = boat.free_rps

    # Beyond 1.6 of its rating the engine is not followed: there the turns stay alike.
    assert np.nanmax(np.diff(free, axis=0)) < 1e-9
    assert np.nanmax(np.diff(free, axis=1)) < 1e-9
    assert np.nanmin(free) < 50 < np.nanmax(free)


def test_the_rated_speed_is_among_the_lines_and_every_line_crosses_the_map(boat):
    assert boat.rated_rps == 50.0
    assert 50.0 in levels(boat)
    for level in levels(boat):
        assert not np.isnan([pitch for _, pitch in contour(boat, level)]).all()


def test_the_room_ends_where_the_band_says(boat):
    # 375 mm of room: 15 % of D at the tips leave D = 375 / 0.65 = 576.9 mm; at 750 mm they strike.
    assert boat.largest_m == pytest.approx(0.375 / 0.65)
    assert boat.strikes_m == pytest.approx(0.750)


def test_the_best_size_lets_the_engine_turn_within_the_room_with_blades_enough(boat):
    best = boat.best

    assert best.diameter_m <= boat.largest_m
    assert turns_by_hand(best.diameter_m, best.pitch_m) == pytest.approx(50.0, rel=0.03)
    assert best.engine_speed_rps == pytest.approx(50.0, rel=0.02)


def test_no_other_size_on_its_line_is_faster_within_the_room_and_area(boat):
    from yardapp.fit.loading import meet, premises

    found, best = premises(BOAT), boat.best
    for diameter, pitch in contour(boat, 50.0 * found.aim_ratio):
        if np.isnan(pitch) or diameter > boat.largest_m:
            continue
        column, row = np.searchsorted(boat.diameter_m, diameter), np.searchsorted(boat.pitch_m, pitch)
        if boat.lacks_area[min(row, 60), min(column, 48)]:
            continue
        met = meet(found, [diameter], [pitch], [0.70], [3])
        assert met.speed_mps[0] <= best.speed_mps + 1e-6


def test_above_the_line_of_100_rpm_under_the_rating_it_is_overloaded(boat):
    least = 50 - 100 / 60
    for diameter, low, high in overloaded(boat):
        if np.isnan(low) or low <= 0.5 * diameter + 1e-9 or high <= low:
            continue
        assert turns_by_hand(diameter, low) == pytest.approx(least, rel=0.03)


def test_small_wheels_lack_area_before_large_ones(narrow):
    by_diameter = narrow.lacks_area.any(axis=0)

    assert by_diameter[0]
    assert not by_diameter[-1]
    course = edges(narrow, narrow.lacks_area)
    assert np.isnan(course[-1][1])
    assert course[0][1] < course[0][2]


@pytest.mark.parametrize("criterion", ["Burrill", "Keller", "the handbook's pressure"])
def test_the_area_is_shaded_where_the_judge_finds_it_short(criterion):
    limits = Limits(area_criterion=criterion)
    found = size_map(BOAT, blades=3, area_ratio=0.50, limits=limits)
    answers = set()
    for row, column in [(10, 10), (20, 15), (30, 20), (14, 24), (8, 40), (40, 6)]:
        diameter, pitch = float(found.diameter_m[column]), float(found.pitch_m[row])
        sizes = {"diameter_m": Figure(value=diameter, u=1e-6), "pitch_m": Figure(value=pitch, u=1e-6)}
        wheel = replace(SUITED, **sizes, area_ratio=Figure(value=0.50, u=1e-6, basis="measured"))
        check = next(
            one for one in judge(wheel, BOAT, limits=limits, ask=("blades",)).checks if one.name == "blade area"
        )
        asked = [one.value for one in check.compared if one.label.startswith(f"Asked for by {criterion}")]
        if asked:
            assert bool(found.lacks_area[row, column]) == (asked[0] > 0.50), (row, column)
            answers.add(asked[0] > 0.50)
    assert answers


def test_where_no_size_will_do_it_says_so_instead_of_marking_one():
    found = size_map(BOAT, blades=3, area_ratio=0.30)

    assert found.best is None
    assert any(said.startswith("No size of these blades") for said in found.says)


@pytest.mark.parametrize("missing", ["hull", "engine", "everything"])
def test_without_engine_or_hull_only_the_room_is_drawn_and_it_says_what_is_missing(missing):
    engine = dict.fromkeys(("rated_power_w", "rated_speed_rps", "reduction_ratio"))
    gone = {"hull": NO_HULL, "engine": engine, "everything": {**NO_HULL, **engine}}[missing]

    found = size_map(replace(BOAT, **gone))

    assert found.free_rps is None
    assert found.best is None
    assert found.largest_m is not None
    assert found.needs
    assert found.says[0].startswith("No line of the engine's speed can be drawn:")


def test_without_the_hull_s_height_no_room_is_shaded_and_it_says_so():
    found = size_map(replace(BOAT, hull_clearance_m=None), span_m=(0.3, 0.6))

    assert found.largest_m is None
    assert any("room" in said for said in found.says)


def test_without_the_shaft_s_depth_the_area_is_left_out_and_said():
    found = size_map(replace(BOAT, shaft_depth_m=None))

    assert found.lacks_area is None
    assert [need.figure for need in found.needs] == ["drive.shaft_depth_m"]


def test_blades_that_nobody_measured_are_said_to_be_assumed():
    assert size_map(BOAT).is_area_assumed
    assert not size_map(BOAT, area_ratio=0.6).is_area_assumed


def test_work_moves_a_propeller_as_far_as_its_alloy_and_the_yard_allow():
    # Re-pitch: 2 in either way on bronze, 1 in on stainless (the trade's practice); cut down by a tenth.
    bronze, steel = within_reach(SUITED), within_reach(replace(SUITED, material="stainless steel"))

    assert bronze["re-pitch"] == [pytest.approx((0.420, 0.292 - 0.0508)), pytest.approx((0.420, 0.292 + 0.0508))]
    assert steel["re-pitch"][1] == pytest.approx((0.420, 0.292 + 0.0254))
    assert bronze["cut down"][0] == pytest.approx((0.378, 0.292))
    assert "re-pitch" not in within_reach(replace(SUITED, material=None))
    assert within_reach(replace(SUITED, pitch_m=None)) == {}


def spot(tag, diameter_m, pitch_m, **said):
    usual = {"blades": 3, "where": "Rack C", "verdict": "goes on", "is_aboard": False, "engine_speed_rps": 49.0}
    return Spot(tag=tag, diameter_m=diameter_m, pitch_m=pitch_m, **{**usual, **said})


def drawn(boat, **said):
    spots = (spot("P-0001", 0.42, 0.292, is_aboard=True), spot("P-0002", 0.45, 0.25), spot("P-0003", 0.50, 0.30),
             spot("P-0004", 0.52, 0.31))  # fmt: skip
    usual = {"drive_id": 7, "drive": "Kittiwake, centre", "spots": spots, "left_out": 3, "chosen": spots[0]}
    return DriveMap(sizes=boat, reach=within_reach(SUITED), **{**usual, **said})


def test_the_drawing_shades_marks_the_best_and_opens_every_propeller(narrow):
    svg = Drawn(map_drawing(drawn(narrow), "mm", lambda tag: f"/fit/{tag}/on/7"))

    assert svg.named("region overloaded")
    assert svg.named("region blades small")
    assert svg.named("band no room")
    assert svg.named("curve 3000 rated")
    assert "best" in svg.text
    links = {link.get("href"): link.get("aria-label") for link in svg.root.iter(f"{SVG}a")}
    assert links["/fit/P-0004/on/7"] == "P-0004, 520 mm × 310 mm"
    assert len(links) == 4


def test_in_inches_the_axes_are_in_inches(boat):
    assert "diameter, in" in Drawn(map_drawing(drawn(boat), "in", lambda tag: tag)).text


def test_the_table_says_what_the_drawing_shows(boat):
    rows = spot_rows(drawn(boat), "mm", lambda tag: f"/{tag}")
    figures = dict(map_rows(drawn(boat), "mm"))

    assert rows[0] == [("P-0001", "/P-0001"), "420 mm × 292 mm", "on it now", "2940 rpm", "goes on", "Rack C"]
    assert figures["Largest diameter by the 15 % band"].startswith("576.9")
    assert figures["Rated speed of the engine"] == "3 000 rpm" or "3000 rpm" in figures["Rated speed of the engine"]
    assert figures["Blades"] == "3, area ratio 0.70"


def test_an_engine_past_its_governor_is_said_to_be(boat):
    fast = drawn(
        boat, spots=(spot("P-0001", 0.4, 0.2, engine_speed_rps=60.0), spot("P-2", 0.4, 0.2, engine_speed_rps=None))
    )

    rows = spot_rows(fast, "mm", lambda tag: tag)

    assert (rows[0][3], rows[1][3]) == ("3600 rpm, past the governor", "not known")


def map_for(drive_id, **asked):
    with transaction() as session:
        who = make_who(session)
    with snapshot() as session:
        return services.map_of(session, who, drive_id, **asked)


def test_who_goes_on_the_shaft_stands_on_the_map_and_the_one_that_is_on_is_chosen(register):
    with transaction() as session:
        who, drive = make_who(session), make_drive(session, **SHAFT).id
        on = good_propeller(session).tag
        gear.move_item(session, who, on, "went on", drive_id=drive)
        large = good_propeller(session, diameter_m=(0.62, 0.001)).tag
        make_propeller(session, bore_large_m=(0.060, 0.0001))
        make_propeller(session)

    found = map_for(drive)

    # The large one lacks room at the tips, which the map shows; the other two don't go on the shaft, or can't be told.
    assert {one.tag for one in found.spots} == {on, large}
    assert found.chosen.tag == on
    assert found.chosen.is_aboard
    assert map_for(drive, tag=large.lower()).chosen.tag == large
    assert map_for(drive, tag="P-9999").chosen is None


def test_more_than_can_be_told_apart_are_counted(register):
    with transaction() as session:
        drive = make_drive(session, **SHAFT).id
        for _ in range(63):
            good_propeller(session)

    found = map_for(drive)

    assert (len(found.spots), found.left_out) == (60, 3)


def test_the_class_rule_shades_the_map_where_the_boat_is_known_well_enough():
    # tests/fit/pairings.py: K 0.0885, 1.2 K is 0.106 of the diameter; the shaft's centre lies 375 mm under the hull.
    her = {"vessel_length_m": Figure(value=10.0), "block_ratio": Figure(value=0.4), "rated_power_w": Figure(value=40e3)}
    drive = replace(GOOD_DRIVE, **her, is_twin=False)

    single, twin, unknown = (
        size_map(one, rule="class") for one in (drive, replace(drive, is_twin=True), replace(drive, block_ratio=None))
    )

    assert single.largest_m == pytest.approx(0.375 / 0.606, rel=2e-3)
    assert twin.largest_m == pytest.approx(0.375 / 0.7, rel=1e-6)
    assert unknown.largest_m is None
    assert "By the class rule nothing can be shaded" in unknown.says[0]


def test_there_is_no_other_rule_to_draw_a_map_by(register):
    with transaction() as session:
        drive = make_drive(session).id

    with pytest.raises(Refused, match="drawn by"):
        map_for(drive, rule="7 %")


def test_the_page_says_what_is_missing_and_lists_who_is_on_it(fetch):
    with transaction() as session:
        drive, tag = make_drive(session, **SHAFT).id, good_propeller(session).tag

    html = fetch(f"/fit/on/{drive}/map?blades=4&rule=10+%25&tag={tag}")

    assert "No line of the engine" in html
    assert f"/fit/{tag}/on/{drive}" in html
    assert "4, area ratio 0.55, assumed" in html


def test_a_map_without_propellers_or_height_still_has_axes(fetch):
    with transaction() as session:
        drive = make_drive(session).id

    html = fetch(f"/fit/on/{drive}/map?rule=odd&blades=99")

    assert "No propeller of the register" in html
    assert "diameter, mm" in html


def test_the_hull_s_tow_rope_power_of_these_tests_is_the_cube_it_claims():
    assert all(power == pytest.approx(130 * speed**3) for speed, power in TOWED)


def with_engine(session):
    """The boat of power_pairings.py in the register: 28 kW at 3000 rpm, 2:1, tow-rope power by the speed's cube."""
    who = make_who(session)
    engine = {"rated_power_w": 28e3, "rated_speed_rps": 50.0, "reduction_ratio": 2.0}
    vessel = make_vessel(session)
    drive = make_drive(session, vessel, **SHAFT, **engine)
    hull = {"hull_kind": "displacement_single", "speed_power": TOWED, "speed_power_kind": "effective"}
    vessels.set_hull(session, who, vessel.id, vessel.version, hull)
    return drive.id


def bladed(session, diameter_m, pitch_m):
    figures = {"diameter_m": (diameter_m, 0.001), "pitch_m": (pitch_m, 0.0015), "blades": (3.0, 0.0)}
    return good_propeller(session, **figures).tag


def test_with_engine_and_hull_the_page_draws_the_lines_and_says_each_one_s_turns(fetch):
    with transaction() as session:
        drive, tag = with_engine(session), bladed(session, 0.42, 0.292)

    html = fetch(f"/fit/on/{drive}/map")

    # power_pairings.py works this pair by hand to the rated 3000 rpm with blades of 0.70; of 0.55 it turns more.
    assert 'data-name="curve 3000 rated"' in html
    assert 'data-name="region overloaded"' in html
    assert "No line of the engine" not in html
    turns = int(html.split(tag)[-1].split(" rpm")[0].split(">")[-1])
    assert turns == pytest.approx(3000, rel=0.04)


def test_a_stock_of_one_verdict_is_ranked_by_how_it_loads_the_engine(fetch):
    with transaction() as session:
        drive = with_engine(session)
        heavy, suited, light = (bladed(session, 0.42, pitch) for pitch in (0.36, 0.292, 0.23))

    html = fetch(f"/fit/on/{drive}")

    assert html.index(suited) < html.index(heavy)
    assert html.index(suited) < html.index(light)
    assert "it suits the engine" in html.split(suited)[2][:600]
    assert "over-propped" in html.split(heavy)[2][:600]
    assert "under-propped" in html.split(light)[2][:600]
