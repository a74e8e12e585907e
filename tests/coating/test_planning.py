from dataclasses import replace
from itertools import product as every

import pytest

from tests.coating.brute_force import finish_by_brute_force
from tests.coating.systems import HOUR, MINUTE, two_primers_and_a_top
from yardapp.coating.pieces import Piece, Unit, units_of
from yardapp.coating.planning import bars, clocked, latest_start_s, plan
from yardapp.coating.scheduling import Line, Task, schedule
from yardapp.coating.shipped import shipped
from yardapp.coating.system import Window
from yardapp.coating.would import would_do
from yardapp.drawings.timeline import timeline
from yardapp.errors import OutsideRange, Refused


def blades(number, minutes=8):
    return tuple(Unit(key=f"p.{one}", label=f"Blade {one}", work_s=minutes * MINUTE) for one in range(1, number + 1))


def lines_of(works, windows):
    """One line for each unit, in minutes: as the brute force reads them."""
    held = [*windows, (0, None)]
    return [
        Line(
            key=str(unit),
            label=f"Unit {unit}",
            tasks=tuple(
                Task(step=k, name=f"Coat {k + 1}", work_s=work, earliest_s=earliest, latest_s=latest)
                for k, (earliest, latest) in enumerate(held)
            ),
        )
        for unit, work in enumerate(works)
    ]


def finish_of(found, works):
    return max(slot.start_s + works[slot.line] for slot in found.slots) if found.meets else None


ALIKE = [
    (works, windows, people, at_once)
    for works, windows, people, at_once in every(
        [(2, 2), (1, 1, 1)],
        [((2, 5),), ((1, 4),), ((3, 5),), ((2, 3),), ((0, None),)],
        [1, 2],
        [None, 2, 1],
    )
]
MIXED = [
    (works, windows, people, at_once)
    for works, windows, people, at_once in every([(1, 3), (3, 1), (2, 1, 1)], [((1, 5),), ((2, 4),)], [1, 2], [None, 1])
]
DEEP = [
    ((2, 2), ((1, 6), (2, 7)), 1, None),
    ((2, 2), ((3, 6), (1, 4)), 1, None),
    ((2, 2), ((3, 5), (3, 5)), 2, None),
    ((1, 2), ((1, 5), (1, 4)), 1, None),
    ((1, 1, 1), ((2, 4), (1, 3)), 1, None),
    ((1, 1, 1), ((1, 3), (2, 4)), 2, 2),
]


@pytest.mark.parametrize(("works", "windows", "people", "at_once"), [*ALIKE, *MIXED, *DEEP])
def test_the_planner_finishes_as_soon_as_any_schedule_can(works, windows, people, at_once):
    found = schedule(lines_of(works, windows), people, at_once or len(works))

    brute = finish_by_brute_force(works, windows, people, at_once=at_once)
    assert found.proven
    assert finish_of(found, works) == (None if brute is None else pytest.approx(brute))


@pytest.mark.parametrize(
    ("works", "windows", "people"),
    [(works, windows, people) for works, windows, people, at_once in ALIKE if at_once is None and len(works) < 3],
)
def test_among_equal_blades_doing_the_first_coated_first_costs_nothing(works, windows, people):
    free = finish_by_brute_force(works, windows, people, in_order=False)

    assert finish_by_brute_force(works, windows, people, in_rounds=False) == free


@pytest.mark.parametrize("people", [1, 2, 3])
@pytest.mark.parametrize("number", [2, 3, 5, 9])
def test_a_plan_that_says_yes_keeps_every_window_and_nobody_is_in_two_places(number, people):
    planned = plan(two_primers_and_a_top(), blades(number), people=people, metal_c=20)

    if planned.feasible:
        assert planned.missed == ()
        assert all(op.opens_s <= op.start_s + 1e-6 for op in planned.ops if op.opens_s is not None)
    by_person = {}
    for op in sorted(planned.ops, key=lambda one: one.start_s):
        assert op.start_s >= by_person.get(op.person, 0.0) - 1e-6
        by_person[op.person] = op.end_s
    assert len(by_person) <= people


def test_three_blades_with_one_person_can_be_done_and_the_sum_is_that_of_paper():
    planned = plan(two_primers_and_a_top(first=(20, 60), second=(15, 50)), blades(3), people=1, metal_c=20)

    # On paper: coat 1 from 0, 8, 16; blade 1 opens at 8 + 20 = 28: 28, 36, 44; opens at 36 + 15 = 51: 52, 60, 68.
    starts = [round(op.start_s / MINUTE) for op in planned.ops]
    assert starts == [0, 8, 16, 28, 36, 44, 52, 60, 68]
    assert planned.feasible
    assert planned.finish_s == 76 * MINUTE


def test_windows_that_nobody_alone_can_meet_say_so_and_name_what_would_do():
    # Ten blades of 8 minutes: the first coat takes 80 minutes, and its window shuts after 60.
    system = two_primers_and_a_top()
    units = blades(10)
    planned = plan(system, units, people=1, metal_c=20)

    assert planned.feasible is False
    assert "Blade 1: Primer 2 would start 20 min after its window has shut." in planned.why

    changes = would_do(system, units, people=1, metal_c=20, roller_s={unit.key: 4 * MINUTE for unit in units})

    assert [change.change for change in changes] == ["person", "roller", "fewer at once"]
    assert all(change.plan.feasible for change in changes)
    assert changes[2].plan.at_once == 6


def test_a_change_that_would_not_do_is_not_named():
    # The window is shorter than one coat: nobody's help makes it wider.
    system = two_primers_and_a_top(first=(20, 22))
    units = blades(3)

    assert would_do(system, units, people=1, metal_c=20) == ()
    assert "there is no time left in it" in plan(system, units, people=1, metal_c=20).why[0]


def test_stirring_begins_so_that_each_product_is_ready_in_time():
    planned = plan(two_primers_and_a_top(), blades(3), people=1, metal_c=20, start_s=HOUR)
    primer, clear = planned.pots

    # Primer: 3 minutes of stirring and 2 of induction before the first coat; clear coat: 5 before minute 52.
    assert primer.stir_s == HOUR - 5 * MINUTE
    assert primer.mixed_s == HOUR - 2 * MINUTE
    assert primer.good_until_s == HOUR + 118 * MINUTE
    assert clear.stir_s == HOUR + 47 * MINUTE


def test_a_pot_that_would_die_on_the_way_is_mixed_anew():
    # At 30 °C the primer lives 60 minutes: with 6 blades coat 2 runs from 48 to 96 minutes.
    planned = plan(two_primers_and_a_top(), blades(6), people=1, metal_c=30)

    primers = [pot for pot in planned.pots if pot.product == "Primer"]
    assert len(primers) > 1
    for pot in primers:
        assert pot.last_s <= pot.good_until_s + 1e-6


def test_one_coat_longer_than_the_pot_lives_cannot_be_done():
    planned = plan(two_primers_and_a_top(), blades(1, minutes=59), people=1, metal_c=30)

    assert planned.feasible is False
    assert "Primer is past its pot life before one coat of Blade 1 is done." in planned.why


def test_backwards_from_the_launch_the_cure_holds():
    planned = plan(two_primers_and_a_top(), blades(3), people=1, metal_c=20)
    launch_s = 100 * HOUR

    begun_s = latest_start_s(planned, launch_s)

    # Stirring begins 5 minutes before the first coat; the last ends at minute 76; the cure takes 18 h at 20 °C.
    assert begun_s == pytest.approx(launch_s - 18 * HOUR - 81 * MINUTE)


def test_without_a_cure_on_the_sheet_no_start_is_told():
    system = two_primers_and_a_top()
    silent = replace(system, steps=system.steps[:-1])

    assert latest_start_s(plan(silent, blades(3), people=1, metal_c=20), 100 * HOUR) is None


def test_a_temperature_outside_the_sheet_is_refused_with_what_the_sheet_gives():
    with pytest.raises(OutsideRange, match="the sheet gives 10 to 30 °C"):
        plan(two_primers_and_a_top(), blades(3), people=1, metal_c=5)


def test_where_only_the_finger_can_tell_nobody_can_plan():
    system = two_primers_and_a_top()
    steps = list(system.steps)
    steps[1] = replace(steps[1], window=Window(by_touch=True))

    planned = plan(replace(system, steps=tuple(steps)), blades(3), people=1, metal_c=20)

    assert planned.feasible is None
    assert "only the finger can tell" in planned.why[0]


@pytest.mark.parametrize(
    ("units", "people", "at_once", "argument"),
    [
        (0, 1, None, "units"),
        (41, 1, None, "units"),
        (3, 0, None, "people"),
        (3, 13, None, "people"),
        (3, 1, 0, "at_once"),
    ],
)
def test_a_plan_for_nothing_or_nobody_is_refused(units, people, at_once, argument):
    with pytest.raises(Refused) as refusal:
        plan(two_primers_and_a_top(), blades(units), people=people, metal_c=20, at_once=at_once)

    assert refusal.value.argument == argument


def test_a_coat_that_takes_no_time_is_refused():
    with pytest.raises(Refused, match="takes more than nothing"):
        plan(two_primers_and_a_top(), blades(2, minutes=0), people=1, metal_c=20)


def test_a_plan_draws_each_blade_against_time():
    planned = plan(two_primers_and_a_top(second=(15, 90)), blades(10), people=1, metal_c=20)
    rows = bars(planned)

    assert [row.label for row in rows] == [f"Blade {number}" for number in range(1, 11)]
    assert [bar.kind for bar in rows[0].bars] == ["coat", "past", "coat", "window", "coat"]
    assert "Blade 10" in timeline(rows)


@pytest.mark.parametrize("system", shipped(), ids=lambda system: system.name)
def test_a_shipped_system_can_be_planned(system):
    propeller = Piece(key="p", label="Propeller", kind="propeller", area_m2=0.3, blades=3)

    assert plan(system, units_of([propeller], 6 * MINUTE), people=2, metal_c=18).feasible


def test_the_clock_begins_with_the_wipe_that_is_straight_on():
    system = shipped()[0]

    assert [system.steps[number].kind for number in clocked(system)] == ["etch wipe", "coat", "coat", "top coat"]


def test_a_job_of_many_pieces_is_planned_while_somebody_waits_for_the_page():
    units = [*blades(8), *[replace(unit, key=f"s.{unit.key}", work_s=5 * MINUTE) for unit in blades(4)]]

    planned = plan(two_primers_and_a_top(), units, people=3, metal_c=20)

    assert planned.feasible
    assert planned.missed == ()


def test_where_not_every_way_was_tried_a_no_says_so():
    units = [Unit(key=str(one), label=f"Piece {one}", work_s=(5 + one / 7) * MINUTE) for one in range(24)]

    planned = plan(two_primers_and_a_top(), units, people=2, metal_c=20)

    assert (planned.feasible, planned.proven) == (False, False)
    assert "not every way was tried" in planned.why[-1]
    assert "fewer at once" in [one.change for one in would_do(two_primers_and_a_top(), units, people=2, metal_c=20)]
