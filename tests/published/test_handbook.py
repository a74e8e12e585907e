"""The pages of "How it is worked out": a subject for every formula, and its published figures beside it."""

import csv
from pathlib import Path

import pytest

from yardapp import handbook
from yardapp.errors import NotFound

ROWS = [
    row | {"home": handbook.entry(row["formula"]).name}
    for path in Path(__file__).parent.rglob("*.csv")
    for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines())
]


def test_subjects_stand_in_the_order_of_a_job_and_what_has_none_comes_last():
    subjects = list(handbook.contents())

    assert subjects[: len(handbook.SUBJECTS)] == list(handbook.SUBJECTS)
    assert subjects[len(handbook.SUBJECTS) :] in ([], [handbook.REST])


def test_no_formula_stands_twice_and_what_only_refuses_stands_nowhere():
    names = [line.name for lines in handbook.contents().values() for line in lines]

    assert len(names) == len(set(names)) > 150
    assert not [name for name in names if ".hold_" in name]


@pytest.mark.parametrize("reached", sorted({row["formula"] for row in ROWS}))
def test_a_formulas_page_shows_every_published_figure_it_is_held_to(reached):
    entry = handbook.entry(reached)

    held = [row for row in ROWS if row["home"] == entry.name]
    assert sorted((one.expected, one.pick) for one in entry.checks) == sorted((r["expected"], r["pick"]) for r in held)
    assert all(one.source and one.accuracy and one.status for one in entry.checks)


@pytest.mark.parametrize("name", [line.name for lines in handbook.contents().values() for line in lines])
def test_a_page_has_relation_range_source_and_example_and_opens_under_the_full_name(name):
    entry = handbook.entry(f"yardapp.formulas.{name}")

    assert entry == handbook.entry(name)
    assert entry.relation
    assert {"Returns", "Raises", "Source", "Examples"} <= set(entry.sections)


def test_what_is_no_formula_has_no_page():
    with pytest.raises(NotFound):
        handbook.entry("yardapp.formulas.ranges.hold")


def test_a_published_figure_is_said_without_exponents_or_long_tails():
    one = handbook.Published(
        {"taper": 1 / 12, "ends": [0.04, 1e-5], "way": "nut"}, "gap_m", "0.0012", "5e-05", "", "", ""
    )

    assert one.given == "taper 0.0833333, ends [0.04, 0.00001], way nut"
    assert one.figure == "gap_m 0.0012 ± 0.00005"
