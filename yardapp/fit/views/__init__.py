"""Pages of the fit."""

from flask import Blueprint

bp = Blueprint("fit", __name__, url_prefix="/fit")

from yardapp.fit.views import choosing, judging, keeping, letters, mapping, trying  # noqa: E402

__all__ = ["bp", "choosing", "judging", "keeping", "letters", "mapping", "trying"]
