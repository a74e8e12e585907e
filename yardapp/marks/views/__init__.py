"""Pages of the marks, one module a noun."""

from yardapp.marks.views import editing, marks, rereading, reversing, tables
from yardapp.marks.views.door import bp

__all__ = ["bp", "editing", "marks", "rereading", "reversing", "tables"]
