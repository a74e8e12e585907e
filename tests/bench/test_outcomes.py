from math import radians

import pytest

from tests.factories.bench import PITCH
from yardapp.bench import services as bench
from yardapp.bench.services import BoreReading, DiameterReading, Known, PitchReading
from yardapp.bench.sums import Outcome
from yardapp.errors import OutsideRange, Refused


def test_the_published_rise_gives_the_published_pitch_and_uncertainty():
    outcome = bench.pitch_of(PitchReading(**PITCH))

    # reference/pitch_examples.csv M1: 299.70 mm, standard uncertainty 1.95 mm.
    assert outcome.value == pytest.approx(0.29970, abs=5e-6)
    assert outcome.u == pytest.approx(0.00195, abs=5e-6)


def test_a_rise_of_110_over_68_degrees_is_a_pitch_of_582():
    outcome = bench.pitch_of(PitchReading(rise_m=0.110, swing_rad=radians(68)))

    # Common practice, no source: 110 x 360 / 68.
    assert round(outcome.value * 1000) == 582
    assert outcome.u is None  # nobody said how well it was read


def test_both_edges_give_what_their_difference_gives_with_both_their_uncertainties():
    outcome = bench.pitch_of(
        PitchReading(
            leading_m=0.1433,
            u_leading_m=0.00012,
            trailing_m=0.1100,
            u_trailing_m=0.00016,
            swing_rad=radians(40),
            u_swing_rad=radians(0.1),
        )
    )

    # The rise is 33.3 mm, and 0.12 and 0.16 mm together are 0.20 mm: example M1 again.
    assert outcome.sum_of("rise_m").value == pytest.approx(0.0333)
    assert outcome.sum_of("rise_m").u == pytest.approx(0.0002)
    assert outcome.value == pytest.approx(0.29970, abs=5e-6)
    assert outcome.u == pytest.approx(0.00195, abs=5e-6)


def test_the_published_blade_angle_gives_the_published_pitch():
    outcome = bench.pitch_of(
        PitchReading(radius_m=0.1575, u_radius_m=0.0005, angle_rad=radians(16.849), u_angle_rad=radians(0.2))
    )

    # reference/pitch_examples.csv M2: 299.70 mm, standard uncertainty 3.89 mm.
    assert outcome.value == pytest.approx(0.29970, abs=1e-5)
    assert outcome.u == pytest.approx(0.00389, abs=1e-5)


def test_pitch_over_diameter_follows_where_the_diameter_is_known():
    outcome = bench.pitch_of(PitchReading(**PITCH), Known(diameter_m=0.450, u_diameter_m=0.0005))

    # reference/pitch_examples.csv M4: 0.6660, standard uncertainty 0.0044.
    assert outcome.sum_of("pitch_ratio").value == pytest.approx(0.6660, abs=5e-5)
    assert outcome.sum_of("pitch_ratio").u == pytest.approx(0.0044, abs=5e-5)


@pytest.mark.parametrize(
    ("reading", "box"),
    [
        ({"leading_m": 0.11, "trailing_m": 0.14, "swing_rad": 0.7}, "trailing_m"),
        ({"rise_m": -0.03, "swing_rad": 0.7}, "rise_m"),
        ({"rise_m": 0.03}, "swing_rad"),
        ({"swing_rad": 0.7}, "rise_m"),
        ({"angle_rad": 0.3}, "radius_m"),
    ],
)
def test_a_reading_that_can_not_stand_names_its_box(reading, box):
    with pytest.raises(Refused) as refused:
        bench.pitch_of(PitchReading(**reading))

    assert refused.value.argument == box


def test_more_than_a_full_turn_is_refused_by_the_formula():
    with pytest.raises(OutsideRange) as refused:
        bench.pitch_of(PitchReading(rise_m=0.03, swing_rad=radians(400)))

    assert refused.value.argument == "swing_rad"


def test_a_falling_rise_says_which_way_a_blade_of_that_hand_climbs():
    with pytest.raises(Refused, match="right-hand blade climbs anticlockwise"):
        bench.pitch_of(PitchReading(rise_m=-0.03, swing_rad=0.7), Known(hand="right"))


@pytest.mark.parametrize(
    ("hand", "climbs", "other"), [("right", "clockwise", "left"), ("left", "anticlockwise", "right")]
)
def test_a_blade_that_climbs_the_wrong_way_for_its_hand_is_told(hand, climbs, other):
    # A right-handed screw climbs anticlockwise for whoever looks down on it, from either end.
    outcome = bench.pitch_of(PitchReading(**PITCH, climbs=climbs), Known(hand=hand))

    assert any(f"is of a {other}-hand propeller" in remark for remark in outcome.remarks)


@pytest.mark.parametrize(("hand", "climbs"), [("right", "anticlockwise"), ("left", "clockwise"), (None, "clockwise")])
def test_a_blade_that_climbs_as_its_hand_does_raises_no_word(hand, climbs):
    outcome = bench.pitch_of(PitchReading(**PITCH, climbs=climbs), Known(hand=hand))

    assert not any("climbs" in remark for remark in outcome.remarks)


def test_twice_the_tip_radius_doubles_its_uncertainty_too():
    outcome = bench.diameter_of(DiameterReading(tip_radius_m=0.2795, u_tip_radius_m=0.0005))

    assert (outcome.value, outcome.u) == pytest.approx((0.559, 0.001))


@pytest.mark.parametrize(
    ("blades", "tips", "chord_m", "diameter_m", "source"),
    [
        (3, "", 0.500, 0.500 * 1.1547, "trade.md 4: three blades, x 1.155"),
        (5, "far", 0.951, 1.0, "trade.md 4: five blades, far tips 0.951 D"),
        (5, "next", 0.588, 1.0, "trade.md 4: five blades, neighbours 0.588 D"),
        (4, "next", 0.7071, 1.0, "geometry of the square"),
    ],
)
def test_tip_to_tip_gives_the_diameter(blades, tips, chord_m, diameter_m, source):
    outcome = bench.diameter_of(DiameterReading(chord_m=chord_m, blades=blades, tips=tips))

    assert outcome.value == pytest.approx(diameter_m, rel=1e-3), source


@pytest.mark.parametrize(
    ("reading", "box", "said"),
    [
        ({"across_m": 0.5, "blades": 3}, "across_m", "no tip stands opposite"),
        ({"across_m": 0.5}, "blades", "Count the blades"),
        ({"chord_m": 0.5, "blades": 5}, "tips", "Which two tips"),
        ({"chord_m": 0.5, "blades": 4, "tips": "far"}, "tips", "straight across"),
        ({"chord_m": 0.5, "blades": 2, "tips": "next"}, "chord_m", "straight across"),
        ({}, "tip_radius_m", "tip radius"),
    ],
)
def test_a_diameter_that_hangs_on_the_blades_asks_for_them(reading, box, said):
    with pytest.raises(Refused, match=said) as refused:
        bench.diameter_of(DiameterReading(**reading))

    assert refused.value.argument == box


def test_both_ends_and_the_length_give_the_taper_its_angle_and_the_standard_end():
    # SAE J755 1-1/4 in as shaft_tapers.csv has it: 31.75 mm, 26.19375 mm, 88.9 mm apart, 1:16.
    outcome = bench.bore_of(
        BoreReading(
            bore_large_m=0.03175,
            u_bore_large_m=0.000025,
            bore_small_m=0.02619375,
            u_bore_small_m=0.000025,
            bore_length_m=0.0889,
            u_bore_length_m=0.00025,
        )
    )

    assert outcome.value == pytest.approx(1 / 16)
    # shaft_tapers.md: 1:16 has a full angle of 3.5798 degrees.
    assert outcome.sum_of("taper_angle_rad").value == pytest.approx(radians(3.5798), abs=1e-6)
    assert (outcome.near.taper, outcome.near.end) == (1 / 16, "SAE J755 1-1/4 in")


def test_a_taper_that_is_no_standard_one_is_none_of_them():
    outcome = bench.bore_of(BoreReading(bore_large_m=0.040, bore_small_m=0.032, bore_length_m=0.100))

    # (40 - 32) / 100 is 1:12.5.
    assert outcome.value == pytest.approx(0.08)
    assert (outcome.near.taper, outcome.near.end) == (None, "")


def test_swapped_ends_of_a_taper_are_told_at_the_small_end():
    with pytest.raises(Refused) as refused:
        bench.bore_of(BoreReading(bore_kind="taper", bore_large_m=0.030, bore_small_m=0.035))

    assert refused.value.argument == "bore_small_m"


def test_a_parallel_bore_has_no_taper_but_ends_that_differ_are_told():
    outcome = bench.bore_of(
        BoreReading(
            bore_kind="parallel",
            bore_large_m=0.030,
            u_bore_large_m=0.00003,
            bore_small_m=0.0290,
            u_bore_small_m=0.00003,
            bore_length_m=0.1,
        )
    )

    assert outcome.value is None
    assert "it may be a taper" in outcome.remarks[0]


def test_an_empty_bore_sheet_is_refused():
    with pytest.raises(Refused, match="Nothing was read"):
        bench.bore_of(BoreReading())


def test_a_kept_outcome_reads_back_the_same():
    outcome = bench.pitch_of(PitchReading(**PITCH, radius_m=0.196), Known(diameter_m=0.56))

    assert Outcome.from_kept(outcome.kept()) == outcome


def test_every_sum_names_a_formula_that_is_there_and_where_it_comes_from():
    outcome = bench.pitch_of(PitchReading(**PITCH, radius_m=0.196), Known(diameter_m=0.56))

    assert [one.formula for one in outcome.sums] == [
        "yardapp.formulas.pitch.pitch_from_rise",
        "yardapp.formulas.pitch.pitch_ratio",
        "yardapp.formulas.pitch.pitch_angle",
    ]
    assert all(one.source for one in outcome.sums)
