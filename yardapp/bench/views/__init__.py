"""Pages of the bench: what lies on it, each way of measuring, each kept sheet."""

from flask import Blueprint

bp = Blueprint("bench", __name__, url_prefix="/bench")

from yardapp.bench.views import alike, blank, bore, diameter, finding, pitch, sheet, tools  # noqa: E402

__all__ = ["alike", "blank", "bore", "bp", "diameter", "finding", "pitch", "sheet", "tools"]
