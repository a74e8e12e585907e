from dataclasses import replace

import pytest

from tests.coating.clock import PRIMER_1, PRIMER_2, TOP, Beside, at_work
from tests.coating.systems import HOUR, MINUTE, two_primers_and_a_top
from yardapp.coating.running import run
from yardapp.coating.weather import Reading


def test_a_whole_job_of_three_blades_two_primers_and_a_top_with_one_window_missed():
    beside = Beside(launch_s=48 * HOUR)
    assert beside.look(0).now.act == "weather"
    beside.read(0)
    assert (beside.look(0).now.act, beside.look(0).now.product) == ("stirring", "Primer")
    beside.tap(0, "stirring", product="Primer")
    assert beside.look(3).now.act == "mixed"
    beside.mix(3)

    # Coat 1, blade by blade; the page names the blade and the step.
    for blade, at_min in ((1, 5), (2, 13), (3, 21)):
        now = beside.look(at_min).now
        assert (now.act, now.unit, now.step) == ("started", f"p.{blade}", PRIMER_1)
        beside.coat(at_min, blade, PRIMER_1)
        beside.read(at_min + 8)

    # Blade 1 was done at 13: the sheet gives 20 minutes, then the finger; it was begun at 5: shut at 65.
    assert beside.blade(29, 1).phase == "waiting"
    assert beside.blade(33, 1).phase == "test"
    assert (beside.look(33).now.act, beside.look(33).now.unit) == ("test", "p.1")
    beside.tap(33, "wet", 1, PRIMER_1)
    assert beside.blade(33, 1).phase == "waiting"
    assert beside.blade(38, 1).phase == "test"
    beside.tap(38, "tacky", 1, PRIMER_1)
    assert (beside.look(38).now.act, beside.look(38).now.unit) == ("started", "p.1")
    beside.coat(38, 1, PRIMER_2)

    # The blade coated first is done first.
    beside.tap(46, "tacky", 2, PRIMER_1)
    assert (beside.look(46).now.act, beside.look(46).now.unit) == ("started", "p.2")
    beside.coat(46, 2, PRIMER_2)
    beside.read(54)

    # A lift comes: blade 3 (begun at 21) shuts at 81, and nobody comes before 82. It is turned; the job is not.
    assert beside.blade(81, 3).phase == "test"
    late = beside.look(82)
    assert beside.blade(82, 3).phase == "missed"
    assert beside.blade(82, 3).said == "Abrade that blade and give it coat 1 again."
    assert {unit.key: unit.phase for unit in late.units if unit.key != "p.3"} == {"p.1": "test", "p.2": "test"}

    # Blades 1 and 2 go on to the clear coat.
    beside.tap(82, "mixed", product="Clear")
    beside.read(82)
    for blade, at_min in ((1, 83), (2, 91)):
        beside.tap(at_min, "tacky", blade, PRIMER_2)
        beside.coat(at_min, blade, TOP)
    assert beside.look(99).immersion_s is None
    assert "Blade 3" in beside.look(99).immersion_why

    # The sheet's remedy is done, and blade 3 starts again at coat 1.
    beside.tap(110, "remedied", 3, PRIMER_1, said="Abraded, wiped.")
    beside.read(110)
    beside.coat(112, 3, PRIMER_1)
    beside.read(138)
    beside.tap(141, "tacky", 3, PRIMER_1)
    beside.mix(139)
    beside.coat(142, 3, PRIMER_2)
    beside.read(166)
    beside.tap(166, "tacky", 3, PRIMER_2)
    beside.coat(167, 3, TOP)

    # Cure counts from the last coat of the last piece: 18 h at 20 °C after minute 175.
    end = beside.look(180)
    assert end.immersion_s == pytest.approx(175 * MINUTE + 18 * HOUR)
    assert end.launch_ok is True
    assert {unit.phase for unit in end.units} == {"curing"}
    assert beside.look(175 + 18 * 60).cured
    assert [(fault.kind, fault.unit, fault.remedied) for fault in end.faults] == [("too late", "p.3", True)]


def test_a_window_opens_after_the_last_stroke_and_shuts_after_the_first():
    blade = at_work(1).blade(20, 1)

    assert blade.test_s == (13 + 20) * MINUTE
    assert blade.shuts_s == (5 + 60) * MINUTE


def test_too_early_is_a_fault_of_that_blade_alone():
    beside = at_work(1, 2)
    beside.read(29)
    beside.tap(34, "tacky", 1, PRIMER_1)
    beside.tap(34, "started", 2, PRIMER_2)

    assert beside.faults(1) == []
    assert beside.faults(2) == [("too early", PRIMER_2)]
    assert beside.run().faults[0].remedy == "Ask the supplier."


def test_a_coat_before_the_finger_is_too_early_and_one_after_it_is_not():
    before, after = at_work(1), at_work(1)
    before.coat(40, 1, PRIMER_2)
    after.tap(39, "tacky", 1, PRIMER_1)
    after.read(39)
    before.read(39)
    after.coat(40, 1, PRIMER_2)

    assert before.faults() == [("too early", PRIMER_2)]
    assert after.faults() == []


def test_too_late_is_a_fault_with_the_lines_of_the_coat_whose_window_it_was():
    beside = at_work(1)
    beside.tap(40, "tacky", 1, PRIMER_1)
    beside.read(64)
    beside.tap(67, "started", 1, PRIMER_2)

    (fault,) = beside.run().faults
    assert (fault.kind, fault.said) == ("too late", "Primer 2 was begun 2 min after its window had shut.")
    assert fault.remedy == "Abrade that blade and give it coat 1 again."


def test_at_the_very_moment_it_shuts_a_window_is_met():
    beside = at_work(1)
    beside.tap(40, "tacky", 1, PRIMER_1)
    beside.read(64)
    beside.tap(65, "started", 1, PRIMER_2)

    assert beside.faults() == []


def test_what_the_finger_finds_too_dry_is_missed_whatever_the_clock_says():
    beside = at_work(1)
    beside.tap(40, "too dry", 1, PRIMER_1)

    assert beside.blade(40, 1).phase == "missed"
    assert beside.faults() == [("too late", PRIMER_2)]


def test_still_wet_asks_again_after_the_sheets_minutes():
    beside = at_work(1)
    beside.tap(35, "wet", 1, PRIMER_1)

    assert beside.blade(36, 1).phase == "waiting"
    assert beside.blade(36, 1).test_s == 40 * MINUTE


def test_wrong_weather_is_a_fault_that_says_why():
    beside = Beside()
    beside.mix(0)
    beside.read(0, 13.0, air_c=16.0, relative_humidity=0.71)
    beside.tap(5, "started", 1, PRIMER_1)

    (fault,) = beside.run().faults
    assert fault.kind == "wrong weather"
    assert "2.3 degrees above the dew point" in fault.said


def test_weather_that_turns_during_a_coat_is_a_fault_of_that_coat():
    beside = Beside()
    beside.mix(0)
    beside.read(0)
    beside.tap(5, "started", 1, PRIMER_1)
    beside.read(9, 12.0, relative_humidity=0.84)
    beside.tap(13, "done", 1, PRIMER_1)

    assert beside.faults() == [("wrong weather", PRIMER_1)]


@pytest.mark.parametrize("reading_min", [None, -26])
def test_weather_not_measured_in_time_is_unknown_not_passed(reading_min):
    beside = Beside()
    beside.mix(0)
    if reading_min is not None:
        beside.read(reading_min)
    beside.tap(5, "started", 1, PRIMER_1)

    kinds = [kind for kind, _ in beside.faults()]
    assert "weather unknown" in kinds
    assert all(fault.is_unknown for fault in beside.run().faults)


def test_product_past_its_pot_life_is_a_fault():
    # The primer is good for 120 minutes at 20 °C.
    beside = Beside()
    beside.mix(0)
    beside.read(0)
    beside.read(119)
    beside.tap(121, "started", 1, PRIMER_1)

    assert beside.faults() == [("past pot life", PRIMER_1)]


def test_a_pot_that_dies_under_the_brush_is_a_fault_at_the_end():
    beside = Beside()
    beside.mix(0)
    beside.read(0)
    beside.read(114)
    beside.coat(115, 1, PRIMER_1)

    assert beside.faults() == [("past pot life", PRIMER_1)]


def test_a_warmer_hour_shortens_the_pot_and_a_colder_one_does_not_lengthen_it():
    beside = Beside()
    beside.read(0, 20.0)
    beside.mix(0)
    beside.read(10, 30.0, relative_humidity=0.4)
    beside.read(20, 12.0, air_c=12.0)

    assert beside.look(21).pots[0].good_until_s == pytest.approx(60 * MINUTE)


def test_a_mix_that_must_stand_is_too_early_before_it_has():
    beside = Beside()
    beside.read(0)
    beside.mix(4)
    beside.tap(5, "started", 1, PRIMER_1)

    assert beside.run().faults[0].said == "Primer must stand 1 min longer before it goes on."


def test_a_mix_that_nobody_noted_is_unknown():
    beside = Beside()
    beside.read(0)
    beside.tap(5, "started", 1, PRIMER_1)

    assert beside.faults() == [("mix unknown", PRIMER_1)]


def test_no_window_is_stretched_past_the_sheets_last_row():
    beside = at_work(1)
    beside.read(25, 8.0, air_c=9.0)

    blade = beside.blade(30, 1)
    assert blade.phase == "unknown"
    assert blade.said == "The metal was at 8.0 °C; the sheet gives 10 to 30 °C. Ask the supplier."

    beside.read(35, 20.0)
    assert beside.blade(36, 1).phase == "unknown"
    assert beside.blade(65, 1).phase == "unknown"
    assert beside.blade(66, 1).phase == "missed"


def test_a_coat_on_metal_that_nobody_measured_asks_for_the_metal():
    beside = Beside(blades=1)
    beside.mix(0)
    beside.coat(5, 1, PRIMER_1)

    assert beside.blade(14, 1).phase == "unknown"
    assert (beside.look(14).now.act, beside.look(14).now.said[:29]) == ("weather", "Nobody has read the metal sin")
    beside.read(15)
    assert beside.blade(16, 1).phase == "waiting"


def test_the_strictest_of_all_readings_holds():
    system = two_primers_and_a_top()
    step = system.steps[PRIMER_1]
    cold, warm = step.window.rows
    rows = (cold, replace(warm, earliest_s=10 * MINUTE, latest_s=40 * MINUTE))
    steps = list(system.steps)
    steps[PRIMER_1] = replace(step, window=replace(step.window, rows=rows))
    beside = Beside(replace(system, steps=tuple(steps)))
    beside.read(0, 30.0, air_c=18.0)
    beside.mix(0)
    beside.coat(5, 1, PRIMER_1)
    assert (beside.blade(14, 1).test_s, beside.blade(14, 1).shuts_s) == (23 * MINUTE, 45 * MINUTE)

    beside.read(14, 10.0, air_c=9.0)

    assert (beside.blade(15, 1).test_s, beside.blade(15, 1).shuts_s) == (33 * MINUTE, 45 * MINUTE)


def test_a_second_tap_of_the_same_thing_changes_nothing():
    once, twice = at_work(1), at_work(1)
    twice.tap(14, "done", 1, PRIMER_1)
    twice.tap(15, "started", 1, PRIMER_1)

    assert twice.run().units == once.run().units
    assert [ignored.number for ignored in twice.run().ignored] == [5, 6]


def test_a_tap_that_came_late_stands_at_its_own_time():
    in_order, late = at_work(1), Beside()
    for act in [*in_order.acts[:2], in_order.acts[3], in_order.acts[2]]:
        late.acts.append(replace(act, number=len(late.acts) + 1, offline=act.kind == "started"))

    assert late.run().units == in_order.run().units


def test_an_undone_tap_is_as_if_it_had_never_been():
    beside = at_work(1)
    before = beside.run().units
    wrong = beside.tap(30, "started", 2, PRIMER_1)
    undo = beside.tap(31, "undo", undoes=wrong)
    assert beside.run().units == before

    beside.tap(32, "undo", undoes=undo)
    assert beside.run().unit("p.2").started_s == 30 * MINUTE


def test_a_correction_takes_the_place_of_what_was_tapped():
    beside = at_work(1)
    beside.tap(15, "done", 1, PRIMER_1, undoes=4)

    assert beside.blade(20, 1).test_s == (15 + 20) * MINUTE


def test_an_end_without_a_start_is_reckoned_back_by_what_a_coat_takes():
    beside = Beside()
    beside.read(0)
    beside.mix(0)
    beside.tap(13, "done", 1, PRIMER_1)

    (done,) = beside.run().unit("p.1").done
    assert (done.started_s, done.is_start_noted) == (5 * MINUTE, False)
    assert beside.faults() == []


def test_a_coat_is_not_skipped_by_a_tap():
    beside = Beside()
    beside.tap(5, "started", 1, PRIMER_2)

    assert beside.run().ignored[0].why == "Primer 1 is not noted as done on Blade 1."


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ({"kind": "started", "blade": 9, "step": PRIMER_1}, "No blade or piece of this job is called that."),
        ({"kind": "started", "blade": 1, "step": 0}, "That step is not done on a blade."),
        ({"kind": "tacky", "blade": 1, "step": TOP}, "No touch test follows Clear."),
        ({"kind": "tacky", "blade": 1, "step": PRIMER_1}, "There is nothing to touch on Blade 1"),
        ({"kind": "mixed", "product": "Varnish"}, "That product is not in this job's system."),
        ({"kind": "people", "people": 0}, "At least one person coats."),
        ({"kind": "weather"}, "A reading of the weather holds at least one figure."),
        (
            {"kind": "weather", "reading": Reading(at_s=0.0, metal_c=200.0)},
            "The metal can't be at 200 °C.",
        ),
        (
            {"kind": "weather", "reading": Reading(at_s=0.0, air_c=20.0, relative_humidity=60.0)},
            "The humidity can't be right",
        ),
        ({"kind": "left over", "product": "Primer"}, "No pot of Primer stands open."),
        ({"kind": "remedied", "blade": 1}, "Nothing was wrong with Blade 1."),
        ({"kind": "sprayed"}, "'sprayed' is no act."),
    ],
)
def test_a_tap_that_says_nothing_of_this_job_is_ignored_and_says_why(said, why):
    beside = Beside()
    beside.tap(5, said.pop("kind"), said.pop("blade", None), said.pop("step", None), **said)

    assert why in beside.run().ignored[0].why


def test_the_cure_counts_at_the_coldest_metal_that_was_read_since():
    beside = at_work(1, blades=1)
    beside.tap(35, "tacky", 1, PRIMER_1)
    beside.read(30)
    beside.coat(35, 1, PRIMER_2)
    beside.mix(50, "Clear")
    beside.tap(60, "tacky", 1, PRIMER_2)
    beside.read(58)
    beside.coat(60, 1, TOP)
    # The sheet: 24 h at 10 °C, 12 h at 30 °C; a straight line between.
    assert beside.look(70).immersion_s == pytest.approx(68 * MINUTE + 18 * HOUR)

    beside.read(600, 10.0, air_c=9.0)
    assert beside.look(601).immersion_s == pytest.approx(68 * MINUTE + 24 * HOUR)

    beside.read(700, 6.0, air_c=5.0)
    assert beside.look(701).immersion_s is None
    assert "the sheet gives 10 to 30 °C" in beside.look(701).immersion_why


def test_what_was_left_over_and_where_it_went_is_kept():
    beside = at_work(1)
    beside.tap(20, "left over", product="Primer", volume_m3=5e-5, said="shaft of Sea Otter")

    (pot,) = beside.run().pots
    assert (pot.is_gone, pot.left_m3, pot.where, pot.batch) == (True, 5e-5, "shaft of Sea Otter", "B7")


def test_the_same_acts_always_give_the_same_run_in_whatever_order_they_come():
    beside = at_work(1, 2, 3)

    assert run(beside.job, list(reversed(beside.acts))) == beside.run()
