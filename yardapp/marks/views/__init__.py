"""Pages of the marks, one module a noun."""

from yardapp.marks.views import marks
from yardapp.marks.views.door import bp

__all__ = ["bp", "marks"]
