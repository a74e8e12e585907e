"""The routes, one module a noun."""

from yardapp.api.door import bp
from yardapp.api.views import (
    bench,
    coating,
    document,
    drives,
    fit,
    happenings,
    hulls,
    kept,
    makers,
    marks,
    propellers,
    search,
    shafts,
    sizes,
    stock,
    survey,
    vessels,
)

__all__ = [
    "bench",
    "bp",
    "coating",
    "document",
    "drives",
    "fit",
    "happenings",
    "hulls",
    "kept",
    "makers",
    "marks",
    "propellers",
    "search",
    "shafts",
    "sizes",
    "stock",
    "survey",
    "vessels",
]
