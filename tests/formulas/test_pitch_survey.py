import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.pitch import BladeSurvey, mean_pitch
from yardapp.formulas.pitch_survey import mean_of_known
from yardapp.formulas.ranges import OutsideRange

ANGLES = np.radians([0.0, 12.0, 20.0, 35.0])


def helix(pitch_m, blades=3, radii=4):
    """Readings of a true helix; `pitch_m` may differ by blade and radius."""
    pitch_m = np.broadcast_to(pitch_m, (blades, radii))[..., None]
    angles_rad = np.broadcast_to(ANGLES, (blades, radii, ANGLES.size))
    return BladeSurvey(heights_m=pitch_m * angles_rad / (2 * np.pi), angles_rad=angles_rad)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.1, 3.0))
def test_a_true_helix_has_one_pitch_everywhere(pitch_m):
    means = mean_pitch(helix(pitch_m))

    for figures in (means.local_m, means.section_m, means.blade_m, means.propeller_m):
        np.testing.assert_allclose(figures, pitch_m, rtol=1e-12)
    assert (means.local_m.shape, means.section_m.shape, means.blade_m.shape) == ((3, 4, 3), (3, 4), (3,))


def test_a_blade_is_the_mean_of_its_radii_and_the_propeller_of_its_blades():
    means = mean_pitch(helix([[0.28, 0.30, 0.32], [0.30, 0.32, 0.34]], blades=2, radii=3))

    np.testing.assert_allclose(means.blade_m, [0.30, 0.32])
    assert means.propeller_m == pytest.approx(0.31)


def test_where_the_height_is_counted_from_does_not_matter():
    survey = helix(0.3)
    lifted = BladeSurvey(heights_m=np.asarray(survey.heights_m) + 0.5, angles_rad=np.asarray(survey.angles_rad) - 1.0)

    assert mean_pitch(lifted).propeller_m == pytest.approx(0.3)


def test_a_reading_that_is_missing_is_left_out_of_the_means():
    survey = helix([[0.28, 0.30, 0.32]], blades=1, radii=3)
    heights_m = np.array(survey.heights_m)
    heights_m[0, 1, 1] = np.nan
    heights_m[0, 2, :] = np.nan

    means = mean_pitch(BladeSurvey(heights_m=heights_m, angles_rad=survey.angles_rad))

    np.testing.assert_allclose(means.section_m, [[0.28, 0.30, np.nan]])
    np.testing.assert_allclose(means.blade_m, [0.29])
    assert np.isnan(means.local_m[0, 1]).tolist() == [True, True, False]


def test_an_empty_sheet_says_that_nothing_is_known():
    empty = np.full((3, 2, 4), np.nan)

    assert np.isnan(mean_pitch(BladeSurvey(heights_m=empty, angles_rad=empty)).propeller_m)


def test_an_angle_that_goes_back_is_refused():
    with pytest.raises(OutsideRange, match="angles_rad"):
        mean_pitch(BladeSurvey(heights_m=[[[0, 0.1, 0.2]]], angles_rad=[[[0, 0.2, 0.1]]]))


def test_heights_that_fall_with_the_angle_are_refused():
    with pytest.raises(OutsideRange, match="count the angle the other way"):
        mean_pitch(BladeSurvey(heights_m=[[[0.2, 0.1, 0.0]]], angles_rad=[[[0, 0.1, 0.2]]]))


@pytest.mark.parametrize(
    ("heights_m", "angles_rad", "argument"),
    [
        ([0.0, 0.1], [0.0, 0.1], "heights_m"),
        ([[[0.1]]], [[[0.1]]], "heights_m"),
        ([[[0.0, 0.1]]], [[[0.0, 0.1, 0.2]]], "angles_rad"),
        ([[[0.0, np.inf]]], [[[0.0, 0.1]]], "heights_m"),
    ],
)
def test_a_survey_of_the_wrong_shape_is_refused(heights_m, angles_rad, argument):
    with pytest.raises(OutsideRange) as refusal:
        mean_pitch(BladeSurvey(heights_m=heights_m, angles_rad=angles_rad))

    assert refusal.value.argument == argument


def test_the_mean_of_nothing_is_not_known():
    assert np.isnan(mean_of_known([np.nan, np.nan]))
