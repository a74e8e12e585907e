"""Figures that were computed, not published: they hold the arithmetic still and prove no physics."""

import csv
import json
from importlib import import_module
from pathlib import Path

import numpy as np
import pytest

ROWS = [
    row
    for path in sorted(Path(__file__).parent.glob("*.csv"))
    for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines())
]


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_the_figure_is_what_it_was(row):
    module, name = row["formula"].rsplit(".", 1)
    formula = getattr(import_module(f"yardapp.formulas.{module}"), name)

    found = formula(**json.loads(row["inputs"]))

    for step in filter(None, row["pick"].split(".")):
        found = getattr(found, step)
    assert float(np.asarray(found)) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
