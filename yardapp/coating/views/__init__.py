"""Pages of the coating room: systems, stock, plans, the page beside the boat, what is on each blade."""

from flask import Blueprint

bp = Blueprint("coating", __name__, url_prefix="/coating")

from yardapp.coating.views import documents, home, jobs, lasting, photos, plan, systems, tins  # noqa: E402

__all__ = ["bp", "documents", "home", "jobs", "lasting", "photos", "plan", "systems", "tins"]
