import numpy as np
import pytest

from yardapp.formulas.iso484 import band
from yardapp.formulas.pitch_survey import BladeSurvey, PitchMeans, mean_pitch
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.repitch import edge_moves, sections_to_move


def means_of(section_m):
    section_m = np.asarray(section_m, float)
    blade_m = np.nanmean(section_m, axis=1)
    return PitchMeans(
        local_m=section_m[..., None], section_m=section_m, blade_m=blade_m, propeller_m=float(blade_m.mean())
    )


def test_a_blade_moved_by_the_shop_list_has_the_wanted_pitch():
    # A helix read at its edges, its edges moved, and surveyed again.
    angles_rad = np.radians([[[0.0, 20.0, 44.0]]])
    heights_m = 0.312 * angles_rad / (2 * np.pi)

    moves = edge_moves(0.312, np.radians(44), 0.290)
    heights_m[0, 0, 0] += float(moves.trailing_m)
    heights_m[0, 0, -1] += float(moves.leading_m)

    assert mean_pitch(BladeSurvey(heights_m=heights_m, angles_rad=angles_rad)).propeller_m == pytest.approx(0.290)


def test_a_millimetre_of_rise_over_fifty_degrees_is_seven_of_pitch():
    # trade.md 4: 1 mm of rise at 50 degrees is 7 mm of pitch; half of it at each edge.
    moves = edge_moves(0.450, np.radians(50), 0.4572)

    assert float(moves.leading_m - moves.trailing_m) == pytest.approx(0.001)


def test_a_propeller_within_its_class_needs_nothing():
    assert not sections_to_move(means_of(np.full((3, 4), 0.505)), 0.500, "II").any()


def test_the_sections_outside_their_band_are_moved():
    # ISO 484-2 class II, section: 2 % of 500 mm is 10, the floor is 15.
    section_m = np.full((3, 4), 0.500)
    section_m[1, 2], section_m[2, 0] = 0.516, 0.514

    assert np.argwhere(sections_to_move(means_of(section_m), 0.500, "II")).tolist() == [[1, 2]]


def test_a_blade_out_of_its_band_gives_up_its_worst_sections_till_it_is_within():
    # Class I of 500 mm: sections 10 mm, blades 7.5 (both floors). The first blade's mean is 8.5 mm high.
    section_m = np.full((3, 2), 0.500)
    section_m[0] = 0.508, 0.509

    assert sections_to_move(means_of(section_m), 0.500, "I").tolist() == [[False, True], [False, False], [False, False]]


@pytest.mark.parametrize("iso_class", ["S", "I", "II", "III"])
def test_after_the_work_every_mean_is_within_the_class(iso_class):
    section_m = 0.500 + np.random.default_rng(2).normal(0.004, 0.012, (4, 8))
    moved = sections_to_move(means_of(section_m), 0.500, iso_class)
    after = np.where(moved, 0.500, section_m)

    for quantity, off in (
        ("mean_pitch_of_section", after - 0.500),
        ("mean_pitch_of_blade", after.mean(axis=1) - 0.500),
        ("mean_pitch_of_propeller", after.mean() - 0.500),
    ):
        assert (np.abs(off) <= band(quantity, iso_class, 0.500).plus_m + 1e-9).all()


def test_what_was_not_read_is_not_moved():
    section_m = np.array([[0.500, np.nan], [0.560, 0.500]])

    assert sections_to_move(means_of(section_m), 0.500, "II").tolist() == [[False, False], [True, False]]


@pytest.mark.parametrize(
    ("readings", "argument"),
    [((0.0, 0.7, 0.3), "pitch_m"), ((0.3, 7.0, 0.3), "swing_rad"), ((0.3, 0.7, -1.0), "wanted_m")],
)
def test_what_cannot_be_is_refused_by_name(readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        edge_moves(*readings)

    assert refusal.value.argument == argument


def test_a_wanted_pitch_for_each_radius_must_go_with_the_radii():
    with pytest.raises(OutsideRange, match="each of the 2 radii"):
        sections_to_move(means_of(np.full((3, 2), 0.5)), [0.5, 0.5, 0.5], "II")
