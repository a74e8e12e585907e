"""Every published figure in this folder, against our formulas: one test a row, one file a source.

A CSV has the columns id, formula (`module.function` of `yardapp.formulas`), inputs (JSON, by parameter name), pick
(steps, joined by dots, to an attribute, a key or an index of the result), expected, tolerance (absolute, in the
expected's unit; empty where it is a word), accuracy (how well the published figure can be read, and why the tolerance
is what it is), source and status. Everything is SI.

What was printed, or quoted by a text that was read, stands here; `derived/` holds what follows from a stated formula or
from geometry, `from_memory/` what was found in no text. `left_out.tsv` names every figure of the sources at hand that
is not held to, and why. What we computed ourselves stands in `tests/regression/`.
"""

import csv
import json
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest

from yardapp.formulas.tables import table

HERE = Path(__file__).parent
ROWS = [
    row | {"file": str(path.relative_to(HERE).with_suffix(""))}
    for path in sorted(HERE.rglob("*.csv"))
    for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines())
]
IDS = [row["id"] for row in ROWS]
PRINTED = [row for row in ROWS if "/" not in row["file"]]
LEFT_OUT = list(csv.DictReader((HERE / "left_out.tsv").read_text(encoding="utf-8").splitlines(), delimiter="\t"))


def test_every_row_has_a_name_of_its_own():
    assert sorted({name for name in IDS if IDS.count(name) > 1}) == []


def test_far_more_than_sixty_figures_were_printed_by_others():
    assert len(PRINTED) > 400


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_every_row_says_where_its_figure_comes_from_and_how_well_it_can_be_read(row):
    assert row["source"].strip(), row["file"]
    assert row["status"].strip(), row["file"]
    assert row["accuracy"].strip(), row["file"]


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_what_is_from_memory_or_derived_is_kept_apart(row):
    folder = row["file"].rpartition("/")[0]

    assert row["status"].startswith("from memory") == (folder == "from_memory")
    if row["status"] == "derived":
        assert folder == "derived"


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_the_formula_gives_the_published_figure(row):
    module, name = row["formula"].split(".")
    formula = getattr(import_module(f"yardapp.formulas.{module}"), name)

    found = _pick(formula(**json.loads(row["inputs"])), row["pick"])

    if row["tolerance"]:
        assert float(np.asarray(found)) == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))
    else:
        assert str(found) == row["expected"]


@pytest.mark.parametrize("row", LEFT_OUT, ids=[f"{row['source']} {row['figure']}" for row in LEFT_OUT])
def test_what_is_left_out_says_why(row):
    assert row["why"].strip()


@pytest.mark.parametrize("row", table("shaft_tapers"), ids=lambda row: row["nominal_in"])
def test_every_shaft_end_that_was_read_is_held_to(row):
    size = f"J755_{float(row['nominal_in']):g}_"

    for figures, column in (
        (("small_end", "small_min", "small_max"), "status"),
        (("key", "key_least", "key_depth", "key_depth_most"), "status_keyway"),
    ):
        held = [figure for figure in figures if f"{size}{figure}" in IDS]
        assert held == list(figures) * (row[column].split(";")[0] == "confirmed")


@pytest.mark.parametrize("row", table("shaft_tapers_keys"), ids=lambda row: row["shaft_to_mm"])
def test_every_metric_key_that_was_read_is_held_to(row):
    columns = {
        "width": "key_b_mm",
        "height": "key_h_mm",
        "shaft_depth": "shaft_depth_t1_mm",
        "hub_depth": "hub_depth_t2_mm",
    }

    for figure in columns:
        assert (f"R773_to_{row['shaft_to_mm']}_{figure}_m" in IDS) == (row["status"] == "secondary")


@pytest.mark.parametrize(
    "row",
    [row for row in table("iso484_tolerances") if row["part"] != "484-1"],
    ids=lambda row: f"{row['part']} {row['quantity']} {row['class']}",
)
def test_every_iso_484_band_that_was_read_is_held_to(row):
    name = f"iso484_{row['quantity']}_{row['class']}"

    held = [known for known in IDS if known == name or known.startswith(f"{name}_")]
    assert bool(held) == (row["status_percent"] == "secondary")


def _pick(found, steps):
    for step in steps.split(".") if steps else ():
        if step.lstrip("-").isdigit():
            found = found[int(step)]
        elif isinstance(found, dict):
            found = found[step]
        else:
            found = getattr(found, step)
    return found
