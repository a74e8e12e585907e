import numpy as np
import pytest

from yardapp.formulas.pitch_survey import BladeSurvey
from yardapp.formulas.survey_class import claimed_class
from yardapp.formulas.survey_spread import ReadingErrors, pitch_spread

ANGLES = np.radians([0.0, 20.0, 40.0])


def claim(pitch_m, errors, design_m=1.0, diameter_m=1.0, blades=3, radii=2):
    pitch_m = np.broadcast_to(pitch_m, (blades, radii))[..., None]
    angles_rad = np.broadcast_to(ANGLES, (blades, radii, ANGLES.size))
    survey = BladeSurvey(heights_m=pitch_m * angles_rad / (2 * np.pi), angles_rad=angles_rad)
    return claimed_class(survey, pitch_spread(survey, errors), design_m, diameter_m)


def classes(claimed):
    return {one.quantity: one.iso_class for one in claimed.quantities}


FINE = ReadingErrors(u_height_m=1e-5, u_angle_rad=1e-5)


def test_a_propeller_read_finely_gets_the_class_of_its_deviation():
    # ISO 484-2:1981, 1,000 mm and 8 off: propeller I to 7.5, II to 10; blade I to 10; section S to 10; local S to 15.
    claimed = claim(1.008, FINE)

    assert classes(claimed) == {
        "local_pitch": "S",
        "mean_pitch_of_section": "S",
        "mean_pitch_of_blade": "I",
        "mean_pitch_of_propeller": "II",
    }
    assert claimed.overall == "II"


def test_readings_wider_than_the_class_claim_none():
    # Section S allows 10 mm of 1,000. A section of u 0.3 mm at each end of 40 degrees: 2 x 9 x sqrt(2) x 0.3 = 7.6 mm,
    # within it; u 0.5 mm: 12.7 mm, wider.
    narrow, wide = (classes(claim(1.0, ReadingErrors(u_height_m=u))) for u in (0.0003, 0.0005))

    assert (narrow["mean_pitch_of_section"], wide["mean_pitch_of_section"]) == ("S", "")


def test_a_quantity_that_cannot_be_told_leaves_the_propeller_without_a_class():
    # Between neighbouring stations the swing is half: 15.3 mm against the 15 that local pitch allows for S.
    claimed = claim(1.0, ReadingErrors(u_height_m=0.0003))
    by_name = {one.quantity: one for one in claimed.quantities}

    assert classes(claimed)["local_pitch"] == ""
    assert by_name["local_pitch"].seems == "S"
    assert by_name["local_pitch"].wide_m == pytest.approx(2 * 18 * np.sqrt(2) * 0.0003)
    assert by_name["local_pitch"].allowed_m == pytest.approx(0.015)
    assert claimed.overall == ""


def test_far_beyond_the_last_class_is_said_when_the_readings_can_tell():
    claimed = claim(1.2, FINE)

    assert classes(claimed)["mean_pitch_of_propeller"] == "none"
    assert claimed.overall == "none"


def test_what_was_not_read_has_no_class():
    claimed = claim(np.full((3, 2), np.nan), FINE)

    assert set(classes(claimed).values()) == {""}
    assert claimed.overall == ""


def test_below_eighty_centimetres_the_classes_hold_by_analogy_and_say_so():
    # Title page of ISO 484-2:1981: 0.80 m to 2.50 m.
    assert claim(1.0, FINE, diameter_m=0.6).scope.is_covered is False
