"""The marks' blueprint."""

from flask import Blueprint

bp = Blueprint("marks", __name__, url_prefix="/marks")
