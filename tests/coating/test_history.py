from dataclasses import replace

import pytest

from yardapp.coating.history import RATINGS, Coated, Rating, life_so_far_s, lives, next_due_s, worst

DAY = 86400.0


def coat(life_days=None, *, begun_days=0.0, way="brush", **said):
    """One coating: in the water at `begun_days`, and over after `life_days`."""
    return Coated(
        item="P-014",
        system="Clear",
        version=1,
        way=way,
        finished_s=(begun_days - 2) * DAY,
        immersed_s=begun_days * DAY,
        ended_s=None if life_days is None else (begun_days + life_days) * DAY,
        **said,
    )


def test_a_life_counts_from_the_water_to_its_end():
    assert life_so_far_s(coat(300), 1000 * DAY) == 300 * DAY
    assert life_so_far_s(coat(), 100 * DAY) == 100 * DAY
    assert life_so_far_s(replace(coat(), immersed_s=None), 100 * DAY) is None
    assert life_so_far_s(coat(begun_days=50), 10 * DAY) is None


def test_the_worst_blade_of_the_newest_look_speaks():
    looks = [
        Rating(blade=1, word="shell many", at_s=0.0),
        Rating(blade=1, word="slime", at_s=10.0),
        Rating(blade=2, word="weed", at_s=10.0),
    ]

    assert worst(looks) == "weed"
    assert worst([]) is None
    # The order of the words is that of the yard's scale, from clean to gone.
    assert RATINGS == ("clean", "slime", "weed", "shell few", "shell many", "coating gone")


def test_lives_are_told_by_system_and_way_with_counts():
    brushed = [coat(300), coat(400), coat(500), coat()]
    rolled = [coat(200, way="roller"), coat(way="roller")]

    brush, roller = lives([*brushed, *rolled], 600 * DAY)

    assert (brush.group, brush.n_ended, brush.n_on) == (("Clear", "brush"), 3, 1)
    # Of four, one is left after 300, 400 and 500 days: half are gone at 400.
    assert brush.median_s == 400 * DAY
    assert (brush.shortest_s, brush.longest_s) == (300 * DAY, 500 * DAY)
    assert brush.said.startswith("3 ended, 1 still on. Half last longer than 13 months")
    assert roller.median_s is None
    assert "Too few have ended" in roller.said
    assert [ended for _, ended in brush.points] == [True, True, True, False]


def test_what_is_still_on_is_not_left_out_of_the_middle():
    young = [coat(100), coat(110), coat(120), *[coat() for _ in range(7)]]

    (group,) = lives(young, 900 * DAY)

    assert group.median_s is None
    assert "More than half are still on" in group.said


def test_lives_can_be_told_by_windows_and_by_warmth():
    coats = [
        coat(300, windows_met=True, metal_low_c=12.0),
        coat(100, windows_met=False, metal_low_c=9.9),
        coat(200, windows_met=None),
    ]

    by_windows = lives(coats, 900 * DAY, by=("windows",))
    by_warmth = lives(coats, 900 * DAY, by=("temperature",))

    assert {group.group[0] for group in by_windows} == {
        "windows met or put right",
        "a window missed",
        "windows not known",
    }
    assert {group.group[0] for group in by_warmth} == {"10 to 15 °C", "5 to 10 °C", "temperature not read"}


def test_the_next_coat_is_due_by_the_sheet_or_by_the_yards_own():
    (group,) = lives([coat(300), coat(400), coat(500)], 900 * DAY)

    by_sheet = next_due_s(coat(begun_days=1000), 365 * DAY)
    by_yard = next_due_s(coat(begun_days=1000), group)

    assert by_sheet.at_s == 1365 * DAY
    assert by_yard.at_s == 1400 * DAY
    assert "3 ended, 0 still on" in by_yard.rests_on


@pytest.mark.parametrize(
    ("coated", "life", "said"),
    [
        (coat(), None, "The sheet names no life"),
        (replace(coat(), immersed_s=None), 365 * DAY, "It has not been in the water yet."),
        (coat(), lives([coat(300)], 900 * DAY)[0], "Too few have ended"),
    ],
)
def test_where_nothing_is_known_no_day_is_named(coated, life, said):
    due = next_due_s(coated, life)

    assert due.at_s is None
    assert said in due.rests_on
