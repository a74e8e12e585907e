"""The room's blueprint."""

from flask import Blueprint

bp = Blueprint("relaunch", __name__, url_prefix="/relaunch")
