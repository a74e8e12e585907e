import pytest

from tests.coating.clock import PRIMER_1, PRIMER_2, Beside, at_work
from tests.coating.systems import MINUTE, two_primers_and_a_top


def test_stirring_begins_in_time_for_the_first_clear_coat():
    beside = at_work(1, blades=1)
    beside.read(30)
    beside.tap(33, "tacky", 1, PRIMER_1)
    beside.coat(33, 1, PRIMER_2)
    # Primer 2 is done at 41; its window opens 15 minutes later, at 56; the clear coat takes 5 minutes to stir.
    stir = next(turn for turn in beside.look(42).turns if turn.act == "stirring")

    assert (stir.product, stir.from_s) == ("Clear", 51 * MINUTE)


def test_with_two_people_a_second_blade_is_begun_beside_the_first():
    beside = Beside(people=2)
    beside.read(0)
    beside.mix(0)
    beside.tap(5, "started", 1, PRIMER_1)

    assert (beside.look(6).now.act, beside.look(6).now.unit) == ("started", "p.2")
    beside.tap(6, "started", 2, PRIMER_1)
    assert (beside.look(7).now.act, beside.look(7).now.unit) == ("done", "p.1")


def test_the_number_of_people_can_change_on_the_way():
    beside = Beside()
    beside.read(0)
    beside.mix(0)
    beside.tap(5, "started", 1, PRIMER_1)
    beside.tap(6, "people", people=2)

    assert beside.look(6).now.act == "started"


def test_a_fresh_blade_waits_when_a_window_would_shut_meanwhile():
    # Windows of 2 to 12 minutes: blade 1 (begun at 5, done at 13) shuts at 17; another blade would take till 21.
    beside = at_work(1, system=two_primers_and_a_top(first=(2, 12), second=(2, 12), by_touch=False))

    now = beside.look(13).now

    assert (now.unit, now.name, now.from_s, now.by_s) == ("p.1", "Primer 2", 15 * MINUTE, 17 * MINUTE)


def test_what_cannot_be_met_any_more_is_said_before_it_happens():
    system = two_primers_and_a_top(first=(2, 14), second=(2, 14), by_touch=False)
    beside = Beside(system, people=2)
    beside.read(0)
    beside.mix(0)
    for blade in (1, 2, 3):
        beside.tap(5, "started", blade, PRIMER_1)
        beside.tap(13, "done", blade, PRIMER_1)

    said = beside.look(13).warnings

    assert any("With 2 coating, Primer 2 on Blade 3 would come 4 min too late." in one for one in said)


def test_a_window_about_to_shut_is_said():
    beside = at_work(1, blades=1)

    assert beside.look(59).warnings == ()
    beside.read(59)
    assert beside.look(61).warnings == ("Blade 1: 4 min left for Primer 2.",)


def test_an_old_reading_is_asked_for_before_it_is_too_old():
    beside = at_work(1)

    assert beside.look(24.5).gate.verdict == "go"
    assert any("Read the weather" in said for said in beside.look(26).warnings)
    assert beside.look(31).gate.verdict == "unknown"
    assert any(turn.act == "weather" for turn in beside.look(31).turns)


def test_a_launch_that_is_too_soon_is_said():
    late = at_work(1, launch_s=600 * MINUTE)

    assert late.look(20).launch_ok is False
    assert "It will not be cured by the launch that is planned." in late.look(20).warnings


def test_nobody_can_tell_about_the_launch_while_a_blade_is_turned():
    beside = at_work(1, 2, launch_s=6000 * MINUTE)

    assert beside.look(70).finish_s is None
    assert beside.look(70).launch_ok is None


def phases(standing):
    return {unit.key: unit.phase for unit in standing.units}


@pytest.mark.parametrize("blades", [(), (1,), (1, 2, 3)])
def test_nothing_changes_by_itself_before_the_moment_that_is_given(blades):
    beside = at_work(*blades)
    at_min = 30.0
    for _ in range(25):
        before = beside.look(at_min)
        if before.changes_at_s is None:
            break
        until_min = before.changes_at_s / MINUTE
        just_before = beside.look(until_min - 0.001)
        assert phases(just_before) == phases(before)
        assert just_before.gate.verdict == before.gate.verdict
        assert [pot.state for pot in just_before.pots] == [pot.state for pot in before.pots]
        at_min = until_min + 0.001


def test_a_job_without_a_reading_stands_and_asks_for_one():
    standing = Beside().look(0)

    assert (standing.now.act, standing.gate.verdict) == ("weather", "unknown")
    assert standing.finish_s is not None
    assert standing.launch_ok is None
