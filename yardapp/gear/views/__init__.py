"""Pages of the gear: log, rack, search, each item, labels, photos."""

from flask import Blueprint

bp = Blueprint("gear", __name__)

from yardapp.gear.views import finding, item, labels, logging, photos, statements  # noqa: E402

__all__ = ["bp", "finding", "item", "labels", "logging", "photos", "statements"]
