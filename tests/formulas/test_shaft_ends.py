import numpy as np
import pytest

from yardapp.formulas.ranges import OutsideRange
from yardapp.formulas.taper import key_for, nearest_end, nearest_taper, standard_ends

INCH_M = 0.0254


def test_every_end_says_where_it_comes_from():
    assert [end.name for end in standard_ends() if not (end.source and end.status)] == []


def test_a_large_end_is_named_as_the_trade_names_it():
    named = {round(end.large_m / INCH_M, 4): end.size for end in standard_ends() if end.standard == "SAE J755"}

    assert (named[0.75], named[1.375], named[2.0], named[5.5]) == ("3/4 in", "1-3/8 in", "2 in", "5-1/2 in")


def test_from_six_inches_up_the_taper_is_one_in_twelve():
    # SAE J755: 0.7500 in a foot up to 5-1/2 in, 1.0000 in a foot from 6 to 8 in (secondary).
    for end in standard_ends():
        if end.standard == "SAE J755":
            assert end.taper == pytest.approx(1 / 12 if end.large_m > 5.75 * INCH_M else 1 / 16)


def test_a_worn_inch_and_a_quarter_is_still_one():
    match = nearest_end(0.0317, 0.0261, length_m=0.0885)

    assert match.said == "SAE J755 1-1/4 in"
    assert match.off["large_m"] == pytest.approx(0.0317 - 1.25 * INCH_M)


def test_a_millimetre_shaft_is_none_of_the_inch_ones_and_the_nearest_says_how_far():
    match = nearest_end(0.0300, u_large_m=0.00005)

    assert match.end is None
    assert match.said == "none of them"
    assert match.nearest.size == "1-1/8 in"
    assert match.off == {"large_m": pytest.approx(0.0300 - 1.125 * INCH_M)}


def test_a_right_large_end_on_a_wrong_taper_is_none_of_them():
    assert nearest_end(1.25 * INCH_M, taper=1 / 12).end is None


def test_a_metric_taper_is_known_by_its_ratio():
    assert nearest_end(0.040, 0.034, length_m=0.060).end.standard == "ISO 4566"
    assert nearest_end(0.200, taper=0.1).end is None


def test_a_loose_reading_is_allowed_its_doubt():
    assert nearest_end(0.0323, u_large_m=0.0003).end.size == "1-1/4 in"
    assert nearest_end(0.0323, u_large_m=0.0001).end is None


def test_nothing_read_names_nothing():
    match = nearest_end(np.nan)

    assert (match.end, match.nearest, match.said) == (None, None, "none of them")


def test_a_ratio_is_named_only_within_its_doubt():
    # 0.1 mm on a difference of 6 mm over 96 mm is a doubt of about 0.001 on the taper.
    assert nearest_taper(0.0635, 0.001) == 1 / 16
    assert nearest_taper(0.0725, 0.001) is None
    assert nearest_taper(0.0628) == 1 / 16
    assert nearest_taper(np.nan) is None


@pytest.mark.parametrize(
    ("taper", "u_taper", "argument"), [(0.0, 0.1, "taper"), (16, 0.1, "taper"), (0.1, -1, "u_taper")]
)
def test_what_is_no_taper_is_refused(taper, u_taper, argument):
    with pytest.raises(OutsideRange) as refusal:
        nearest_taper(taper, u_taper)

    assert refusal.value.argument == argument


def test_a_shaft_between_two_sizes_has_no_inch_key():
    assert key_for(0.030, "SAE J755") is None
    assert key_for(0.005, "ISO/R 773") is None


def test_a_key_from_memory_says_so():
    assert key_for(0.060, "ISO/R 773").status.startswith("from memory")
    assert key_for(0.030, "ISO/R 773").status == "secondary"


def test_a_key_is_square_only_as_far_as_the_standard_has_it_so():
    # SAE J755: square up to 2-3/4 in, shallower from 3 in (derived from the confirmed rows).
    assert key_for(2 * INCH_M, "SAE J755").height_m == pytest.approx(0.5 * INCH_M)
    assert np.isnan(key_for(3 * INCH_M, "SAE J755").height_m)


@pytest.mark.parametrize(
    ("diameter_m", "standard", "argument"), [(0, "SAE J755", "diameter_m"), (0.03, "DIN", "standard")]
)
def test_no_such_shaft_or_standard_is_refused(diameter_m, standard, argument):
    with pytest.raises(OutsideRange) as refusal:
        key_for(diameter_m, standard)

    assert refusal.value.argument == argument


def test_an_end_below_zero_is_refused():
    with pytest.raises(OutsideRange, match="small_m is -"):
        nearest_end(0.03, -0.02)
