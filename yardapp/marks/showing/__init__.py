"""What the marks' pages show, in words."""

from yardapp.marks.showing import rereading, reversing, tables
from yardapp.marks.showing.plain import Shown, shown
from yardapp.marks.showing.readings import ReadingsShown, asked, figure_rows, history, reading, readings

__all__ = [
    "ReadingsShown",
    "Shown",
    "asked",
    "figure_rows",
    "history",
    "reading",
    "readings",
    "rereading",
    "reversing",
    "shown",
    "tables",
]
