"""Two propellers for the two shafts of one boat."""

from dataclasses import replace

import pytest

from tests.fit.pairings import ASK, NO, OK, WORK, mm
from tests.fit.power_pairings import SUITED
from yardapp.fit.figures import Figure
from yardapp.fit.verdict import judge_pair

LEFT = replace(SUITED, tag="P-015", hand="left", hand_stamped="left")


def _found(other, **options):
    verdict = judge_pair(SUITED, other, **options)
    return verdict.verdict, {check.name: check.verdict for check in verdict.checks}


def test_a_right_and_a_left_of_one_size_are_a_pair():
    verdict, checks = _found(LEFT)

    assert verdict == OK
    assert set(checks) == {"pair: hands", "pair: diameter", "pair: pitch", "pair: blades", "pair: area", "pair: faults"}


def test_two_of_one_hand_are_no_pair_and_nothing_else_is_told():
    assert _found(replace(LEFT, hand="right")) == (NO, {"pair: hands": NO})


@pytest.mark.parametrize(
    ("changes", "name", "verdict"),
    [
        # ISO 484-2, class II: mean pitch 1 %, at least 7.5 mm; two of a class lie at most twice that apart: 15 mm.
        ({"pitch_m": mm(300, 1)}, "pair: pitch", OK),  # 8 apart
        ({"pitch_m": mm(312, 1)}, "pair: pitch", WORK),  # 20 apart, less than an inch
        ({"pitch_m": mm(305, 3)}, "pair: pitch", ASK),  # 13 +- 7 apart
        ({"pitch_m": mm(340, 1)}, "pair: pitch", NO),  # 48 apart
        ({"pitch_m": None}, "pair: pitch", ASK),
        ({"pitch_m": mm(292, 1, "guessed")}, "pair: pitch", ASK),
        # Radius 0.4 %, at least 2 mm: 8 mm of diameter between the two.
        ({"diameter_m": mm(424, 0.5)}, "pair: diameter", OK),
        ({"diameter_m": mm(435, 0.5)}, "pair: diameter", WORK),
        ({"diameter_m": mm(500, 0.5)}, "pair: diameter", NO),
        ({"blades": 4}, "pair: blades", NO),
        # Section length, class II: at least 13 mm; twice that over 0.4 D and 3 blades: 0.095 of the disc.
        ({"area_ratio": Figure(value=SUITED.area_ratio.value + 0.05, u=0.005)}, "pair: area", OK),
        ({"area_ratio": Figure(value=SUITED.area_ratio.value + 0.09, u=0.005)}, "pair: area", ASK),
        ({"area_ratio": Figure(value=SUITED.area_ratio.value + 0.12, u=0.005)}, "pair: area", NO),
        ({"area_ratio": None}, "pair: area", ASK),
        ({"open_faults": ("a crack",)}, "pair: faults", WORK),
        ({"blades": None}, "pair: blades", ASK),
        ({"hand": None}, "pair: hands", ASK),
    ],
)
def test_the_pair_comes_out_as_worked_by_hand(changes, name, verdict):
    overall, checks = _found(replace(LEFT, **changes))

    assert checks[name] == verdict
    assert overall == verdict


def test_a_finer_class_allows_less():
    # Class S: 0.5 %, at least 4 mm: 8 between the two.
    assert _found(replace(LEFT, pitch_m=mm(303.5, 0.2)), pitch_class="S")[0] == WORK
    assert _found(replace(LEFT, pitch_m=mm(303.5, 0.2)), pitch_class="II")[0] == OK


def test_there_is_no_class_iv():
    with pytest.raises(ValueError, match="IV"):
        judge_pair(SUITED, LEFT, pitch_class="IV")
