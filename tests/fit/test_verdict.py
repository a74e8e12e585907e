"""What a verdict owes its reader: no pass on an unknown, no work on the wrong hand, sums that can be opened."""

import importlib
import json
from dataclasses import asdict, fields, replace

import pytest

from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER, NO, OK, PAIRINGS, mm, one_in
from yardapp.fit.figures import DriveFigures, Limits, PropellerFigures
from yardapp.fit.verdict import BADNESS, CANNOT_TELL, WORKS, Verdict, judge


def _check_of(verdict: Verdict, name: str):
    return next(check for check in verdict.checks if check.name == name)


def _judged(pairing):
    return judge(pairing.propeller, pairing.drive, rule=pairing.rule)


@pytest.mark.parametrize("pairing", PAIRINGS, ids=lambda pairing: pairing.given)
def test_the_verdict_is_the_worst_check(pairing):
    verdict = _judged(pairing)

    assert verdict.verdict == max((check.verdict for check in verdict.checks), key=BADNESS.index)
    assert verdict.lede


@pytest.mark.parametrize("pairing", PAIRINGS, ids=lambda pairing: pairing.given)
def test_whoever_cannot_tell_says_what_to_read_and_whoever_asks_for_work_says_which(pairing):
    for check in _judged(pairing).checks:
        assert check.says.endswith("."), check.says
        assert check.source, check.name
        if check.verdict == CANNOT_TELL:
            assert check.needs, check.name
        elif check.verdict != OK:
            assert check.remedy, check.name
            assert check.work in WORKS


@pytest.mark.parametrize("pairing", PAIRINGS, ids=lambda pairing: pairing.given)
def test_every_sum_opens_to_a_formula_with_a_source_and_to_its_own_parameters(pairing):
    for check in _judged(pairing).checks:
        for one in check.sums:
            module, name = one.formula.rsplit(".", 1)
            formula = getattr(importlib.import_module(module), name)
            assert "Source\n" in formula.__doc__, one.formula
            given = {figure.label: figure.value for figure in one.inputs}
            again = formula(**given)
            results = vars(again).values() if hasattr(again, "a_m") else [again]  # the class rule answers by letter
            assert any(float(result) == pytest.approx(one.value, abs=1e-12) for result in results), one.formula


def test_a_verdict_can_be_written_as_json():
    assert json.loads(json.dumps(asdict(judge(GOOD_PROPELLER, GOOD_DRIVE))))["verdict"] == OK


def test_the_wrong_hand_is_told_alone_and_is_offered_no_work_but_another_propeller():
    pilot = replace(GOOD_PROPELLER, hand="left", hand_stamped="left", bore_kind="pilot", taper=None)

    verdict = judge(pilot, GOOD_DRIVE)

    assert [check.name for check in verdict.checks] == ["hand"]
    assert verdict.works == ("another propeller",)
    assert "bore" not in verdict.lede.lower()


def test_missing_hull_clearance_is_asked_for_by_name():
    verdict = judge(GOOD_PROPELLER, replace(GOOD_DRIVE, hull_clearance_m=None))

    assert [need.figure for need in verdict.needs] == ["drive.hull_clearance_m"]
    assert "shaft centre to hull" in str(verdict.needs[0])


def test_a_reading_that_several_checks_want_is_asked_for_once():
    verdict = judge(GOOD_PROPELLER, replace(GOOD_DRIVE, taper_length_m=None))

    assert [need.figure for need in verdict.needs].count("drive.taper_length_m") == 1


def test_the_slower_hub_bears_at_its_large_end_and_the_faster_at_its_nut_end():
    # trade.md, section 4: 1:16 on 1:12 bears at the large end only, gap at the nut end; the reverse at the nut end.
    slower = _check_of(judge(GOOD_PROPELLER, replace(GOOD_DRIVE, taper=one_in(12))), "taper").says
    faster = _check_of(
        judge(replace(GOOD_PROPELLER, taper=one_in(12), bore_small_m=mm(28.475)), GOOD_DRIVE), "taper"
    ).says

    assert "bear at its large end only" in slower
    assert "at the nut end" in slower
    assert "bear at its nut end only" in faster
    assert "at the large end" in faster


def test_the_gap_of_two_tapers_is_the_published_one():
    # trade.md, section 4: 1:12 and 1:16 part by 2.08 mm in 100.
    hub = replace(GOOD_PROPELLER, bore_length_m=mm(100, 0), bore_small_m=None, taper=one_in(16, 0.01))

    check = _check_of(judge(hub, replace(GOOD_DRIVE, taper=one_in(12, 0.01))), "taper")

    assert check.sums[-2].value * 1000 == pytest.approx(2.08, abs=0.005)


def test_a_tenth_of_a_millimetre_on_the_bore_moves_a_1_16_hub_by_1_6():
    # trade.md, section 4: 0.1 mm on bore moves the hub 1.6 mm (1:16), 1.2 (1:12), 1.0 (1:10).
    hub = replace(GOOD_PROPELLER, bore_large_m=mm(38.0), bore_small_m=None)

    check = _check_of(judge(hub, replace(GOOD_DRIVE, shaft_diameter_m=mm(38.1))), "large end")

    assert check.sums[0].value * 1000 == pytest.approx(-1.6, abs=1e-6)
    # Both diameters +- 0.02 (k = 1): 0.02 x sqrt(2) x 16 = 0.45.
    assert check.sums[0].u * 1000 == pytest.approx(0.4526, abs=0.001)


def test_both_figures_stand_side_by_side_with_their_uncertainty():
    check = _check_of(judge(GOOD_PROPELLER, GOOD_DRIVE), "taper")

    hub, shaft = check.compared
    assert (hub.value, hub.kind, hub.basis) == (1 / 16, "taper", "measured")
    assert shaft.u == pytest.approx(0.2 / 16**2)


def test_the_words_are_the_callers_own():
    spoken = judge(GOOD_PROPELLER, GOOD_DRIVE, say=lambda kind, value, u: f"<{kind}>")

    assert "<taper>" in _check_of(spoken, "taper").says
    assert "mm" not in _check_of(spoken, "large end").says


def test_a_figure_without_a_plus_minus_says_what_was_assumed():
    bare = replace(GOOD_PROPELLER, diameter_m=replace(mm(560), u=None))

    check = _check_of(judge(bare, GOOD_DRIVE), "tip room")

    assert "No ± was given" in check.says
    assert check.compared[0].u == pytest.approx(0.0028)  # half of one per cent of 560 mm


def test_a_yard_may_set_its_own_limits():
    thin = replace(
        GOOD_PROPELLER,
        bore_kind="pilot",
        taper=None,
        bore_small_m=None,
        bore_large_m=mm(25),
        hub_diameter_m=mm(54, 0.2),
    )

    easy = judge(thin, GOOD_DRIVE, limits=Limits(min_wall_ratio=0.1, min_wall_over_key_ratio=0.05))

    assert judge(thin, GOOD_DRIVE).verdict == NO  # wall 7.95, 9.5 wanted
    assert _check_of(easy, "pilot bore").verdict == "goes on after work"


def test_an_unknown_rule_is_refused():
    with pytest.raises(ValueError, match="15 %"):
        judge(GOOD_PROPELLER, GOOD_DRIVE, rule="12 %")


def test_machining_comes_with_a_caution():
    fast = replace(GOOD_PROPELLER, taper=one_in(12), bore_small_m=mm(28.475))

    assert "competent" in _check_of(judge(fast, GOOD_DRIVE), "taper").caution


def test_every_check_names_the_figures_that_it_holds_for():
    owners = {"propeller": PropellerFigures, "drive": DriveFigures}
    for check in judge(GOOD_PROPELLER, GOOD_DRIVE).checks:
        assert check.rests_on
        for path in check.rests_on:
            owner, name = path.split(".")
            assert name in {field.name for field in fields(owners[owner])}
