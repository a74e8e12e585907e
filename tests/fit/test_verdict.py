"""What a verdict owes its reader: no pass on an unknown, no work on the wrong hand, sums that can be opened."""

import importlib
import json
from dataclasses import asdict, fields, replace

import pytest

from tests.fit.pairings import GOOD_DRIVE, GOOD_PROPELLER, NO, OK, PAIRINGS, mm, one_in
from tests.fit.power_pairings import BOAT, POWER_PAIRINGS, SUITED, known
from yardapp.fit.figures import DriveFigures, Limits, PropellerFigures
from yardapp.fit.verdict import BADNESS, CANNOT_TELL, EVERYTHING, GEOMETRY, WORKS, Verdict, asked_by, judge


def _check_of(verdict: Verdict, name: str):
    return next(check for check in verdict.checks if check.name == name)


def _judged(pairing):
    return judge(pairing.propeller, pairing.drive, rule=pairing.rule, ask=pairing.ask)


@pytest.mark.parametrize("pairing", [*PAIRINGS, *POWER_PAIRINGS], ids=lambda pairing: pairing.given)
def test_the_verdict_is_the_worst_check(pairing):
    verdict = _judged(pairing)

    assert verdict.verdict == max((check.verdict for check in verdict.checks), key=BADNESS.index)
    assert verdict.lede


@pytest.mark.parametrize("pairing", [*PAIRINGS, *POWER_PAIRINGS], ids=lambda pairing: pairing.given)
def test_whoever_cannot_tell_says_what_to_read_and_whoever_asks_for_work_says_which(pairing):
    for check in _judged(pairing).checks:
        assert check.says.endswith("."), check.says
        assert check.source, check.name
        if check.verdict == CANNOT_TELL:
            assert check.needs, check.name
        elif check.verdict != OK:
            assert check.remedy, check.name
            assert check.work in WORKS


@pytest.mark.parametrize("pairing", [*PAIRINGS, *POWER_PAIRINGS], ids=lambda pairing: pairing.given)
def test_every_sum_opens_to_a_formula_with_a_source_and_to_its_own_parameters(pairing):
    for check in _judged(pairing).checks:
        for one in check.sums:
            module, name = one.formula.rsplit(".", 1)
            formula = getattr(importlib.import_module(module), name)
            assert "Source\n" in formula.__doc__, one.formula
            given = {figure.label: figure.value for figure in one.inputs}
            again = formula(**given)
            # Some answer with several figures by name: the class rule, a working point.
            results = again if isinstance(again, tuple) else getattr(again, "__dict__", {0: again}).values()
            assert any(float(result) == pytest.approx(one.value, rel=1e-9, abs=1e-12) for result in results), (
                one.formula
            )


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

    gap = next(one for one in check.sums if one.label.startswith("Gap"))
    assert gap.value * 1000 == pytest.approx(2.08, abs=0.005)


def test_the_gap_of_two_tapers_is_shown_quarter_by_quarter():
    # Geometry: 1:16 on 1:12 bears at the large end; over 114.3 mm they part by 114.3 (1/12 - 1/16) = 2.381 mm.
    shown = _check_of(judge(GOOD_PROPELLER, replace(GOOD_DRIVE, taper=one_in(12))), "taper").compared

    gaps = [row.value * 1000 for row in shown if row.label.startswith("Gap ")]
    assert gaps == pytest.approx([0.0, 0.595, 1.191, 1.786, 2.381], abs=0.001)


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


def test_everything_asked_is_answered_group_by_group_in_the_order_of_refusal():
    verdict = judge(SUITED, BOAT, ask=EVERYTHING)

    assert [part.group for part in verdict.parts] == list(EVERYTHING)
    assert (verdict.geometry, verdict.details, verdict.condition, verdict.engine) == (OK,) * 4
    assert verdict.part("engine").checks == ("engine load",)
    assert verdict.loading.premises.hull_method == "typed curve"


def test_what_was_not_asked_is_not_answered():
    verdict = judge(SUITED, BOAT, ask=("shaft", "water"))

    assert (verdict.geometry, verdict.engine, verdict.condition, verdict.loading) == (OK, None, None, None)
    assert verdict.part("engine") is None


def test_whoever_gives_no_figure_of_hull_or_shaft_line_is_asked_the_geometry_alone():
    assert asked_by(GOOD_PROPELLER, GOOD_DRIVE) == GEOMETRY
    assert judge(GOOD_PROPELLER, GOOD_DRIVE).verdict == OK
    assert "engine" in asked_by(GOOD_PROPELLER, replace(GOOD_DRIVE, hull_kind="displacement_single"))
    assert "condition" in asked_by(replace(GOOD_PROPELLER, open_faults=()), GOOD_DRIVE)


def test_with_engine_and_hull_not_known_the_fit_on_the_shaft_can_still_be_read():
    verdict = judge(GOOD_PROPELLER, GOOD_DRIVE, ask=EVERYTHING)

    assert verdict.verdict == CANNOT_TELL
    assert (verdict.geometry, verdict.engine) == (OK, CANNOT_TELL)
    assert verdict.lede.startswith("On the shaft and in the water it goes on.")


def test_a_group_that_is_none_is_refused():
    with pytest.raises(ValueError, match="rigging"):
        judge(GOOD_PROPELLER, GOOD_DRIVE, ask=("shaft", "rigging"))


def test_the_criteria_of_blade_area_stand_side_by_side_and_one_of_them_decides():
    narrow = replace(SUITED, area_ratio=known(0.565, 0.001))

    by_burrill, by_keller = (
        _check_of(judge(narrow, BOAT, ask=EVERYTHING, limits=Limits(area_criterion=one)), "blade area")
        for one in ("Burrill", "Keller")
    )

    asked = [row.label for row in by_burrill.compared if row.label.startswith("Asked for by")]
    assert asked == [
        "Asked for by Keller",
        "Asked for by Burrill (line merchant)",
        "Asked for by the handbook's pressure",
    ]
    assert "The criteria differ." in by_burrill.says
    assert "Burrill (line merchant) decides." in by_burrill.says
    assert "Keller decides." in by_keller.says


def test_all_that_is_assumed_stands_among_the_figures_of_the_engine():
    shown = [row.label for row in _check_of(judge(SUITED, BOAT, ask=EVERYTHING), "engine load").compared]

    for label in ("Wake", "Thrust deduction", "Kept of the engine's power", "Margin above the rated speed"):
        assert f"Assumed: {label}" in shown
