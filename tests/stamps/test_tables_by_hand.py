"""Stamps worked by hand, each with its reason in the last column; an inch is 25.4 mm (1959 yard agreement)."""

import csv
from pathlib import Path

import pytest

from yardapp.stamps.tables import Measured, read, shelf_of, shipped
from yardapp.stamps.tables.shipped import INVENTED

ROWS = list(csv.DictReader((Path(__file__).parent / "stamps_by_hand.csv").read_text(encoding="utf-8").splitlines()))
SHELVES = {"all": shelf_of(shipped()), "makers": shelf_of(shipped()[-len(INVENTED) :])}
SIZES = {"diameter_mm": "diameter_m", "pitch_mm": "pitch_m", "bore_mm": "bore_m"}
COUNTS, WORDS = ("blades", "year"), ("hand", "serial", "material")


def test_there_are_sixty_stamps_by_hand_and_each_says_why():
    assert len(ROWS) >= 60
    assert all(row["why"] for row in ROWS)


@pytest.mark.parametrize("row", ROWS, ids=[f"{number}:{row['stamp']}" for number, row in enumerate(ROWS, 2)])
def test_a_stamp_reads_as_worked_by_hand(row):
    found = read(row["stamp"], SHELVES[row["shelf"]], _tape(row["tape"]))

    assert found.count == int(row["count"])
    assert found.ruled_out == int(row["ruled_out"] or 0)
    if row["rank"]:
        reading = found.found[int(row["rank"]) - 1]
        assert (reading.table.maker, reading.mark) == (row["maker"], row["mark"])
        assert _said(reading.figures) == _expected(row)


def _tape(text):
    """`diameter 559 2`: the figure and its u (k = 1) in mm; `hand left`."""
    if not text:
        return None
    name, value, *u = text.split()
    return {f"{name}_m": Measured(float(value) / 1000, float(u[0]) / 1000)} if u else {name: value}


def _expected(row):
    sizes = {name: round(float(row[column]) / 1000, 9) for column, name in SIZES.items() if row[column]}
    counts = {name: int(row[name]) for name in COUNTS if row[name]}
    return sizes | counts | {name: row[name] for name in WORDS if row[name]}


def _said(figures):
    kept = (*SIZES.values(), *COUNTS, *WORDS)
    return {
        name: round(value, 9) if isinstance(value, float) else value for name, value in figures.items() if name in kept
    }
