"""What may be typed about marks and the tables that read them."""

from yardapp.marks.forms.mark import MarkForm, TakeForm
from yardapp.marks.forms.reverse import ReverseForm
from yardapp.marks.forms.table import ImportForm, TableForm, VersionForm

__all__ = ["ImportForm", "MarkForm", "ReverseForm", "TableForm", "TakeForm", "VersionForm"]
