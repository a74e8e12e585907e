"""Pages of the bench: what lies on it, each way of measuring, each kept sheet."""

from flask import Blueprint

bp = Blueprint("bench", __name__, url_prefix="/bench")

from yardapp.bench.views import (  # noqa: E402
    alike,
    blank,
    bore,
    diameter,
    finding,
    half_done,
    pitch,
    sheet,
    survey,
    surveys,
    tools,
)

__all__ = [
    "alike",
    "blank",
    "bore",
    "bp",
    "diameter",
    "finding",
    "half_done",
    "pitch",
    "sheet",
    "survey",
    "surveys",
    "tools",
]
