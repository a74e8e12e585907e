import numpy as np
import pytest

from yardapp.formulas.pitch_survey import BladeSurvey, mean_pitch
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.survey_spread import ReadingErrors, pitch_spread
from yardapp.formulas.uncertainty import u_of_product

PITCH_M, BLADES, RADII = 0.450, 3, 4
ANGLES = np.radians([0.0, 15.0, 30.0, 45.0])
TIMES = 1000


def helicoid():
    """A true helicoid of known pitch, read without error."""
    angles_rad = np.broadcast_to(ANGLES, (BLADES, RADII, ANGLES.size))
    return PITCH_M * angles_rad / (2 * np.pi), angles_rad


def noisy(errors, rng):
    """The same as somebody reads it: every reading off by its own error, every station by the common one."""
    heights_m, angles_rad = helicoid()
    shape, stations = heights_m.shape, ANGLES.size
    return BladeSurvey(
        heights_m=heights_m
        + rng.normal(0, errors.u_height_m, shape)
        + rng.normal(0, errors.u_common_height_m, stations),
        angles_rad=angles_rad
        + rng.normal(0, errors.u_angle_rad, shape)
        + rng.normal(0, errors.u_common_angle_rad, stations),
    )


@pytest.mark.parametrize(
    "errors",
    [
        ReadingErrors(u_height_m=0.00025, u_angle_rad=np.radians(0.25)),
        ReadingErrors(u_height_m=0.00005, u_common_angle_rad=np.radians(0.25)),
        ReadingErrors(u_height_m=0.0002, u_angle_rad=np.radians(0.1), u_common_height_m=0.0002),
    ],
    ids=["separate", "one template", "both"],
)
def test_two_standard_uncertainties_cover_the_truth_as_often_as_they_should(errors):
    # JCGM 100:2008, table G.1: k = 2 covers 95.45 % of a normal scatter. 1,000 surveys of a helicoid of 450 mm.
    rng = np.random.default_rng(484)
    covered = {"propeller": 0, "blade": 0, "section": 0, "local": 0}

    for _ in range(TIMES):
        survey = noisy(errors, rng)
        means, spread = mean_pitch(survey), pitch_spread(survey, errors)
        covered["propeller"] += abs(means.propeller_m - PITCH_M) <= 2 * spread.propeller_m
        covered["blade"] += np.mean(abs(means.blade_m - PITCH_M) <= 2 * spread.blade_m)
        covered["section"] += np.mean(abs(means.section_m - PITCH_M) <= 2 * spread.section_m)
        covered["local"] += np.mean(abs(means.local_m - PITCH_M) <= 2 * spread.local_m)

    shares = {name: count / TIMES for name, count in covered.items()}
    assert {name: share for name, share in shares.items() if not 0.93 <= share <= 0.97} == {}


def test_one_section_of_two_readings_is_the_rise_over_a_swing():
    # reference/pitch_measurement.md: (u(P)/P)^2 = (u(h)/h)^2 + (u(theta)/theta)^2; a difference has two readings.
    survey = BladeSurvey(heights_m=[[[0.010, 0.0433]]], angles_rad=np.radians([[[5, 45]]]))
    u_height_m, u_angle_rad = 0.0002, np.radians(0.1)

    spread = pitch_spread(survey, ReadingErrors(u_height_m=u_height_m, u_angle_rad=u_angle_rad))

    root = np.sqrt(2)
    by_hand = u_of_product(0.2997, (0.0333, root * u_height_m, 1), (np.radians(40), root * u_angle_rad, -1))
    assert spread.propeller_m == pytest.approx(float(by_hand), rel=1e-6)
    # reference/pitch_examples.csv M1: 1.95 mm for a rise of u 0.2 mm and a swing of u 0.1 degree as wholes.
    assert spread.propeller_m == pytest.approx(root * 0.00195, rel=2e-3)


def test_separate_errors_average_out_and_common_ones_stay():
    heights_m, angles_rad = helicoid()
    survey = BladeSurvey(heights_m=heights_m, angles_rad=angles_rad)
    separate = pitch_spread(survey, ReadingErrors(u_height_m=0.0002))
    common = pitch_spread(survey, ReadingErrors(u_common_angle_rad=0.002))

    assert separate.propeller_m == pytest.approx(separate.section_m[0, 0] / np.sqrt(BLADES * RADII))
    assert separate.blade_m[0] == pytest.approx(separate.section_m[0, 0] / np.sqrt(RADII))
    assert common.propeller_m == pytest.approx(common.section_m[0, 0])
    assert (separate.common_m, common.separate_m) == (0.0, 0.0)


def test_what_is_the_same_at_every_reading_drops_out_of_every_rise():
    heights_m, angles_rad = helicoid()

    lifted = mean_pitch(BladeSurvey(heights_m=heights_m + 0.003, angles_rad=angles_rad - 0.01))

    assert lifted.propeller_m == pytest.approx(PITCH_M, rel=1e-12)


def test_what_was_not_read_has_no_spread_and_takes_no_share():
    heights_m, angles_rad = helicoid()
    heights_m = heights_m.copy()
    heights_m[1, 2] = np.nan
    heights_m[2] = np.nan
    heights_m[0, 0, 0] = np.nan
    errors = ReadingErrors(u_height_m=0.0002)

    spread = pitch_spread(BladeSurvey(heights_m=heights_m, angles_rad=angles_rad), errors)

    assert np.isnan(spread.section_m[1, 2])
    assert np.isnan(spread.blade_m[2])
    # Blade 1 has its first radius over 30 degrees instead of 45; a section's u is 2 pi sqrt(2) u / swing.
    whole, short = (2 * np.pi * np.sqrt(2) * 0.0002 / np.radians(swing) for swing in (45, 30))
    assert spread.section_m[0, 0] == pytest.approx(short)
    assert spread.blade_m[:2] == pytest.approx([np.hypot(short, np.sqrt(3) * whole) / 4, whole / np.sqrt(3)])
    assert spread.propeller_m == pytest.approx(np.hypot(*spread.blade_m[:2]) / 2)


def test_an_uncertainty_below_zero_is_refused_by_name():
    survey = BladeSurvey(heights_m=[[[0, 0.03]]], angles_rad=[[[0, 0.7]]])

    with pytest.raises(OutsideRange) as refusal:
        pitch_spread(survey, ReadingErrors(u_angle_rad=-0.1))

    assert refusal.value.argument == "u_angle_rad"
