"""The edge: what people type becomes SI, and SI becomes what they read."""

from yardapp.quantities.asking import Read
from yardapp.quantities.numerals import Unreadable
from yardapp.quantities.reading import flip, read
from yardapp.quantities.units import Kind
from yardapp.quantities.writing import NOT_KNOWN, System, both, exact, exact_in, plus_minus, show, unit_for

__all__ = [
    "NOT_KNOWN",
    "Kind",
    "Read",
    "System",
    "Unreadable",
    "both",
    "exact",
    "exact_in",
    "flip",
    "plus_minus",
    "read",
    "show",
    "unit_for",
]
