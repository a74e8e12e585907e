"""Pages of the bench: what lies on it, each way of measuring, each kept sheet."""

from flask import Blueprint

bp = Blueprint("bench", __name__, url_prefix="/bench")

from yardapp.bench.views import (  # noqa: E402
    alike,
    area,
    bearing,
    blank,
    bore,
    comparing,
    condition,
    diameter,
    finding,
    half_done,
    pitch,
    run_out,
    shaft_end,
    sheet,
    survey,
    surveys,
    tools,
    wear,
    writing,
)

__all__ = [
    "alike",
    "area",
    "bearing",
    "blank",
    "bore",
    "bp",
    "comparing",
    "condition",
    "diameter",
    "finding",
    "half_done",
    "pitch",
    "run_out",
    "shaft_end",
    "sheet",
    "survey",
    "surveys",
    "tools",
    "wear",
    "writing",
]
