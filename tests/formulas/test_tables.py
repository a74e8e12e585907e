from pathlib import Path

import numpy as np
import pytest

import yardapp.formulas
from yardapp.formulas.tables import figure, table

NAMES = sorted(path.stem for path in (Path(yardapp.formulas.__file__).parent / "tables").glob("*.csv"))


@pytest.mark.parametrize("name", NAMES)
def test_every_row_of_every_table_says_its_source_and_status(name):
    rows = table(name)

    assert rows
    assert [row for row in rows if not row["status"] or not (row["source"] or row["status"].startswith("n/a"))] == []


def test_a_table_cannot_be_written():
    with pytest.raises(TypeError):
        table("shaft_tapers")[0]["standard"] = "ours"


def test_an_empty_cell_is_not_known():
    assert np.isnan(figure({"thread": ""}, "thread"))


def test_a_table_that_is_not_there_is_told():
    with pytest.raises(FileNotFoundError):
        table("no_such_table")
