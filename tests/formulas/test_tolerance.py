import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yardapp.formulas.pitch import BladeSurvey
from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.tolerance import band, classify, deviation_class, scope, spacing_class

ORDER = ["S", "I", "II", "III", "none"]
ANGLES = np.radians([0.0, 15.0, 30.0])


def survey_of(pitch_m):
    """A survey whose every section has the pitch given, shape (blades, radii)."""
    pitch_m = np.asarray(pitch_m, float)[..., None]
    angles_rad = np.broadcast_to(ANGLES, (*pitch_m.shape[:2], 3))
    return BladeSurvey(heights_m=pitch_m * angles_rad / (2 * np.pi), angles_rad=angles_rad)


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 0.2), st.floats(0, 0.2), st.floats(0.2, 4.0))
def test_a_larger_deviation_is_never_a_finer_class(one_m, other_m, nominal_m):
    small, large = deviation_class("mean_pitch_of_blade", sorted([one_m, other_m]), nominal_m)

    assert ORDER.index(small) <= ORDER.index(large)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(["mean_pitch_of_section", "section_thickness", "rake"]), st.floats(0.001, 4.0))
def test_the_edge_of_a_band_belongs_to_its_class(quantity, nominal_m):
    for iso_class in ORDER[:-1]:
        allowed = band(quantity, iso_class, nominal_m)

        found = deviation_class(quantity, [allowed.plus_m, -allowed.minus_m], nominal_m)

        assert all(ORDER.index(one) <= ORDER.index(iso_class) for one in found)


def test_the_floor_governs_small_propellers_and_the_percentage_large_ones():
    # ISO 484/2:1981 (secondary): class I thickness +2.5 %, -1.5 %, at least 2.5 and 1.5 mm.
    np.testing.assert_allclose(band("section_thickness", "I", [0.020, 0.200]).plus_m, [0.0025, 0.005])
    np.testing.assert_allclose(band("section_thickness", "I", [0.020, 0.200]).minus_m, [0.0015, 0.003])


def test_a_thick_section_is_forgiven_more_than_a_thin_one():
    assert deviation_class("section_thickness", [0.0022, -0.0022], 0.020).tolist() == ["I", "III"]


def test_a_step_has_no_limit_in_the_widest_class():
    assert deviation_class("local_pitch", 1.0, 1.0) == "III"


def test_large_propellers_have_floors_of_their_own():
    assert (
        band("mean_pitch_of_propeller", "S", 0.5, part="484-1").plus_m
        > band("mean_pitch_of_propeller", "S", 0.5).plus_m
    )


def test_a_band_says_how_well_it_is_known():
    allowed = band("mean_pitch_of_blade", "I", 1.0)

    assert (allowed.status_percent, allowed.status_floor) == ("secondary", "from memory (medium)")


def test_the_spacing_of_blades_has_two_bands():
    # ISO 484-2:1981 (secondary): 1 degree for S and I, 2 degrees for II and III.
    assert spacing_class(np.radians([0.5, -1.0, 1.5, -2.0, 2.1, np.nan])).tolist() == ["S", "S", "II", "II", "none", ""]


def test_below_eighty_centimetres_the_standard_is_an_analogy():
    assert (scope(0.56).is_covered, scope(0.80).is_covered, scope(3.0).part) == (False, True, "484-1")
    assert "by analogy only" in scope(0.56).said
    assert scope(np.nan).is_covered is None


def test_a_true_propeller_is_of_the_finest_class_and_says_what_the_standard_covers():
    found = classify(survey_of([[1.0, 1.0]] * 3), 1.0, diameter_m=0.60)

    assert (found.overall, found.propeller, found.scope.is_covered) == ("S", "S", False)
    assert (found.local.shape, found.section.shape, found.blade.shape) == ((3, 2, 2), (3, 2), (3,))


def test_one_bad_blade_decides_the_class():
    # Blade 3 is 3 % high: beyond class II for a blade (1.5 %), within III (4 %); ISO 484/2:1981 (secondary).
    found = classify(survey_of([[2.0, 2.0], [2.0, 2.0], [2.06, 2.06]]), 2.0, diameter_m=2.0)

    assert found.blade.tolist() == ["S", "S", "III"]
    assert found.overall == "III"


def test_blades_that_make_up_for_each_other_still_show():
    found = classify(survey_of([[2.0, 2.0], [1.8, 1.8], [2.2, 2.2]]), 2.0, diameter_m=2.0)

    assert found.propeller == "S"
    assert (found.overall, found.deciding) == ("none", "mean_pitch_of_section")


def test_a_pitch_that_varies_by_design_is_no_error_where_a_radius_was_not_read():
    pitch_m = [[1.6, 2.0, 2.0], [1.6, 2.0, np.nan]]

    found = classify(survey_of(pitch_m), [1.6, 2.0, 2.0], diameter_m=2.0)

    assert (found.overall, found.blade.tolist()) == ("S", ["S", "S"])
    assert found.section[1, 2] == ""


def test_without_a_design_pitch_no_class_is_known():
    found = classify(survey_of([[1.0, 1.0]] * 3), np.nan, diameter_m=1.0)

    assert (found.overall, found.deciding) == ("", "")


@pytest.mark.parametrize(
    ("formula", "readings", "argument"),
    [
        (band, ("surface_roughness_Ra_max", "S", 1.0), "quantity"),
        (band, ("rake", "IV", 1.0), "iso_class"),
        (band, ("rake", "S", 0.0), "nominal_m"),
        (band, ("rake", "S", 1.0, "484-3"), "part"),
        (deviation_class, ("rake", np.inf, 1.0), "deviation_m"),
        (deviation_class, ("rake", [0.1, 0.2], [1.0, 1.0, 1.0]), "nominal_m"),
        (spacing_class, (np.inf,), "deviation_rad"),
        (scope, (0.0,), "diameter_m"),
        (classify, (survey_of([[1.0, 1.0]]), [1.0, 1.0, 1.0]), "design_pitch_m"),
    ],
)
def test_what_cannot_be_is_refused_by_name(formula, readings, argument):
    with pytest.raises(OutsideRange) as refusal:
        formula(*readings)

    assert refusal.value.argument == argument
