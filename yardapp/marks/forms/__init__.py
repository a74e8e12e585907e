"""What may be typed about marks and the tables that read them."""

from yardapp.marks.forms.mark import MarkForm, TakeForm

__all__ = ["MarkForm", "TakeForm"]
