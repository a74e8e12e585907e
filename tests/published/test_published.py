"""Every published figure in this folder, against our formulas: one test a row.

A CSV here has the columns id, formula (`module.function` of `yardapp.formulas`), inputs (JSON, by parameter name),
expected, tolerance (absolute, in the expected figure's unit; empty where the expected is a word), source and status,
and may have `pick`: steps, joined by dots, to an attribute, a key or an index of the result. Everything is SI.
"""

import csv
import json
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest

ROWS = [
    row | {"file": path.name}
    for path in sorted(Path(__file__).parent.glob("*.csv"))
    for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines())
]
IDS = [row["id"] for row in ROWS]


def test_every_row_has_a_name_of_its_own():
    assert sorted({name for name in IDS if IDS.count(name) > 1}) == []


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_every_row_says_where_its_figure_comes_from(row):
    assert row["source"].strip(), row["file"]
    assert row["status"].strip(), row["file"]


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_the_formula_gives_the_published_figure(row):
    module, name = row["formula"].split(".")
    formula = getattr(import_module(f"yardapp.formulas.{module}"), name)

    found = _pick(formula(**json.loads(row["inputs"])), row.get("pick") or "")

    if row["tolerance"]:
        assert float(np.asarray(found)) == pytest.approx(float(row["expected"]), rel=0, abs=float(row["tolerance"]))
    else:
        assert str(found) == row["expected"]


def _pick(found, steps):
    for step in steps.split(".") if steps else ():
        if step.lstrip("-").isdigit():
            found = found[int(step)]
        elif isinstance(found, dict):
            found = found[step]
        else:
            found = getattr(found, step)
    return found
