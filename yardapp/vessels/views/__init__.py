"""Pages of the boats and their drives."""

from flask import Blueprint

bp = Blueprint("vessels", __name__)

from yardapp.vessels.views import boats, drives, entering, hulls, parting, timelines  # noqa: E402

__all__ = ["boats", "bp", "drives", "entering", "hulls", "parting", "timelines"]
